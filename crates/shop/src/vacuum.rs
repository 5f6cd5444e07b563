//! The vacuum pump on the service hose, its oil, and the electronic vacuum gauge.

use lowside_fluids::water;
use lowside_plant::{
    network::{Law, Link},
    pump::Pump,
    state::State,
};
use serde::{Deserialize, Serialize};

use crate::{gauge::Instrument, manifold::opening};

/// Volume of the pump's inlet with its fitting, m3 (own figure).
pub const INLET_VOLUME: f64 = 0.1e-3;
/// Smallest and largest free-air displacement, m3/s: 1.5 and 8 cfm.
pub const SPEEDS: (f64, f64) = (1.5 * CFM, 8.0 * CFM);
/// A cubic foot a minute, m3/s (NIST SP 811).
const CFM: f64 = 0.028_316_846_592 / 60.0;
/// Passage of the isolation valve, m2 (5 mm).
const VALVE_AREA: f64 = 20e-6;
/// Passage through a pump at rest with its valve open, m2: vanes do not seal (own figure).
const BACK_AREA: f64 = 0.05e-6;
/// Ultimate pressure of two stages with clean oil, Pa (common practice 2-10: 15-75 micron).
const CLEAN: f64 = 4.0;
/// What oil full of water adds to it, Pa (from memory: 20-70 with wet oil).
const WET: f64 = 60.0;
/// What the open gas ballast adds to it, Pa (from memory: 1-30).
const BALLASTED: f64 = 10.0;
/// What a pump without any oil adds to it, Pa, in proportion to the square of what is missing (own figure).
const WITHOUT_OIL: f64 = 5e3;
/// Water in the oil that has half of that effect, kg (own figure).
const HALF_WET: f64 = 1e-3;
/// Most water the oil case takes up; more is thrown out with the exhaust, kg (own figure).
const MOST_WATER: f64 = 30e-3;
/// Temperature of the oil in a warm pump, K (from memory: 55-75 degC).
const OIL_T: f64 = 333.15;
/// Over-pressure of the exhaust valve, share of the atmosphere (from memory).
const EXHAUST: f64 = 1.1;
/// Air that the gas ballast lets in, share of the displacement at atmospheric pressure (common practice: 10 %).
const BALLAST: f64 = 0.1;
/// How far the ballast air saturates itself with the water in the oil (tuned so that some grams take half an hour, common
/// practice; plausible 0.05-0.5).
const STRIPS: f64 = 0.2;
/// Share of the oil that each kilogram of gas blows out which comes in above atmospheric pressure (own figure).
const BLOWN: f64 = 5.0;
/// Oil below which the trade would call it blown out, share.
const OIL_LOW: f64 = 0.9;

/// The pump.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct VacuumPump {
    /// Free-air displacement, m3/s.
    pub speed: f64,
    /// It turns.
    pub on: bool,
    /// Its isolation valve is open.
    pub valve_open: bool,
    /// Its gas ballast is open.
    pub ballast: bool,
}

/// The oil in the pump, which stays with it from one use to the next.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct PumpOil {
    /// Water in it, kg. It came out of the loop as exhaust and is counted there; this is what it does to the pump.
    pub water: f64,
    /// How much is left, share of a full case.
    pub level: f64,
}

impl Default for PumpOil {
    fn default() -> Self {
        Self {
            water: 0.0,
            level: 1.0,
        }
    }
}

impl PumpOil {
    /// How much the water in it spoils the vacuum, 0 to 1.
    pub fn wetness(&self) -> f64 {
        self.water / (self.water + HALF_WET)
    }

    /// So much is gone that it shows.
    pub fn low(&self) -> bool {
        self.level < OIL_LOW
    }

    /// Lets `dt` seconds of pumping pass: `inlet` is the state at the pump's inlet, `flow` what goes through (kg/s), `p_room` the
    /// atmosphere (Pa).
    ///
    /// Vapour that the exhaust cannot carry off condenses into the oil: its share of the compressed gas times the exhaust
    /// pressure exceeds its saturation pressure at the oil's temperature (Gaede 1935, on the gas ballast; from memory). Ballast
    /// air thins it and carries water out of the oil.
    pub fn pump(&mut self, pump: &VacuumPump, inlet: &State, flow: f64, p_room: f64, dt: f64) {
        if !pump.on || flow < 0.0 {
            return;
        }
        if inlet.p > p_room {
            self.level = (self.level - BLOWN * flow * dt).max(0.0);
        }
        let p_sat = water::p_sat(OIL_T);
        let air = if pump.ballast { BALLAST * p_room } else { 0.0 };
        let through = inlet.p + air;
        if inlet.p_water > 0.0 && flow > 0.0 {
            let vapour = inlet.p_water / through * p_room * EXHAUST;
            let condensed = (1.0 - p_sat / vapour).max(0.0);
            let draws = pump.speed * (1.0 - self.ultimate(pump.ballast) / inlet.p).max(0.0);
            let water = inlet.p_water / (water::GAS_CONSTANT * inlet.t) * draws;
            self.water = (self.water + condensed * water * dt).min(MOST_WATER);
        }
        let stripped =
            BALLAST * pump.speed * p_sat * self.wetness() / (water::GAS_CONSTANT * OIL_T) * STRIPS;
        if pump.ballast {
            self.water = (self.water - stripped * dt).max(0.0);
        }
    }

    /// Pressure at which the pump draws no more, Pa.
    pub fn ultimate(&self, ballast: bool) -> f64 {
        let missing = 1.0 - self.level;
        CLEAN
            + WET * self.wetness()
            + if ballast { BALLASTED } else { 0.0 }
            + WITHOUT_OIL * missing * missing
    }
}

/// Law between the pump's inlet and the room.
pub fn exhaust(pump: &VacuumPump, oil: &PumpOil) -> Law {
    if pump.on {
        Law::Pump(Pump {
            speed: pump.speed,
            ultimate: oil.ultimate(pump.ballast),
        })
    } else {
        opening(BACK_AREA, 1.0)
    }
}

/// Law of the isolation valve.
pub fn isolation(pump: &VacuumPump) -> Law {
    opening(VALVE_AREA, if pump.valve_open { 1.0 } else { 0.0 })
}

/// What goes out through the pump, kg/s.
pub fn throughput(exhaust: &Link) -> f64 {
    exhaust.flow.max(0.0)
}

/// Where the vacuum gauge is screwed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum GaugePlace {
    /// At the pump's inlet.
    #[default]
    Pump,
    /// At the loop, on the accumulator.
    Loop,
}

/// A micron, Pa (a thousandth of a conventional torr; NIST SP 811).
pub const MICRON: f64 = 0.133_322_4;

/// Electronic vacuum gauge, Pa absolute: 5 to 25 000 micron, to a micron, a second behind. Above that it is over its range.
pub fn vacuum_gauge() -> Instrument {
    let most = 25_000.0 * MICRON;
    Instrument::new(1.1 * most, 1.0, MICRON, 5.0 * MICRON, most)
}
