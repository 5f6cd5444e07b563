//! An act in text: one object with the act's name under `do` and its fields beside it.
//!
//! It goes by way of one kind of value, whatever the format: read straight from each, the code for every act and field stands
//! there several times and costs the page 110 kB, 13 as sent.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de, ser};
use serde_json::{Map, Value};

use super::Action;

/// The key of the act's name.
const NAME: &str = "do";

impl Serialize for Action {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let value =
            Action::serialize(self, serde_json::value::Serializer).map_err(ser::Error::custom)?;
        let (name, mut fields) = match value {
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
        let value = if fields.is_empty() {
            // Acts without fields are written as a bare name; those with fields then say which is missing.
            match Action::deserialize(Value::String(name.clone())) {
                Ok(act) => return Ok(act),
                Err(e) if e.to_string().contains("unknown variant") => {
                    return Err(de::Error::custom(e));
                }
                Err(_) => Map::from_iter([(name, Value::Object(fields))]),
            }
        } else {
            Map::from_iter([(name, Value::Object(fields))])
        };
        Action::deserialize(Value::Object(value)).map_err(de::Error::custom)
    }
}
