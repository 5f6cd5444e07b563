//! Leaks: a list of places where the loop is not tight, each with its size.
//!
//! Small ones are capillaries in which gas creeps, laminar and compressible: flow goes with the difference of the squared
//! pressures. Holes choke. Both work both ways: a loop under vacuum draws room air in, with its humidity.

use lowside_fluids::table::Table;
use serde::{Deserialize, Serialize};

use crate::{
    circuit::Circuit,
    flow::{Rate, k_from_hole},
    network::{Law, NodeId},
};

/// Temperature at which a leak's size is stated, K: 20 degC.
const STATED_AT: f64 = 293.15;
/// Pressure around it then, Pa.
const ATMOSPHERE: f64 = 101_325.0;
/// Viscosity of refrigerant vapour at 20 degC, Pa s (R-134a 11.6e-6; the others within 4 %).
const MU_VAPOUR: f64 = 11.6e-6;
/// Viscosity of refrigerant liquid at 20 degC, Pa s (R-134a 0.207e-3; R-12 0.20e-3, R-1234yf 0.165e-3).
const MU_LIQUID: f64 = 0.207e-3;
/// Discharge coefficient of a hole in a thin wall (common practice).
const CD: f64 = 0.6;

/// Where a leak is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Site {
    /// Shaft seal of the compressor.
    ShaftSeal,
    /// Discharge hose and its joints.
    DischargeHose,
    /// First pass of the condenser.
    CondenserTop,
    /// Last pass of the condenser.
    CondenserBottom,
    /// Liquid line and its joints.
    LiquidLine,
    /// Evaporator inlet.
    EvaporatorInlet,
    /// Evaporator outlet.
    EvaporatorOutlet,
    /// Accumulator and its joints.
    Accumulator,
    /// Suction hose and its joints.
    SuctionHose,
    /// Core of the low-side port.
    LowPort,
    /// Core of the high-side port.
    HighPort,
    /// Seat of the relief valve.
    ReliefValve,
}

impl Site {
    /// All of them, in the order of the flow.
    pub const ALL: [Self; 12] = [
        Self::ShaftSeal,
        Self::DischargeHose,
        Self::CondenserTop,
        Self::CondenserBottom,
        Self::LiquidLine,
        Self::EvaporatorInlet,
        Self::EvaporatorOutlet,
        Self::Accumulator,
        Self::SuctionHose,
        Self::LowPort,
        Self::HighPort,
        Self::ReliefValve,
    ];

    /// The volume it leads out of.
    pub fn node(self, c: &Circuit) -> NodeId {
        match self {
            Self::ShaftSeal | Self::SuctionHose => c.suction_line.outlet(),
            Self::DischargeHose | Self::HighPort | Self::ReliefValve => c.high_side(),
            Self::CondenserTop => c.condenser.inlet(),
            Self::CondenserBottom => c.condenser.outlet(),
            Self::LiquidLine => c.liquid_line.outlet(),
            Self::EvaporatorInlet => c.evaporator.inlet(),
            Self::EvaporatorOutlet => c.evaporator.outlet(),
            Self::Accumulator | Self::LowPort => c.low_side(),
        }
    }
}

/// How large a leak is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Size {
    /// Vapour it would lose from a loop standing at saturation at 20 degC, kg/s.
    Standing(f64),
    /// Diameter of a round hole, m.
    Hole(f64),
}

/// A leak.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Leak {
    /// Where it is.
    pub at: Site,
    /// How large.
    pub size: Size,
}

impl Leak {
    /// The law it passes gas by, in a loop of this refrigerant.
    pub fn law(&self, table: &Table) -> Law {
        match self.size {
            Size::Standing(flow) => {
                let s = table.sat(STATED_AT);
                let squares = s.p * s.p - ATMOSPHERE * ATMOSPHERE;
                Law::Leak(flow * MU_VAPOUR * (s.p / s.rho_g) / squares)
            }
            Size::Hole(d) => Law::Passage(k_from_hole(CD, core::f64::consts::FRAC_PI_4 * d * d)),
        }
    }
}

/// Flow through a capillary of shape `k` = pi r^4/(16 L) (m3) between `p_up` and `p_up - drop` (Pa), Hagen and Poiseuille for
/// an ideal gas: m = k (p1^2 - p2^2)/(mu R T); liquid flows by 2 k rho dp/mu. `p_rho` is pressure over density of the gas upstream,
/// `rho_liq` the density of the liquid there, `liquid` its share of what enters.
pub(crate) fn capillary(
    k: f64,
    p_up: f64,
    drop: f64,
    (p_rho, mu): (f64, f64),
    (liquid, rho_liq): (f64, f64),
) -> Rate {
    let gas = k * (2.0 * p_up - drop) / (mu * p_rho);
    let chord = (1.0 - liquid) * gas + liquid * 2.0 * k * rho_liq / MU_LIQUID;
    Rate {
        flow: chord * drop,
        by_from: chord,
        by_to: chord,
    }
}
