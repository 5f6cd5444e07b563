//! Solids that travel with the refrigerant and end on the screen of the orifice tube: metal of a wearing compressor, and beads of a burst
//! desiccant bag.
//!
//! The stream carries them as fast as it flows; a cake grows on the screen that faces it and closes the tube in proportion. A tube the
//! right way round shows the stream its long inlet screen, one turned round its short outlet screen, which holds a tenth. Without a tube
//! they go on into evaporator and accumulator, where they lie still.
//!
//! The dust of beads goes through the compressor first and grinds it (`crate::damage`). Part of what comes to the condenser lodges in its
//! tubes and comes loose over days, so that a clean tube behind a condenser that was not flushed clogs again.
//!
//! No published measurement is behind the figures. That metal comes from compressor and beads from the bag, that both stop at the
//! screen, that a condenser keeps some of it, and that it is read when the tube is drawn, is common practice.

use serde::{Deserialize, Serialize};

use crate::vehicle::RATED_FLOW;

/// Metal that a compressor has shed when it is ruined, kg (tuned, plausible 0.3-10 g: with 5 g the screen closes before a compressor worn by
/// a third pumps noticeably less, and a worn pump's high low side, a sign of common practice, is never seen).
const SHED: f64 = 1e-3;
/// Time in which the stream at its rated flow carries what lies loose in the high side to the tube, s (own figure: a few passes).
const UNDER_WAY: f64 = 120.0;
/// Time in which it would grind all loose beads to dust and draw it out of the accumulator at the rated flow, s (tuned so that a
/// screen clogs within an afternoon's driving, by a few tenths of a gram; plausible an hour to a week of driving).
const GROUND: f64 = 0.9e6;
/// Share of what passes the condenser that lodges there (own figure, plausible 0.1-0.5).
const LODGES: f64 = 0.25;
/// Time in which the stream at its rated flow would carry what has lodged on to the tube, s (own figure: some days of driving).
const FREED: f64 = 7.2e4;
/// Cake that closes the long inlet screen, m3: 370 mm2 of mesh, 1 mm deep (own figures).
const INLET_SCREEN: f64 = 0.37e-6;
/// Cake that closes the short outlet screen, m3: 80 mm2, half a millimetre (own figures).
const OUTLET_SCREEN: f64 = 0.04e-6;
/// Mass of metal in a volume of cake, kg/m3 (own figure: oily swarf, 40 % solid).
const METAL_CAKE: f64 = 3000.0;
/// The same of ground beads, kg/m3 (bulk density of molecular sieve 620-720 kg/m3, makers' sheets; from memory).
const BEAD_CAKE: f64 = 700.0;
/// Share of the tube that a full cake still lets through (own figure).
const SEEPS: f64 = 0.01;

/// Metal and beads at one place, kg.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct Solids {
    /// Metal.
    pub metal: f64,
    /// Beads, whole or ground.
    pub beads: f64,
}

impl Solids {
    /// Takes a share of it out.
    fn take(&mut self, share: f64) -> Self {
        let taken = Self {
            metal: self.metal * share,
            beads: self.beads * share,
        };
        self.metal -= taken.metal;
        self.beads -= taken.beads;
        taken
    }

    /// Adds more.
    fn add(&mut self, other: Self) {
        self.metal += other.metal;
        self.beads += other.beads;
    }

    /// Volume of the cake it makes, m3.
    fn cake(&self) -> f64 {
        self.metal / METAL_CAKE + self.beads / BEAD_CAKE
    }
}

/// Where the solids are.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct Debris {
    /// Beads loose in the accumulator, kg: its bag has burst.
    pub loose: f64,
    /// On the way from the compressor to the tube, most of it in the condenser.
    pub under_way: Solids,
    /// Lodged in the condenser.
    pub lodged: Solids,
    /// On the screen of the orifice tube.
    pub caught: Solids,
}

impl Debris {
    /// Lets the flow through the compressor (`suction`, kg/s) draw loose beads as dust for `dt` seconds. Returns the dust, kg.
    pub fn entrain(&mut self, suction: f64, dt: f64) -> f64 {
        if self.loose <= 0.0 {
            return 0.0;
        }
        let dust = self.loose * share(suction, dt / GROUND);
        self.loose -= dust;
        self.under_way.beads += dust;
        dust
    }

    /// Lets `dt` seconds pass: `worn` is the wear that use has added in them, `liquid` the flow to the tube, kg/s; `tube` tells whether
    /// there is one.
    pub fn pass(&mut self, worn: f64, liquid: f64, tube: bool, dt: f64) {
        self.under_way.metal += worn * SHED;
        if self.under_way == Solids::default() && self.lodged == Solids::default() {
            return;
        }
        let mut arrived = self.under_way.take(share(liquid, dt / UNDER_WAY));
        let freed = self.lodged.take(share(liquid, dt / FREED));
        self.lodged.add(arrived.take(LODGES));
        arrived.add(freed);
        if tube {
            self.caught.add(arrived);
        }
    }

