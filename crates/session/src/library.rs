//! The vehicles and scenarios that come with the program: every file of `scenarios/`, taken in by `build.rs`.

use serde::Deserialize;

use crate::scenario::Scenario;
use data::Data;

mod data;

include!(concat!(env!("OUT_DIR"), "/shipped.rs"));

fn find(list: &[(&'static str, &'static str)], name: &str) -> Option<&'static str> {
    list.iter().find(|(n, _)| *n == name).map(|(_, text)| *text)
}

/// Text of a shipped vehicle.
pub fn vehicle(name: &str) -> Option<&'static str> {
    find(VEHICLES, name)
}

/// Names of the shipped vehicles, for a message.
pub fn vehicle_names() -> String {
    VEHICLES
        .iter()
        .map(|(n, _)| *n)
        .collect::<Vec<_>>()
        .join(", ")
}

/// Text of a shipped scenario.
pub fn scenario(name: &str) -> Option<&'static str> {
    find(SCENARIOS, name)
}

/// Names of the shipped scenarios.
pub fn scenario_names() -> impl Iterator<Item = &'static str> {
    SCENARIOS.iter().map(|(n, _)| *n)
}

/// A shipped scenario without its acts, and without a reader of text; none if there is no such scenario. Its numbers are not checked again: a
/// test compares it with what was written, which is.
pub fn shipped(name: &str) -> Option<Scenario> {
    let (_, data) = DATA.iter().find(|(n, _)| *n == name)?;
    Scenario::deserialize(data).ok()
}
