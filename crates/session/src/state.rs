//! A state as leaves: each a path and a value. Fingerprint and difference go over the leaves, checkpoints over the same serialised
//! fields, so what is in the state is in all three and nobody keeps a list.
//!
//! A leaf that is 0, false, none, empty or the first of its enum's variants is left out: a field that is new and at its default moves no
//! fingerprint. 0 and -0 are one. A list tells its length if it has any, a variant beyond the first its name.
//!
//! The fingerprint is the Fowler-Noll-Vo hash, variant 1a, of 64 bits over the leaves: published with check values, the same
//! everywhere, six lines. It tells states apart that differ by accident; it is no seal against anybody.

use core::fmt;

use lowside_plant::built::Misfit;
use serde::{Serialize, ser};
use thiserror::Error;

use crate::limits::size;

mod walk;
use walk::Walk;

/// Why a state cannot be kept, or not be taken up.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum StateError {
    /// A number that is none.
    #[error("{path} = {value} is not a finite number")]
    NotFinite {
        /// Where in the state.
        path: String,
        /// What stands there.
        value: String,
    },
    /// Too large.
    #[error("the checkpoint is larger than {}, the most it may be", size(*.most))]
    TooLarge {
        /// Most bytes it may have.
        most: usize,
    },
    /// Not of the form.
    #[error("not a checkpoint: {path}: {detail}")]
    Form {
        /// Where in it.
        path: String,
        /// What the reader of the text says, in English.
        detail: String,
    },
    /// It belongs to another vehicle.
    #[error("the checkpoint is another bay's: {0}")]
    Misfit(#[from] Misfit),
    /// It is not what was written.
    #[error(
        "the checkpoint's state has the fingerprint {got}, not the {said} it was written with; it was edited, or another \
         version wrote it"
    )]
    Differs {
        /// Of the state in it.
        got: String,
        /// As it says.
        said: String,
    },
}

impl ser::Error for StateError {
    fn custom<T: fmt::Display>(detail: T) -> Self {
        Self::Form {
            path: "state".to_owned(),
            detail: detail.to_string(),
        }
    }
}

/// The value of a leaf.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Leaf<'a> {
    /// A number but 0.
    Number(f64),
    /// A whole number above 0, and one below it.
    Whole(u64),
    Below(i64),
    True,
    /// Text that is not empty.
    Text(&'a str),
    /// A variant beyond the first.
    Variant(&'a str),
    /// There is something, though all of it is at its default.
    Some,
    /// How many there are in a list that is not empty.
    Length(usize),
}

impl fmt::Display for Leaf<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number(x) => write!(f, "{x:?}"),
            Self::Whole(n) => n.fmt(f),
            Self::Below(n) => n.fmt(f),
            Self::True => f.write_str("true"),
            Self::Text(text) => write!(f, "{text:?}"),
            Self::Variant(name) => f.write_str(name),
            Self::Some => f.write_str("something"),
            Self::Length(n) => write!(f, "{n} of them"),
        }
    }
}

/// Shows every leaf of a state to `each`, in the order of the fields.
///
/// # Errors
/// That of `each`; [`StateError::Form`] for what has no place in a state: a map, bytes.
pub(crate) fn leaves(
    state: &impl Serialize,
    each: impl FnMut(&str, Leaf<'_>) -> Result<(), StateError>,
) -> Result<(), StateError> {
    state.serialize(&mut Walk::new(each))
}

/// Fowler-Noll-Vo, variant 1a, 64 bit.
struct Fnv(u64);

impl Fnv {
    fn new() -> Self {
        Self(0xcbf2_9ce4_8422_2325)
    }

    fn bytes(&mut self, bytes: &[u8]) {
        for b in bytes {
            self.0 = (self.0 ^ u64::from(*b)).wrapping_mul(0x0100_0000_01b3);
        }
    }
}

/// The hash of a text.
pub(crate) fn hash_of_text(text: &str) -> u64 {
    let mut hash = Fnv::new();
    hash.bytes(text.as_bytes());
    hash.0
}

/// The fingerprint of a state.
///
/// # Errors
/// [`StateError::NotFinite`], naming the place.
pub(crate) fn hash_of(state: &impl Serialize) -> Result<u64, StateError> {
    let mut hash = Fnv::new();
    leaves(state, |path, leaf| {
        let (kind, value) = match leaf {
            Leaf::Number(x) if !x.is_finite() => {
                return Err(StateError::NotFinite {
                    path: path.to_owned(),
                    value: x.to_string(),
                });
            }
            Leaf::Number(x) => (1, x.to_bits()),
            Leaf::Whole(n) => (2, n),
            Leaf::Below(n) => (3, n.cast_unsigned()),
            Leaf::True => (4, 0),
            Leaf::Text(text) => (5, text.len() as u64),
            Leaf::Variant(name) => (6, name.len() as u64),
            Leaf::Some => (7, 0),
            Leaf::Length(n) => (8, n as u64),
        };
        hash.bytes(path.as_bytes());
        // No byte of a path is below 32, so a path and what follows it are never taken for another path.
        hash.bytes(&[kind]);
        hash.bytes(&value.to_le_bytes());
        if let Leaf::Text(text) | Leaf::Variant(text) = leaf {
            hash.bytes(text.as_bytes());
        }
        Ok(())
    })?;
    Ok(hash.0)
}

/// A leaf in which two states differ.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Difference {
    /// Where in the state.
    pub path: String,
    /// What stands there in either; none where it is 0, false, none or empty.
    pub values: [Option<String>; 2],
}

impl fmt::Display for Difference {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let [a, b] = self
            .values
            .each_ref()
            .map(|value| value.as_deref().unwrap_or("nothing"));
        write!(f, "{}: {a} and {b}", self.path)
    }
}

/// Every leaf in which two states differ, in the order of the first; numbers that are none count as any other.
pub(crate) fn differences(a: &impl Serialize, b: &impl Serialize) -> Vec<Difference> {
    let (a, b) = (listed(a), listed(b));
    let mut found = Vec::new();
    let mut rest = b.iter().peekable();
    for (path, value) in &a {
        // Both are in the order of the fields: what the second has before the next they share, the first lacks.
        let Some(at) = rest.clone().position(|(p, _)| p == path) else {
            found.push((path, [Some(value), None]));
            continue;
        };
        found.extend(rest.by_ref().take(at).map(|(p, v)| (p, [None, Some(v)])));
        if let Some((_, other)) = rest.next()
            && other != value
        {
            found.push((path, [Some(value), Some(other)]));
        }
    }
    found.extend(rest.map(|(p, v)| (p, [None, Some(v)])));
    let told = |(path, values): (&String, [Option<&String>; 2])| Difference {
        path: path.clone(),
        values: values.map(Option::<&String>::cloned),
    };
    found.into_iter().map(told).collect()
}

fn listed(state: &impl Serialize) -> Vec<(String, String)> {
    let mut all = Vec::new();
    // Nothing that a state holds is refused here: see the tests.
    let _ = leaves(state, |path, leaf| {
        all.push((path.to_owned(), leaf.to_string()));
        Ok(())
    });
    all
}

#[cfg(test)]
mod tests;
