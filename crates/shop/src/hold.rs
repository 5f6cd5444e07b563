//! The hold under vacuum: the loop shut off from the pump that drew it down, and what its pressure does then.

use lowside_plant::plant::Plant;
use serde::{Deserialize, Serialize};

use crate::shop::Hands;

/// A loop counts as drawn down below this, Pa absolute: 27 inHg of vacuum at sea level, the least that makers ask for (from memory).
const DRAWN: f64 = 10e3;
/// Shortest that counts as a test, s: five minutes (workshop manuals).
const SHORTEST: f64 = 300.0;
/// Rise in ten minutes up to which it held, and above which it did not, Pa: 250 and 1000 micron. Between them either may be
/// said (common practice, no source).
const RISE: (f64, f64) = (33.3, 133.3);

/// A hold.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Hold {
    /// Pressure at the accumulator as it began, Pa absolute.
    pub from: f64,
    /// As it ended, or now.
    pub to: f64,
    /// How long, s.
    pub seconds: f64,
}

/// How a hold came out, as the technician puts it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// None was made, or too short a one.
    NotDone,
    /// It held.
    Held,
    /// It rose.
    Rose,
}

impl Outcome {
    /// May it be said of this hold?
    pub fn fits(self, hold: Option<&Hold>) -> bool {
        let Some(h) = hold.filter(|h| h.seconds >= SHORTEST) else {
            return self == Self::NotDone;
        };
        let rise = (h.to - h.from) * 600.0 / h.seconds;
        match self {
            Self::NotDone => false,
            Self::Held => rise <= RISE.1,
            Self::Rose => rise > RISE.0,
        }
    }
}

/// Watches for holds.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Watch {
    drawing: bool,
    holding: bool,
    /// The last hold.
    pub last: Option<Hold>,
}

impl Watch {
    /// Lets `dt` seconds pass. A hold begins as a loop that a pump draws on is shut off, and ends as it is let in again or run.
    pub(crate) fn tick(&mut self, plant: &Plant, hands: &Hands, dt: f64) {
        let way = (hands.low_coupled && hands.low_valve > 0.0)
            || (hands.high_coupled && hands.high_valve > 0.0);
        let pump = hands.attached.pump();
        let shut_off = !way || pump.is_some_and(|p| !p.valve_open);
        let p = plant.network.node(plant.circuit.low_side()).state.p;
        self.holding &= shut_off && !plant.drive.engaged;
        if self.drawing && shut_off && p < DRAWN {
            self.holding = true;
            self.last = Some(Hold {
                from: p,
                to: p,
                seconds: 0.0,
            });
        } else if self.holding
            && let Some(hold) = &mut self.last
        {
            hold.to = p;
            hold.seconds += dt;
        }
        self.drawing = !shut_off && pump.is_some_and(|p| p.on);
    }
}
