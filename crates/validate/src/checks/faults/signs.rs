//! The fault table: which way low side, high side and vent go.

use lowside_session::scenario::setting;
use lowside_shop::fault::{
    self, Severity, Signs,
    Way::{self, Any, Down, Level, Up},
};

use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Run, Runs, scenario},
};

/// Least change that counts: half a psi on the low side, 2 psi on the high side, kPa; 0.3 K at the vent (our reading).
pub(super) const COUNTS: [f64; 3] = [3.4, 14.0, 0.3];

/// A row: what, its overrides, and which way the readings go.
type Row = (String, Vec<String>, Signs);

/// A day on which the healthy van cycles, for faults of the cycling switch.
const MILD: &str = "day.ambient=27degC";

/// A cooler one, on which it cycles with a wide margin, for what makes a van cycle that holds its balance at 35.
const COOL: &str = "day.ambient=24degC";
const LIKE_WITH_LIKE: &str = "At 35 degC the van balances above its switch and one with half the air cycles, so that a mean over pauses was held against none: \
                              cycling is compared with cycling, at 24 degC.";
/// Rows that change what the tube passes, or is given, while liquid stands ahead of it and in the accumulator.
const NARROWED: [&str; 3] = [
    "Condenser plugged inside, severe",
    "Liquid line crushed, severe",
    "bore 0.3 mm too large (2.0 mm)",
];
/// Level of the accumulator from which it counts as wet.
const WET: f64 = 0.02;
const FIXED: &str = "By hand: while the accumulator is wet, the compressor's volume and the wet coil fix the flow, and the tube has to pass it (the bound of a \
                     choked tube): what is narrowed or widened moves liquid and the high side, not the low side or the vent, until the accumulator is dry or full.";
const SAME_POINTS: &str = "While both cycle, the switch holds the low side between the same two points whatever the load, and longer pauses raise its mean: \
                           less load shows in the clutch's share of the time.";
const BALANCES: &str = "At 35 degC the van balances above its switch even with 70 % of its charge: cycles are compared at 24 degC, where it cycles.";
const AZEOTROPE: &str = "R-12 and R-134a boil together below either: the mixture is denser at the same temperature and a stroke carries more. No law here warms \
                         the vent.";

/// What no row of the registry sets: controls, the day, parts of another size, switches set wrong. The last are given by the data sheet,
/// which is what a maker's other part is.
const OTHERS: &[(&str, &[&str], [Way; 3])] = &[
    (
        "orifice missing (3 mm bore)",
        &["vehicle.orifice.bore=3mm"],
        [Up, Down, Up],
    ),
    (
        "bore 0.3 mm too large (2.0 mm)",
        &["vehicle.orifice.bore=2mm"],
        [Up, Down, Up],
    ),
    (
        "bore 0.3 mm too small (1.4 mm)",
        &["vehicle.orifice.bore=1.4mm"],
        [Down, Up, Up],
    ),
    (NO_CURRENT, &["controls.ac=false"], [Any, Any, Up]),
    (
        "low switch opens 70 kPa too high",
        &[
            "vehicle.switches.low_opens=222kPag",
            "vehicle.switches.low_closes=360kPag",
            MILD,
        ],
        [Up, Any, Up],
    ),
    (
        TOO_LOW,
        &["vehicle.switches.low_opens=82kPag", MILD],
        [Down, Any, Any],
    ),
    (
        TRIPS_EARLY,
        &[
            "vehicle.switches.high_opens=1400kPag",
            "vehicle.switches.high_closes=1000kPag",
        ],
        [Any, Any, Up],
    ),
    (
        WEAK_BLOWER,
        &["controls.blower=1", COOL],
        [Down, Down, Down],
    ),
    (
        "door stuck on outside air, 60 % humidity",
        &["controls.recirculation=false", "day.humidity=60%"],
        [Up, Up, Up],
    ),
    (TOO_MUCH, &["start.charge=44oz"], [Level, Level, Level]),
];
const WEAK_BLOWER: &str = "blower weak, lowest step";
const NO_AIR: &str = "No air through the evaporator, severe";
const LOW_CHARGE: &str = "Low charge, moderate";
const REMAINDER: &str = "Another refrigerant mixed in, severe";
const NO_CURRENT: &str = "clutch gets no current";
const TOO_LOW: &str = "low switch opens 70 kPa too low";
const TRIPS_EARLY: &str = "high cut-out trips early, at 1 400 kPag";
const TOO_MUCH: &str = "R-12's mass of R-134a, 44 oz";
const SLIPS: &str = "Clutch slips, severe";

