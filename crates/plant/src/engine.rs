//! The engine as the bay feels it: its heat in the coolant, the thermostat, and the radiator behind the condenser.

use serde::{Deserialize, Serialize};

use crate::{exchange::effectiveness, state::CP_AIR};

/// A turn a minute, rad/s.
pub(crate) const RAD_S: f64 = core::f64::consts::TAU / 60.0;
/// Coolant at which the thermostat begins to open, and is open, K (88 and 95 degC, common practice).
const THERMOSTAT: (f64, f64) = (361.15, 368.15);
/// Coolant from which the gauge stands in the red, K (115 degC; common practice: 112-120).
const RED: f64 = 388.15;
/// Coolant that the gauge has left the red again at, K.
const CALM: f64 = 383.15;
/// Where coolant boils under its cap, K (128 degC: half water, half glycol at 200 kPa).
const BOILS: f64 = 401.15;
/// Heat that boils all of its water away, J: 5.5 kg of it in 11 L, at 2.18 MJ/kg (IAPWS at 128 degC).
const BOILS_AWAY: f64 = 5.5 * 2.18e6;
/// Share of the water without which the pump finds none and nothing runs through the radiator (own figure: a third of the water lies
/// above its lower tank).
const CIRCULATES: f64 = 0.35;
/// Share of the water without which the head is dry, and the engine stops (own figure, plausible 0.5-0.9).
const DRY: f64 = 0.7;
/// Heat capacity of engine and coolant, J/K (own figure: 130 kg of iron and aluminium, 11 L of coolant).
const METAL: f64 = 1.1e5;
/// Heat to the coolant of an engine without load at 800 1/min, W, and for each turn a minute more (own figures).
const HEAT: (f64, f64) = (7e3, 9.0);
/// As much heat again goes to the coolant as the shaft gives the compressor (thirds of the fuel, textbook rule).
const OF_LOAD: f64 = 1.0;
/// Conductance of a sound radiator, W/K (own figure).
const RADIATOR: f64 = 1600.0;
/// Heat from the engine's outside to the air under the hood, W/K (own figure).
const OUTSIDE: f64 = 15.0;
/// How much of what the coolant is hotter than it should be the air under the hood is hotter (own figure: 25 K of 55 are usual).
const UNDER_HOOD: f64 = 0.45;

/// The engine's heat.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Engine {
    /// Coolant, K.
    pub coolant: f64,
    /// Share of its water that has boiled away, 0 to 1.
    pub boiled: f64,
    /// The gauge stands in the red.
    pub red: bool,
    /// It has just stopped by itself.
    pub stalled: bool,
}

/// What heats the engine and what cools it.
#[derive(Debug, Clone, Copy)]
pub struct Cooling {
    /// Speed, 1/min; 0 stands still.
    pub rpm: f64,
    /// Power the compressor takes, W.
    pub shaft: f64,
    /// Air through the radiator: flow, kg/s, and temperature behind the condenser, K.
    pub air: (f64, f64),
    /// Share of a sound radiator's conductance, 0 to 1.
    pub radiator: f64,
    /// Air under the hood, K.
    pub hood: f64,
    /// Heat that a heater core takes, W.
    pub heater: f64,
}

impl Default for Engine {
    /// Driven in: at its thermostat.
    fn default() -> Self {
        Self {
            coolant: THERMOSTAT.0,
            boiled: 0.0,
            red: false,
            stalled: false,
        }
    }
}

impl Engine {
    /// Its head is dry: it will not run.
    pub fn dry(&self) -> bool {
        self.boiled >= DRY
    }

    /// Fills up its coolant.
    pub fn fill(&mut self) {
        self.boiled = 0.0;
    }

    /// Advances the coolant by `dt` seconds. Coolant that boils gets no hotter: its water leaves by the cap and takes the heat along.
    pub fn advance(&mut self, c: &Cooling, dt: f64) {
        let (mut heat, mut away) = (0.0, OUTSIDE * (self.coolant - c.hood) + c.heater);
        if c.rpm > 0.0 {
            heat += (HEAT.0 + HEAT.1 * (c.rpm - 800.0)).max(0.5 * HEAT.0) + OF_LOAD * c.shaft;
            let (closed, open) = THERMOSTAT;
            let lets = ((self.coolant - closed) / (open - closed)).clamp(0.0, 1.0)
                * (1.0 - self.boiled / CIRCULATES).max(0.0);
            let capacity = c.air.0 * CP_AIR;
            away += lets
                * capacity
                * effectiveness(RADIATOR * c.radiator, capacity)
                * (self.coolant - c.air.1);
        }
        let reached = self.coolant + (heat - away) * dt / METAL;
        self.coolant = reached.min(BOILS);
        self.boiled = (self.boiled + (reached - self.coolant) * METAL / BOILS_AWAY).min(1.0);
        self.red = self.coolant > if self.red { CALM } else { RED };
    }

    /// What an overheating engine adds to the air under the hood, K; 0 at the thermostat and below.
    pub fn under_hood(&self) -> f64 {
        UNDER_HOOD * (self.coolant - THERMOSTAT.1).max(0.0)
    }

    /// Hot air that comes round from radiator to condenser, against that of an engine at its thermostat: 1 and more.
    pub fn round(&self, outside: f64) -> f64 {
        1.0 + (self.coolant - THERMOSTAT.1).max(0.0) / (THERMOSTAT.1 - outside).max(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settled(radiator: f64, air: f64, rpm: f64) -> f64 {
        let mut engine = Engine::default();
        let c = Cooling {
            rpm,
            shaft: 2500.0,
            air: (air, 323.15),
            radiator,
            hood: 333.15,
            heater: 0.0,
        };
        for _ in 0..3600 {
            engine.advance(&c, 1.0);
        }
        engine.coolant - 273.15
    }

    #[test]
    fn the_thermostat_holds_a_sound_engine_and_a_blocked_radiator_boils_it() {
        for rpm in [800.0, 1500.0, 2500.0] {
            let t = settled(1.0, 1.0, rpm);
            assert!((88.0..95.0).contains(&t), "{t} degC at {rpm}");
        }
        assert!(settled(0.2, 1.0, 1500.0) > 105.0);
        assert!((settled(0.0, 1.0, 1500.0) - 128.0).abs() < 0.01);
    }

    #[test]
    fn at_its_thermostat_nothing_is_added() {
        let engine = Engine::default();
        assert!(engine.under_hood().abs() < 1e-12);
        assert!((engine.round(308.15) - 1.0).abs() < 1e-12);
    }
}