    /// Washes a share of what lies in the condenser out of it.
    pub fn flush_condenser(&mut self, share: f64) {
        self.under_way.take(share);
        self.lodged.take(share);
    }

    /// The condenser is a new one.
    pub fn renew_condenser(&mut self) {
        self.under_way = Solids::default();
        self.lodged = Solids::default();
    }

    /// Beads, whole or ground, that lie in the condenser, kg.
    pub fn beads_in_condenser(&self) -> f64 {
        self.under_way.beads + self.lodged.beads
    }

    /// Open share of the tube's screen, `turned` or the right way round, 0.01 to 1.
    pub fn open(&self, turned: bool) -> f64 {
        let closes = if turned { OUTLET_SCREEN } else { INLET_SCREEN };
        (1.0 - self.caught.cake() / closes).max(SEEPS)
    }
}

/// Share carried off by a flow (kg/s) in a time given as a part of that at the rated flow.
fn share(flow: f64, time: f64) -> f64 {
    1.0 - libm::exp(-flow.max(0.0) / RATED_FLOW * time)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is shed ends on the screen, to the last grain; without a tube none of it does.
    #[test]
    fn solids_end_on_the_screen() {
        let mut d = Debris {
            loose: 0.05,
            ..Debris::default()
        };
        for _ in 0..200_000 {
            d.entrain(0.04, 0.5);
            d.pass(1e-6, 0.04, true, 0.5);
        }
        let all = d.caught.metal + d.under_way.metal + d.lodged.metal;
        assert!((all - 0.2 * SHED).abs() < 1e-12, "metal {all}");
        assert!((d.loose + d.caught.beads + d.beads_in_condenser() - 0.05).abs() < 1e-12);
        assert!(d.caught.beads > 1e-3, "{d:?}");

        let mut open = Debris {
            loose: 0.05,
            ..Debris::default()
        };
        open.entrain(0.04, 3600.0);
        open.pass(0.1, 0.04, false, 3600.0);
        assert_eq!(open.caught, Solids::default());
    }

    /// A fifth of a gram hardly shows on the inlet screen and closes most of the outlet's.
    #[test]
    fn the_short_screen_holds_a_tenth() {
        let mut d = Debris::default();
        d.caught.metal = 0.1e-3;
        assert!(d.open(false) > 0.9, "{}", d.open(false));
        assert!(d.open(true) < 0.2, "{}", d.open(true));
        d.caught.metal = 1.0;
        assert!((d.open(false) - SEEPS).abs() < 1e-12);
    }

    /// A new tube clogs again while beads are left in the accumulator, and stays clean with a new accumulator.
    #[test]
    fn a_new_tube_alone_clogs_again() {
        let mut d = Debris {
            loose: 0.05,
            ..Debris::default()
        };
        let afternoon = |d: &mut Debris| {
            for _ in 0..5 {
                d.entrain(0.04, 3600.0);
                d.pass(0.0, 0.04, true, 3600.0);
            }
        };
        afternoon(&mut d);
        let first = d.open(false);
        d.caught = Solids::default();
        let mut both = Debris { loose: 0.0, ..d };
        let mut all = both;
        all.renew_condenser();
        afternoon(&mut d);
        afternoon(&mut both);
        afternoon(&mut all);
        assert!(
            first < 0.3 && d.open(false) < 0.3,
            "{first} and again {}",
            d.open(false)
        );
        assert!((all.open(false) - 1.0).abs() < 1e-12);
        // What has lodged in the old condenser comes after.
        let behind = both.open(false);
        assert!(behind < 0.95 && behind > d.open(false), "{behind}");
    }

    /// What is flushed out of the condenser does not come to the tube.
    #[test]
    fn a_flushed_condenser_gives_less() {
        let mut left = Debris {
            lodged: Solids {
                metal: 0.2e-3,
                beads: 0.1e-3,
            },
            ..Debris::default()
        };
        let mut flushed = left;
        flushed.flush_condenser(0.9);
        for d in [&mut left, &mut flushed] {
            d.pass(0.0, 0.04, true, 1e7);
        }
        assert!((left.caught.beads - 0.1e-3).abs() < 1e-9, "{left:?}");
        assert!((flushed.caught.beads - 0.01e-3).abs() < 1e-9, "{flushed:?}");
        assert!((flushed.caught.metal - 0.02e-3).abs() < 1e-9, "{flushed:?}");
    }

    /// Nothing moves while nothing flows, and half the time twice gives the same.
    #[test]
    fn carried_by_the_flow() {
        let start = Debris {
            loose: 0.01,
            ..Debris::default()
        };
        let mut still = start;
        let dust = still.entrain(0.0, 1e5);
        still.pass(0.0, 0.0, true, 1e5);
        assert!(dust.abs() < 1e-15);
        assert_eq!(still, start);
        let (mut once, mut twice) = (start, start);
        once.entrain(0.05, 100.0);
        for _ in 0..2 {
            twice.entrain(0.05, 50.0);
        }
        assert!((once.loose - twice.loose).abs() < 1e-15);
    }
}
