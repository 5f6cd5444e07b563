//! The serializer that walks through a state, path by path.

use core::fmt::{self, Write};

use serde::{Serialize, ser};

use super::{Leaf, StateError};

/// Takes a leaf with its path.
pub(super) trait Each: FnMut(&str, Leaf<'_>) -> Result<(), StateError> {}

impl<F: FnMut(&str, Leaf<'_>) -> Result<(), StateError>> Each for F {}

/// On the way through a state.
pub(super) struct Walk<F> {
    /// Where it is.
    path: String,
    /// Leaves shown so far.
    count: usize,
    each: F,
}

impl<F: Each> Walk<F> {
    /// At its beginning.
    pub(super) fn new(each: F) -> Self {
        Self {
            path: String::new(),
            count: 0,
            each,
        }
    }

    fn show(&mut self, leaf: Leaf<'_>) -> Result<(), StateError> {
        self.count += 1;
        (self.each)(&self.path, leaf)
    }

    fn enter(
        &mut self,
        key: impl fmt::Display,
        value: &(impl Serialize + ?Sized),
    ) -> Result<(), StateError> {
        let before = self.path.len();
        let dot = if before > 0 { "." } else { "" };
        // Writing to a string does not fail.
        let _ = write!(self.path, "{dot}{key}");
        value.serialize(&mut *self)?;
        self.path.truncate(before);
        Ok(())
    }

    fn variant(&mut self, index: u32, name: &'static str) -> Result<(), StateError> {
        if index == 0 {
            return Ok(());
        }
        self.show(Leaf::Variant(name))
    }

    fn refuse(&self, what: &str) -> StateError {
        StateError::Form {
            path: self.path.clone(),
            detail: format!("{what} has no place in a state"),
        }
    }
}

/// Inside a struct, a list or a variant: each part has its key, or its place.
pub(super) struct Inside<'a, F> {
    walk: &'a mut Walk<F>,
    /// Of the variant that it is of, part of every path.
    variant: Option<&'static str>,
    next: usize,
}

impl<F: Each> Inside<'_, F> {
    fn part(
        &mut self,
        key: impl fmt::Display,
        value: &(impl Serialize + ?Sized),
    ) -> Result<(), StateError> {
        match self.variant {
            Some(name) => self.walk.enter(format_args!("{name}.{key}"), value),
            None => self.walk.enter(key, value),
        }
    }

    fn next(&mut self, value: &(impl Serialize + ?Sized)) -> Result<(), StateError> {
        let place = self.next;
        self.next += 1;
        self.part(place, value)
    }
}

impl<'a, F: Each> ser::Serializer for &'a mut Walk<F> {
    type Ok = ();
    type Error = StateError;
    type SerializeSeq = Inside<'a, F>;
    type SerializeTuple = Inside<'a, F>;
    type SerializeTupleStruct = Inside<'a, F>;
    type SerializeTupleVariant = Inside<'a, F>;
    type SerializeMap = ser::Impossible<(), StateError>;
    type SerializeStruct = Inside<'a, F>;
    type SerializeStructVariant = Inside<'a, F>;

    fn serialize_bool(self, v: bool) -> Result<(), StateError> {
        if v { self.show(Leaf::True) } else { Ok(()) }
    }

    fn serialize_i8(self, v: i8) -> Result<(), StateError> {
        self.serialize_i64(v.into())
    }

    fn serialize_i16(self, v: i16) -> Result<(), StateError> {
        self.serialize_i64(v.into())
    }

    fn serialize_i32(self, v: i32) -> Result<(), StateError> {
        self.serialize_i64(v.into())
    }

    fn serialize_i64(self, v: i64) -> Result<(), StateError> {
        match u64::try_from(v) {
            Ok(v) => self.serialize_u64(v),
            Err(_) => self.show(Leaf::Below(v)),
        }
    }

    fn serialize_u8(self, v: u8) -> Result<(), StateError> {
        self.serialize_u64(v.into())
    }

    fn serialize_u16(self, v: u16) -> Result<(), StateError> {
        self.serialize_u64(v.into())
    }

    fn serialize_u32(self, v: u32) -> Result<(), StateError> {
        self.serialize_u64(v.into())
    }

    fn serialize_u64(self, v: u64) -> Result<(), StateError> {
        if v == 0 {
            Ok(())
        } else {
            self.show(Leaf::Whole(v))
        }
    }

