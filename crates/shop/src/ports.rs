//! The two service ports: core, cap, and the fitting that takes the hoses of one gas alone.
//!
//! Threaded or a quick coupler as the gas's data say ([`lowside_fluids::refrigerant::Fitting`]), and of a shape and diameter of its
//! own, so that no hose goes onto another gas's port by hand or with usual tools (SAE J639 for vehicles, J2197 for hoses, from memory; 40 CFR 82 subpart G, appendix
//! H for conversions: fittings that screw on differ by a sixteenth of an inch or turn the other way).

use lowside_fluids::{
    Refrigerant,
    refrigerant::{Fitting, Retrofit},
};
use serde::{Deserialize, Serialize};

use crate::joints::GRAM_A_YEAR;

/// One of the two service ports.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Side {
    /// At the accumulator.
    Low,
    /// At the discharge line.
    High,
}

/// A conversion fitting, which has a core of its own, by what is under it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Over {
    /// The old core was taken out.
    NoCore,
    /// The old core was left in: what passes has two cores to pass.
    OldCore,
}

/// Where on the low side a port sits, for vehicles that have two.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LowPort {
    /// At the accumulator's top: what goes in as liquid falls into the accumulator and boils there.
    #[default]
    Accumulator,
    /// On the suction line, at the compressor: what goes in as liquid is drawn in as liquid.
    Compressor,
}

/// A service port's fitting, core and cap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Port {
    /// Whose hoses it takes.
    pub fitting: Refrigerant,
    /// The conversion fitting that is locked on over the one it was built with, if there is one.
    pub over: Option<Over>,
    /// The core is in.
    pub core: bool,
    /// The core is the one that came with the vehicle; it seeps unless capped.
    pub old_core: bool,
    /// The cap is on.
    pub cap: bool,
}

/// What an old core without its cap lets out of a loop at rest at 20 degC, kg/s: an ounce a year (trade: ounces a year).
const OLD_CORE: f64 = 28.0 * GRAM_A_YEAR;
/// Share of that which passes a cap: the cap is the primary seal (own figure).
const CAPPED: f64 = 0.03;
/// Passage of a port without its core, m2 (2.5 mm).
pub(crate) const BARE: f64 = 5e-6;
/// Passage of two equal cores behind each other over that of one: the square root of a half.
const BEHIND_EACH_OTHER: f64 = core::f64::consts::FRAC_1_SQRT_2;

impl Port {
    /// A port as built for `gas`, its cap off.
    pub fn new(gas: Refrigerant) -> Self {
        Self {
            fitting: gas,
            over: None,
            core: true,
            old_core: true,
            cap: false,
        }
    }

    /// The conversion whose fitting screws over it: over a thread, where there is none yet.
    pub fn takes_fitting(&self) -> Option<Retrofit> {
        let data = self.fitting.data();
        let free = data.port == Fitting::Threaded && self.over.is_none();
        data.retrofit.filter(|_| free)
    }

    /// Screws a conversion fitting for `gas` on, which locks: with a core of its own, the old one taken out before or left in.
    pub fn convert(&mut self, gas: Refrigerant, new_core: bool) {
        *self = Self {
            fitting: gas,
            over: Some(if self.core && !new_core {
                Over::OldCore
            } else {
                Over::NoCore
            }),
            core: true,
            old_core: self.old_core && !new_core,
            cap: false,
        };
    }

    /// How far a coupler on it opens the way, 0 to 1.
    pub fn opens(&self) -> f64 {
        if self.over == Some(Over::OldCore) {
            BEHIND_EACH_OTHER
        } else {
            1.0
        }
    }

    /// What it lets through both ways while no coupler is on it (m2), and what it seeps at rest at 20 degC (kg/s).
    pub(crate) fn lets(self) -> (f64, f64) {
        if !self.core && !self.cap {
            (BARE, 0.0)
        } else if self.old_core || !self.core {
            (0.0, OLD_CORE * if self.cap { CAPPED } else { 1.0 })
        } else {
            (0.0, 0.0)
        }
    }
}
