//! A vehicle whose data sheet was altered, and the same vehicle as its data sheet stood before.
//!
//! What is altered may be a fault in disguise, so a sound vehicle has none of it. The values of before are kept in the scenario, and with it
//! in every take.

use std::sync::Arc;

use lowside_plant::vehicle::Vehicle;
use serde::{Deserialize, Serialize, Serializer};
use serde_json::{Map, Value};

/// The key under which a scenario lists what was altered.
pub(super) const KEY: &str = "altered";

/// A value of a data sheet that was altered.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Alteration {
    /// Its path, as `vehicle.suction_line.pressure_loss`.
    pub field: String,
    /// What it was before; nothing where the data sheet left it out.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub was: Option<Value>,
}

/// What was altered in a vehicle's data sheet. Serialised it is the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Altered {
    before: Arc<Vehicle>,
    list: Vec<Alteration>,
}

impl Altered {
    /// Compares a vehicle with the same as it was before; none if nothing of its data sheet is another. Its name is no part of that.
    pub(super) fn between(before: Vehicle, now: &Vehicle) -> Option<Self> {
        let written = |v| serde_json::to_value(v).unwrap_or_default();
        let mut list = Vec::new();
        differences("vehicle", &written(&before), &written(now), &mut list);
        list.retain(|a| a.field != "vehicle.name");
        let before = Arc::new(before);
        (!list.is_empty()).then_some(Self { before, list })
    }

    /// The vehicle as its data sheet stood before.
    pub fn before(&self) -> &Arc<Vehicle> {
        &self.before
    }

    /// What was altered, by path.
    pub fn list(&self) -> &[Alteration] {
        &self.list
    }
}

impl Serialize for Altered {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        self.list.serialize(s)
    }
}

/// Takes the list of what was altered out of a scenario's table and returns the vehicle without that; none if there is no list.
pub(super) fn take(scenario: &mut Map<String, Value>) -> Result<Option<Vehicle>, String> {
    let Some(list) = scenario.remove(KEY) else {
        return Ok(None);
    };
    let list: Vec<Alteration> = serde_json::from_value(list).map_err(|e| e.to_string())?;
    let mut vehicle = scenario.get("vehicle").cloned().unwrap_or_default();
    for Alteration { field, was } in list {
        let place = field.strip_prefix("vehicle.").and_then(|path| {
            let (way, last) = path.rsplit_once('.').unwrap_or(("", path));
            let mut way = way.split('.').filter(|key| !key.is_empty());
            let table = way.try_fold(&mut vehicle, |at, key| at.get_mut(key))?;
            Some((table.as_object_mut()?, last))
        });
        let (table, key) = place.ok_or_else(|| format!("`{field}` is no field of a vehicle"))?;
        match was {
            Some(was) => table.insert(key.to_owned(), was),
            None => table.remove(key),
        };
    }
    serde_json::from_value(vehicle)
        .map(Some)
        .map_err(|e| e.to_string())
}

/// Lists the values that differ, by path.
fn differences(path: &str, before: &Value, now: &Value, found: &mut Vec<Alteration>) {
    let (Value::Object(a), Value::Object(b)) = (before, now) else {
        if before != now {
            let field = path.to_owned();
            let was = (!before.is_null()).then(|| before.clone());
            found.push(Alteration { field, was });
        }
        return;
    };
    let more = b.keys().filter(|key| !a.contains_key(*key));
    for key in a.keys().chain(more) {
        let of = |map: &Map<String, Value>| map.get(key).cloned().unwrap_or_default();
        differences(&format!("{path}.{key}"), &of(a), &of(b), found);
    }
}
