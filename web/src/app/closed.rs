//! What the page shows of a closed bay in place of what an open one has: from what is shown, and from nothing else.
use lowside_lessons::{
    Job, Shown,
    next::{Advice, closed_advice},
};
use lowside_present::closed::{drawing::Drawing, notes, weighed::Weighed};
use yew::Html;

use super::App;
use crate::closed;

impl App {
    /// The loop from outside, in place of the levels.
    pub(crate) fn around_view(&self, shown: &Shown<'_>) -> Html {
        closed::around(&Drawing::of(shown), &notes::of(shown, self.units))
    }

    /// What was weighed, in place of the ledger.
    pub(crate) fn weighed_view(&self, shown: &Shown<'_>) -> Html {
        closed::weighed(&Weighed::of(shown, self.units))
    }
}

/// What is advised by hand.
pub(crate) fn advised(shown: &Shown<'_>, job: Option<&Job>) -> Advice {
    closed_advice(shown, job)
}
