//! What the loop holds at the start, and how warm the cabin is.

use std::fmt;

use lowside_plant::vehicle::Vehicle;
use lowside_shop::fault::Table;
use lowside_units::{Mass, Temperature, UnitError};
use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{MapAccess, Visitor},
    ser::SerializeMap,
};

use super::values::{Values, unknown};
use crate::limits::within;

/// Key of the one field that is no fault.
const CABIN: &str = "cabin";

/// What the loop holds at the start.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StartSpec {
    /// What the loop holds, as far as it is not what a sound one holds.
    pub(super) values: Values,
    /// Cabin temperature; the day's when left out.
    pub cabin: Option<Temperature>,
}

impl StartSpec {
    /// Returns the air left in the loop, kg.
    pub fn air(&self) -> f64 {
        self.values.given("air").unwrap_or(0.0)
    }

    /// Returns the water in the loop outside the desiccant, kg.
    pub fn water(&self) -> f64 {
        self.values.given("water").unwrap_or(0.0)
    }

    /// Returns the refrigerant in the loop, kg; none when it is the label's charge.
    pub fn charge(&self) -> Option<f64> {
        self.values.given("charge")
    }

    /// Checks every value against what it can be.
    pub(super) fn check(&self, vehicle: &Vehicle) -> Result<(), UnitError> {
        if self.values.given("charge").is_none() {
            let (none, most) = (Mass::from_g(0.0), vehicle.most_charge());
            within(
                "g",
                "vehicle.label_charge",
                vehicle.label_charge,
                none,
                most,
            )?;
        }
        self.values.check(Table::Start, "start", vehicle)?;
        if let Some(t) = self.cabin {
            let (least, most) = (
                Temperature::from_deg_c(-10.0),
                Temperature::from_deg_c(85.0),
            );
            within("degC", "start.cabin", t, least, most)?;
        }
        Ok(())
    }
}

impl Serialize for StartSpec {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let mut map = s.serialize_map(None)?;
        self.values.write(Table::Start, &mut map)?;
        if let Some(t) = &self.cabin {
            map.serialize_entry(CABIN, t)?;
        }
        map.end()
    }
}

impl<'de> Deserialize<'de> for StartSpec {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct Start;
        impl<'de> Visitor<'de> for Start {
            type Value = StartSpec;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a table of what the loop holds at the start")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<StartSpec, A::Error> {
                let mut start = StartSpec::default();
                while let Some(key) = map.next_key::<String>()? {
                    if key == CABIN {
                        start.cabin = Some(map.next_value()?);
                    } else if !start.values.read(Table::Start, &key, &mut map)? {
                        return Err(unknown(&key, Table::Start, &[CABIN]));
                    }
                }
                Ok(start)
            }
        }
        d.deserialize_map(Start)
    }
}
