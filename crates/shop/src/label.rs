//! The label under the hood that a service leaves behind.
//!
//! A converted vehicle's label names the new refrigerant, its amount and the oil (US: 40 CFR 82 subpart G, appendix D, from memory;
//! it also names who did it and when). Here nobody is named, and the date is the bay's own clock.

use lowside_fluids::Gas;
use serde::{Deserialize, Serialize};

use crate::oil::OilKind;

/// A label. SI units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Label {
    /// Charge, kg.
    pub charge: f64,
    /// Refrigerant.
    pub gas: Gas,
    /// Oil, if it is named.
    pub oil: Option<OilKind>,
    /// Bay time at which it was stuck on, s.
    pub at: f64,
}
