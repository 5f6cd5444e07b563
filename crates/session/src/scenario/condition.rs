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
    fault::{self, Fault, Place, Table},
    joints::{Joint, Seal},
};
use lowside_units::{Length, MassFlow, Quantity, Ratio, UnitError, count_in_range};
use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{self, MapAccess, Visitor},
    ser::SerializeMap,
};

use crate::limits::quoted;

use super::{
    Scenario,
    values::{Values, in_range, unknown, worse},
};

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

/// Checks a value of a list against its row.
fn checked(
    table: Table,
    key: &str,
    name: &str,
    value: f64,
    vehicle: &Vehicle,
) -> Result<(), UnitError> {
    fault::field(table, key).map_or(Ok(()), |field| in_range(field, name, value, vehicle))
}

impl LeakSpec {
    /// The sizes that are given, by key, SI.
    fn sizes(&self) -> impl Iterator<Item = (&'static str, f64)> {
        let (rate, hole) = (self.rate.map(MassFlow::si), self.hole.map(Length::si));
        [("rate", rate), ("hole", hole)]
            .into_iter()
            .filter_map(|(key, size)| Some((key, size?)))
    }

    /// The one size that is given.
    fn size(&self) -> Option<Size> {
        match (self.rate, self.hole) {
            (Some(rate), None) => Some(Size::Standing(rate.si())),
            (None, Some(hole)) => Some(Size::Hole(hole.si())),
            _ => None,
        }
    }

    fn check(&self, vehicle: &Vehicle) -> Result<(), UnitError> {
        for (key, value) in self.sizes() {
            checked(Table::Leak, key, key, value, vehicle)?;
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
            let open = restriction.open.si();
            checked(Table::Restriction, "open", &name, open, vehicle)?;
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
            leak.check(vehicle)
                .map_err(|e| e.inside(&format!("condition.leak {}", i + 1)))?;
        }
        Ok(())
    }

    /// Is a fault among those of the lists by place?
    fn lists(&self, fault: &Fault) -> bool {
        match fault.place {
            Place::Passage(at) => self
                .restriction
                .iter()
                .any(|r| r.at == at && r.open.si() < 1.0),
            Place::Site(_) => {
                let mut sizes = self.leak.iter().flat_map(LeakSpec::sizes);
                sizes.any(|(key, _)| key == fault.field.key)
            }
            Place::Joint(_) => self.joint.iter().any(|joint| worse(joint.seal) > 0.0),
            Place::Loop | Place::Part(_) | Place::Device(_) => false,
        }
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

impl Scenario {
    /// Returns the faults that it plants, in the order of the registry.
    pub fn faults(&self) -> impl Iterator<Item = &'static Fault> {
        fault::all().filter(|fault| {
            let values = match fault.field.table {
                Table::Start => &self.start.values,
                _ => &self.condition.values,
            };
            self.condition.lists(fault) || values.mean(fault, &self.vehicle)
        })
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
