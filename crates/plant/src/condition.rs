//! The condition the parts are in: what a fault is.

use serde::{Deserialize, Serialize};

/// The condition the parts are in: faults change these, never the state.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(default)]
#[expect(clippy::struct_excessive_bools, reason = "each is a fault of its own")]
pub struct Condition {
    /// Wear of the compressor, 0 (new) to 1.
    pub compressor_wear: f64,
    /// Open share of the orifice's flow area, 0 to 1.
    pub orifice_open: f64,
    /// Share of the condenser's air flow that gets through, 0 to 1.
    pub condenser_air: f64,
    /// Share of the blower's air flow that gets through the evaporator, 0.05 to 1.
    pub evaporator_air: f64,
    /// Share of its air flow that the condenser's fan moves, of a sound one's, 0 to 1.
    #[serde(skip_serializing_if = "whole")]
    pub condenser_fan: f64,
    /// Share of the fan's air that comes round from under the hood, 0 to 0.6: nothing but what the vehicle's seals let by is 0.
    #[serde(skip_serializing_if = "none")]
    pub hood_round: f64,
    /// The recirculation door stands open to the outside, whatever its control says.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub recirculation_stuck: bool,
    /// The cycling switch's contacts are stuck closed.
    pub cycling_switch_stuck: bool,
    /// Gauge pressure at which the cycling switch opens, as a share of its set point.
    #[serde(skip_serializing_if = "whole")]
    pub cycling_switch_opens: f64,
    /// Gauge pressures at which the high-pressure cut-out opens and closes, as a share of its set points, 0.3 to 1.
    #[serde(skip_serializing_if = "whole")]
    pub cut_out_opens: f64,
    /// The high-pressure cut-out's contacts are welded together.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub cut_out_welded: bool,
    /// The clutch's circuit is broken: a fuse, the relay, a lead.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub clutch_circuit_open: bool,
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
            condenser_fan: 1.0,
            hood_round: 0.0,
            recirculation_stuck: false,
            cycling_switch_stuck: false,
            cycling_switch_opens: 1.0,
            cut_out_opens: 1.0,
            cut_out_welded: false,
            clutch_circuit_open: false,
            clutch_hold: 1.0,
            blend_leak: 0.0,
            radiator: 1.0,
        }
    }
}

// What was added later is written only where it is not sound, so that states from before keep their hash.

#[allow(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands it so; on 32 bits it is none"
)]
fn whole(share: &f64) -> bool {
    (share - 1.0).abs() <= 0.0
}

#[allow(
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands it so; on 32 bits it is none"
)]
fn none(share: &f64) -> bool {
    share.abs() <= 0.0
}
