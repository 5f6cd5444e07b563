//! Values of a table's fields, read, checked, applied and written by the rows of the faults.

use lowside_plant::{charge::Start, plant::Plant, vehicle::Vehicle};
use lowside_shop::{
    Shop,
    fault::{self, Applies, Fault, Field, Kind, Place, Severity, Sound, Table},
    joints::Seal,
};
use lowside_units::{GaugePressure, Length, Mass, MassFlow, Quantity, Ratio, UnitError};
use serde::{
    Deserialize, Deserializer, Serialize,
    de::{self, DeserializeSeed, MapAccess},
    ser::SerializeMap,
};

use crate::limits::{quoted, within};

/// What a scenario gives in a table, SI by key, in the order of the keys. What it leaves out, or gives as it is anyway, is as in a sound
/// vehicle.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Values(Vec<(&'static str, f64)>);

impl Values {
    /// Returns what is given for a key.
    pub(crate) fn given(&self, key: &str) -> Option<f64> {
        self.0
            .iter()
            .find_map(|(k, value)| (*k == key).then_some(*value))
    }

    /// Gives a field a value, SI.
    pub(crate) fn set(&mut self, field: &Field, value: f64) {
        self.0.retain(|(key, _)| *key != field.key);
        if !matches!(field.sound, Sound::Is(sound) if (value - sound).abs() <= 0.0) {
            let at = self.0.partition_point(|(key, _)| *key < field.key);
            self.0.insert(at, (field.key, value));
        }
    }

    /// Is a fault what is given for its field?
    pub(crate) fn mean(&self, fault: &Fault, vehicle: &Vehicle) -> bool {
        let given = self.given(fault.field.key);
        let meant = given.and_then(|value| fault::of_value(fault.field, value, vehicle));
        meant.is_some_and(|meant| meant.id == fault.id)
    }

    /// Reads the value of a key; false if the table has no such field.
    pub(crate) fn read<'de, A: MapAccess<'de>>(
        &mut self,
        table: Table,
        key: &str,
        map: &mut A,
    ) -> Result<bool, A::Error> {
        let Some(field) = fault::field(table, key) else {
            return Ok(false);
        };
        self.set(field, map.next_value_seed(ValueOf(field.kind))?);
        Ok(true)
    }

    /// Writes what is given.
    pub(crate) fn write<M: SerializeMap>(&self, table: Table, map: &mut M) -> Result<(), M::Error> {
        for field in fault::fields(table) {
            let Some(value) = self.given(field.key) else {
                continue;
            };
            match field.kind {
                Kind::Share => map.serialize_entry(field.key, &Ratio::from_si(value))?,
                Kind::Mass => map.serialize_entry(field.key, &Mass::from_si(value))?,
                Kind::Gauge => map.serialize_entry(field.key, &GaugePressure::from_si(value))?,
                Kind::Switch => map.serialize_entry(field.key, &(value > 0.0))?,
                // Of the lists by place, which write themselves.
                Kind::Flow | Kind::Length | Kind::Seal => {}
            }
        }
        Ok(())
    }

    /// Checks every value against what it can be in a vehicle. `place` is the table's name.
    pub(crate) fn check(
        &self,
        table: Table,
        place: &str,
        vehicle: &Vehicle,
    ) -> Result<(), UnitError> {
        for field in fault::fields(table) {
            if let Some(value) = self.given(field.key) {
                in_range(field, &format!("{place}.{}", field.key), value, vehicle)?;
            }
        }
        Ok(())
    }

    /// Fills in what the loop holds at the start: what a table gives, and else what a sound vehicle holds.
    pub(crate) fn fill(&self, table: Table, start: &mut Start, vehicle: &Vehicle) {
        for field in fault::fields(table) {
            if let Applies::Start(apply) = field.applies {
                let value = self.given(field.key);
                apply(start, value.unwrap_or_else(|| field.sound.of(vehicle)));
            }
        }
    }

    /// Plants what a table gives in the vehicle.
    pub(crate) fn plant(&self, table: Table, plant: &mut Plant) {
        for field in fault::fields(table) {
            if let Some(value) = self.given(field.key) {
                field.applies.to_plant(plant, value);
            }
        }
    }

