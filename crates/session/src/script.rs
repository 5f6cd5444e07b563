//! A script of acts, each at a time or on a condition, done in order.

use lowside_plant::plant::TICK;
use lowside_units::{Duration, Quantity, UnitError, in_range};
use serde::{Deserialize, Serialize};

use crate::{
    action::{Action, Refused},
    bay::Bay,
    predicate::Predicate,
};

/// One act of a script: waits `after` the one before it, then for `when`, then is done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Act {
    /// Wait at least this long after the act before.
    #[serde(default)]
    pub after: Duration,
    /// Then wait until this holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<Predicate>,
    /// Stop waiting for `when` after this long and go on all the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_most: Option<Duration>,
    /// What to do; left out, the script only waits here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub act: Option<Action>,
}

impl Act {
    /// Checks the times.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] naming the field, its value and limits.
    pub(crate) fn check(&self) -> Result<(), UnitError> {
        let (least, most) = (Duration::from_s(0.0), Duration::from_h(24.0));
        in_range("after", self.after, least, most)?;
        if let Some(t) = self.at_most {
            in_range("at_most", t, least, most)?;
        }
        Ok(())
    }
}

/// Plays a script into a bay, tick by tick.
#[derive(Debug, Clone)]
pub struct Player {
    acts: Vec<Act>,
    next: usize,
    waited: f64,
    past_delay: f64,
}

impl Player {
    /// A player at the start of a script.
    pub fn new(acts: &[Act]) -> Self {
        Self {
            acts: acts.to_vec(),
            next: 0,
            waited: 0.0,
            past_delay: 0.0,
        }
    }

    /// All acts are done.
    pub fn done(&self) -> bool {
        self.next >= self.acts.len()
    }

    /// Does the acts that are due; call once before every step of the bay.
    ///
    /// # Errors
    /// The index of an act that the bay refused, and why.
    pub fn play(&mut self, bay: &mut Bay) -> Result<(), (usize, Refused)> {
        while let Some(act) = self.acts.get(self.next) {
            if self.waited < act.after.si() - 1e-9 {
                break;
            }
            if let Some(when) = &act.when
                && !when.holds(bay)
                && act.at_most.is_none_or(|most| self.past_delay < most.si())
            {
                self.past_delay += TICK;
                break;
            }
            if let Some(action) = act.act {
                bay.apply(action).map_err(|e| (self.next, e))?;
            }
            self.next += 1;
            self.waited = 0.0;
            self.past_delay = 0.0;
        }
        self.waited += TICK;
        Ok(())
    }
}
