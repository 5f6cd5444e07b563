//! An act in text: one object with the act's name under `do` and its fields beside it. The group is not written.
//!
//! It goes by way of one kind of value, whatever the format: read straight from each, the code for every act and
//! field stands there several times and costs the page 110 kB, 13 as sent.

use serde::{
    Deserialize, Deserializer, Serialize, Serializer,
    de::{self, DeserializeOwned},
    forward_to_deserialize_any, ser,
};
use serde_json::{Map, Value, value};

use super::{Action, GROUPS};

/// The key of the act's name.
const NAME: &str = "do";

/// How the acts of a group are read.
pub(super) struct Group {
    names: fn() -> &'static [&'static str],
    read: fn(Value) -> serde_json::Result<Action>,
}

impl Group {
    pub(super) const fn of<A: DeserializeOwned + Into<Action>>() -> Self {
        Self {
            names: names::<A>,
            read: |value| A::deserialize(value).map(Into::into),
        }
    }
}

impl Serialize for Action {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let to = value::Serializer;
        let value = match self {
            Self::Vehicle(act) => act.serialize(to),
            Self::Hose(act) => act.serialize(to),
            Self::Vessel(act) => act.serialize(to),
            Self::Machine(act) => act.serialize(to),
            Self::Bench(act) => act.serialize(to),
            Self::Fixing(act) => act.serialize(to),
            Self::Instrument(act) => act.serialize(to),
            Self::Record(act) => act.serialize(to),
            Self::Learner(act) => act.serialize(to),
            Self::Instructor(act) => act.serialize(to),
        };
        let (name, mut fields) = match value.map_err(ser::Error::custom)? {
            Value::Object(named) => match named.into_iter().next() {
                Some((name, Value::Object(fields))) => (name, fields),
                _ => return Err(ser::Error::custom("an act has a name and fields")),
            },
            Value::String(name) => (name, Map::new()),
            _ => return Err(ser::Error::custom("an act has a name")),
        };
        fields.insert(NAME.into(), Value::String(name));
        fields.serialize(s)
    }
}

impl<'de> Deserialize<'de> for Action {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let mut fields = Map::deserialize(d)?;
        let name = match fields.remove(NAME) {
            Some(Value::String(name)) => name,
            Some(_) => return Err(de::Error::custom("`do` is not text")),
            None => return Err(de::Error::missing_field(NAME)),
        };
        let group = GROUPS
            .iter()
            .find(|g| (g.names)().contains(&name.as_str()))
            .ok_or_else(|| unknown(&name))?;
        // Acts without fields are written as a bare name; those with fields then say which is missing.
        if fields.is_empty()
            && let Ok(act) = (group.read)(Value::String(name.clone()))
        {
            return Ok(act);
        }
        let named = Map::from_iter([(name, Value::Object(fields))]);
        (group.read)(Value::Object(named)).map_err(de::Error::custom)
    }
}

/// Names every act there is, as a derived reader does.
fn unknown<E: de::Error>(name: &str) -> E {
    let known = GROUPS.iter().flat_map(|g| (g.names)());
    let known: Vec<String> = known.map(|n| format!("`{n}`")).collect();
    let known = known.join(", ");
    E::custom(format_args!(
        "unknown variant `{name}`, expected one of {known}"
    ))
}

/// Returns the names that the derived reader of an enum knows.
fn names<A: DeserializeOwned>() -> &'static [&'static str] {
    let mut found: &[&str] = &[];
    // The reader hands its names over before it asks for a value, and is told that there is none.
    drop(A::deserialize(Names(&mut found)));
    found
}

/// Takes the names from the reader of an enum.
struct Names<'a>(&'a mut &'static [&'static str]);

impl<'de> Deserializer<'de> for Names<'_> {
    type Error = de::value::Error;

    fn deserialize_any<V: de::Visitor<'de>>(self, _: V) -> Result<V::Value, Self::Error> {
        Err(de::Error::custom("not an enum"))
    }

    fn deserialize_enum<V: de::Visitor<'de>>(
        self,
        _: &'static str,
        names: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Self::Error> {
        *self.0 = names;
        self.deserialize_any(visitor)
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 u8 u16 u32 u64 f32 f64 char str string bytes byte_buf option unit unit_struct newtype_struct
        seq tuple tuple_struct map struct identifier ignored_any
    }
}

#[cfg(test)]
mod tests;
