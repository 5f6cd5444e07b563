//! A choked orifice: first liquid moves to the condenser, then the loop starves.

use super::{JUMPED, TRADE, with};
use crate::{
    check::{Check, Finding},
    checks::{Sweep, curve, list, rises},
    error::Error,
    plot::Plot,
    run::{Run, Runs},
};
use std::sync::Arc;

/// 4: the order in which a choking orifice shows.
pub(super) fn choked(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut sweep: Sweep = Vec::new();
    for share in [100.0, 90.0, 80.0, 70.0, 60.0, 50.0, 40.0, 30.0, 20.0] {
        let run = runs.healthy(&[JUMPED, &with("condition.orifice_open", share, "%")])?;
        sweep.push((share, run));
    }
    let mut check = Check::new(
        "4. A choked orifice",
        "First liquid moves from accumulator to condenser: high side up, 45 kPa at most at 90 % open and 120 at 80 %, vent a little colder. Then, \
         the accumulator empty, high side falls (from 40 % open on) and superheat soars while subcooling is still 8 to 17 K. 1 500 rpm, 35 degC, cycling switch \
         jumped so that the loop finds its balance.",
        TRADE,
    );
    let base = &sweep[0].1;
    let wet: Vec<&(f64, Arc<Run>)> = sweep[1..]
        .iter()
        .filter(|(_, r)| r.on.level > 0.02)
        .collect();
    let dry: Vec<&(f64, Arc<Run>)> = sweep[1..]
        .iter()
        .filter(|(_, r)| r.on.level <= 0.02)
        .collect();
    let moved = wet
        .last()
        .map_or(f64::NAN, |(_, r)| r.on.mass_high - base.on.mass_high);
    check.find(Finding::holds(
        "accumulator still wet: refrigerant gone over to the high side",
        format!("{:+.0} g", 1e3 * moved),
        "more than +20 g",
        moved > 0.02,
    ));
    rises_at_first(&mut check, &sweep);
    let coldest = wet
        .iter()
        .map(|(_, r)| r.all.vent - base.all.vent)
        .fold(f64::INFINITY, f64::min);
    check.find(Finding::holds(
        "accumulator still wet: vent at its coldest",
        format!("{coldest:+.1} K"),
        "below healthy",
        coldest < -0.05,
    ));
    check.find(Finding::holds(
        "the accumulator runs empty within the sweep",
        format!("{} of {} steps", dry.len(), sweep.len() - 1),
        "at least one",
        !dry.is_empty(),
    ));
    for pair in dry.windows(2) {
        let [(_, wider), (share, r)] = pair else {
            continue;
        };
        if *share > STARVED {
            continue;
        }
        check.find(
            Finding::holds(
                format!("{share} % open, accumulator empty: high side"),
                format!("{:.0} kPag", r.on.high),
                format!(
                    "10 kPa below that of the step before, {:.0} kPag",
                    wider.on.high
                ),
                r.on.high < wider.on.high - 10.0,
            )
            .instead_of("from the first step with an empty accumulator on; 10 kPa below the highest of the sweep", ITSELF),
        );
    }
    for (share, r) in &dry {
        check.find(Finding::within(
            format!("{share} % open, accumulator empty: subcooling"),
            r.on.subcooling,
            8.0,
            17.0,
            "K",
            1,
        ));
    }
    if let Some((share, r)) = dry.last() {
        check.find(Finding::holds(
            format!("{share} % open: superheat"),
            format!("{:.1} K", r.on.superheat),
            "above 10 K",
            r.on.superheat > 10.0,
        ));
    }
    check.plots = plots(&sweep);
    Ok(vec![check])
}

/// Open area from which on common practice sees the head fall, %.
const STARVED: f64 = 40.0;
const ITSELF: &str = "The highest of the sweep may be the first with an empty accumulator: a value was held against itself. And the head falls only when the \
                      evaporator's liquid has gone over after the accumulator's: practice says by 40 % open.";
const BOUND: &str = "By hand: while the accumulator is wet the compressor and the wet coil fix flow and heat, so that the tube has to pass it, subcooling \
                     grows and costs the condenser surface: +34 kPa at 90 % open, +86 at 80 %, +162 at 70 %.";

/// What the high side may rise while the accumulator is wet, by open area.
pub(in crate::checks) fn rises_at_first(check: &mut Check, sweep: &Sweep) {
    let high = |share: f64| {
        let found = sweep.iter().find(|(x, _)| (x - share).abs() < 1e-9);
        found.map_or(f64::NAN, |(_, r)| r.on.high)
    };
    let first = "14 to 41 kPa at the most, whatever the area";
    for (share, most) in [(90.0, 45.0), (80.0, 120.0)] {
        let rise = high(share) - high(100.0);
        check.find(
            Finding::within(
                format!("{share} % open: high side rises"),
                rise,
                0.0,
                most,
                "kPa",
                0,
            )
            .instead_of(first, BOUND),
        );
    }
    let order = [100.0, 90.0, 80.0, 70.0].map(high);
    check.find(
        Finding::holds(
            "100 to 70 % open: high side",
            list(&order, 0),
            "rising from step to step",
            rises(&order, 0.0),
        )
        .instead_of(first, BOUND),
    );
}

fn plots(sweep: &Sweep) -> Vec<Plot> {
    let x = "open area, %";
    vec![
        Plot::new("Where the refrigerant is", x, "g")
            .curve("high side", curve(sweep, |r| 1e3 * r.on.mass_high))
            .curve("evaporator", curve(sweep, |r| 1e3 * r.on.mass_evaporator))
            .curve("accumulator", curve(sweep, |r| 1e3 * r.on.mass_accumulator)),
        Plot::new("High side", x, "kPa gauge").curve("high side", curve(sweep, |r| r.on.high)),
        Plot::new("Superheat, subcooling, vent", x, "K or degC")
            .curve("superheat", curve(sweep, |r| r.on.superheat))
            .curve("subcooling", curve(sweep, |r| r.on.subcooling))
            .curve("vent", curve(sweep, |r| r.all.vent)),
    ]
}
