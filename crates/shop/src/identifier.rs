//! The refrigerant identifier: a sample at a port, a minute and a quarter of waiting, and shares by mass.
//!
//! It tells the refrigerants apart by their infrared absorption and finds air by what is left; what it shows is the composition
//! of the gas at the port when the sample was taken, rounded. As is common practice (from memory), air stands apart: it can be
//! purged, so the shares of the gases are of the refrigerant alone, and air is of the whole sample. The sample, less than a gram,
//! is not taken out of the loop.

use lowside_fluids::{Blend, Refrigerant};
use lowside_plant::{network::NodeId, plant::Plant, species::AIR};
use lowside_units::{GaugePressure, Quantity};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Time from the sample to the result, s (common practice: 60 to 90 s with the flushing of its cell).
pub const TIME: f64 = 75.0;
/// Smallest step of a share.
pub const RESOLUTION: f64 = 0.001;
/// Share of one gas in the refrigerant that counts as pure (SAE J1771, from memory; common practice).
pub const PURE: f64 = 0.98;
/// Least pressure at the port that fills the cell, Pa gauge (5 psi; common practice, no source).
pub const LEAST_PRESSURE: f64 = 34.5e3;

/// A service port.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Port {
    /// Low side, at the accumulator.
    Low,
    /// High side, at the discharge line.
    High,
}

impl core::fmt::Display for Port {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(match self {
            Self::Low => "low",
            Self::High => "high",
        })
    }
}

/// Why no sample was taken.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
pub enum NoSample {
    /// Nothing connects it to the port.
    #[error("port: there is no coupler on the {port}-side port")]
    NoCoupler {
        /// Which port.
        port: Port,
    },
    /// There is not enough pressure to fill its cell.
    #[error("port: {} at the port is less than {}, the least that fills the cell", psi(*.pressure), psi(LEAST_PRESSURE))]
    NoPressure {
        /// Pressure at the port, Pa gauge.
        pressure: f64,
    },
    /// It works on a sample.
    #[error("the identifier is still working on a sample for {left:.0} s")]
    Busy {
        /// Time to its result, s.
        left: f64,
    },
}

/// A gauge pressure in pounds for a message.
fn psi(pa: f64) -> String {
    format!("{:.1} psig", GaugePressure::from_si(pa).psi())
}

/// What the identifier shows: mass shares from 0 to 1, to [`RESOLUTION`].
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Shares {
    /// Each gas in the refrigerant, in the order of [`Refrigerant::ALL`].
    pub gases: [f64; Refrigerant::ALL.len()],
    /// Hydrocarbons in the refrigerant: none is ever in the bay.
    pub hydrocarbon: f64,
    /// Air in the whole sample.
    pub air: f64,
}

impl Shares {
    /// Share of a gas in the refrigerant.
    pub fn of(&self, gas: Refrigerant) -> f64 {
        self.gases[gas as usize]
    }

    /// Share of the gas there is most of.
    pub fn purity(&self) -> f64 {
        self.gases.into_iter().fold(self.hydrocarbon, f64::max)
    }

    /// The refrigerant is pure enough to be used again, if it is the right one.
    pub fn pure(&self) -> bool {
        self.purity() >= PURE
    }
}

/// The identifier.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Identifier {
    /// The sample it has, and the time to its result, s.
    sample: Option<(Shares, f64)>,
}

impl Identifier {
    /// Takes a sample at a node of the loop.
    pub(crate) fn take(&mut self, plant: &Plant, node: NodeId) -> Result<(), NoSample> {
        if let Some(left) = self.left() {
            return Err(NoSample::Busy { left });
        }
        let state = &plant.network.node(node).state;
        let pressure = state.p - plant.day().p;
        // Not a number is no pressure.
        if pressure.is_nan() || pressure < LEAST_PRESSURE {
            return Err(NoSample::NoPressure { pressure });
        }
        self.sample = Some((shares(plant, node), TIME));
        Ok(())
    }

    /// Lets time pass.
    pub(crate) fn pass(&mut self, dt: f64) {
        if let Some((_, left)) = &mut self.sample {
            *left = (*left - dt).max(0.0);
        }
    }

    /// Time to the result, s; none when no sample is being worked on.
    pub fn left(&self) -> Option<f64> {
        self.sample
            .and_then(|(_, left)| (left > 0.0).then_some(left))
    }

    /// The last result, until another sample is taken.
    pub fn result(&self) -> Option<Shares> {
        self.sample
            .and_then(|(shares, left)| (left <= 0.0).then_some(shares))
    }
}

/// Composition of the gas at a node.
fn shares(plant: &Plant, node: NodeId) -> Shares {
    let net = &plant.network;
    let n = net.node(node);
    let air = n.content[AIR];
    let gas = n.state.m_gas + air;
    let round = |share: f64| (share / RESOLUTION).round() * RESOLUTION;
    let mut gases = [0.0; Refrigerant::ALL.len()];
    if Blend::partner(net.gas()).is_some() {
        let r12 = round(net.r12_share(node));
        gases[Refrigerant::R12 as usize] = r12;
        gases[Refrigerant::R134a as usize] = round(1.0 - r12);
    } else {
        gases[net.gas() as usize] = 1.0;
    }
    Shares {
        gases,
        hydrocarbon: 0.0,
        air: if gas > 0.0 { round(air / gas) } else { 0.0 },
    }
}
