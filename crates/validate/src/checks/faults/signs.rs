//! The fault table: which way low side, high side and vent go.

use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Run, Runs},
};

/// Which way a reading ought to go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Way {
    Up,
    Down,
    Level,
    Any,
}
use Way::{Any, Down, Level, Up};

/// Least change that counts: half a psi on the low side, 2 psi on the high side, kPa; 0.3 K at the vent (our reading).
pub(super) const COUNTS: [f64; 3] = [3.4, 14.0, 0.3];

/// A row: number in the table, what, overrides, ways of low side, high side, vent; and what else ought to be seen.
type Row = (
    u8,
    &'static str,
    &'static [&'static str],
    [Way; 3],
    Option<(&'static str, fn(&Run, &Run) -> bool)>,
);

fn faster(fault: &Run, healthy: &Run) -> bool {
    fault.summary.clutch_cycles > healthy.summary.clutch_cycles
}

/// A day on which the healthy van cycles, for faults of the cycling switch.
const MILD: &str = "day.ambient=27degC";

/// Performance test: 1 500 rpm, 35 degC unless the row says otherwise.
const TABLE: &[Row] = &[
    (
        1,
        "low charge, 70 %",
        &["start.charge=714g"],
        [Down, Down, Up],
        Some(("cycles faster", faster)),
    ),
    (
        2,
        "low charge, 40 %",
        &["start.charge=408g"],
        [Down, Down, Up],
        Some(("cycles faster", faster)),
    ),
    (
        3,
        "over-charge, 150 %",
        &["start.charge=1531g"],
        [Up, Up, Up],
        Some(("subcooling higher", |f, h| {
            f.on.subcooling > h.on.subcooling + 1.0
        })),
    ),
    (4, "air, 2 g", &["start.air=2g"], [Up, Up, Up], None),
    (
        6,
        "orifice screen clogged, 30 % open",
        &["condition.orifice_open=30%"],
        [Down, Down, Up],
        Some(("high subcooling", |f, h| f.on.subcooling > h.on.subcooling)),
    ),
    (
        7,
        "orifice missing (3 mm bore)",
        &["vehicle.orifice.bore=3mm"],
        [Up, Down, Up],
        None,
    ),
    (
        8,
        "bore 0.3 mm too large (2.0 mm)",
        &["vehicle.orifice.bore=2mm"],
        [Up, Down, Up],
        None,
    ),
    (
        8,
        "bore 0.3 mm too small (1.4 mm)",
        &["vehicle.orifice.bore=1.4mm"],
        [Down, Up, Up],
        None,
    ),
    (
        10,
        "worn compressor, 50 %",
        &["condition.compressor_wear=50%"],
        [Up, Down, Up],
        None,
    ),
    (
        11,
        "clutch slips, holds 30 %",
        &["condition.clutch_hold=30%"],
        [Up, Down, Up],
        Some(("current on its coil all the time", |f, _| {
            f.summary.clutch_duty > 0.99
        })),
    ),
    (
        12,
        "clutch gets no current",
        &["controls.ac=false"],
        [Any, Any, Up],
        Some(("both sides level", |f, _| {
            (f.on.high - f.on.low).abs() < 30.0
        })),
    ),
    (
        13,
        "low switch opens 70 kPa too high",
        &[
            "vehicle.switches.low_opens=222kPag",
            "vehicle.switches.low_closes=360kPag",
            MILD,
        ],
        [Up, Any, Up],
        None,
    ),
    (
        13,
        "low switch opens 70 kPa too low",
        &["vehicle.switches.low_opens=82kPag", MILD],
        [Down, Any, Any],
        Some(("cycles slower", |f, h| {
            f.summary.clutch_cycles <= h.summary.clutch_cycles
        })),
    ),
    (
        14,
        "high cut-out trips early, at 1 400 kPag",
        &[
            "vehicle.switches.high_opens=1400kPag",
            "vehicle.switches.high_closes=1000kPag",
        ],
        [Any, Any, Up],
        Some(("clutch lets go at the high side's trip", |f, _| {
            f.trips.iter().filter(|t| t.high > 1300.0).count() > 2
        })),
    ),
    (
        15,
        "condenser air blocked, 45 %",
        &["condition.condenser_air=45%"],
        [Up, Up, Up],
        None,
    ),
    (
        17,
        "condenser partly plugged inside",
        &["vehicle.condenser.pressure_loss=500kPa"],
        [Down, Up, Up],
        None,
    ),
    (
        18,
        "liquid line crushed",
        &["vehicle.liquid_line.pressure_loss=500kPa"],
        [Down, Up, Up],
        None,
    ),
    (
        19,
        "suction hose collapsed",
        &["vehicle.suction_line.pressure_loss=300kPa"],
        [Any, Down, Up],
        None,
    ),
    (
        20,
        "evaporator air blocked, 45 %",
        &["condition.evaporator_air=45%"],
        [Down, Down, Down],
        Some(("clutch longer out", |f, h| {
            f.summary.clutch_duty < h.summary.clutch_duty
        })),
    ),
    (
        21,
        "blower weak, lowest step",
        &["controls.blower=1"],
        [Down, Down, Down],
        None,
    ),
    (
        22,
        "blend door leaks heat, 10 %",
        &["condition.blend_leak=10%"],
        [Level, Level, Up],
        None,
    ),
    (
        23,
        "door stuck on outside air, 60 % humidity",
        &["controls.recirculation=false", "day.humidity=60%"],
        [Up, Up, Up],
        None,
    ),
    (
        25,
        "too much oil, 250 %",
        &["start.oil=592g"],
        [Up, Up, Up],
        None,
    ),
    (
        30,
        "R-12 remainder, 20 %",
        &["start.other_refrigerant=20%"],
        [Up, Up, Up],
        None,
    ),
    (
        31,
        "R-12's mass of R-134a, 44 oz",
        &["start.charge=44oz"],
        [Level, Level, Level],
        Some(("more liquid at the compressor", |f, h| {
            f.on.liquid >= h.on.liquid
        })),
    ),
    (
        32,
        "engine overheating, radiator 5 %",
        &["condition.radiator=5%"],
        [Up, Up, Up],
        None,
    ),
];