    /// Gives the shop's tools what a table gives.
    pub(crate) fn equip(&self, table: Table, shop: &mut Shop) {
        for field in fault::fields(table) {
            if let Some(value) = self.given(field.key) {
                field.applies.to_shop(shop, value);
            }
        }
    }
}

/// Returns a fault at a severity in a vehicle as the override `key=value` that sets it, at its place or the most usual one.
pub fn setting(fault: &Fault, severity: Severity, vehicle: &Vehicle) -> String {
    let value = fault.at(severity, vehicle);
    let text = match (fault.field.kind, fault.field.kind.unit()) {
        (_, Some(unit)) => format!("{} {}", unit.of_si(value), unit.names[0]),
        (Kind::Seal, None) => name(&seal(value)),
        (_, None) => (value > 0.0).to_string(),
    };
    let key = fault.field.key;
    let one = |list, at| format!(r#"condition.{list}=[{{at="{at}",{key}="{text}"}}]"#);
    match fault.place {
        Place::Passage(at) if fault.field.table == Table::Restriction => {
            one("restriction", at.key().to_owned())
        }
        Place::Site(at) => one("leak", name(&at)),
        Place::Joint(at) => one("joint", name(&at)),
        _ if fault.field.table == Table::Start => format!("start.{key}={text}"),
        _ => format!("condition.{key}={text}"),
    }
}

/// The O-ring of a field's value.
pub(super) fn seal(value: f64) -> Seal {
    let worse = |seal: &&Seal| worse(**seal) >= value;
    Seal::WORSE
        .iter()
        .find(worse)
        .copied()
        .unwrap_or(Seal::Missing)
}

/// The value of a field for an O-ring: how many let out less.
pub(super) fn worse(seal: Seal) -> f64 {
    let less = Seal::WORSE.iter().take_while(|s| **s != seal);
    less.count() as f64
}

/// The name of a place or a seal in files.
fn name(of: &impl Serialize) -> String {
    let value = serde_json::to_value(of).unwrap_or_default();
    value.as_str().unwrap_or_default().to_owned()
}

/// Passes a value that a field can have in a vehicle; the message speaks in the unit of its kind.
pub(crate) fn in_range(
    field: &Field,
    name: &str,
    value: f64,
    vehicle: &Vehicle,
) -> Result<(), UnitError> {
    let (least, most) = (field.range)(vehicle);
    match field.kind {
        Kind::Share => told::<Ratio>("%", name, [value, least, most]),
        Kind::Mass => told::<Mass>("g", name, [value, least, most]),
        Kind::Gauge => told::<GaugePressure>("kPag", name, [value, least, most]),
        Kind::Flow => told::<MassFlow>("g/yr", name, [value, least, most]),
        Kind::Length => told::<Length>("um", name, [value, least, most]),
        Kind::Switch | Kind::Seal => Ok(()),
    }
}

fn told<Q: Quantity>(unit: &str, name: &str, si: [f64; 3]) -> Result<(), UnitError> {
    let [value, least, most] = si.map(Q::from_si);
    within(unit, name, value, least, most).map(|_| ())
}

/// Says which keys a table has, after one that it does not have.
pub(crate) fn unknown<E: de::Error>(key: &str, table: Table, more: &[&str]) -> E {
    let keys = fault::fields(table)
        .map(|f| f.key)
        .chain(more.iter().copied());
    E::custom(format_args!(
        "unknown field `{key}`, expected one of {}",
        quoted(keys)
    ))
}

/// Reads a value of a kind, SI.
struct ValueOf(Kind);

impl<'de> DeserializeSeed<'de> for ValueOf {
    type Value = f64;

    fn deserialize<D: Deserializer<'de>>(self, d: D) -> Result<f64, D::Error> {
        match self.0 {
            Kind::Share => Ratio::deserialize(d).map(Ratio::si),
            Kind::Mass => Mass::deserialize(d).map(Mass::si),
            Kind::Gauge => GaugePressure::deserialize(d).map(GaugePressure::si),
            Kind::Flow => MassFlow::deserialize(d).map(MassFlow::si),
            Kind::Length => Length::deserialize(d).map(Length::si),
            Kind::Seal => Seal::deserialize(d).map(worse),
            Kind::Switch => bool::deserialize(d).map(|on| f64::from(u8::from(on))),
        }
    }
}
