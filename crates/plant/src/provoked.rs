//! What a technician does to the vehicle to see how it answers: mist on the condenser, a hot wet cloth round the orifice tube.

use lowside_fluids::moist_air::wet_bulb;
use serde::{Deserialize, Serialize};

use crate::{cabin::Outside, state::CP_AIR};

/// Water that stays on the condenser's face after one go with the spray bottle, kg (own figure: a fifth of a litre, of which half runs off).
const SPRAY: f64 = 0.1;
/// Most that stays there: more runs off (own figure).
const MOST: f64 = 0.2;
/// Share of the way to the wet bulb that air goes over a wet face (0.5 to 0.8 for pads before condensers, from memory; a bare face is the least).
const WETTED: f64 = 0.5;
/// Water below which the face is no longer wet all over, kg (own figure).
const PATCHY: f64 = 0.05;
/// Heat of evaporation of water near 30 degC, J/kg (steam tables, rounded).
const EVAPORATION: f64 = 2.43e6;
/// A cloth out of hot tap water, and lukewarm, when it is taken off, K (50 degC: a hand still holds it; 30 degC).
const CLOTH: [f64; 2] = [323.15, 303.15];
/// Time in which it gets lukewarm, s (own figure: a wet towel is after a minute or two).
const CLOTH_TIME: f64 = 90.0;
/// Conductance from the cloth to the ice, W/K (tuned so that the low side is back within a minute, as common practice has it; plausible 0.08-0.4:
/// 8 cm2 of pipe at 100 to 500 W/(m2 K) of wet cloth).
const CONTACT: f64 = 0.3;

/// What has been done, as far as it lasts.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Provoked {
    /// Water on the condenser's face, kg.
    film: f64,
    /// How long a cloth stays round the orifice tube, s.
    cloth: f64,
}

impl Provoked {
    /// Sprays water on the condenser's face.
    pub fn mist(&mut self) {
        self.film = (self.film + SPRAY).min(MOST);
    }

    /// Lays a hot wet cloth round the orifice tube.
    pub fn wrap(&mut self) {
        self.cloth = CLOTH_TIME;
    }

    /// Nothing of it lasts.
    pub fn over(&self) -> bool {
        self.film <= 0.0 && self.cloth <= 0.0
    }

    /// Heat that the cloth gives to ice of `ice_t` K in the orifice tube, W.
    pub fn warms(&self, ice_t: f64) -> f64 {
        if self.cloth <= 0.0 {
            return 0.0;
        }
        let [hot, lukewarm] = CLOTH;
        CONTACT * (lukewarm + (hot - lukewarm) * self.cloth / CLOTH_TIME - ice_t)
    }

    /// Returns the air of `flow` kg/s at `t` K as it leaves the wet face, and lets that dry for `dt` seconds.
    ///
    /// Evaporation cools the air towards its wet bulb at constant enthalpy; what it takes up is gone from the face.
    pub fn cooled(&mut self, flow: f64, t: f64, outside: &Outside, dt: f64) -> f64 {
        if self.film <= 0.0 {
            return t;
        }
        let covered = (self.film / PATCHY).min(1.0);
        let cooler = WETTED * covered * (t - wet_bulb(t, outside.w, outside.p)).max(0.0);
        self.film = (self.film - flow * CP_AIR * cooler / EVAPORATION * dt).max(0.0);
        t - cooler
    }

    /// Lets the cloth cool for `dt` seconds.
    pub fn cool(&mut self, dt: f64) {
        self.cloth = (self.cloth - dt).max(0.0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lowside_fluids::moist_air::{humidity_ratio, w_sat};

    fn day(t: f64, rh: f64) -> Outside {
        let p = 101_325.0;
        Outside {
            t,
            w: humidity_ratio(t, rh, p),
            p,
            sun: 0.0,
        }
    }

    /// At 35 degC and 40 % the wet bulb is 23.9 degC (psychrolib 2.5.0): half the way is 5.5 K. By hand, 1 kg/s of air takes up 2.3 g/s
    /// there, so that a face wet all over with 100 g is half dry after 22 s.
    #[test]
    fn wet_air_goes_half_the_way_to_its_wet_bulb_and_dries_the_face() {
        let outside = day(308.15, 0.4);
        let mut face = Provoked::default();
        assert!((face.cooled(1.0, outside.t, &outside, 0.02) - outside.t).abs() < 1e-12);
        face.mist();
        let cooler = outside.t - face.cooled(1.0, outside.t, &outside, 0.02);
        assert!((cooler - 5.5).abs() < 0.1, "{cooler} K");
        let mut seconds: f64 = 0.0;
        while face.film > 0.5 * SPRAY {
            face.cooled(1.0, outside.t, &outside, 0.02);
            seconds += 0.02;
        }
        assert!((seconds - 22.0).abs() < 2.0, "{seconds} s");
        let mut more = face;
        for _ in 0..30_000 {
            more.cooled(1.0, outside.t, &outside, 0.02);
        }
        assert!(more.film < 1e-3 * SPRAY, "{} kg left", more.film);
    }

    #[test]
    fn damp_air_is_not_cooled_and_a_face_holds_so_much() {
        let outside = day(303.15, 1.0);
        assert!(w_sat(303.15, outside.p) - outside.w < 1e-9);
        let mut face = Provoked::default();
        for _ in 0..9 {
            face.mist();
        }
        assert!((face.film - MOST).abs() < 1e-12);
        let t = face.cooled(1.0, outside.t, &outside, 0.02);
        assert!((t - outside.t).abs() < 1e-3, "{t} K");
    }

    #[test]
    fn a_cloth_gives_less_as_it_cools_and_is_taken_off() {
        let mut tube = Provoked::default();
        assert!(tube.warms(273.15).abs() < 1e-12);
        tube.wrap();
        assert!((tube.warms(273.15) - 15.0).abs() < 1e-9);
        for _ in 0..2_250 {
            tube.cool(0.02);
        }
        assert!((tube.warms(273.15) - 12.0).abs() < 0.03);
        for _ in 0..2_260 {
            tube.cool(0.02);
        }
        assert!(tube.warms(273.15).abs() < 1e-12);
    }
}
