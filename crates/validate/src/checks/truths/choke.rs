//! A choked orifice: first liquid moves to the condenser, then the loop starves.

use lowside_session::greater;

use super::{JUMPED, TRADE, with};
use crate::{
    check::{Check, Finding},
    checks::{Sweep, curve},
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
        "First liquid moves from accumulator to condenser: high side a little up, vent a little colder. Then, the accumulator \
         empty, high side falls and superheat soars while subcooling is still 8 to 17 K. 1 500 rpm, 35 degC, cycling switch \
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
    let most = wet
        .iter()
        .map(|(_, r)| r.on.high - base.on.high)
        .fold(f64::NEG_INFINITY, greater);
    check.find(Finding::within(
        "accumulator still wet: most the high side rises (2-6 psi)",
        most,
        14.0,
        41.0,
        "kPa",
        0,
    ));
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
    let top = sweep
        .iter()
        .map(|(_, r)| r.on.high)
        .fold(f64::NEG_INFINITY, greater);
    for (share, r) in &dry {
        check.find(Finding::holds(
            format!("{share} % open, accumulator empty: high side"),
            format!("{:.0} kPag", r.on.high),
            format!("below its highest, {top:.0} kPag"),
            r.on.high < top - 10.0,
        ));
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
