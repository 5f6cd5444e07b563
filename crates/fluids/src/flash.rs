//! A full state from any two quantities, from the equation of state itself.
//!
//! For looking properties up, not for the running plant: a call takes microseconds to milliseconds.
//!
//! What is determinate:
//! * temperature with pressure on the saturation line (to 1e-7 of the pressure) is refused: any mixture
//!   would do;
//! * temperature with enthalpy: a compressed liquid can have the enthalpy of a wet mixture at the same
//!   temperature; of such states the one of lowest pressure is given;
//! * quality with density, enthalpy or entropy: where the line of constant quality passes the value more
//!   than once, the call is refused and the temperatures are listed;
//! * every other pair has one state at most.
//!
//! States so near the critical point that the equation's own two phases cannot be told apart are refused.

mod at;
mod root;
mod solve;

use crate::refrigerant::Refrigerant;
use std::fmt;
use std::str::FromStr;
use thiserror::Error;

/// What can be given or asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Quantity {
    /// Temperature, K.
    Temperature,
    /// Pressure, Pa.
    Pressure,
    /// Enthalpy, J/kg.
    Enthalpy,
    /// Entropy, J/(kg K).
    Entropy,
    /// Density, kg/m3.
    Density,
    /// Mass share of vapour, 0 to 1.
    Quality,
}

impl Quantity {
    /// Every quantity.
    pub const ALL: [Quantity; 6] = [
        Quantity::Temperature,
        Quantity::Pressure,
        Quantity::Enthalpy,
        Quantity::Entropy,
        Quantity::Density,
        Quantity::Quality,
    ];

    /// The literature's letter.
    pub const fn symbol(self) -> &'static str {
        match self {
            Quantity::Temperature => "T",
            Quantity::Pressure => "p",
            Quantity::Enthalpy => "h",
            Quantity::Entropy => "s",
            Quantity::Density => "rho",
            Quantity::Quality => "q",
        }
    }

    /// SI unit.
    pub const fn unit(self) -> &'static str {
        match self {
            Quantity::Temperature => "K",
            Quantity::Pressure => "Pa",
            Quantity::Enthalpy => "J/kg",
            Quantity::Entropy => "J/(kg K)",
            Quantity::Density => "kg/m3",
            Quantity::Quality => "kg/kg",
        }
    }
}

impl fmt::Display for Quantity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.symbol())
    }
}

impl FromStr for Quantity {
    type Err = FlashError;

    fn from_str(s: &str) -> Result<Self, FlashError> {
        Self::ALL
            .into_iter()
            .find(|q| q.symbol() == s)
            .ok_or_else(|| FlashError::Unknown { name: s.to_owned() })
    }
}

/// Why there is no state.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FlashError {
    /// A quantity that is not one of T, p, h, s, rho, q.
    #[error("{name:?} is not one of T, p, h, s, rho, q")]
    Unknown {
        /// What was asked for.
        name: String,
    },
    /// The same quantity twice.
    #[error("{quantity} is given twice; two different quantities make a state")]
    Twice {
        /// Which.
        quantity: Quantity,
    },
    /// A quantity beyond its limits, alone or together with the other one.
    #[error(
        "{quantity} = {value} {} is outside {} to {} {}",
        .quantity.unit(), figures(*.low), figures(*.high), .quantity.unit()
    )]
    Range {
        /// Which.
        quantity: Quantity,
        /// What was given.
        value: f64,
        /// Lowest possible.
        low: f64,
        /// Highest possible.
        high: f64,
    },
    /// Temperature and pressure of saturation leave the share of vapour open.
    #[error(
        "{t} K and {p} Pa are on the saturation line and leave the quality open; give q, rho, h or s instead of one"
    )]
    OnSaturation {
        /// Temperature, K.
        t: f64,
        /// Pressure, Pa.
        p: f64,
    },
    /// Several states have this quality and the other quantity.
    #[error("q with {quantity} = {value} {} has {} states, at {temperatures:?} K", .quantity.unit(), .temperatures.len())]
    Several {
        /// The quantity beside the quality.
        quantity: Quantity,
        /// Its value.
        value: f64,
        /// Where the states are, K.
        temperatures: Vec<f64>,
    },
    /// No state of this fluid has both values.
    #[error("no state has {first} = {first_value} {} and {second} = {second_value} {}", .first.unit(), .second.unit())]
    Nowhere {
        /// One quantity.
        first: Quantity,
        /// Its value.
        first_value: f64,
        /// The other.
        second: Quantity,
        /// Its value.
        second_value: f64,
    },
    /// Too near the critical point.
    #[error(
        "{t} K and {rho} kg/m3 are too near the critical point of {t_crit} K and {rho_crit} kg/m3"
    )]
    Critical {
        /// Temperature found, K.
        t: f64,
        /// Density found, kg/m3.
        rho: f64,
        /// Critical temperature, K.
        t_crit: f64,
        /// Critical density, kg/m3.
        rho_crit: f64,
    },
}

/// The region of a state.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FlashPhase {
    /// Saturated or compressed liquid, colder than the critical temperature.
    Liquid,
    /// Saturated or superheated vapour, or gas below the critical pressure.
    Vapour,
    /// A mixture of both in equilibrium.
    TwoPhase,
    /// Hotter than the critical temperature and above the critical pressure.
    Supercritical,
}

impl fmt::Display for FlashPhase {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(match self {
            FlashPhase::Liquid => "liquid",
            FlashPhase::Vapour => "vapour",
            FlashPhase::TwoPhase => "two-phase",
            FlashPhase::Supercritical => "supercritical",
        })
    }
}

/// A state with everything known about it. SI, per kilogram, IIR reference state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullState {
    /// Temperature, K.
    pub t: f64,
    /// Pressure, Pa.
    pub p: f64,
    /// Density, kg/m3.
    pub rho: f64,
    /// Enthalpy, J/kg.
    pub h: f64,
    /// Entropy, J/(kg K).
    pub s: f64,
    /// Internal energy, J/kg.
    pub u: f64,
    /// Mass share of vapour; 0 and 1 on the saturation line, `None` off it.
    pub q: Option<f64>,
    /// Heat capacity at constant pressure, J/(kg K); `None` in a mixture, where it is infinite.
    pub cp: Option<f64>,
    /// Heat capacity at constant volume, J/(kg K); `None` in a mixture.
    pub cv: Option<f64>,
    /// Speed of sound, m/s; `None` in a mixture.
    pub w: Option<f64>,
    /// The region.
    pub phase: FlashPhase,
}

impl FullState {
    /// The value of one quantity; the quality may be missing.
    pub fn get(&self, quantity: Quantity) -> Option<f64> {
        match quantity {
            Quantity::Temperature => Some(self.t),
            Quantity::Pressure => Some(self.p),
            Quantity::Enthalpy => Some(self.h),
            Quantity::Entropy => Some(self.s),
            Quantity::Density => Some(self.rho),
            Quantity::Quality => self.q,
        }
    }
}

/// The state of `gas` in which two quantities have given values (SI), in any order.
///
/// Range: from the triple point to the authors' highest temperature and pressure; `p` and `rho` above zero.
///
/// # Errors
/// [`FlashError`], naming quantity, value and limits; see the module for what is determinate.
pub fn flash(
    gas: Refrigerant,
    first: (Quantity, f64),
    second: (Quantity, f64),
) -> Result<FullState, FlashError> {
    at::Solver::new(gas.equation()).solve(first, second)
}

/// A limit to six figures, as a person reads it; the limit itself has more.
fn figures(limit: f64) -> f64 {
    format!("{limit:.5e}").parse().unwrap_or(limit)
}
