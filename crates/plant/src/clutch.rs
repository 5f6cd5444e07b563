//! The compressor's clutch: what its facing holds, how far the hub falls behind the pulley, and the heat of that.
//!
//! Dry friction (Coulomb): while the hub keeps up, the facing passes what the compressor asks; once that is more than it holds, it passes
//! what it holds, and the difference of the speeds becomes heat. A piston compressor asks for about the same torque at any speed, so a
//! clutch that lets go falls far behind, and catches again when the pressures have come together or it has been off. How much it holds
//! falls with the coil's heat (its own, the hood's, the facing's) and with the facing's. So a weak one holds cool and slips hot.

use serde::{Deserialize, Serialize};

/// Torque that a sound clutch holds with its coil at 20 degC, N m (data sheets of 12 V clutches of this size: 40-60, from memory).
const HOLDS: f64 = 50.0;
/// Time in which such a clutch brings a compressor without load up to its pulley's speed, s (common practice: a tenth to a third under
/// load and warm).
const CATCHING: f64 = 0.12;
/// Resistance of the coil at 20 degC, ohm (workshop manuals: 3.0-3.6).
pub const COIL: f64 = 3.4;
/// Voltage at the coil with the engine running, V (common practice).
pub const VOLTS: f64 = 13.8;
/// Growth of copper's resistance, 1/K, from 20 degC (IEC 60028: 0.00393): the coil's current falls by it, and the magnet's pull with the
/// square of the current.
const COPPER: f64 = 0.003_93;
/// Where that is counted from, K.
const COLD: f64 = 293.15;
/// Heat capacity of hub and pulley, J/K: 1.6 kg of steel (own figure).
const FACING_METAL: f64 = 750.0;
/// Heat capacity of the coil with its shell, J/K: 0.3 kg of copper, 0.8 kg of steel (own figure).
const COIL_METAL: f64 = 480.0;
/// Heat to the air under the hood from hub and pulley at rest, W/K, and more of it for each rad/s of the pulley (own figures).
const COOLING: (f64, f64) = (3.0, 0.03);
/// Heat from the coil's shell to the air under the hood and the compressor's nose, W/K (tuned, plausible 0.6-1.5: a coil with current is
/// 30 to 60 K warmer than what is around it, from memory).
const COIL_COOLING: f64 = 1.0;
/// Heat between pulley and coil by the bearing and the gap of air, W/K (own figure).
const BETWEEN: f64 = 0.5;
/// From here on a facing loses friction, and where it has lost half, K (from memory: organic facings fade from some 200 to 250 degC on).
const FADES: (f64, f64) = (473.15, 623.15);
/// From here on a facing smells, K (tuned, 150-220 degC: a clutch that slips for a minute does smell).
const SMELLS: f64 = 453.15;
/// Where a facing chars through within [`CHARS`], K (own figure, 250-330 degC: the resin of a facing).
const BURNS: f64 = 543.15;
/// Below this it does not char within a day, K.
const SPARES: f64 = 423.15;
/// Time in which it does, s.
const CHARS: f64 = 60.0;
/// How many kelvin more char it twice as fast (rule of ten degrees, common practice: 8-15).
const DOUBLES: f64 = 12.0;

/// The clutch.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Clutch {
    /// Speed of the hub, and so of the compressor, over that of the pulley, 0 to 1.
    pub grip: f64,
    /// Temperature of the facing with hub and pulley, K.
    pub facing: f64,
    /// Temperature of the coil, K.
    pub coil: f64,
    /// Share of the facing's depth that has charred away, 0 to 1.
    pub charred: f64,
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
            facing: t,
            coil: t,
            charred: 0.0,
        }
    }

    /// Resistance of its coil over that at 20 degC.
    pub fn resistance(&self) -> f64 {
        1.0 + COPPER * (self.coil - COLD)
    }

    /// Torque that it holds with current on its coil, N m; `sound` is the share of a sound one's, 0 to 1.
    pub fn holds(&self, sound: f64) -> f64 {
        let faded = (self.facing - FADES.0) / (FADES.1 - FADES.0);
        // A facing rubs until it is nearly through.
        let left = 1.0 - self.charred.powi(16);
        let friction = (1.0 - 0.5 * faded.max(0.0)).max(0.25);
        HOLDS * sound * left * friction / self.resistance().powi(2)
    }

    /// Heat that it makes at its facing with current on its coil and its pulley at so many rad/s, W.
    pub fn slips(&self, sound: f64, pulley: f64) -> f64 {
        self.holds(sound) * (1.0 - self.grip) * pulley
    }

    /// Its facing smells.
    pub fn smells(&self) -> bool {
        self.facing > SMELLS
    }

    /// Its facing has burnt away.
    pub fn burnt(&self) -> bool {
        self.charred >= 1.0
    }

    /// Advances by `dt` seconds with current on the coil (`engaged`) or not.
    ///
    /// While the hub is slower than the pulley the facing passes all it holds: what the compressor does not take speeds
    /// the hub up. A compressor that takes more than that slows down until it takes less.
    pub fn advance(&mut self, engaged: bool, sound: f64, load: Load, dt: f64) {
        let (holds, slips, coil) = if engaged {
            let ohmic = VOLTS * VOLTS / (COIL * self.resistance());
            (self.holds(sound), self.slips(sound, load.pulley), ohmic)
        } else {
            (0.0, 0.0, 0.0)
        };
        let cooling = (COOLING.0 + COOLING.1 * load.pulley) * (self.facing - load.around);
        let across = BETWEEN * (self.facing - self.coil);
        self.facing += (slips - cooling - across) * dt / FACING_METAL;
        self.coil += (coil + across - COIL_COOLING * (self.coil - load.around)) * dt / COIL_METAL;
        if self.facing > SPARES {
            let pace = libm::exp2((self.facing - BURNS) / DOUBLES) / CHARS;
            self.charred = (self.charred + pace * dt).min(1.0);
        }
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
        assert!(clutch.facing < 336.0, "{}", clutch.facing);
    }

    /// A locked shaft: the whole pull slips at the pulley's speed. Such a clutch smokes and lets go within a minute or two at 2000 1/min (common
    /// practice, no source).
    #[test]
    fn a_locked_shaft_burns_a_sound_clutch_and_then_nothing_slips() {
        let ten_seconds = after(1.0, f64::INFINITY, 333.15, 500);
        assert!(ten_seconds.grip <= 0.0 && !ten_seconds.burnt() && ten_seconds.facing > 353.15);
        let minutes = after(1.0, f64::INFINITY, 333.15, 9000);
        assert!(minutes.burnt() && minutes.holds(1.0) <= 0.0, "{minutes:?}");
        assert!(minutes.facing < BURNS, "it cools: {minutes:?}");
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
        assert!(warm.grip < 0.1 && warm.facing > 373.15, "{warm:?}");
        assert!(warm.holds(0.25) < Clutch::new(333.15).holds(0.25));
        assert!(after(0.25, 15.0, 333.15, 12_000).smells());
    }
}
