//! The charge from 40 to 150 % of the label: what shows, what does not, and where theory says which way.

use std::sync::Arc;

use super::{falls, list, rises, with};
use crate::{
    Job,
    check::{Check, Finding},
    error::Error,
    plot::{Plot, Points},
    run::{Run, Runs},
};

/// What fills the section.
pub const JOBS: &[Job] = &[idle, medium, fast, half_too_much];

/// The van's label, kg (36 oz).
pub(super) const LABEL: f64 = 1.020_583;

/// Shares of the label's charge, %.
const SHARES: [f64; 12] = [
    40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 120.0, 130.0, 140.0, 150.0,
];

fn idle(runs: &Runs) -> Result<Vec<Check>, Error> {
    sweep(runs, 800.0)
}

fn medium(runs: &Runs) -> Result<Vec<Check>, Error> {
    sweep(runs, 1500.0)
}

fn fast(runs: &Runs) -> Result<Vec<Check>, Error> {
    sweep(runs, 2500.0)
}

fn sweep(runs: &Runs, rpm: f64) -> Result<Vec<Check>, Error> {
    let mut table: Vec<(f64, Arc<Run>)> = Vec::new();
    for share in SHARES {
        let run = runs.healthy(&[
            &with("start.charge", LABEL * share / 100.0, "kg"),
            &with("engine.speed", rpm, "rpm"),
        ])?;
        table.push((share, run));
    }
    let curve = |of: fn(&Run) -> f64| -> Vec<(f64, f64)> {
        table.iter().map(|(x, r)| (*x, of(r))).collect()
    };
    let between = |of: fn(&Run) -> f64, lo: f64, hi: f64| -> Vec<f64> {
        curve(of)
            .into_iter()
            .filter(|p| p.0 >= lo && p.0 <= hi)
            .map(|p| p.1)
            .collect()
    };
    let spread = |v: &[f64]| {
        let (lo, hi) = v.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |a, x| {
            (a.0.min(*x), a.1.max(*x))
        });
        hi - lo
    };
    let mut check = Check::new(
        format!("Charge sweep at {rpm} rpm, 35 degC"),
        "Flat from 80 to 110 % (capacity to 5 %, superheat to 2 K, our reading of \"flat\"); below 70 % superheat rises and the \
         clutch cycles faster, more than about 8 times a minute when badly low (at idle on a day of 24 degC); above 120 % the high side climbs and liquid \
         reaches the compressor. Everywhere: more charge, less superheat, more subcooling, no lower high side (slack 0.7 K and \
         15 kPa for cycling).",
        "common practice, no source; monotony by mass balance",
    );
    check.tuned =
        "accumulator.volume of the van sets how wide the plateau is (0.5-1.0 L plausible)".into();
    let capacity = between(|r| r.summary.capacity_W, 80.0, 110.0);
    check.find(Finding::within(
        "80 to 110 %: spread of capacity",
        100.0 * spread(&capacity) / capacity[capacity.len() / 2],
        0.0,
        5.0,
        "%",
        1,
    ));
    check.find(Finding::within(
        "80 to 110 %: spread of superheat",
        spread(&between(|r| r.on.superheat, 80.0, 110.0)),
        0.0,
        2.0,
        "K",
        1,
    ));
    let superheat = between(|r| r.on.superheat, 0.0, 200.0);
    check.find(Finding::holds(
        "superheat falls with charge",
        list(&superheat, 1),
        "falling, slack 0.7 K",
        falls(&superheat, 0.7),
    ));
    let subcooling = between(|r| r.on.subcooling, 0.0, 200.0);
    check.find(Finding::holds(
        "subcooling rises with charge",
        list(&subcooling, 1),
        "rising, slack 0.7 K",
        rises(&subcooling, 0.7),
    ));
    let head = between(|r| r.on.high, 0.0, 200.0);
    check.find(Finding::holds(
        "high side rises with charge",
        list(&head, 0),
        "rising, slack 15 kPa",
        rises(&head, 15.0),
    ));
    let at = |share: f64, of: fn(&Run) -> f64| {
        between(of, share, share)
            .first()
            .copied()
            .unwrap_or(f64::NAN)
    };
    extremes(&mut check, &at);
    cycling(runs, &mut check, rpm, &at)?;
    check.plots = plots(rpm, &curve);
    Ok(vec![check])
}

fn plots(rpm: f64, curve: &dyn Fn(fn(&Run) -> f64) -> Points) -> Vec<Plot> {
    let x = "charge, % of the label";
    let plot = |title: &str, y: &str| Plot::new(format!("{title}, {rpm} rpm"), x, y);
    vec![
        plot("Capacity", "kW").curve("capacity", curve(|r| r.summary.capacity_W / 1e3)),
        plot("Temperatures", "degC")
            .curve("vent", curve(|r| r.all.vent))
            .curve("evaporator outlet", curve(|r| r.on.outlet))
            .curve("discharge line", curve(|r| r.on.discharge)),
        plot("Superheat and subcooling", "K")
            .curve("superheat", curve(|r| r.on.superheat))
            .curve("subcooling", curve(|r| r.on.subcooling)),
        plot("Pressures, clutch in", "kPa gauge")
            .curve("high side", curve(|r| r.on.high))
            .curve("low side", curve(|r| r.on.low)),
        plot("Cycles", "a minute").curve("cycles", curve(Run::cycles_per_minute)),
        plot("Liquid", "%")
            .curve(
                "in the accumulator, of its volume",
                curve(|r| 100.0 * r.all.level),
            )
            .curve("at the compressor", curve(|r| 100.0 * r.on.liquid)),
    ]
}

