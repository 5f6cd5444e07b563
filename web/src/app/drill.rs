//! The unknown vehicle: bringing one in, readings and slips, what it is said to be, and the debrief.
use lowside_lessons::{
    drill::{Complaint, Deck, Drill},
    mark::Mark,
    rivals::{Case, Debrief, Inquiry},
};
use lowside_present::drill::{Fault, Severity, cures, suspects};
use lowside_session::{
    Action, Bay, LearnerAct, Reading, Sight, Take, Tick,
    action::{Evidence, FaultId, MOST_EVIDENCE},
};
use lowside_units::Ratio;

use super::App;
use crate::{host, stage, words};

mod odds;
mod views;

pub(super) use views::fault_choice;

/// What is asked of the desk.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum DrillMsg {
    /// Writes the number of the next vehicle.
    Number(String),
    /// Slight faults too, or not.
    Slight(bool),
    /// As an exam, or not.
    Exam(bool),
    /// Brings it in.
    Bring,
    /// Chooses a place of the clamp, and a surface.
    Point(usize),
    Surface(usize),
    /// Names a reading as one that shows it, or no more.
    Cite(u32),
    /// What it is.
    Fault(usize),
    Much(usize),
    Cure(usize),
    Sure(f64),
    /// Says so.
    Commit,
}

/// What lies on the desk beside the bay.
#[derive(Debug)]
pub(crate) struct Desk {
    number: String,
    slight: bool,
    exam: bool,
    places: [usize; 2],
    readings: Vec<Reading>,
    complaint: Option<(u64, Complaint)>,
    cited: Vec<u32>,
    fault: usize,
    much: usize,
    cure: usize,
    sure: f64,
    inquiry: Option<Inquiry>,
    debrief: Option<(Debrief, Mark)>,
}

impl Default for Desk {
    fn default() -> Self {
        Self {
            number: String::new(),
            slight: false,
            exam: false,
            places: [4, 0],
            readings: Vec::new(),
            complaint: None,
            cited: Vec::new(),
            fault: 0,
            much: 1,
            cure: 0,
            sure: 60.0,
            inquiry: None,
            debrief: None,
        }
    }
}

/// Longest number of a vehicle that is written.
const DIGITS: usize = 9;
/// Time that the inquiry has in a frame, ms.
const SLICE: f64 = 7.0;
/// Ticks between two looks at the clock.
const TICKS: u64 = 250;

