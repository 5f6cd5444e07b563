//! What is built from data sheet and tables, and what becomes of it when a state is put into a bay.

use core::{fmt, ops::Deref};
use std::sync::Arc;

use thiserror::Error;

/// What a part is built with: no state. A state that is written leaves it out, and one that was read has none until it is put into a
/// built bay, which has the same. Clones share it.
#[derive(Clone)]
pub struct Built<T>(Option<Arc<T>>);

impl<T> Built<T> {
    /// Keeps what was built.
    pub fn new(built: T) -> Self {
        Self(Some(Arc::new(built)))
    }

    /// Returns what was built, shared.
    ///
    /// # Panics
    /// As [`Deref`] does.
    pub fn shared(&self) -> Arc<T> {
        Arc::clone(self.get())
    }

    fn get(&self) -> &Arc<T> {
        self.0
            .as_ref()
            .expect("a state is put into a bay before it is used")
    }
}

impl<T> Default for Built<T> {
    /// Nothing: where a state is read.
    fn default() -> Self {
        Self(None)
    }
}

impl<T> From<Arc<T>> for Built<T> {
    fn from(shared: Arc<T>) -> Self {
        Self(Some(shared))
    }
}

impl<T> Deref for Built<T> {
    type Target = T;

    /// # Panics
    /// In a state that was read and not put into a bay: a fault of the program.
    fn deref(&self) -> &T {
        self.get()
    }
}

impl<T: fmt::Debug> fmt::Debug for Built<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.0 {
            Some(built) => built.fmt(f),
            None => f.write_str("not built"),
        }
    }
}

/// A state that does not belong to the bay it is put into.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("{path} does not fit this vehicle: {found} where there can be {most}")]
pub struct Misfit {
    /// Where in the state.
    pub path: String,
    /// What stands there: a number of things, or which of them.
    pub found: usize,
    /// What can stand there.
    pub most: usize,
}

impl Misfit {
    /// Passes a list of `found` things where the bay has `asked`.
    ///
    /// # Errors
    /// [`Misfit`] when there are more or fewer.
    pub(crate) fn count(path: &str, found: usize, asked: usize) -> Result<(), Self> {
        if found == asked {
            Ok(())
        } else {
            Err(Self::new(path, found, asked))
        }
    }

    /// Passes the index `found` into a list of `count` things.
    ///
    /// # Errors
    /// [`Misfit`] when it lies beyond the end.
    pub(crate) fn index(path: &str, found: usize, count: usize) -> Result<(), Self> {
        if found < count {
            Ok(())
        } else {
            Err(Self::new(path, found, count.saturating_sub(1)))
        }
    }

    /// The same, of a part of this name.
    #[must_use]
    pub fn inside(self, part: &str) -> Self {
        let path = format!("{part}.{}", self.path);
        Self { path, ..self }
    }

    fn new(path: &str, found: usize, most: usize) -> Self {
        let path = path.to_owned();
        Self { path, found, most }
    }
}
