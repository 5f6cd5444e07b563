//! Quantities as people speak and write them, and their display.
//!
//! Inside the engine every number is a bare `f64` in SI with the unit in its name. This crate is the edge:
//! newtypes for public interfaces, text such as `36 oz`, `22 psig` or `500 micron` in, formatted numbers out.
//! It knows no substance, no tool and no language but the unit names.
//!
//! - Absolute and gauge pressure are different types; going from one to the other takes the atmosphere.
//! - A quantity is a plain `f64` in SI: [`Quantity::si`] and [`Quantity::from_si`].
//! - In text formats (TOML, JSON) a quantity is a string with a unit, in binary formats its SI number.
//! - [`display`] gives number and unit with constant decimals.
//!
//! Conversion factors are the exact definitions behind NIST Special Publication 811 (2008), appendix B; see [`factor`].

pub mod display;
mod error;
pub mod factor;
mod flow;
mod heat;
mod matter;
mod motion;
mod number;
mod power;
mod pressure;
mod quantity;
mod ratio;
mod serde_text;
mod temperature;
mod time;

pub use error::{UnitError, count_in_range, in_range, plain_text, shows};
pub use flow::{MassFlow, VolumeFlow};
pub use heat::{Area, Conductance, HeatCapacity};
pub use matter::{Density, Mass, SpecificEnergy, SpecificEntropy, Volume};
pub use motion::{Length, RotationSpeed, Speed};
pub use power::Power;
pub use pressure::{AbsolutePressure, GaugePressure, Pressure, PressureDifference};
pub use quantity::{Quantity, Unit};
pub use ratio::Ratio;
pub use temperature::{Temperature, TemperatureDifference};
pub use time::Duration;
