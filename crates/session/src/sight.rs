//! How much of a bay is seen by who works in it, and what is forgiven there.

use serde::{Deserialize, Serialize};

/// How a bay is worked in. It belongs to the sitting, not to the vehicle: the same acts give the same bay under each.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Sight {
    /// Everything is seen: states inside the loop, the ledger, the vehicle's condition.
    #[default]
    Open,
    /// What instruments, eyes, ears, nose and hands give. Going back is allowed, and counted.
    Hands,
    /// As [`Sight::Hands`], without rewind, undo or hints.
    Exam,
}

impl Sight {
    /// Is what the bay hides from a technician hidden?
    pub fn closed(self) -> bool {
        self != Self::Open
    }

    /// May one rewind and undo?
    pub fn rewinds(self) -> bool {
        self != Self::Exam
    }

    /// May one ask for the next step?
    pub fn hints(self) -> bool {
        self != Self::Exam
    }
}
