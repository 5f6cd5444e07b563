//! Acts: from the panel and from presses on the drawing.
use lowside_present::{
    controls::{Control, Controls},
    parts::Part,
};
use lowside_session::{Action, HoseAct, TICKS_PER_SECOND, VesselAct, wait::Goal};
use lowside_units::Ratio;

use yew::Context;

use super::{App, Msg, Notice, Told, bays::Source};
use crate::{later, stage::SPEEDS, words};

/// What is asked of time.
#[derive(Clone, Copy)]
pub(crate) enum TimeMsg {
    Pause,
    /// A second more, while paused.
    Step,
    Speed(f64),
    /// A faster or slower speed.
    Faster(bool),
    Seek(f64),
    /// Goes to the act before, or to the next one; at the latest moment it runs or pauses.
    Turn(bool),
    Undo,
    Redo,
    /// Tells that an act was taken back.
    Undone(Action),
    /// Tells that an act was done again.
    Redone(Action),
    /// Goes to another line.
    Line(u32),
    /// Waits for something.
    Until(Goal),
}

impl App {
    /// Does it.
    pub(super) fn time(&mut self, ctx: &Context<Self>, msg: TimeMsg) {
        match msg {
            TimeMsg::Undone(act) => return self.told_act(act, words::undone),
            TimeMsg::Redone(act) => return self.told_act(act, words::redone),
            TimeMsg::Faster(faster) => return self.faster(faster),
            TimeMsg::Line(id) => {
                if let Some(reading) = later::reading() {
                    (reading.line)(self, ctx, id);
                }
                return;
            }
            // Nothing else is done until the question is answered.
            _ if self.asks() => return,
            _ => self.told = None,
        }
        match msg {
            TimeMsg::Pause => {
                self.stage.stop_waiting();
                self.stage.paused = !self.stage.paused;
            }
            TimeMsg::Step => self.stage.step_once(TICKS_PER_SECOND),
            TimeMsg::Seek(second) => self.stage.seek(second),
            TimeMsg::Turn(on) => self.turn(on),
            TimeMsg::Undo => self.undo(ctx),
            TimeMsg::Redo => self.redo(ctx),
            TimeMsg::Until(goal) => {
                self.stage.wait_for(goal);
                self.waiting
                    .push(words::waiting_for(words::goal(goal, self.units)));
            }
            TimeMsg::Speed(speed) => {
                self.stage.stop_waiting();
                self.stage.speed = speed;
                self.stage.paused = false;
            }
            _ => {}
        }
    }

    fn faster(&mut self, faster: bool) {
        let now = SPEEDS.iter().position(|s| *s >= self.stage.speed);
        let now = now.unwrap_or_default();
        let to = if faster {
            now + 1
        } else {
            now.saturating_sub(1)
        };
        self.stage.speed = SPEEDS[to.min(SPEEDS.len() - 1)];
    }

    /// Goes to the act before, or to the next one; with none left it runs or pauses.
    fn turn(&mut self, on: bool) {
        let stage = &mut self.stage;
        let now = stage.bay.tick();
        let head = stage.past.head(&stage.bay);
        let mut acts = head.log().iter().map(|(tick, _)| *tick);
        let to = if on {
            acts.find(|tick| *tick > now)
        } else {
            acts.rfind(|tick| *tick < now)
        };
        match to {
            Some(tick) => stage.seek(tick as f64 / TICKS_PER_SECOND as f64),
            None if on => stage.paused = !stage.paused,
            None => stage.paused = true,
        }
    }

    /// Goes to another line; one of an earlier visit is replayed first. An exam has one.
    pub(crate) fn line(&mut self, ctx: &Context<Self>, id: u32) {
        if !self.stage.sitting.now().rewinds() {
            return;
        }
        self.told = None;
        if let Some((kept_lines, take)) = self.stage.kept_lines.exchange(id, &self.stage) {
            self.replay(ctx, take, Source::Line(kept_lines));
        } else {
            self.stage.switch(id);
        }
    }

    /// Shows a notice, with the take it is about, and says it.
    pub(super) fn tell(&mut self, text: impl Fn() -> String + 'static, take: Option<String>) {
        self.announce(Notice {
            told: Told::new(text),
            take,
            back: None,
        });
    }

    /// Shows a notice and says it.
    pub(super) fn announce(&mut self, notice: Notice) {
        self.waiting.push(notice.told.text.clone());
        self.notice = Some(notice);
    }

    /// Takes the last act back and says so.
    pub(super) fn undo(&mut self, ctx: &Context<Self>) {
        let last = self.stage.last_act();
        if self.stage.undo()
            && let Some(act) = last
        {
            ctx.link().send_message(Msg::Time(TimeMsg::Undone(act)));
        }
    }

    /// Does it again and says so.
    pub(super) fn redo(&mut self, ctx: &Context<Self>) {
        if self.stage.redo()
            && let Some(act) = self.stage.last_act()
        {
            ctx.link().send_message(Msg::Time(TimeMsg::Redone(act)));
        }
    }

    /// Says what became of an act.
    pub(super) fn told_act(&mut self, act: Action, say: fn(String) -> String) {
        if let Some(hands) = later::hands() {
            self.waiting.push(say((hands.act)(act)));
        }
    }

    /// What can be pressed at a place of the drawing.
    pub(super) fn spot(&self, x: f64, y: f64) -> Option<Control> {
        let near = |&(_, sx, sy): &(Control, f64, f64)| (sx - x).hypot(sy - y);
        let best = self
            .painter
            .spots
            .iter()
            .min_by(|a, b| near(a).total_cmp(&near(b)))?;
        (near(best) < 20.0).then_some(best.0)
    }

    /// The part of the loop at a place of the drawing of levels.
    pub(super) fn zone(&self, x: f64, y: f64) -> Option<Part> {
        let inside = |&&(_, zx, zy, w, h): &&(Part, f64, f64, f64, f64)| {
            x >= zx && x <= zx + w && y >= zy && y <= zy + h
        };
        self.painter.zones.iter().rev().find(inside).map(|z| z.0)
    }

    /// A press on a glyph: from shut to open and back.
    pub(super) fn press(&mut self, control: Control) {
        let c = Controls::of(&self.stage.shown(), self.units);
        let turn = |now: u8| Ratio::from_fraction(if now > 0 { 0.0 } else { 1.0 });
        let action = match control {
            Control::LowValve => HoseAct::LowValve {
                open: turn(c.low_valve),
            }
            .into(),
            Control::HighValve => HoseAct::HighValve {
                open: turn(c.high_valve),
            }
            .into(),
            Control::LowCoupler => HoseAct::LowCoupler { on: !c.low_coupled }.into(),
            Control::HighCoupler => HoseAct::HighCoupler {
                on: !c.high_coupled,
            }
            .into(),
            Control::Tap => VesselAct::Tap {
                on: !c.can.is_some_and(|k| k.open),
            }
            .into(),
            _ => return,
        };
        self.act(action);
    }
}
