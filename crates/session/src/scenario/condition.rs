//! What is wrong with the vehicle and the gauges: the faults a scenario plants.

use lowside_plant::{
    condition::Condition,
    leak::{Leak, Site, Size},
    plant::Plant,
    relief::Relief,
};
use lowside_shop::{
    Shop,
    joints::{Joint, Seal},
    meters::Faults,
};
use lowside_units::{GaugePressure, Length, MassFlow, Quantity, Ratio, UnitError, count_in_range};
use serde::{Deserialize, Serialize};

use super::share;
use crate::limits::within;

/// Most leaks a loop may have.
const MOST_LEAKS: usize = 8;

/// Condition of the parts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a fault of its own that is there or not"
)]
pub struct ConditionSpec {
    /// Wear of the compressor.
    pub compressor_wear: Ratio,
    /// Open share of the orifice.
    pub orifice_open: Ratio,
    /// Share of the air that gets through the condenser.
    pub condenser_air: Ratio,
    /// Share of the blower's air that gets through the evaporator.
    pub evaporator_air: Ratio,
    /// The cycling switch's contacts are stuck closed.
    pub cycling_switch_stuck: bool,
    /// Torque that the compressor's clutch holds, as a share of a sound one's.
    pub clutch_hold: Ratio,
    /// Share of the coil's air that the blend door lets through the heater core though it stands on cold.
    pub blend_leak: Ratio,
    /// Share of a sound radiator's heat passage.
    pub radiator: Ratio,
    /// Water the desiccant holds at the start, share of what it can hold.
    pub desiccant_load: Ratio,
    /// The desiccant's bag has burst: its beads lie loose in the accumulator.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub bag_burst: bool,
    /// The orifice tube was put in the wrong way round.
    #[serde(skip_serializing_if = "core::ops::Not::not")]
    pub orifice_reversed: bool,
    /// Where the relief valve opens, if its spring is not as new.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub relief_opens: Option<GaugePressure>,
    /// What the compound gauge shows too much.
    pub low_gauge_offset: GaugePressure,
    /// What the high-pressure gauge shows too much.
    pub high_gauge_offset: GaugePressure,
    /// The low-side coupler's depressor does not reach the core.
    pub low_core_stuck: bool,
    /// The high-side coupler's depressor does not reach the core.
    pub high_core_stuck: bool,
    /// Where the loop leaks.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub leak: Vec<LeakSpec>,
    /// Joints that somebody has made up before.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub joint: Vec<JointSpec>,
}

/// A joint that has been made up.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JointSpec {
    /// Which.
    pub at: Joint,
    /// With what.
    pub seal: Seal,
}

/// A leak: how large in one of two ways.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeakSpec {
    /// Where.
    pub at: Site,
    /// Vapour it would lose from a loop standing at saturation at 20 degC.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate: Option<MassFlow>,
    /// Diameter of a round hole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hole: Option<Length>,
}

impl LeakSpec {
    /// The one size that is given.
    fn size(&self) -> Option<Size> {
        match (self.rate, self.hole) {
            (Some(rate), None) => Some(Size::Standing(rate.si())),
            (None, Some(hole)) => Some(Size::Hole(hole.si())),
            _ => None,
        }
    }

    fn check(&self) -> Result<(), UnitError> {
        let (least, most) = (MassFlow::from_g_yr(0.1), MassFlow::from_g_yr(100_000.0));
        if let Some(rate) = self.rate {
            within("g/yr", "rate", rate, least, most)?;
        }
        let (least, most) = (Length::from_um(1.0), Length::from_um(5000.0));
        if let Some(hole) = self.hole {
            within("um", "hole", hole, least, most)?;
        }
        if self.size().is_none() {
            return Err(UnitError::OutOfRange {
                field: "rate, hole (how many are given)".into(),
                value: u8::from(self.rate.is_some() && self.hole.is_some())
                    .saturating_mul(2)
                    .to_string(),
                lo: "1".into(),
                hi: "1".into(),
            });
        }
        Ok(())
    }
}

