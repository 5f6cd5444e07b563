//! What a node can hold, and how much of each.

use serde::{Deserialize, Serialize};

/// How many species the network carries.
pub const SPECIES: usize = 5;
/// Index of the refrigerant in a [`Content`].
pub const REFRIGERANT: usize = 0;
/// Index of air (dry) in a [`Content`].
pub const AIR: usize = 1;
/// Index of water in a [`Content`].
pub const WATER: usize = 2;
/// Index of compressor oil in a [`Content`].
pub const OIL: usize = 3;
/// Index of refrigerant dissolved in the oil in a [`Content`]: it counts as refrigerant in the books (see [`Content::whole`]),
/// goes where the oil goes, and takes no part in the balance of liquid and vapour.
pub const DISSOLVED: usize = 4;
/// Names of the species, in index order, for messages and ledgers.
pub const NAMES: [&str; SPECIES] = ["refrigerant", "air", "water", "oil", "refrigerant in oil"];

/// Mass below which there is nothing, kg: fewer than one molecule of anything.
const DUST: f64 = 1e-26;

/// Masses held, kg, in the order refrigerant, air, water, oil, dissolved refrigerant. Never negative.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
pub struct Content(pub [f64; SPECIES]);

impl Content {
    /// A content of refrigerant alone, kg.
    pub const fn refrigerant(kg: f64) -> Self {
        Self([kg, 0.0, 0.0, 0.0, 0.0])
    }

    /// A content of air alone, kg.
    pub const fn air(kg: f64) -> Self {
        Self([0.0, kg, 0.0, 0.0, 0.0])
    }

    /// The same with the dissolved refrigerant counted as refrigerant, as books and ledgers want it.
    #[must_use]
    pub fn whole(mut self) -> Self {
        self.0[REFRIGERANT] += self.0[DISSOLVED];
        self.0[DISSOLVED] = 0.0;
        self
    }

    /// Total mass, kg.
    pub fn total(&self) -> f64 {
        self.0.iter().sum()
    }

    /// Sets masses too small to mean anything to nothing, so that no quotient of them runs out of numbers.
    pub fn drop_dust(&mut self) {
        for m in &mut self.0 {
            if *m < DUST {
                *m = 0.0;
            }
        }
    }

    /// Adds `other` scaled by `factor`, species by species.
    pub fn add(&mut self, other: &Self, factor: f64) {
        for (mine, theirs) in self.0.iter_mut().zip(other.0) {
            *mine += theirs * factor;
        }
    }
}

impl std::ops::Index<usize> for Content {
    type Output = f64;
    fn index(&self, k: usize) -> &f64 {
        &self.0[k]
    }
}

impl std::ops::IndexMut<usize> for Content {
    fn index_mut(&mut self, k: usize) -> &mut f64 {
        &mut self.0[k]
    }
}
