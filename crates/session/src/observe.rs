//! Whoever watches a bay: what is seen from outside and belongs into its record is entered by an act.
//!
//! The entry stands in the log, so a replay needs nobody to watch. Takes of before such entries were made have none; their replay
//! asks the observer.

use lowside_plant::halt::Halt;

use crate::{action::RecordAct, bay::Bay};

/// Looks at a bay before and after each of its ticks, and gives what is to be entered. It cannot change the bay.
pub type Observer<'a> = &'a mut dyn FnMut(&Bay) -> Option<RecordAct>;

impl Bay {
    /// As [`Bay::step`], while an observer watches.
    ///
    /// # Errors
    /// [`Halt`], as [`Bay::step`].
    pub fn step_observed(&mut self, observer: Observer<'_>) -> Result<(), Halt> {
        self.enter(observer(self));
        self.step()?;
        self.enter(observer(self));
        Ok(())
    }

    /// Enters what an observer gives.
    pub(crate) fn enter(&mut self, entry: Option<RecordAct>) {
        if let Some(entry) = entry {
            // A bay that has halted takes none.
            drop(self.apply(entry));
        }
    }
}
