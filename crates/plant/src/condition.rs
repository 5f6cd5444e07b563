//! The condition the parts are in: what a fault is.

use serde::{Deserialize, Serialize};

/// The condition the parts are in: faults change these, never the state.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Condition {
    /// Wear of the compressor, 0 (new) to 1.
    pub compressor_wear: f64,
    /// Open share of the orifice's flow area, 0 to 1.
    pub orifice_open: f64,
    /// Share of the condenser's air flow that gets through, 0 to 1.
    pub condenser_air: f64,
    /// Share of the blower's air flow that gets through the evaporator, 0.05 to 1.
    pub evaporator_air: f64,
    /// The cycling switch's contacts are stuck closed.
    pub cycling_switch_stuck: bool,
    /// Torque that the clutch holds, as a share of a sound one's, 0 to 1.
    pub clutch_hold: f64,
    /// Share of the coil's air that a blend door lets through the heater core though it stands on cold, 0 to 1.
    pub blend_leak: f64,
    /// Share of a sound radiator's conductance, 0 to 1.
    pub radiator: f64,
}

impl Default for Condition {
    fn default() -> Self {
        Self {
            compressor_wear: 0.0,
            orifice_open: 1.0,
            condenser_air: 1.0,
            evaporator_air: 1.0,
            cycling_switch_stuck: false,
            clutch_hold: 1.0,
            blend_leak: 0.0,
            radiator: 1.0,
        }
    }
}
