//! The checks, by kind.

pub mod air;
pub mod always;
pub mod beliefs;
pub mod by_hand;
pub mod charge;
pub mod dynamics;
pub mod faults;
pub mod healthy;
pub mod orifice;
pub mod properties;
pub mod published;
pub mod retrofit;
pub mod shop;
pub mod truths;
pub mod water;

use std::sync::Arc;

use crate::{Job, run::Run};

/// Every section and the jobs that fill it. A job is what one thread does at a time.
pub const SECTIONS: &[(&str, &[Job])] = &[
    ("The thirteen truths", truths::JOBS),
    ("The healthy vehicle", healthy::JOBS),
    ("Charge", charge::JOBS),
    ("Faults", faults::JOBS),
    ("In time", dynamics::JOBS),
    ("Vacuum, leaks, recovery", shop::JOBS),
    ("Conversion", retrofit::JOBS),
    ("The whole job by hand", by_hand::JOBS),
    ("Published figures", published::JOBS),
    ("Refrigerants", &[properties::checks]),
    ("Moist air", &[air::checks]),
    ("Water", &[water::checks]),
    ("Orifice tube", &[orifice::checks]),
];

/// Runs by the value that was swept.
type Sweep = Vec<(f64, Arc<Run>)>;

/// A reading over the value that was swept.
fn curve(sweep: &Sweep, of: fn(&Run) -> f64) -> Vec<(f64, f64)> {
    sweep.iter().map(|(x, r)| (*x, of(r))).collect()
}

/// Numbers of a sweep as text overrides.
fn with(key: &str, value: f64, unit: &str) -> String {
    format!("{key}={value}{unit}")
}

/// Whether a row of numbers never falls by more than `slack`.
fn rises(values: &[f64], slack: f64) -> bool {
    values.windows(2).all(|w| w[1] >= w[0] - slack)
}

/// Whether a row of numbers never rises by more than `slack`.
fn falls(values: &[f64], slack: f64) -> bool {
    values.windows(2).all(|w| w[1] <= w[0] + slack)
}

/// A few numbers as text.
fn list(values: &[f64], decimals: usize) -> String {
    let texts: Vec<String> = values.iter().map(|v| format!("{v:.decimals$}")).collect();
    texts.join(", ")
}