/// Of which row, what is seen, and whether it holds of the faulty and the healthy run.
type More = (&'static str, &'static str, fn(&Run, &Run) -> bool);

/// What else ought to be seen, where no sign of a row says it.
const MORE: &[More] = &[
    (SLIPS, "current on its coil all the time", |f, _| {
        f.summary.clutch_duty > 0.99
    }),
    (NO_CURRENT, "both sides level", |f, _| {
        (f.on.high - f.on.low).abs() < 30.0
    }),
    (TOO_LOW, "cycles slower", |f, h| {
        f.summary.clutch_cycles <= h.summary.clutch_cycles
    }),
    (
        TRIPS_EARLY,
        "clutch lets go at the high side's trip",
        |f, _| f.trips.iter().filter(|t| t.high > 1300.0).count() > 2,
    ),
    (TOO_MUCH, "more liquid at the compressor", |f, h| {
        f.on.liquid >= h.on.liquid
    }),
];

/// A fault at a severity as the report calls it.
fn named(id: &str, severity: Severity) -> String {
    let name = lowside_words::fault(id).unwrap_or(id);
    format!("{name}, {}", severity.name())
}

/// The registry's rows at the severities at which they show, and the others.
fn rows() -> Result<Vec<Row>, Error> {
    let vehicle = scenario("healthy", &[])?.vehicle;
    let shown = fault::all().flat_map(|fault| {
        fault.shown_at.iter().map(|severity| {
            let what = named(fault.id, *severity);
            let mut overrides = vec![setting(fault, *severity, &vehicle)];
            if what == NO_AIR {
                overrides.push(COOL.into());
            }
            (what, overrides, fault.signs)
        })
    });
    let others = OTHERS.iter().map(|(what, overrides, ways)| {
        let overrides = overrides.iter().map(|o| (*o).to_owned()).collect();
        ((*what).to_owned(), overrides, Signs::of(*ways))
    });
    Ok(shown.chain(others).collect())
}

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
         degC (the cycling switch's faults at 27, where the healthy van cycles, too little air through the evaporator at 24), one fault at a time. Half a psi, 2 psi and 0.3 K count as a change. Fan at idle and on the road has a row of its own; faults that \
         show in their course stand in the next check.",
        "fault table of common practice, no source",
    );
    let of = |r: &Run| [r.on.low, r.on.high, r.all.vent];
    let mut bars: [Vec<(f64, f64)>; 3] = Default::default();
    for (n, (what, overrides, signs)) in rows()?.iter().enumerate() {
        let overrides: Vec<&str> = overrides.iter().map(String::as_str).collect();
        let run = runs.healthy(&overrides)?;
        let mut day = overrides.clone();
        day.retain(|o| [MILD, COOL].contains(o));
        let healthy = runs.healthy(&day)?;
        let base = of(&healthy);
        let now = of(&run);
        let names = ["low side, kPag", "high side, kPag", "vent, degC"];
        let ways = [signs.low, signs.high, signs.vent];
        for k in 0..3 {
            let change = now[k] - base[k];
            bars[k].push((n as f64, change));
            if ways[k] == Any {
                continue;
            }
            let decimals = usize::from(k == 2);
            let name = format!("{what}: {}", names[k]);
            let got = format!("{:.decimals$} ({change:+.decimals$})", now[k]);
            let asked = format!("{} from {:.decimals$}", arrow(ways[k]), base[k]);
            let first = format!("{} at 35 degC", arrow(ways[k]));
            let moved = judge(ways[k], change, COUNTS[k]);
            let still_wet = run.on.level > WET && healthy.on.level > WET;
            check.find(if what == REMAINDER && k == 2 {
                Finding::beside(name, got, asked, AZEOTROPE)
            } else if k != 1 && NARROWED.contains(&what.as_str()) && still_wet {
                let level = judge(Level, change, COUNTS[k]);
                let asked_now = format!(
                    "as healthy, {:.decimals$}, while the accumulator is wet",
                    base[k]
                );
                Finding::holds(name, got, asked_now, level).instead_of(asked, FIXED)
            } else if k == 0 && overrides.contains(&COOL) {
                on_the_switch(name, &got, first, [&run, &healthy], moved)
            } else if overrides.contains(&COOL) {
                Finding::holds(name, got, asked, moved).instead_of(first, LIKE_WITH_LIKE)
            } else {
                Finding::holds(name, got, asked, moved)
            });
        }
        seen(&mut check, what, *signs, [&run, &healthy]);
        if what == LOW_CHARGE {
            let mut cool = overrides.clone();
            cool.push(COOL);
            let [low, full] =
                [runs.healthy(&cool)?, runs.healthy(&[COOL])?].map(|r| r.cycles_per_minute());
            check.find(
                Finding::holds(
                    format!("{what}: cycling up"),
                    format!("{low:.1} a minute"),
                    format!("more than {full:.1}"),
                    low > full,
                )
                .instead_of("up at 35 degC", BALANCES),
            );
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

/// A low side that ought to be lower where both vehicles cycle: it is, or the clutch is in for less of the time.
pub(in crate::checks) fn on_the_switch(
    name: String,
    got: &str,
    first: String,
    [run, healthy]: [&Run; 2],
    lower: bool,
) -> Finding {
    let [less, full] = [run, healthy].map(|r| 100.0 * r.summary.clutch_duty);
    let both = run.summary.clutch_cycles > 0 && healthy.summary.clutch_cycles > 0;
    Finding::holds(
        name,
        format!("{got}, clutch in {less:.0} %"),
        format!("down, or both cycling and the clutch in less than {full:.0} %"),
        lower || (both && less < full - 1.0),
    )
    .instead_of(first, SAME_POINTS)
}

/// Finds what a row says beside its pressures and its vent.
fn seen(check: &mut Check, what: &str, signs: Signs, [run, healthy]: [&Run; 2]) {
    let cycles = |r: &Run| f64::from(r.summary.clutch_cycles);
    let duty = |r: &Run| r.summary.clutch_duty;
    let said: [(&str, Way, f64, f64); 3] = [
        (
            "cycling",
            if what == LOW_CHARGE {
                Any
            } else {
                signs.cycling
            },
            cycles(run) - cycles(healthy),
            0.0,
        ),
        ("clutch in", signs.duty, duty(run) - duty(healthy), 0.0),
        (
            "subcooling",
            signs.subcooling,
            run.on.subcooling - healthy.on.subcooling,
            1.0,
        ),
    ];
    let mut found: Vec<(String, bool)> = said
        .into_iter()
        .filter(|(_, way, ..)| *way != Any)
        .map(|(name, way, change, counts)| {
            (format!("{name} {}", arrow(way)), judge(way, change, counts))
        })
        .collect();
    for (_, seen, holds) in MORE.iter().filter(|(of, ..)| *of == what) {
        found.push(((*seen).to_owned(), holds(run, healthy)));
    }
    for (seen, holds) in found {
        let told = |r: &Run| {
            format!(
                "{:.1} cycles a minute, in {:.0} %, subcooling {:.1} K, superheat {:.1} K, {:.1} % liquid drawn",
                r.cycles_per_minute(),
                100.0 * duty(r),
                r.on.subcooling,
                r.on.superheat,
                100.0 * r.on.liquid
            )
        };
        check.find(Finding::holds(
            format!("{what}: {seen}"),
            told(run),
            format!("{seen}; healthy {}", told(healthy)),
            holds,
        ));
    }
}

/// A fan that does nothing shows at idle and not on the road.
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
            format!("fan inoperative: {what}"),
            format!("{now:.1} ({:+.1})", now - base),
            format!("up from {base:.1}"),
            judge(Up, now - base, COUNTS[k]),
        ));
    }
    let change = on_road.on.high - good_road.on.high;
    check.find(Finding::holds(
        "fan inoperative: high side at 80 km/h, kPag",
        format!("{:.0} ({change:+.0})", on_road.on.high),
        format!("as healthy, {:.0}, within 100 kPa", good_road.on.high),
        change.abs() < 100.0,
    ));
    Ok(())
}
