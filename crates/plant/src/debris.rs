//! Solids that travel with the refrigerant and end on the screen of the orifice tube: metal of a wearing compressor, and beads of a burst
//! desiccant bag.
//!
//! The stream carries them as fast as it flows; a cake grows on the screen that faces it and closes the tube in proportion. A tube the
//! right way round shows the stream its long inlet screen, one turned round its short outlet screen, which holds a tenth. Without a tube
//! they go on into evaporator and accumulator, where they lie still.
//!
//! No published measurement is behind the figures. That metal comes from compressor and beads from the bag, that both stop at the
//! screen, and that it is read when the tube is drawn, is common practice.

use crate::vehicle::RATED_FLOW;

/// Metal that a compressor has shed when it is ruined, kg (tuned, plausible 0.3-10 g: with 5 g the screen closes before a compressor worn by
/// a third pumps noticeably less, and a worn pump's high low side, a sign of common practice, is never seen).
const SHED: f64 = 1e-3;
/// Time in which the stream at its rated flow carries what lies loose in the high side to the tube, s (own figure: a few passes).
const UNDER_WAY: f64 = 120.0;
/// Time in which it would grind all loose beads to dust and draw it out of the accumulator at the rated flow, s (tuned so that a
/// screen clogs within an afternoon's driving, by a few tenths of a gram; plausible an hour to a week of driving).
const GROUND: f64 = 1.2e6;
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
#[derive(Debug, Clone, Copy, Default, PartialEq)]
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
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Debris {
    /// Beads loose in the accumulator, kg: its bag has burst.
    pub loose: f64,
    /// On the way from the compressor to the tube, most of it in the condenser.
    pub under_way: Solids,
    /// On the screen of the orifice tube.
    pub caught: Solids,
}

impl Debris {
    /// Lets `dt` seconds pass: `worn` is the wear that use has added in them, `suction` and `liquid` the flows through the compressor and to
    /// the tube, kg/s; `tube` tells whether there is one.
    pub fn pass(&mut self, worn: f64, (suction, liquid): (f64, f64), tube: bool, dt: f64) {
        self.under_way.metal += worn * SHED;
        let share = |flow: f64, time: f64| 1.0 - libm::exp(-flow.max(0.0) / RATED_FLOW * dt / time);
        if self.loose > 0.0 {
            let ground = self.loose * share(suction, GROUND);
            self.loose -= ground;
            self.under_way.beads += ground;
        }
        if self.under_way == Solids::default() {
            return;
        }
        let arrived = self.under_way.take(share(liquid, UNDER_WAY));
        if tube {
            self.caught.add(arrived);
        }
    }

    /// Open share of the tube's screen, `turned` or the right way round, 0.01 to 1.
    pub fn open(&self, turned: bool) -> f64 {
        let closes = if turned { OUTLET_SCREEN } else { INLET_SCREEN };
        (1.0 - self.caught.cake() / closes).max(SEEPS)
    }

    /// All numbers, none for a loop without solids.
    pub fn numbers(&self) -> impl Iterator<Item = f64> {
        let (w, c) = (self.under_way, self.caught);
        let all = [self.loose, w.metal, w.beads, c.metal, c.beads];
        all.into_iter().filter(move |_| *self != Self::default())
    }
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
            d.pass(1e-6, (0.04, 0.04), true, 0.5);
        }
        let all = d.caught.metal + d.under_way.metal;
        assert!((all - 0.2 * SHED).abs() < 1e-12, "metal {all}");
        assert!((d.loose + d.caught.beads + d.under_way.beads - 0.05).abs() < 1e-12);
        assert!(d.caught.beads > 1e-3, "{d:?}");

        let mut open = Debris {
            loose: 0.05,
            ..Debris::default()
        };
        open.pass(0.1, (0.04, 0.04), false, 3600.0);
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
        let afternoon =
            |d: &mut Debris| (0..5).for_each(|_| d.pass(0.0, (0.04, 0.04), true, 3600.0));
        afternoon(&mut d);
        let first = d.open(false);
        d.caught = Solids::default();
        let mut both = Debris {
            loose: 0.0,
            under_way: Solids::default(),
            ..d
        };
        afternoon(&mut d);
        afternoon(&mut both);
        assert!(
            first < 0.3 && d.open(false) < 0.3,
            "{first} and again {}",
            d.open(false)
        );
        assert!((both.open(false) - 1.0).abs() < 1e-12);
    }

    /// Nothing moves while nothing flows, and half the time twice gives the same.
    #[test]
    fn carried_by_the_flow() {
        let start = Debris {
            loose: 0.01,
            ..Debris::default()
        };
        let mut still = start;
        still.pass(0.0, (0.0, 0.0), true, 1e5);
        assert_eq!(still, start);
        let (mut once, mut twice) = (start, start);
        once.pass(0.0, (0.05, 0.05), false, 100.0);
        for _ in 0..2 {
            twice.pass(0.0, (0.05, 0.05), false, 50.0);
        }
        assert!((once.loose - twice.loose).abs() < 1e-15);
    }
}