fn judge(way: Way, change: f64, counts: f64) -> bool {
    match way {
        Up => change > counts,
        Down => change < -counts,
        Level => change.abs() <= 3.0 * counts,
        Any => true,
    }
}

fn arrow(way: Way) -> &'static str {
    match way {
        Up => "up",
        Down => "down",
        Level => "as healthy",
        Any => "not said",
    }
}

/// The check: one finding a reading of each row.
///
/// # Errors
/// When a run cannot be made.
pub(super) fn table(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "The fault table",
        "Which way low side and high side (means, clutch in) and vent go against the healthy van at the same day: 1 500 rpm, 35 \
         degC (the cycling switch's faults at 27, where the healthy van cycles), one fault at a time. Half a psi, 2 psi and 0.3 K count as a change. Fan at idle and on the road has a row of its own; faults that \
         show in their course stand in the next check.",
        "fault table of common practice, no source",
    );
    let of = |r: &Run| [r.on.low, r.on.high, r.all.vent];
    let mut bars: [Vec<(f64, f64)>; 3] = Default::default();
    for (n, what, overrides, ways, more) in TABLE {
        let run = runs.healthy(overrides)?;
        let mild = overrides.contains(&MILD);
        let healthy = runs.healthy(if mild { &[MILD] } else { &[] })?;
        let base = of(&healthy);
        let now = of(&run);
        let names = ["low side, kPag", "high side, kPag", "vent, degC"];
        for k in 0..3 {
            let change = now[k] - base[k];
            bars[k].push((f64::from(*n), change));
            if ways[k] == Any {
                continue;
            }
            let decimals = usize::from(k == 2);
            check.find(Finding::holds(
                format!("{n} {what}: {}", names[k]),
                format!("{:.decimals$} ({change:+.decimals$})", now[k]),
                format!("{} from {:.decimals$}", arrow(ways[k]), base[k]),
                judge(ways[k], change, COUNTS[k]),
            ));
        }
        if let Some((seen, holds)) = more {
            check.find(Finding::holds(
                format!("{n} {what}: {seen}"),
                format!(
                    "{:.1} cycles a minute, subcooling {:.1} K, superheat {:.1} K, {:.1} % liquid drawn",
                    run.cycles_per_minute(),
                    run.on.subcooling,
                    run.on.superheat,
                    100.0 * run.on.liquid
                ),
                format!(
                    "{seen}; healthy {:.1}, {:.1} K, {:.1} K, {:.1} %",
                    healthy.cycles_per_minute(),
                    healthy.on.subcooling,
                    healthy.on.superheat,
                    100.0 * healthy.on.liquid
                ),
                holds(&run, &healthy),
            ));
        }
    }
    fan(runs, &mut check)?;
    let [low, high, vent] = bars;
    check.plots = vec![
        Plot::new("Pressures against healthy", "row of the fault table", "kPa")
            .marks("high side", high)
            .marks("low side", low),
        Plot::new("Vent against healthy", "row of the fault table", "K").marks("vent", vent),
    ];
    Ok(vec![check])
}

/// Row 16: a fan that does nothing shows at idle and not on the road.
fn fan(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let idle = "engine.speed=800rpm";
    let dead = [
        "vehicle.fan.idle_flow=0.1kg/s",
        "vehicle.fan.top_flow=0.1kg/s",
    ];
    let road = ["engine.speed=1500rpm", "controls.road_speed=80km/h"];
    let at_idle = runs.healthy(&[idle, dead[0], dead[1]])?;
    let good_idle = runs.healthy(&[idle])?;
    let on_road = runs.healthy(&[road[0], road[1], dead[0], dead[1]])?;
    let good_road = runs.healthy(&road)?;
    for (what, now, base, k) in [
        (
            "high side at idle, kPag",
            at_idle.on.high,
            good_idle.on.high,
            1,
        ),
        (
            "low side at idle, kPag",
            at_idle.on.low,
            good_idle.on.low,
            0,
        ),
        (
            "vent at idle, degC",
            at_idle.all.vent,
            good_idle.all.vent,
            2,
        ),
    ] {
        check.find(Finding::holds(
            format!("16 fan inoperative: {what}"),
            format!("{now:.1} ({:+.1})", now - base),
            format!("up from {base:.1}"),
            judge(Up, now - base, COUNTS[k]),
        ));
    }
    let change = on_road.on.high - good_road.on.high;
    check.find(Finding::holds(
        "16 fan inoperative: high side at 80 km/h, kPag",
        format!("{:.0} ({change:+.0})", on_road.on.high),
        format!("as healthy, {:.0}, within 100 kPa", good_road.on.high),
        change.abs() < 100.0,
    ));
    Ok(())
}