/// What far too little and far too much show.
fn extremes(check: &mut Check, at: &dyn Fn(f64, fn(&Run) -> f64) -> f64) {
    check.find(Finding::holds(
        "40 %: superheat far above that of the full loop",
        format!(
            "{:.1} against {:.1} K",
            at(40.0, |r| r.on.superheat),
            at(100.0, |r| r.on.superheat)
        ),
        "at least 5 K more",
        at(40.0, |r| r.on.superheat) > at(100.0, |r| r.on.superheat) + 5.0,
    ));
    check.find(Finding::holds(
        "150 %: high side over full",
        format!(
            "{:+.0} kPa",
            at(150.0, |r| r.on.high) - at(100.0, |r| r.on.high)
        ),
        "above +50 kPa",
        at(150.0, |r| r.on.high) > at(100.0, |r| r.on.high) + 50.0,
    ));
    check.find(Finding::holds(
        "150 %: liquid at the compressor",
        format!("{:.1} %", 100.0 * at(150.0, |r| r.on.liquid)),
        "above 3 %",
        at(150.0, |r| r.on.liquid) > 0.03,
    ));
}

/// Cycles of the clutch with too little: at idle on a day on which it cycles, at speed on the sweep's.
fn cycling(
    runs: &Runs,
    check: &mut Check,
    rpm: f64,
    at: &dyn Fn(f64, fn(&Run) -> f64) -> f64,
) -> Result<(), Error> {
    let idle = rpm < 1000.0;
    let cycles = |share: f64| {
        if !idle {
            return Ok(at(share, Run::cycles_per_minute));
        }
        let run = runs.healthy(&[
            &with("start.charge", LABEL * share / 100.0, "kg"),
            &with("engine.speed", rpm, "rpm"),
            "day.ambient=24degC",
        ])?;
        Ok::<f64, Error>(run.cycles_per_minute())
    };
    let [least, less, full] = [cycles(40.0)?, cycles(60.0)?, cycles(100.0)?];
    let faster = Finding::holds(
        "60 %: cycles faster than full",
        format!("{less:.1} against {full:.1} a minute"),
        "more",
        less > full,
    );
    let often = Finding::holds(
        "40 %: cycles a minute",
        format!("{least:.1}"),
        "above 8",
        least > 8.0,
    );
    for finding in [faster, often] {
        check.find(if idle {
            let first = format!("{} at 35 degC", finding.asked);
            finding.instead_of(first, "At 35 degC and idle the low side balances above the cycling switch: the rule is one of a loop that cycles, at 24 degC.")
        } else {
            finding
        });
    }
    Ok(())
}

/// Ounces of the plateau's search.
const OUNCES: core::ops::RangeInclusive<u8> = 26..=46;
/// How far the high side (kPa) and the vent (K) may be off the label's on a plateau: a gauge's line, and what a hand feels.
const FLAT: (f64, f64) = (7.0, 0.5);
/// A pound-force per square inch, kPa.
const PSI: f64 = 6.894_757;

/// On a hot day at speed: where charge does not show, and what half too much does.
fn half_too_much(runs: &Runs) -> Result<Vec<Check>, Error> {
    let run =
        |ounces: f64| runs.healthy(&["day.ambient=38degC", &with("start.charge", ounces, "oz")]);
    let (label, over) = (run(36.0)?, run(54.0)?);
    let mut curve = Vec::new();
    let mut flat = Vec::new();
    for ounces in OUNCES.map(f64::from) {
        let r = run(ounces)?;
        let (head, vent) = (
            r.on.high - label.on.high,
            (r.all.vent - label.all.vent).abs(),
        );
        curve.push((ounces, head / PSI));
        if head.abs() < FLAT.0 && vent < FLAT.1 {
            flat.push(ounces);
        }
    }
    let (from, to) = flat
        .iter()
        .fold((f64::NAN, f64::NAN), |(a, b), x| (a.min(*x), b.max(*x)));
    let mut check = Check::new(
        "Too much on a hot day (38 degC, 1 500 rpm)",
        "Charge hides over 8 to 12 oz, and the label lies on the upper half of that. Half too much (54 oz): high side some 25 to 70 psi higher, low \
         side up, liquid at the compressor, vent warmer.",
        "common practice, no source",
    );
    check.tuned = "volumes of accumulator and condenser".into();
    check.find(Finding::within("plateau", to - from, 8.0, 12.0, "oz", 0));
    check.find(Finding::within(
        "label on the plateau",
        100.0 * (36.0 - from) / (to - from),
        50.0,
        100.0,
        "% of its width",
        0,
    ));
    let head = (over.on.high - label.on.high) / PSI;
    check.find(Finding::within(
        "half too much: high side",
        head,
        25.0,
        70.0,
        "psi more",
        1,
    ));
    for (what, more, least, unit) in [
        ("low side", (over.on.low - label.on.low) / PSI, 1.0, "psi"),
        ("vent", over.all.vent - label.all.vent, 1.0, "K"),
        ("liquid at the compressor", 100.0 * over.on.liquid, 3.0, "%"),
    ] {
        check.find(Finding::holds(
            format!("half too much: {what}"),
            format!("{more:+.1} {unit}"),
            format!("at least {least:+} {unit}"),
            more >= least,
        ));
    }
    check.plots = vec![
        Plot::new("Over the label's high side, 38 degC", "charge, oz", "psi")
            .curve("high side", curve),
    ];
    Ok(vec![check])
}