fn name(fault: Option<&'static Fault>) -> &'static str {
    fault.map_or(words::drill_nothing(), |f| {
        words::fault(f.id).unwrap_or(f.id)
    })
}

/// What was read in a bay, by a replay of it.
fn readings(bay: &Bay) -> Vec<Reading> {
    let take = Take::of(bay);
    let mut replay = take.replay();
    // What it has read by then counts, however it ends.
    drop(replay.run(Tick::MAX));
    replay.readings().to_vec()
}

impl App {
    /// Is the bay on stage an unknown vehicle?
    pub(crate) fn is_drill(&self) -> bool {
        self.stage.sitting.seed != 0
    }

    fn committed(&self) -> Option<FaultId> {
        let log = self.stage.bay.log().iter().rev();
        log.into_iter().find_map(|(_, act)| match *act {
            Action::Learner(LearnerAct::Commit { fault, .. }) => Some(fault),
            _ => None,
        })
    }

    /// Does what is asked of the desk.
    pub(crate) fn drill(&mut self, msg: DrillMsg) {
        let desk = &mut self.desk;
        match msg {
            DrillMsg::Number(text) => {
                let digits = text.chars().filter(char::is_ascii_digit);
                desk.number = digits.take(DIGITS).collect();
            }
            DrillMsg::Slight(on) => desk.slight = on,
            DrillMsg::Exam(on) => desk.exam = on,
            DrillMsg::Bring => self.bring(),
            DrillMsg::Point(n) => desk.places[0] = n,
            DrillMsg::Surface(n) => desk.places[1] = n,
            DrillMsg::Cite(n) => {
                if desk.cited.contains(&n) {
                    desk.cited.retain(|k| *k != n);
                } else if desk.cited.len() < MOST_EVIDENCE {
                    desk.cited.push(n);
                    desk.cited.sort_unstable();
                }
            }
            DrillMsg::Fault(n) => desk.fault = n,
            DrillMsg::Much(n) => desk.much = n,
            DrillMsg::Cure(n) => desk.cure = n,
            DrillMsg::Sure(percent) => desk.sure = percent,
            DrillMsg::Commit => self.commit(),
        }
    }

    /// Brings in the vehicle of the number that is written, or of one that is drawn.
    fn bring(&mut self) {
        let drawn = || 1000 + (host::today().to_bits() ^ host::now().to_bits()) % 9000;
        let seed: u64 = self
            .desk
            .number
            .parse()
            .ok()
            .filter(|n| *n > 0)
            .unwrap_or_else(drawn);
        let least = if self.desk.slight {
            Severity::Slight
        } else {
            Severity::Moderate
        };
        let deck = Deck {
            severities: [least, Severity::Extreme],
            ..Deck::default()
        };
        let kind = stage::open(stage::FIRST).scenario().clone();
        let drill = Drill::drawn(seed, &deck, &kind);
        let Desk { slight, exam, .. } = self.desk;
        let sight = if exam { Sight::Exam } else { Sight::Hands };
        self.fresh(Bay::new(&drill.scenario));
        self.begin.scenario.clear();
        self.stage.sitting.sight = sight;
        self.stage.sitting.seed = seed;
        self.desk = Desk {
            slight,
            exam,
            ..Desk::default()
        };
        self.stage.save(host::now());
    }

    /// Says what it is, opens the inside and lets every suspect do what was done.
    fn commit(&mut self) {
        let desk = &self.desk;
        let Some(fault) = suspects().get(desk.fault).copied() else {
            return;
        };
        let severity = Severity::ALL
            .get(desk.much)
            .copied()
            .unwrap_or(Severity::Moderate);
        let Some(evidence) = Evidence::of(&desk.cited) else {
            return;
        };
        let Some((repair, _)) = cures().get(desk.cure).copied() else {
            return;
        };
        let certainty = Ratio::from_percent(desk.sure);
        let acts = [
            LearnerAct::Suspect { fault, certainty },
            LearnerAct::Commit {
                fault,
                severity,
                evidence,
                repair,
            },
        ];
        for act in acts {
            if let Err(refused) = self.stage.act(act.into()) {
                self.refused(refused);
                return;
            }
        }
        self.stage.paused = true;
        let tick = self.stage.past.end(&self.stage.bay);
        self.stage.sitting.hand_in(tick);
        self.stage.sitting.open(tick);
        self.stage.retell();
        self.stage.save(host::now());
        self.inquire();
    }

    /// Begins the debrief, where it has not begun.
    fn inquire(&mut self) {
        let bay = &self.stage.bay;
        let mut inquiry = Inquiry::new(Case::of(bay));
        inquiry.ask(Mark::runs(bay));
        self.desk.inquiry = Some(inquiry);
        self.desk.debrief = None;
    }

    /// Keeps the desk in step with the bay, and gives the debrief its share of a frame. True when there is something new to be seen.
    pub(crate) fn drill_frame(&mut self) -> bool {
        if !self.is_drill() {
            return false;
        }
        let seed = self.stage.sitting.seed;
        if self.desk.complaint.is_none_or(|(of, _)| of != seed) {
            let complaint = Complaint::of(self.stage.bay.scenario());
            let Desk { slight, exam, .. } = self.desk;
            self.desk = Desk {
                complaint: Some((seed, complaint)),
                slight,
                exam,
                ..Desk::default()
            };
        }
        let reads = self.stage.bay.log().iter().filter(|(_, act)| act.reads());
        let last = reads.clone().next_back().map(|(tick, _)| *tick);
        let known = self.desk.readings.last().map(|r| r.tick);
        let mut new = false;
        if reads.count() != self.desk.readings.len() || last != known {
            self.desk.readings = readings(&self.stage.bay);
            let most = u32::try_from(self.desk.readings.len()).unwrap_or(u32::MAX);
            self.desk.cited.retain(|n| *n <= most);
            new = true;
        }
        let Some(said) = self.committed().filter(|_| !self.closed()) else {
            return new;
        };
        if self.desk.inquiry.is_none() {
            self.inquire();
        }
        let desk = &mut self.desk;
        let Some(inquiry) = desk.inquiry.as_mut().filter(|_| desk.debrief.is_none()) else {
            return new;
        };
        let start = host::now();
        let mut done = false;
        while !done && host::now() - start < SLICE {
            done = inquiry.advance(TICKS);
        }
        if done {
            let bay = &self.stage.bay;
            let undone = self.stage.sitting_now();
            let undone = undone
                .lines
                .iter()
                .flat_map(|line| &line.acts)
                .map(|(_, act)| *act);
            let run = |run| inquiry.trace(run).cloned().unwrap_or_default();
            let mark = Mark::judged(bay, undone, inquiry.case(), run);
            let debrief = Debrief::of(inquiry, mark.truth, Some(said.fault()));
            desk.debrief = Some((debrief, mark));
            host::show_soon("debrief".to_owned());
        }
        true
    }
}
