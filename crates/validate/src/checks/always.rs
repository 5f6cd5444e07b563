//! What must hold in every run: the books close, entropy is made and never lost, nothing beats Carnot, steps settle.

use std::collections::BTreeMap;

use crate::{
    check::{Check, Finding},
    plot::Plot,
    run::{Record, Runs},
    second_law::{Kind, WHOLE},
};

/// Heading of the section.
pub const TITLE: &str = "In every run";

/// The checks, over every run that was played.
pub fn checks(runs: &Runs) -> Vec<Check> {
    let records = runs.records();
    vec![
        books(&records),
        second_law(&records),
        carnot(&records),
        settled(&records),
    ]
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

/// No maker of entropy destroys any.
fn second_law(records: &[Record]) -> Check {
    let mut kinds: BTreeMap<&str, (Kind, &str)> = BTreeMap::new();
    let mut ticks = 0;
    for r in records {
        ticks += r.second_law.ticks;
        for (name, k) in &r.second_law.kinds {
            let (sum, at) = kinds.entry(name).or_default();
            sum.made += k.made;
            sum.slack += k.slack;
            sum.breaches += k.breaches;
            sum.outside += k.outside;
            if k.worst.0 > sum.worst.0 {
                (sum.worst, *at) = (k.worst.clone(), &r.label);
            }
        }
    }
    let mut check = Check::new(
        "No link, node or wall makes negative entropy",
        format!(
            "Entropy made by each link, node, wall and coil, and by all together, in each of {ticks} audited ticks: one a second in \
             every run, and the ten after each start, stop and act. None may fall below zero by more than is named at the head of the plant's \
             entropy module: the tolerance of a step's forecast, streams drawn at its start, the missing Poynting factor, the tables. What that \
             slack amounts to stands beside what was made. Near the critical point the tables have no entropy; what lies there is counted, \
             not judged."
        ),
        "second law; formulation for the discrete step in the plant's entropy module (own)",
    );
    let all = kinds.get(WHOLE).map_or(1.0, |k| k.0.made);
    for (name, (k, at)) in &kinds {
        let worst = if k.breaches > 0 {
            format!(
                "; {} falls, the largest {:.1e} J/K at {} at {:.2} s in: {at}",
                k.breaches, k.worst.0, k.worst.1, k.worst.2
            )
        } else {
            String::new()
        };
        let outside = if k.outside > 0 {
            format!("; {} accounts not judged", k.outside)
        } else {
            String::new()
        };
        check.find(Finding::holds(
            *name,
            format!(
                "{:.1} % of all, slack {:.2} % of all{outside}{worst}",
                100.0 * k.made / all,
                100.0 * k.slack / all
            ),
            "never below zero by more than the slack",
            k.breaches == 0,
        ));
    }
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