    fn serialize_f32(self, v: f32) -> Result<(), StateError> {
        self.serialize_f64(v.into())
    }

    fn serialize_f64(self, v: f64) -> Result<(), StateError> {
        if v == 0.0 {
            Ok(())
        } else {
            self.show(Leaf::Number(v))
        }
    }

    fn serialize_char(self, v: char) -> Result<(), StateError> {
        self.serialize_str(v.encode_utf8(&mut [0; 4]))
    }

    fn serialize_str(self, v: &str) -> Result<(), StateError> {
        if v.is_empty() {
            Ok(())
        } else {
            self.show(Leaf::Text(v))
        }
    }

    fn serialize_bytes(self, _: &[u8]) -> Result<(), StateError> {
        Err(self.refuse("a row of bytes"))
    }

    fn serialize_none(self) -> Result<(), StateError> {
        Ok(())
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Result<(), StateError> {
        let before = self.count;
        value.serialize(&mut *self)?;
        if self.count == before {
            self.show(Leaf::Some)?;
        }
        Ok(())
    }

    fn serialize_unit(self) -> Result<(), StateError> {
        Ok(())
    }

    fn serialize_unit_struct(self, _: &'static str) -> Result<(), StateError> {
        Ok(())
    }

    fn serialize_unit_variant(
        self,
        _: &'static str,
        index: u32,
        name: &'static str,
    ) -> Result<(), StateError> {
        self.variant(index, name)
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        value: &T,
    ) -> Result<(), StateError> {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        index: u32,
        name: &'static str,
        value: &T,
    ) -> Result<(), StateError> {
        self.variant(index, name)?;
        self.enter(name, value)
    }

    fn serialize_seq(self, length: Option<usize>) -> Result<Inside<'a, F>, StateError> {
        let length = length.ok_or_else(|| self.refuse("a list of unknown length"))?;
        if length > 0 {
            self.show(Leaf::Length(length))?;
        }
        self.serialize_tuple(length)
    }

    fn serialize_tuple(self, _: usize) -> Result<Inside<'a, F>, StateError> {
        Ok(Inside {
            walk: self,
            variant: None,
            next: 0,
        })
    }

    fn serialize_tuple_struct(
        self,
        _: &'static str,
        length: usize,
    ) -> Result<Inside<'a, F>, StateError> {
        self.serialize_tuple(length)
    }

    fn serialize_tuple_variant(
        self,
        _: &'static str,
        index: u32,
        name: &'static str,
        _: usize,
    ) -> Result<Inside<'a, F>, StateError> {
        self.variant(index, name)?;
        Ok(Inside {
            walk: self,
            variant: Some(name),
            next: 0,
        })
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Self::SerializeMap, StateError> {
        Err(self.refuse("a map"))
    }

    fn serialize_struct(self, _: &'static str, length: usize) -> Result<Inside<'a, F>, StateError> {
        self.serialize_tuple(length)
    }

    fn serialize_struct_variant(
        self,
        of: &'static str,
        index: u32,
        name: &'static str,
        length: usize,
    ) -> Result<Inside<'a, F>, StateError> {
        self.serialize_tuple_variant(of, index, name, length)
    }
}

/// Parts that have a place.
macro_rules! placed {
    ($($of:ident $method:ident),*) => { $(
        impl<F: Each> ser::$of for Inside<'_, F> {
            type Ok = ();
            type Error = StateError;

            fn $method<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), StateError> {
                self.next(value)
            }

            fn end(self) -> Result<(), StateError> {
                Ok(())
            }
        }
    )* };
}

placed!(
    SerializeSeq serialize_element,
    SerializeTuple serialize_element,
    SerializeTupleStruct serialize_field,
    SerializeTupleVariant serialize_field
);

/// Parts that have a key.
macro_rules! keyed {
    ($($of:ident),*) => { $(
        impl<F: Each> ser::$of for Inside<'_, F> {
            type Ok = ();
            type Error = StateError;

            fn serialize_field<T: Serialize + ?Sized>(
                &mut self,
                key: &'static str,
                value: &T,
            ) -> Result<(), StateError> {
                self.part(key, value)
            }

            fn end(self) -> Result<(), StateError> {
                Ok(())
            }
        }
    )* };
}

keyed!(SerializeStruct, SerializeStructVariant);
