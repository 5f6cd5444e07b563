//! Job cards: what a job asks of a bay, and how far a learner has come with it.
//!
//! A step is a goal on the bay's state, never an order of clicks: whoever reaches the state has done the step, by whatever way.

pub mod card;
pub mod caution;
pub mod cautions;
pub mod challenge;
pub mod confirm;
pub mod control;
pub mod draw;
pub mod drill;
pub mod hold;
pub mod job;
pub mod library;
pub mod link;
pub mod loosened;
pub mod mark;
pub mod next;
pub mod packet;
pub mod performance_test;
pub mod progress;
pub mod rivals;
#[cfg(feature = "text")]
pub mod schema;
pub mod senses;
pub mod shown;
pub mod sound;
pub mod statement;
pub mod target;
pub mod toll;
pub mod truth;

pub use card::{CardError, Harm, JobCard, Kind, Step, Text};
pub use caution::Caution;
pub use control::Control;
pub use job::Job;
pub use loosened::Loosened;
pub use performance_test::PerformanceTest;
pub use progress::Progress;
pub use senses::{Coat, Surface, Touch};
pub use shown::Shown;
pub use sound::Sound;
pub use toll::{Cost, Severity, seen_toll, toll};
pub use truth::Truth;

#[cfg(test)]
mod tests {
    use lowside_session::{Bay, Scenario, library};

    /// A shipped bay without its script.
    pub(crate) fn bay(name: &str) -> Bay {
        let mut scenario =
            Scenario::parse(library::scenario(name).expect("shipped"), &[]).expect("sound");
        scenario.act.clear();
        Bay::new(&scenario)
    }
}
