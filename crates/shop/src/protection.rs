//! What a person wears against refrigerant in eyes and on skin.

use serde::{Deserialize, Serialize};

/// A piece of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Protection {
    /// Goggles.
    Goggles,
    /// Gloves.
    Gloves,
}

/// What is worn.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Worn {
    /// Goggles.
    pub goggles: bool,
    /// Gloves.
    pub gloves: bool,
}

impl Worn {
    /// Puts a piece on, or takes it off.
    pub fn put(&mut self, what: Protection, on: bool) {
        match what {
            Protection::Goggles => self.goggles = on,
            Protection::Gloves => self.gloves = on,
        }
    }
}
