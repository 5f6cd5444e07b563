//! Half the evaporator's air, a worn compressor, and how fast pressures equalise.

use lowside_session::VehicleAct;

use super::{JUMPED, TRADE};
use crate::{
    check::{Check, Finding},
    checks::faults::on_the_switch,
    error::Error,
    plot::Plot,
    run::{Run, Runs},
};

const HEALTHY: &str = "healthy";
/// A day on which both cycle.
const COOL: &str = "day.ambient=24degC";
const CYCLING: &str = "1 500 rpm, 24 degC";
const LIKE_WITH_LIKE: &str = "At 35 degC the healthy van does not cycle and the one with half the air does, so that the mean over its pauses was held against a \
                              loop without any: cycling is compared with cycling.";
/// What was asked of equal pressures at first.
pub(in crate::checks) const MINUTES: &str = "60 to 180 s";
pub(in crate::checks) const BY_BORE: &str = "Minutes are what tubes of 1.2 mm take. Through 1.83 mm, 2.3 times the area, the liquid ahead of the tube is gone in 15 to 18 s, and \
                                  then some 10 g/s of gas pass, as through a choked nozzle.";

/// When the engine is stopped, s.
const STOP: f64 = 300.0;
/// Difference at which pressures count as equal, kPa.
const EQUAL: f64 = 50.0;

/// A run that is stopped after five minutes, and the seconds until both sides are equal.
pub(in crate::checks) fn equalise(
    runs: &Runs,
    overrides: &[&str],
) -> Result<(std::sync::Arc<Run>, f64), Error> {
    let mut all = vec!["until=11min"];
    all.extend(overrides);
    let run = runs.play(
        "healthy",
        &all,
        &[(STOP, VehicleAct::Engine { on: false }.into())],
    )?;
    let end = within(&run, EQUAL);
    Ok((run, end))
}

/// Seconds after the stop until the sides differ by less than `gap` kPa.
fn within(run: &Run, gap: f64) -> f64 {
    run.samples
        .iter()
        .find(|s| s.t > STOP && s.high - s.low < gap)
        .map_or(f64::INFINITY, |s| s.t - STOP)
}

/// 13: what else is mistaken for something else.
pub(super) fn last(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "13. Half the air, a worn compressor, equalising",
        "Half the evaporator air makes the vent colder and the low side low (also with the cycling switch jumped, which shows the balance). A worn compressor raises no superheat while the \
         accumulator is wet. After the engine stops (35 degC, 1 500 rpm) pressures come within 50 kPa in less than 10 s with an \
         orifice bypass, in 10 to 40 s with leaking valves, in 25 to 60 s when healthy with a bore of 1.83 mm, in 1 to 3 min with one of 1.2.",
        TRADE,
    );
    let idle = "engine.speed=800rpm";
    let fast = "engine.speed=1500rpm";
    for (speed, more) in [
        ("idle", &[idle][..]),
        (CYCLING, &[fast, COOL]),
        ("1 500 rpm, switch jumped", &[fast, JUMPED]),
    ] {
        let mut halved = more.to_vec();
        halved.push("condition.evaporator_air=50%");
        let (full, half) = (runs.healthy(more)?, runs.healthy(&halved)?);
        let colder = Finding::holds(
            format!("half the air, {speed}: vent"),
            format!("{:.1} degC", half.all.vent),
            format!("below {:.1} degC", full.all.vent),
            half.all.vent < full.all.vent,
        );
        check.find(if speed == CYCLING {
            colder.instead_of("the same at 35 degC", LIKE_WITH_LIKE)
        } else {
            colder
        });
        let name = format!("half the air, {speed}: low side over the whole time");
        let got = format!("{:.0} kPag", half.all.low);
        let asked = format!("below {:.0} kPag, or cycling on the switch", full.all.low);
        let lower =
            half.all.low < full.all.low || half.cycles_per_minute() > full.cycles_per_minute();
        check.find(if speed == CYCLING {
            on_the_switch(name, &got, asked, [&half, &full], lower)
        } else {
            Finding::holds(name, got, asked, lower)
        });
        let mut worn = more.to_vec();
        worn.push("condition.compressor_wear=50%");
        let worn = runs.healthy(&worn)?;
        check.find(Finding::holds(
            format!("worn 50 %, {speed}: superheat with a wet accumulator"),
            format!(
                "{:.1} K, accumulator {:.0} % full",
                worn.on.superheat,
                100.0 * worn.on.level
            ),
            "below 2 K, accumulator above 5 %",
            worn.on.superheat < 2.0 && worn.on.level > 0.05,
        ));
    }
    let mut plot = Plot::new(
        "After the engine stops: high over low side",
        "time since, s",
        "kPa",
    );
    for (what, overrides, lo, hi) in [
        (HEALTHY, &[][..], 25.0, 60.0),
        (
            "healthy but for a bore of 1.2 mm",
            &["vehicle.orifice.bore=1.2mm"],
            60.0,
            180.0,
        ),
        (
            "leaking valves (wear 80 %)",
            &["condition.compressor_wear=80%"],
            10.0,
            40.0,
        ),
        (
            "orifice bypassed (3 mm)",
            &["vehicle.orifice.bore=3mm"],
            0.0,
            10.0,
        ),
    ] {
        let (run, seconds) = equalise(runs, overrides)?;
        let what_for = format!(
            "{what}: equal after ({:.0} s to 10 kPa)",
            within(&run, 10.0)
        );
        let equal = Finding::within(what_for, seconds, lo, hi, "s", 0);
        check.find(if what == HEALTHY {
            equal.instead_of(MINUTES, BY_BORE)
        } else {
            equal
        });
        let gap = run
            .samples
            .iter()
            .filter(|s| (STOP..STOP + 200.0).contains(&s.t))
            .map(|s| (s.t - STOP, s.high - s.low))
            .collect();
        plot = plot.line(what, gap);
    }
    check.plots.push(plot);
    Ok(vec![check])
}
