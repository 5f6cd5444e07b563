//! Going back and forth in time on the stage: seek, undo, redo, other lines, and waiting for something.
use lowside_lessons::Job;
use lowside_present::history::History;
use lowside_session::{
    Action, Bay, TICKS_PER_SECOND,
    timeline::LineInfo,
    wait::{Goal, Outcome, Wait},
};

use crate::stage::Stage;

/// Speed while something is waited for.
const FAST: f64 = 120.0;

/// How a wait ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Ended {
    pub(crate) goal: Goal,
    pub(crate) met: bool,
}

/// A wait and the speed to return to.
pub(crate) struct Waiting {
    wait: Wait,
    speed: f64,
}

impl Stage {
    /// The bay is about to go on: if it looks back, what came after it is put aside with its chart.
    pub(crate) fn go_on(&mut self) {
        if !self.past.looks_back() {
            return;
        }
        let line = self.past.line();
        self.past.go_on(&self.bay);
        if self.past.line() != line {
            self.aside.push(Aside {
                line,
                history: self.history.clone(),
                job: self.job.clone(),
            });
            let lines = self.past.lines(&self.bay);
            self.aside.retain(|a| lines.iter().any(|l| l.id == a.line));
        }
        self.history.cut(self.bay.tick());
        self.cautioned.retain(|at| *at <= self.bay.tick());
        if let Some(job) = &mut self.job {
            job.cut(self.bay.tick());
        }
    }

    /// Shows the bay as it was at a second, paused. An exam does not go back.
    pub(crate) fn seek(&mut self, second: f64) {
        if !self.sitting.now().rewinds() {
            return;
        }
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "held to 0..=1e6 seconds first"
        )]
        let tick = (second.clamp(0.0, 1e6) * TICKS_PER_SECOND as f64).round() as u64;
        let bay = self.past.seek(&self.bay, tick);
        self.look_at(bay);
    }

    /// Takes the last act back; false if there is none, and in an exam.
    pub(crate) fn undo(&mut self) -> bool {
        if !self.sitting.now().rewinds() {
            return false;
        }
        let bay = self.past.undo(&self.bay);
        bay.map(|bay| self.look_at(bay)).is_some()
    }

    /// The last act that hands did.
    pub(crate) fn last_act(&self) -> Option<Action> {
        let acts = self.bay.log().iter().map(|(_, act)| *act);
        acts.rev().find(|act| !act.is_entry())
    }

    /// Does again what was taken back; false if there is nothing, and in an exam.
    pub(crate) fn redo(&mut self) -> bool {
        if !self.sitting.now().rewinds() {
            return false;
        }
        let bay = self.past.redo(&self.bay);
        bay.map(|bay| self.look_at(bay)).is_some()
    }

    /// Goes to the end of another line. An exam has one.
    pub(crate) fn switch(&mut self, id: u32) {
        if !self.sitting.now().rewinds() {
            return;
        }
        let from = self.past.line();
        let Some(bay) = self.past.switch(&self.bay, id) else {
            return;
        };
        let at = self.aside.iter().position(|a| a.line == id);
        let found = at.map(|at| self.aside.swap_remove(at));
        let (history, job) = found.map(|a| (a.history, a.job)).unwrap_or_default();
        let history = std::mem::replace(&mut self.history, history);
        // A line that was parted from before the job was opened has none of its own.
        let left = job.and_then(|job| self.job.replace(job));
        self.aside.push(Aside {
            line: from,
            history,
            job: left,
        });
        self.look_at(bay);
    }

    fn look_at(&mut self, bay: Bay) {
        self.bay = bay;
        self.test.forget();
        if let Some(job) = &mut self.job {
            job.seek(self.bay.tick());
            job.look_ahead(&self.bay);
        }
        self.paused = true;
        self.waiting = None;
        self.retell();
    }

    /// Runs as fast as it can until something happens, then pauses.
    pub(crate) fn wait_for(&mut self, goal: Goal) {
        let speed = self.waiting.as_ref().map_or(self.speed, |w| w.speed);
        self.go_on();
        self.waiting = Some(Waiting {
            wait: Wait::new(goal, &self.bay),
            speed,
        });
        self.speed = FAST;
        self.paused = false;
    }

    /// Stops waiting and returns to the speed before.
    pub(crate) fn stop_waiting(&mut self) {
        if let Some(w) = self.waiting.take() {
            self.speed = w.speed;
        }
    }

    /// What is being waited for.
    pub(crate) fn waits_for(&self) -> Option<Goal> {
        self.waiting.as_ref().map(|w| w.wait.goal())
    }

    /// Looks whether the wait is over; true if the bay is to stop here.
    pub(crate) fn watch(&mut self) -> bool {
        let Some(w) = &mut self.waiting else {
            return false;
        };
        let outcome = w.wait.look(&self.bay);
        if outcome == Outcome::Waiting {
            return false;
        }
        self.ended = Some(Ended {
            goal: w.wait.goal(),
            met: outcome == Outcome::Met,
        });
        self.stop_waiting();
        self.paused = true;
        true
    }

    /// The lines to choose from.
    pub(crate) fn lines_kept(&self) -> Vec<LineInfo> {
        let mut all = self.past.lines(&self.bay);
        for info in self.kept_lines.infos() {
            let at = all.partition_point(|l| l.id < info.id);
            all.insert(at, info);
        }
        all
    }
}

/// What belongs to a line that is not shown: its chart, and how its job stood.
pub(crate) struct Aside {
    line: u32,
    history: History,
    job: Option<Job>,
}
