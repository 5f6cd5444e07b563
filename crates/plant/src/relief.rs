//! The relief valve: a spring-loaded valve in the high side that snaps open above its setting, lets gas into the room, and seats
//! again only some way below it. It is meant to be a last resort: the loop keeps its charge where a burst disc would lose all.

use serde::{Deserialize, Serialize};

use crate::{flow::k_from_hole, network::Law};

/// Share of its setting by which the pressure has to fall before it seats (blow-down of spring-loaded safety valves, 4 to 10 % by
/// common practice; from memory. Tuned to the upper end, plausible 4-20 %).
const BLOW_DOWN: f64 = 0.1;
/// Passage of the lifted valve, m2 (own figure: half the bore of its 1/4 inch thread; plausible 3-20 mm2).
const BORE: f64 = 12e-6;
/// Discharge coefficient of a valve's passage (common practice).
const CD: f64 = 0.7;

/// A relief valve.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Relief {
    /// Pressure at which it opens, Pa gauge; a weak spring opens early.
    pub opens: f64,
    /// It stands open.
    pub lifted: bool,
}

impl Relief {
    /// A valve that opens at a gauge pressure, Pa.
    pub fn new(opens: f64) -> Self {
        Self {
            opens,
            lifted: false,
        }
    }

    /// Lets it feel the gauge pressure, Pa, of the high side, and tells how it passes gas.
    pub(crate) fn feel(&mut self, p: f64) -> Law {
        if p >= self.opens {
            self.lifted = true;
        } else if p <= self.opens * (1.0 - BLOW_DOWN) {
            self.lifted = false;
        }
        let hole = if self.lifted { BORE } else { 0.0 };
        Law::OneWay(k_from_hole(CD, hole))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_snaps_open_and_seats_lower() {
        let mut valve = Relief::new(3.6e6);
        let mut feels = |p: f64| {
            let _ = valve.feel(p);
            valve.lifted
        };
        assert!(!feels(3.59e6), "shut below its setting");
        assert!(feels(3.6e6), "open at it");
        assert!(feels(3.3e6), "and until the pressure has fallen enough");
        assert!(!feels(3.24e6));
        assert!(!feels(3.59e6), "it waits for its setting again");
    }
}
