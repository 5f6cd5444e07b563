//! Acts: from the panel and from presses on the drawing.
use lowside_present::controls::{Control, Controls};
use lowside_session::Action;
use lowside_units::Ratio;

use super::App;
use crate::words;

impl App {
    /// Does an act, with its caution.
    pub(super) fn act(&mut self, action: Action) {
        match self.stage.act(action) {
            Ok(Some(c)) => {
                self.cautions.retain(|x| *x != c);
                self.cautions.push(c);
                let (title, text) = words::caution_text(c);
                self.waiting.push(words::spoken_caution(title, text));
            }
            Ok(None) => {}
            Err(refused) => self
                .waiting
                .push(words::refused(words::refused_why(&refused))),
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

    /// A press on a glyph: from shut to open and back.
    pub(super) fn press(&mut self, control: Control) {
        let c = Controls::of(&self.stage.bay, self.units);
        let turn = |now: u8| Ratio::from_fraction(if now > 0 { 0.0 } else { 1.0 });
        let action = match control {
            Control::LowValve => Action::LowValve {
                open: turn(c.low_valve),
            },
            Control::HighValve => Action::HighValve {
                open: turn(c.high_valve),
            },
            Control::LowCoupler => Action::LowCoupler { on: !c.low_coupled },
            Control::HighCoupler => Action::HighCoupler {
                on: !c.high_coupled,
            },
            Control::Tap => Action::Tap {
                on: !c.can.is_some_and(|k| k.open),
            },
            _ => return,
        };
        self.act(action);
    }
}
