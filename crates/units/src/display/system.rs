//! Which unit a person reads each quantity in.
use serde::{Deserialize, Serialize};

/// Unit of pressures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum PressureUnit {
    /// psig, and inches of mercury below the atmosphere; micron in a deep vacuum.
    Psi,
    /// kPa, Pa in a deep vacuum.
    Kpa,
    /// bar, mbar in a deep vacuum.
    Bar,
}

impl PressureUnit {
    /// Symbol of absolute pressures in the running range.
    #[must_use]
    pub const fn absolute_symbol(self) -> &'static str {
        match self {
            Self::Psi => "psia",
            Self::Kpa => "kPa",
            Self::Bar => "bara",
        }
    }

    /// Symbol of absolute pressures in a deep vacuum.
    #[must_use]
    pub const fn vacuum_symbol(self) -> &'static str {
        match self {
            Self::Psi => "micron",
            Self::Kpa => "Pa",
            Self::Bar => "mbar",
        }
    }

    /// Symbol of gauge pressures.
    #[must_use]
    pub const fn gauge_symbol(self) -> &'static str {
        match self {
            Self::Psi => "psig",
            Self::Kpa => "kPag",
            Self::Bar => "barg",
        }
    }
}

/// Unit of temperatures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum TemperatureUnit {
    /// Degrees Fahrenheit.
    Fahrenheit,
    /// Degrees Celsius.
    Celsius,
}

impl TemperatureUnit {
    /// Its symbol.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Fahrenheit => "\u{b0}F",
            Self::Celsius => "\u{b0}C",
        }
    }
}

/// Unit of masses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum MassUnit {
    /// Avoirdupois ounces.
    Ounce,
    /// Grams.
    Gram,
}

/// Units of all that has no choice of its own: lengths, speeds, flows, powers, volumes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Family {
    /// in, mph, cfm, hp, Btu/h, fl oz.
    Us,
    /// mm, km/h, m3/h, kW, cm3.
    Si,
}

/// Which units a person reads, quantity by quantity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct UnitSystem {
    /// Pressures.
    pub pressure: PressureUnit,
    /// Temperatures.
    pub temperature: TemperatureUnit,
    /// Masses.
    pub mass: MassUnit,
    /// Everything else.
    pub rest: Family,
}

impl UnitSystem {
    /// psig, inHg, degF, oz, cfm, mph.
    pub const US: Self = Self {
        pressure: PressureUnit::Psi,
        temperature: TemperatureUnit::Fahrenheit,
        mass: MassUnit::Ounce,
        rest: Family::Us,
    };
    /// kPag, degC, g, m3/h, km/h.
    pub const SI: Self = Self {
        pressure: PressureUnit::Kpa,
        temperature: TemperatureUnit::Celsius,
        mass: MassUnit::Gram,
        rest: Family::Si,
    };
    /// bar, degC, g: as metric workshops mix them.
    pub const MIXED: Self = Self {
        pressure: PressureUnit::Bar,
        ..Self::SI
    };
}

impl Default for UnitSystem {
    fn default() -> Self {
        Self::US
    }
}
