//! A scenario as data in the program: read through its types like a file, but with no text to take apart.
//!
//! The page opens with one. A reader of JSON and of units would be a tenth of what it sends first.

use std::fmt;

use serde::{
    Deserializer,
    de::{
        self, IntoDeserializer, Visitor,
        value::{MapDeserializer, SeqDeserializer},
    },
    forward_to_deserialize_any,
};

/// A value; quantities are numbers in SI.
#[derive(Debug)]
pub(super) enum Data {
    Switch(bool),
    Count(u32),
    Number(f64),
    Text(&'static str),
    List(&'static [Data]),
    Table(&'static [(&'static str, Data)]),
}

/// The data are no scenario. Why is for the test that reads the same as text.
#[derive(Debug)]
pub(super) struct Unfit;

impl fmt::Display for Unfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("no scenario")
    }
}

impl std::error::Error for Unfit {}

impl de::Error for Unfit {
    fn custom<T: fmt::Display>(_: T) -> Self {
        Self
    }
}

impl IntoDeserializer<'static, Unfit> for &'static Data {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}

impl Deserializer<'static> for &'static Data {
    type Error = Unfit;

    fn deserialize_any<V: Visitor<'static>>(self, visitor: V) -> Result<V::Value, Unfit> {
        match *self {
            Data::Switch(on) => visitor.visit_bool(on),
            Data::Count(n) => visitor.visit_u32(n),
            Data::Number(x) => visitor.visit_f64(x),
            Data::Text(text) => visitor.visit_borrowed_str(text),
            Data::List(list) => visitor.visit_seq(SeqDeserializer::new(list.iter())),
            Data::Table(table) => {
                let entries = table.iter().map(|(key, value)| (*key, value));
                visitor.visit_map(MapDeserializer::new(entries))
            }
        }
    }

    fn deserialize_option<V: Visitor<'static>>(self, visitor: V) -> Result<V::Value, Unfit> {
        visitor.visit_some(self)
    }

    fn deserialize_enum<V: Visitor<'static>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Unfit> {
        match *self {
            Data::Text(variant) => visitor.visit_enum(variant.into_deserializer()),
            _ => Err(Unfit),
        }
    }

    /// Quantities are numbers here.
    fn is_human_readable(&self) -> bool {
        false
    }

    forward_to_deserialize_any! { <V: Visitor<'static>>
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf unit unit_struct
        newtype_struct seq tuple tuple_struct map struct identifier ignored_any
    }
}
