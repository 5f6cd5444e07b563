//! The compressor's clutch: what its facing holds, how far the hub falls behind the pulley, and the heat of that.

use serde::{Deserialize, Serialize};

/// Torque that a sound clutch holds with its coil at 20 degC, N m (data sheets of 12 V clutches of this size: 40-60, from memory).
const HOLDS: f64 = 50.0;
/// Time in which such a clutch brings a compressor without load up to its pulley's speed, s (common practice: a tenth to a third under
/// load and warm).
const CATCHING: f64 = 0.12;
/// Growth of copper's resistance, 1/K, from 20 degC (IEC 60028: 0.00393): the coil's current falls by it, and the magnet's pull with the
/// square of the current.
const COPPER: f64 = 0.003_93;
/// Where that is counted from, K.
const COLD: f64 = 293.15;
/// Heat capacity of hub, pulley and coil, J/K: 2.5 kg of steel (own figure).
const METAL: f64 = 1200.0;
/// Heat to the air under the hood from a clutch at rest, W/K, and more of it for each rad/s of the pulley (own figures).
const COOLING: (f64, f64) = (3.0, 0.03);
/// From here on a facing smells, K (tuned, 130-200 degC: a clutch that slips for minutes does smell; this is the mean of hub, pulley and
/// coil, whose facing is hotter).
const SMELLS: f64 = 423.15;

/// From here on the facing burns away and the clutch holds nothing any more, K (own figure, 200-300 degC: the resin of a facing chars; this
/// is the mean of hub, pulley and coil, whose facing is hotter).
const BURNS: f64 = 523.15;

/// The clutch.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Clutch {
    /// Speed of the hub, and so of the compressor, over that of the pulley, 0 to 1.
    pub grip: f64,
    /// Temperature of hub, pulley and coil, K.
    pub t: f64,
    /// Its facing has burnt away.
    pub burnt: bool,
}

/// What turns the clutch and holds against it.
#[derive(Debug, Clone, Copy)]
pub struct Load {
    /// Speed of the pulley, rad/s.
    pub pulley: f64,
    /// Torque of the compressor, N m: infinite where its shaft is locked.
    pub torque: f64,
    /// Air under the hood, K.
    pub around: f64,
}

impl Clutch {
    /// A clutch that is out, at `t` (K).
    pub fn new(t: f64) -> Self {
        Self {
            grip: 0.0,
            t,
            burnt: false,
        }
    }

    /// Resistance of its coil over that at 20 degC.
    pub fn resistance(&self) -> f64 {
        1.0 + COPPER * (self.t - COLD)
    }

    /// Torque that it holds with current on its coil, N m; `sound` is the share of a sound one's, 0 to 1.
    pub fn holds(&self, sound: f64) -> f64 {
        if self.burnt {
            return 0.0;
        }
        HOLDS * sound / self.resistance().powi(2)
    }

    /// Its facing smells.
    pub fn smells(&self) -> bool {
        self.t > SMELLS
    }

    /// Advances by `dt` seconds with current on the coil (`engaged`) or not.
    ///
    /// While the hub is slower than the pulley the facing passes all it holds: what the compressor does not take speeds
    /// the hub up, and the difference of the speeds becomes heat. A compressor that takes more than that slows down until it takes less.
    pub fn advance(&mut self, engaged: bool, sound: f64, load: Load, dt: f64) {
        let holds = if engaged { self.holds(sound) } else { 0.0 };
        let slips = holds * (1.0 - self.grip) * load.pulley;
        let cooling = COOLING.0 + COOLING.1 * load.pulley;
        self.t += (slips - cooling * (self.t - load.around)) * dt / METAL;
        self.burnt |= self.t > BURNS;
        self.grip = if engaged {
            (self.grip + (holds - load.torque) / HOLDS * dt / CATCHING).clamp(0.0, 1.0)
        } else {
            0.0
        };
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn after(sound: f64, torque: f64, t: f64, ticks: u32) -> Clutch {
        let mut clutch = Clutch::new(t);
        let load = Load {
            pulley: 200.0,
            torque,
            around: 333.15,
        };
        for _ in 0..ticks {
            clutch.advance(true, sound, load, 0.02);
        }
        clutch
    }

    #[test]
    fn a_sound_clutch_catches_within_a_third_of_a_second_and_stays_cool() {
        assert!(after(1.0, 15.0, 333.15, 5).grip < 1.0);
        let clutch = after(1.0, 15.0, 333.15, 17);
        assert!(clutch.grip >= 1.0, "{}", clutch.grip);
        assert!(clutch.t < 336.0, "{}", clutch.t);
    }

    /// A locked shaft: the whole pull slips at the pulley's speed. Such a clutch smokes and lets go within a minute or two at 2000 1/min (common
    /// practice, no source).
    #[test]
    fn a_locked_shaft_burns_a_sound_clutch_and_then_nothing_slips() {
        let ten_seconds = after(1.0, f64::INFINITY, 333.15, 500);
        assert!(ten_seconds.grip <= 0.0 && !ten_seconds.burnt && ten_seconds.t > 353.15);
        let minutes = after(1.0, f64::INFINITY, 333.15, 9000);
        assert!(minutes.burnt && minutes.holds(1.0) <= 0.0, "{minutes:?}");
        assert!(minutes.t < BURNS, "it cools: {minutes:?}");
    }

    #[test]
    fn a_hot_coil_holds_less_as_copper_resists_more() {
        // 100 K more: 1.393 times the resistance, 0.515 of the pull.
        let ratio = Clutch::new(COLD + 100.0).holds(1.0) / Clutch::new(COLD).holds(1.0);
        assert!((ratio - 0.515).abs() < 1e-3, "{ratio}");
    }

    #[test]
    fn what_slips_gets_hot_and_holds_less() {
        let warm = after(0.25, 15.0, 333.15, 3000);
        assert!(warm.grip < 0.1 && warm.t > 373.15, "{warm:?}");
        assert!(warm.holds(0.25) < Clutch::new(333.15).holds(0.25));
        assert!(after(0.25, 15.0, 333.15, 12_000).smells());
    }
}
