//! Quantities as people read them: number and unit, in the unit system they chose.
//!
//! Decimals are constant per unit, so a reading never changes its apparent precision; an instrument with another
//! resolution sets its own with [`Style::with_decimals`]. Numbers carry the typographic minus (U+2212), never "-0".

mod choose;
mod style;
mod system;

pub use choose::{
    absolute_pressure, air_speed, duration, gauge_pressure, heat_flow, large_mass, leak_rate,
    length, mass, mass_flow, power, pressure_difference, ratio, rotation, small_mass, speed,
    temperature, temperature_difference, vacuum, volume, volume_flow,
};
pub use style::{Shown, Style};
pub use system::{Family, MassUnit, PressureUnit, TemperatureUnit, UnitSystem};
