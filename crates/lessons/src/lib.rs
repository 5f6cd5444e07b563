//! Job cards: what a job asks of a bay, and how far a learner has come with it.
//!
//! A step is a goal on the bay's state, never an order of clicks: whoever reaches the state has done the step, by whatever way.

pub mod card;
pub mod library;
pub mod progress;
pub mod toll;

pub use card::{CardError, Harm, JobCard, Step, Text};
pub use progress::Progress;
pub use toll::{Cost, Severity, toll};
