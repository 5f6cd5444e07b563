//! What is wrong with the vehicle and the gauges: the faults a scenario plants.

use std::fmt;

use lowside_plant::{
    leak::{Leak, Site, Size},
    passage::Passage,
    plant::Plant,
    vehicle::Vehicle,
};
use lowside_shop::{
    Shop,
    fault::{self, Table},
    joints::{Joint, Seal},
};
use lowside_units::{Length, MassFlow, Quantity, Ratio, UnitError, count_in_range};
use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{self, MapAccess, Visitor},
    ser::SerializeMap,
};

use super::values::{Values, in_range, quoted, unknown};
use crate::limits::within;

/// Most leaks a loop may have.
const MOST_LEAKS: usize = 8;

/// Most restrictions a loop may have.
const MOST_RESTRICTIONS: usize = 8;
/// Keys of the lists by place.
const LISTS: [&str; 3] = ["restriction", "leak", "joint"];

/// Condition of the parts and tools.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ConditionSpec {
    /// What is not as in a sound vehicle.
    pub(super) values: Values,
    /// Passages that are narrowed.
    pub restriction: Vec<RestrictionSpec>,
    /// Where the loop leaks.
    pub leak: Vec<LeakSpec>,
    /// Joints that somebody has made up before.
    pub joint: Vec<JointSpec>,
}

/// A passage that is narrowed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RestrictionSpec {
    /// Which.
    #[serde(deserialize_with = "passage")]
    pub at: Passage,
    /// How much of its flow area is open.
    pub open: Ratio,
}

/// Reads a passage that has a fault of its own.
fn passage<'de, D: Deserializer<'de>>(d: D) -> Result<Passage, D::Error> {
    let text = String::deserialize(d)?;
    fault::passages()
        .find(|at| at.key() == text)
        .ok_or_else(|| {
            let known = quoted(fault::passages().map(Passage::key));
            de::Error::custom(format_args!(
                "unknown variant `{text}`, expected one of {known}"
            ))
        })
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

impl ConditionSpec {
    /// Checks every number against what it can be.
    pub(super) fn check(&self, vehicle: &Vehicle) -> Result<(), UnitError> {
        self.values.check(Table::Condition, "condition", vehicle)?;
        count_in_range(
            "condition.restriction (number of restrictions)",
            self.restriction.len(),
            0,
            MOST_RESTRICTIONS,
        )?;
        for (i, restriction) in self.restriction.iter().enumerate() {
            let name = format!("condition.restriction {}.open", i + 1);
            if let Some(open) = fault::field(Table::Restriction, "open") {
                in_range(open, &name, restriction.open.si(), vehicle)?;
            }
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
        self.values.plant(Table::Condition, plant);
        for restriction in &self.restriction {
            plant.restrict(restriction.at, restriction.open.si());
        }
        for leak in &self.leak {
            if let Some(size) = leak.size() {
                plant.add_leak(Leak { at: leak.at, size });
            }
        }
    }

    /// Gives gauges, couplers and joints the faults that the scenario plants.
    pub(crate) fn equip(&self, shop: &mut Shop, plant: &mut Plant) {
        self.values.equip(Table::Condition, shop);
        for joint in &self.joint {
            shop.openings.make_up(joint.at, joint.seal);
        }
        shop.set_laws(plant);
    }
}

impl Serialize for ConditionSpec {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let mut map = s.serialize_map(None)?;
        self.values.write(Table::Condition, &mut map)?;
        let [restriction, leak, joint] = LISTS;
        if !self.restriction.is_empty() {
            map.serialize_entry(restriction, &self.restriction)?;
        }
        if !self.leak.is_empty() {
            map.serialize_entry(leak, &self.leak)?;
        }
        if !self.joint.is_empty() {
            map.serialize_entry(joint, &self.joint)?;
        }
        map.end()
    }
}

impl<'de> Deserialize<'de> for ConditionSpec {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct Condition;
        impl<'de> Visitor<'de> for Condition {
            type Value = ConditionSpec;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a table of what is wrong")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<ConditionSpec, A::Error> {
                let mut condition = ConditionSpec::default();
                while let Some(key) = map.next_key::<String>()? {
                    match key.as_str() {
                        "restriction" => condition.restriction = map.next_value()?,
                        "leak" => condition.leak = map.next_value()?,
                        "joint" => condition.joint = map.next_value()?,
                        key => {
                            if !condition.values.read(Table::Condition, key, &mut map)? {
                                return Err(unknown(key, Table::Condition, &LISTS));
                            }
                        }
                    }
                }
                Ok(condition)
            }
        }
        d.deserialize_map(Condition)
    }
}
