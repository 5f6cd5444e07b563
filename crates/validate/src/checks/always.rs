//! What must hold in every run: the books close, nothing beats Carnot, steps settle.

use crate::{
    check::{Check, Finding},
    plot::Plot,
    run::{Record, Runs},
};

/// Heading of the section.
pub const TITLE: &str = "In every run";

/// The checks, over every run that was played.
pub fn checks(runs: &Runs) -> Vec<Check> {
    let records = runs.records();
    vec![books(&records), carnot(&records), settled(&records)]
}

fn worst(records: &[Record], of: impl Fn(&Record) -> f64) -> (f64, &str) {
    records.iter().fold((0.0, ""), |worst, r| {
        let v = of(r);
        if v.is_nan() || v > worst.0 {
            (if v.is_nan() { f64::INFINITY } else { v }, r.label.as_str())
        } else {
            worst
        }
    })
}

fn each(records: &[Record], of: impl Fn(&Record) -> f64) -> Vec<(f64, f64)> {
    records
        .iter()
        .enumerate()
        .map(|(i, r)| (i as f64, of(r)))
        .collect()
}

fn books(records: &[Record]) -> Check {
    let mut check = Check::new(
        "Mass and energy are conserved",
        format!(
            "The books of each species and of energy close to 1e-9 in each of the {} runs behind this report.",
            records.len()
        ),
        "Conservation",
    );
    let (mass, at) = worst(records, |r| r.mass);
    check.find(Finding::error(
        format!("mass, worst in: {at}"),
        mass,
        1e-9,
        "",
    ));
    let (energy, at) = worst(records, |r| r.energy);
    check.find(Finding::error(
        format!("energy, worst in: {at}"),
        energy,
        1e-9,
        "",
    ));
    check.plots.push(
        Plot::new("Gaps in the books", "run", "share")
            .log()
            .marks("mass", each(records, |r| r.mass))
            .marks("energy", each(records, |r| r.energy)),
    );
    check
}

fn carnot(records: &[Record]) -> Check {
    let mut check = Check::new(
        "No run beats Carnot",
        "Cooling over shaft work, means of the last two minutes, against Carnot between the warmest evaporator wall and the day, \
         in every run where that wall is at least 3 K colder than the day.",
        "Carnot",
    );
    let bound: Vec<(f64, f64)> = records
        .iter()
        .enumerate()
        .filter_map(|(i, r)| r.of_carnot.map(|c| (i as f64, 100.0 * c)))
        .collect();
    let (most, at) = worst(records, |r| r.of_carnot.unwrap_or(0.0));
    check.find(Finding::within(
        format!("{} runs, nearest to Carnot: {at}", bound.len()),
        100.0 * most,
        1.0,
        100.0,
        "% of Carnot",
        0,
    ));
    check.plots.push(
        Plot::new("Share of Carnot's coefficient of performance", "run", "%")
            .marks("share of Carnot", bound),
    );
    check
}

fn settled(records: &[Record]) -> Check {
    let mut check = Check::new(
        "Steps settle",
        "What the network forecasts for the end of a step is what then is, in every step of every run.",
        "own demand: a step that does not settle still conserves, but its pressures are not the law's",
    );
    let (most, at) = worst(records, |r| r.unsettled as f64);
    let all: u64 = records.iter().map(|r| r.unsettled).sum();
    check.find(Finding::holds(
        "steps that did not settle",
        if all == 0 {
            "none".to_owned()
        } else {
            format!("{all} in all, most in: {at} ({most:.0})")
        },
        "none",
        all == 0,
    ));
    check
}
