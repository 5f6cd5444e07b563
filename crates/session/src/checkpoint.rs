//! Checkpoints as text: the state of a bay, from which it goes on to the bit as if it had never been away.
//!
//! A checkpoint stands beside a take and is nothing without it: scenario, tables and data sheet are built from the take, and the acts
//! done by then are its first ones.

use serde::{Deserialize, Serialize};

use crate::{
    bay::{Bay, Entered},
    scenario::Scenario,
    state::StateError,
    take::{PHYSICS, hex},
};

/// Most bytes a checkpoint may have: some ten times what a bay has.
pub const LARGEST: usize = 1024 * 1024;
/// Most characters kept of what a reader of text says.
const LONGEST_DETAIL: usize = 300;

/// What stands in a checkpoint.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Kept<State> {
    /// The physics that led to it.
    #[serde(default)]
    physics: String,
    /// How many of the take's acts had been done.
    acts: usize,
    /// Fingerprint of the state.
    hash: String,
    state: State,
}

/// Returns whether a checkpoint's state was reached under this program's physics: only then does a bay go on from it as a replay would.
pub fn is_own_physics(text: &str) -> bool {
    #[derive(Deserialize)]
    struct Named {
        physics: String,
    }
    let named = serde_json::from_str::<Named>(text);
    text.len() <= LARGEST && named.is_ok_and(|named| named.physics == PHYSICS)
}

impl Bay {
    /// Writes the state of the bay as text.
    ///
    /// # Errors
    /// [`StateError::NotFinite`] when a number in it is none, as in some bays that have halted.
    pub fn save(&self) -> Result<String, StateError> {
        let kept = Kept {
            physics: PHYSICS.to_owned(),
            acts: self.log().len(),
            hash: hex(self.state_hash()?),
            state: self,
        };
        serde_json::to_string(&kept).map_err(|e| form("state", &e))
    }

    /// Opens a bay as its scenario sets it and puts a saved state into it. `log` is that of the take it was saved beside; what happened
    /// before then by itself is not told.
    ///
    /// # Errors
    /// [`StateError`], naming the place.
    pub fn load(scenario: &Scenario, log: &[Entered], text: &str) -> Result<Self, StateError> {
        if text.len() > LARGEST {
            return Err(StateError::TooLarge { most: LARGEST });
        }
        let mut reader = serde_json::Deserializer::from_str(text);
        let kept: Kept<Self> = serde_path_to_error::deserialize(&mut reader)
            .map_err(|e| form(&e.path().to_string(), e.inner()))?;
        reader.end().map_err(|e| form("the end", &e))?;
        let got = hex(kept.state.state_hash()?);
        if got != kept.hash {
            let said = kept.hash;
            return Err(StateError::Differs { got, said });
        }
        let bay = Self::with_state(scenario, kept.state)?;
        let past = log
            .get(..kept.acts)
            .filter(|acts| acts.iter().all(|(tick, _)| *tick <= bay.tick()))
            .ok_or_else(|| form("acts", &"the take has not so many by then"))?;
        Ok(bay.with_log(past))
    }
}

fn form(path: &str, detail: &impl ToString) -> StateError {
    let detail = detail.to_string().chars().take(LONGEST_DETAIL).collect();
    let path = path.to_owned();
    StateError::Form { path, detail }
}
