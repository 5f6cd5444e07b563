//! Truths about the charge: hidden by the accumulator, a cliff below, an order above.

use super::{JUMPED, TRADE, by_ounces};
use crate::{
    check::{Check, Finding},
    checks::{Sweep, curve},
    error::Error,
    plot::Plot,
    run::{Run, Runs},
};

const ACCUMULATOR: &str =
    "accumulator.volume of the van, 0.65 L (0.5-1.0 plausible), sets the width of the plateau";

/// A reading: its name, its value, how far it may spread, unit, decimals.
type Reading = (&'static str, fn(&Run) -> f64, f64, &'static str, usize);

/// What does not show the charge.
const SHOWS: [Reading; 4] = [
    ("the low side", |r| r.on.low, 6.9, "kPa", 1),
    ("the high side", |r| r.on.high, 34.5, "kPa", 1),
    ("the vent", |r| r.all.vent, 0.5, "K", 2),
    ("subcooling", |r| r.on.subcooling, 1.0, "K", 2),
];

/// 1: with liquid in the accumulator, nothing shows the charge.
pub(super) fn hidden(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "1. Charge is hidden",
        "With liquid in the accumulator and room above it (5 to 75 % of its volume), low side, high side, vent and subcooling \
         do not depend on the charge: over all such charges from 20 to 56 oz they stay within 1 psi, 5 psi, 0.5 K and 1 K. 35 degC.",
        TRADE,
    );
    check.tuned = ACCUMULATOR.into();
    let ounces: Vec<u8> = (20..=56).step_by(3).collect();
    for (rpm, speed) in [("800", "idle"), ("1500", "1 500 rpm")] {
        let sweep = by_ounces(runs, &ounces, &[&format!("engine.speed={rpm}rpm")])?;
        let wet: Vec<&Run> = sweep
            .iter()
            .filter(|(_, r)| (0.05..=0.75).contains(&r.all.level))
            .map(|(_, r)| r.as_ref())
            .collect();
        let spread = |of: fn(&Run) -> f64| {
            let (lo, hi) = wet.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |a, r| {
                (a.0.min(of(r)), a.1.max(of(r)))
            });
            hi - lo
        };
        let held = |r: &Run| r.summary.refrigerant_kg / super::OUNCE;
        let (least, most) = (
            wet.first().map_or(f64::NAN, |r| held(r)),
            wet.last().map_or(f64::NAN, |r| held(r)),
        );
        check.find(Finding::holds(
            format!("{speed}: charges with a wet accumulator"),
            format!("{least:.0} to {most:.0} oz"),
            "at least 9 oz apart",
            most - least >= 9.0,
        ));
        for (what, of, most, unit, decimals) in SHOWS {
            check.find(Finding::within(
                format!("{speed}: spread of {what}"),
                spread(of),
                0.0,
                most,
                unit,
                decimals,
            ));
        }
        check.plots.push(
            Plot::new(format!("Pressures, {speed}"), "charge, oz", "kPa gauge")
                .curve("high side", curve(&sweep, |r| r.on.high))
                .curve("low side", curve(&sweep, |r| r.on.low)),
        );
        check.plots.push(
            Plot::new(
                format!("What shows and what does not, {speed}"),
                "charge, oz",
                "K, degC or %",
            )
            .curve("vent", curve(&sweep, |r| r.all.vent))
            .curve("subcooling", curve(&sweep, |r| r.on.subcooling))
            .curve(
                "accumulator level, %",
                curve(&sweep, |r| 100.0 * r.all.level),
            ),
        );
    }
    Ok(vec![check])
}

/// Charge below which superheat passes 3 K, oz, and slopes over the next so many ounces down: superheat, vent, low side per ounce.
fn edge(sweep: &Sweep, ounces: usize) -> (f64, [f64; 3]) {
    let Some(top) = sweep.iter().rposition(|(_, r)| r.on.superheat > 3.0) else {
        return (f64::NAN, [f64::NAN; 3]);
    };
    let bottom = top.saturating_sub(ounces);
    let ((x1, r1), (x0, r0)) = (&sweep[top], &sweep[bottom]);
    let per = |of: fn(&Run) -> f64| (of(r0) - of(r1)) / (x1 - x0);
    (
        *x1,
        [
            per(|r| r.on.superheat),
            per(|r| r.all.vent),
            -per(|r| r.on.low),
        ],
    )
}

const GENTLER: &str = "From the fourth ounce on the liquid line takes bubbles at idle's small flow, which by the published law cost the orifice nothing: the \
                       cliff is three ounces high.";