impl Default for ConditionSpec {
    fn default() -> Self {
        let whole = Ratio::from_si(1.0);
        Self {
            compressor_wear: Ratio::from_si(0.0),
            orifice_open: whole,
            condenser_air: whole,
            evaporator_air: whole,
            cycling_switch_stuck: false,
            clutch_hold: whole,
            blend_leak: Ratio::from_si(0.0),
            radiator: whole,
            desiccant_load: Ratio::from_si(0.05),
            bag_burst: false,
            orifice_reversed: false,
            relief_opens: None,
            low_gauge_offset: GaugePressure::from_si(0.0),
            high_gauge_offset: GaugePressure::from_si(0.0),
            low_core_stuck: false,
            high_core_stuck: false,
            leak: Vec::new(),
            joint: Vec::new(),
        }
    }
}

impl ConditionSpec {
    /// Checks every number against what it can be.
    pub(super) fn check(&self) -> Result<(), UnitError> {
        share("condition.compressor_wear", self.compressor_wear, 0.0)?;
        share("condition.orifice_open", self.orifice_open, 0.0)?;
        share("condition.condenser_air", self.condenser_air, 0.0)?;
        share("condition.evaporator_air", self.evaporator_air, 0.05)?;
        share("condition.clutch_hold", self.clutch_hold, 0.0)?;
        share("condition.blend_leak", self.blend_leak, 0.0)?;
        share("condition.radiator", self.radiator, 0.0)?;
        share("condition.desiccant_load", self.desiccant_load, 0.0)?;
        let (least, most) = (
            GaugePressure::from_kpa(-100.0),
            GaugePressure::from_kpa(100.0),
        );
        for (field, offset) in [
            ("condition.low_gauge_offset", self.low_gauge_offset),
            ("condition.high_gauge_offset", self.high_gauge_offset),
        ] {
            within("kPag", field, offset, least, most)?;
        }
        if let Some(opens) = self.relief_opens {
            let (least, most) = (
                GaugePressure::from_kpa(2000.0),
                GaugePressure::from_kpa(4500.0),
            );
            within("kPag", "condition.relief_opens", opens, least, most)?;
        }
        count_in_range(
            "condition.leak (number of leaks)",
            self.leak.len(),
            0,
            MOST_LEAKS,
        )?;
        count_in_range(
            "condition.joint (number of joints)",
            self.joint.len(),
            0,
            Joint::ALL.len(),
        )?;
        for (i, leak) in self.leak.iter().enumerate() {
            leak.check()
                .map_err(|e| e.inside(&format!("condition.leak {}", i + 1)))?;
        }
        Ok(())
    }

    /// Plants the faults of the vehicle.
    pub(super) fn plant(&self, plant: &mut Plant) {
        plant.condition = Condition {
            compressor_wear: self.compressor_wear.si(),
            orifice_open: self.orifice_open.si(),
            condenser_air: self.condenser_air.si(),
            evaporator_air: self.evaporator_air.si(),
            cycling_switch_stuck: self.cycling_switch_stuck,
            clutch_hold: self.clutch_hold.si(),
            blend_leak: self.blend_leak.si(),
            radiator: self.radiator.si(),
        };
        plant.seat.turned = self.orifice_reversed;
        if self.bag_burst {
            plant.debris.loose = plant.vehicle.accumulator.desiccant.si();
        }
        if let Some(opens) = self.relief_opens {
            plant.relief = Relief::new(opens.si());
        }
        for leak in &self.leak {
            if let Some(size) = leak.size() {
                plant.add_leak(Leak { at: leak.at, size });
            }
        }
    }

    /// Gives gauges, couplers and joints the faults that the scenario plants.
    pub(crate) fn equip(&self, shop: &mut Shop, plant: &mut Plant) {
        shop.faults = Faults {
            offset: [self.low_gauge_offset.si(), self.high_gauge_offset.si()],
            stuck: [self.low_core_stuck, self.high_core_stuck],
        };
        for joint in &self.joint {
            shop.openings.make_up(joint.at, joint.seal);
        }
        shop.set_laws(plant);
    }
}
