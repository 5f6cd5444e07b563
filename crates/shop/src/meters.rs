//! Further instruments: clamp thermometer, anemometer, hygrometer, clutch meter, sight glass; and what can be wrong with gauges.

use lowside_plant::{
    clutch::{COIL, VOLTS},
    network::NodeId,
    plant::Plant,
    state::R_AIR,
};
use serde::{Deserialize, Serialize};

use crate::{gauge::Instrument, manifold::Manifold};

/// Where the clamp thermometer sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Point {
    /// Discharge line.
    Discharge,
    /// First tube of the condenser.
    CondenserIn,
    /// Middle of the condenser.
    CondenserMiddle,
    /// Last tube of the condenser.
    CondenserOut,
    /// Liquid line, ahead of the orifice.
    LiquidLine,
    /// Evaporator inlet pipe, behind the orifice.
    EvaporatorIn,
    /// Evaporator outlet pipe.
    EvaporatorOut,
    /// Accumulator.
    Accumulator,
    /// Suction line at the compressor.
    Suction,
    /// Upper radiator hose: the engine's coolant.
    RadiatorHose,
}

impl Point {
    /// All of them, in the order of the flow; the radiator's hose last.
    pub const ALL: [Self; 10] = [
        Self::Discharge,
        Self::CondenserIn,
        Self::CondenserMiddle,
        Self::CondenserOut,
        Self::LiquidLine,
        Self::EvaporatorIn,
        Self::EvaporatorOut,
        Self::Accumulator,
        Self::Suction,
        Self::RadiatorHose,
    ];

    /// The volume under the clamp, if it is the loop's.
    fn node(self, plant: &Plant) -> Option<NodeId> {
        let c = &plant.circuit;
        Some(match self {
            Self::Discharge => c.high_side(),
            Self::CondenserIn => c.condenser.inlet(),
            Self::CondenserMiddle => c.condenser.middle(),
            // The last cell is the mean of its length: its end is as cold as what it gives.
            Self::CondenserOut | Self::LiquidLine => c.liquid_line.outlet(),
            Self::EvaporatorIn => c.evaporator.inlet(),
            Self::EvaporatorOut => c.evaporator.outlet(),
            Self::Accumulator => c.accumulator.outlet(),
            Self::Suction => c.compressor_inlet(),
            Self::RadiatorHose => return None,
        })
    }
}

/// Share of the difference to the air around it that a clamp misreads (own figure: 2-5 % with a clean pipe).
const CLAMP_ERROR: f64 = 0.03;
/// Free area of the centre vent, m2 (own figure: two outlets of 50 cm2).
const VENT_AREA: f64 = 0.010;
/// Share of the air that leaves by the centre vent (own figure).
const VENT_SHARE: f64 = 0.5;

/// Clamp thermometer: to 0.1 K, four seconds behind.
pub fn clamp(t: f64) -> Instrument {
    Instrument::new(t, 4.0, 0.1, 223.15, 473.15)
}

/// What the clamp feels at a point, K.
pub fn felt(plant: &Plant, at: Point) -> f64 {
    let t = at
        .node(plant)
        .map_or(plant.engine.coolant, |n| plant.network.node(n).state.t);
    let around = match at {
        Point::EvaporatorIn | Point::EvaporatorOut => plant.day().t,
        _ => plant.hood_t,
    };
    t + CLAMP_ERROR * (around - t)
}

/// Anemometer at the centre vent, m/s to 0.1.
pub fn vent_speed(plant: &Plant) -> f64 {
    let rho = plant.day().p / (R_AIR * plant.cabin.vent.t);
    let speed = plant.cabin.flow * VENT_SHARE / (rho * VENT_AREA);
    (speed * 10.0).round() / 10.0
}

/// Hygrometer in the bay: relative humidity to 1 %, 0 to 1.
pub fn humidity(plant: &Plant) -> f64 {
    (plant.day().humidity * 100.0).round() / 100.0
}

/// Meter at the clutch's plug: volts and amperes, to 0.1. Both are nothing while the clutch is not called for or its compressor is out; with
/// the plug pulled there is voltage, and nothing that draws.
pub fn clutch(plant: &Plant) -> (f64, f64) {
    if plant.drive.at_plug {
        (VOLTS, 0.0)
    } else if plant.drive.engaged && plant.fitted.compressor {
        let amperes = VOLTS / (COIL * plant.clutch.resistance());
        (VOLTS, (amperes * 10.0).round() / 10.0)
    } else {
        (0.0, 0.0)
    }
}

/// Optical tachometer at the compressor: hub and pulley, 1/min to 10.
pub fn turning(plant: &Plant) -> [f64; 2] {
    [plant.compressor_rpm(), plant.pulley_rpm()].map(|n| (n / 10.0).round() * 10.0)
}

/// What the manifold's sight glass shows of the service hose.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Glass {
    /// Clear and dry: vapour, air or nothing.
    Clear,
    /// Droplets and streaks: vapour with some liquid.
    Wet,
    /// Liquid with bubbles.
    Bubbles,
    /// Full of liquid: clear too, but it stands.
    Liquid,
}

/// Looks into the sight glass.
pub fn sight_glass(plant: &Plant, manifold: &Manifold) -> Glass {
    let s = &plant.network.node(manifold.service_hose).state;
    let share = s.v_liq / (s.v_liq + s.v_gas).max(1e-12);
    if share > 0.95 {
        Glass::Liquid
    } else if share > 0.3 {
        Glass::Bubbles
    } else if share > 0.005 {
        Glass::Wet
    } else {
        Glass::Clear
    }
}

/// What sound instruments show too much, each always the same.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Errors {
    /// Compound and high-pressure gauge, Pa.
    pub gauges: [f64; 2],
    /// Thermometer in the centre vent, K.
    pub vent: f64,
    /// Thermometer in the cabin, K.
    pub cabin: f64,
    /// Clamp thermometer, K.
    pub clamp: f64,
}

/// What is wrong with gauges and couplers, low side first.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Faults {
    /// What a gauge shows too much, Pa.
    pub offset: [f64; 2],
    /// The coupler's depressor does not reach the core: coupled, and yet shut.
    pub stuck: [bool; 2],
}