/// 2: below the plateau each ounce costs dearly, and sooner at speed.
pub(super) fn cliff(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "2. Under-charge is a cliff",
        "Once the accumulator runs dry each ounce less costs about 3 to 5 K of superheat, 2 K (1 to 3) at the vent and 10 to 14 kPa \
         on the low side (over the first six ounces, at idle the first three, cycling switch jumped); the cliff comes at more charge at higher speed. 35 degC.",
        TRADE,
    );
    check.tuned = ACCUMULATOR.into();
    let ounces: Vec<u8> = (10..=34).collect();
    let mut superheat = Plot::new("Superheat", "charge, oz", "K");
    let mut vent = Plot::new("Vent", "charge, oz", "degC");
    let mut low = Plot::new("Low side", "charge, oz", "kPa gauge");
    let mut edges = Vec::new();
    for (rpm, speed) in [("800", "idle"), ("2000", "2 000 rpm")] {
        let sweep = by_ounces(runs, &ounces, &[JUMPED, &format!("engine.speed={rpm}rpm")])?;
        let idle = speed == "idle";
        let (at, [k, v, p]) = edge(&sweep, if idle { 3 } else { 6 });
        let (_, over_six) = edge(&sweep, 6);
        let slopes = [
            (
                format!("superheat an ounce below {at:.0} oz"),
                k,
                (3.0, 5.0),
                "K",
            ),
            ("vent an ounce".into(), v, (1.0, 3.0), "K"),
            ("low side an ounce".into(), p, (10.0, 14.0), "kPa"),
        ];
        for ((what, found, (least, most), unit), six) in slopes.into_iter().zip(over_six) {
            let what = format!("{speed}: {what}");
            let finding = Finding::within(what, found, least, most, unit, 1);
            check.find(if idle {
                let first =
                    format!("{least:.1} to {most:.1} {unit} over six ounces; found {six:.1}");
                finding.instead_of(first, GENTLER)
            } else {
                finding
            });
        }
        edges.push(at);
        superheat = superheat.curve(speed, curve(&sweep, |r| r.on.superheat));
        vent = vent.curve(speed, curve(&sweep, |r| r.all.vent));
        low = low.curve(speed, curve(&sweep, |r| r.on.low));
    }
    check.find(Finding::holds(
        "the cliff stands at more charge at 2 000 rpm",
        format!("{:.0} oz against {:.0} at idle", edges[1], edges[0]),
        "more",
        edges[1] > edges[0],
    ));
    check.plots = vec![superheat, vent, low];
    Ok(vec![check])
}

/// 3: over-charge shows in an order.
pub(super) fn over(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "3. Over-charge has an order",
        "Suction goes wet and the discharge cools, then subcooling climbs, and only then the high side: first charge at which \
         the discharge is 8 K cooler, subcooling 2 K more, high side 5 % up. 38 degC, 1 500 rpm.",
        TRADE,
    );
    let ounces: Vec<u8> = (36..=72).step_by(2).collect();
    let sweep = by_ounces(runs, &ounces, &["day.ambient=38degC"])?;
    let base = &sweep[0].1;
    let first = |of: &dyn Fn(&Run) -> bool| {
        sweep
            .iter()
            .find(|(_, r)| of(r))
            .map_or(f64::INFINITY, |(oz, _)| *oz)
    };
    let wet = first(&|r| r.on.discharge < base.on.discharge - 8.0);
    let sub = first(&|r| r.on.subcooling > base.on.subcooling + 2.0);
    let head = first(&|r| r.on.high > 1.05 * base.on.high);
    check.find(Finding::holds(
        "order",
        format!("discharge cooler from {wet:.0} oz, subcooling from {sub:.0} oz, high side from {head:.0} oz"),
        "in this order, all three seen by 72 oz",
        wet <= sub && sub <= head && head.is_finite(),
    ));
    check.find(Finding::holds(
        "high side when the suction goes wet",
        sweep
            .iter()
            .find(|(oz, _)| *oz >= wet)
            .map_or("never".into(), |(_, r)| {
                format!("{:+.0} kPa", r.on.high - base.on.high)
            }),
        "within 5 % of the full loop's",
        wet < head,
    ));
    let x = "charge, oz";
    check.plots = vec![
        Plot::new("Discharge temperature", x, "degC")
            .curve("discharge line", curve(&sweep, |r| r.on.discharge)),
        Plot::new("Subcooling and liquid at the compressor", x, "K or %")
            .curve("subcooling, K", curve(&sweep, |r| r.on.subcooling))
            .curve("liquid, %", curve(&sweep, |r| 100.0 * r.on.liquid)),
        Plot::new("High side", x, "kPa gauge").curve("high side", curve(&sweep, |r| r.on.high)),
    ];
    Ok(vec![check])
}
