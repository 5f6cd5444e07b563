//! The hold under vacuum: the loop shut off from the pump that drew it down, and what its pressure does then.

use lowside_plant::plant::Plant;
use serde::{Deserialize, Serialize};

use crate::shop::Hands;

/// A loop counts as drawn down below this, Pa absolute: 27 inHg of vacuum at sea level, the least that makers ask for (from memory).
const DRAWN: f64 = 10e3;

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

/// Watches for holds.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct HoldDetector {
    drawing: bool,
    holding: bool,
    /// The last hold.
    pub last: Option<Hold>,
}

impl HoldDetector {
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
