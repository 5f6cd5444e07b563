//! The job cards that come with the program: every file of `scenarios/lessons/`, taken in by `build.rs`.

use crate::card::JobCard;

include!(concat!(env!("OUT_DIR"), "/shipped.rs"));

/// Names of the shipped cards, lowest rung first.
pub fn names() -> impl Iterator<Item = &'static str> {
    BAKED.iter().map(|(n, _)| *n)
}

/// A shipped card; none if there is no such card or its numbers are impossible, which the tests exclude.
pub fn card(name: &str) -> Option<JobCard> {
    let (_, text) = BAKED.iter().find(|(n, _)| *n == name)?;
    let card: JobCard = serde_json::from_value(serde_json::from_str(text).ok()?).ok()?;
    card.check().ok()?;
    Some(card)
}
