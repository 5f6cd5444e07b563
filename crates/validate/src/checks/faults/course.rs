//! Faults of the table that show in their course, in wear or at the gauges, rather than in means after ten minutes.

use lowside_session::{Event, VehicleAct, greater};

use super::signs::COUNTS;
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Run, Runs, Sample},
};

/// One of the table's faults, and what it shows.
type Fault = fn(&Runs, &mut Check) -> Result<(), Error>;

const FAULTS: [Fault; 8] = [
    freezing, backwards, iced, oil_short, bag, leaks, relief, gauges,
];

/// Least change that counts, as in the table's other rows.
const LOW: f64 = COUNTS[0];
const HIGH: f64 = COUNTS[1];
const VENT: f64 = COUNTS[2];

/// The check: the faults one after the other.
///
/// # Errors
/// When a run cannot be made.
pub(super) fn table(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "The fault table: faults that show in their course",
        "5 and 27: 5 g of water freeze at the orifice, and do not where the desiccant has taken them. 9: an orifice tube put in backwards. 24: the coil ices behind a stuck switch. 26: too little oil. 28: a burst desiccant bag. 29: leaks that \
         empty the loop while it runs. 33: a relief valve that opens too low. 34: a gauge or coupler that is wrong while the loop is right. Days as the rows say.",
        "fault table of common practice, no source",
    );
    for fault in FAULTS {
        fault(runs, &mut check)?;
    }
    Ok(vec![check])
}

fn mean(run: &Run, from: f64, to: f64, of: fn(&Sample) -> f64) -> f64 {
    let n = run.between(from, to).count();
    run.between(from, to).map(of).sum::<f64>() / n as f64
}

fn least(run: &Run, from: f64, to: f64, of: fn(&Sample) -> f64) -> f64 {
    run.between(from, to).map(of).fold(f64::INFINITY, f64::min)
}

fn most(run: &Run, from: f64, to: f64, of: fn(&Sample) -> f64) -> f64 {
    run.between(from, to).map(of).fold(0.0, greater)
}

/// Rows 5 and 27: the day and the rest of "A wet loop freezes up".
fn freezing(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let (off, on) = (1200.0, 2400.0);
    let acts = [
        (off, VehicleAct::Engine { on: false }.into()),
        (on, VehicleAct::Engine { on: true }.into()),
    ];
    let day = ["day.ambient=27degC", "until=60min"];
    let full = runs.play(
        "healthy",
        &[
            "start.water=5g",
            "condition.desiccant_load=100%",
            day[0],
            day[1],
        ],
        &acts,
    )?;
    // What a fresh bag has taken of the same 5 g, given its hours: 53 % of the 10.5 g that the van's 50 g hold.
    let fresh = runs.play(
        "healthy",
        &["condition.desiccant_load=53%", day[0], day[1]],
        &acts,
    )?;
    let dry = runs.play("healthy", &day, &acts)?;
    let lowest = |run: &Run| least(run, 120.0, off, |s| s.low);
    check.find(Finding::holds(
        "5 moisture freezing: low side falls after minutes, kPag",
        format!("down to {:.0}", lowest(&full)),
        format!("below 69 (10 psig), dry {:.0}", lowest(&dry)),
        lowest(&full) < 69.0,
    ));
    let late = |run: &Run, of| mean(run, off - 120.0, off, of);
    let high: fn(&Sample) -> f64 = |s| s.high;
    let vent: fn(&Sample) -> f64 = |s| s.vent;
    check.find(Finding::holds(
        "5 moisture freezing: high side, mean of the last two minutes before rest, kPag",
        format!("{:.0}", late(&full, high)),
        format!("below {:.0}", late(&dry, high) - HIGH),
        late(&full, high) < late(&dry, high) - HIGH,
    ));
    check.find(Finding::holds(
        "5 moisture freezing: vent warm then, degC",
        format!("{:.1}", late(&full, vent)),
        format!("above {:.1}", late(&dry, vent) + VENT),
        late(&full, vent) > late(&dry, vent) + VENT,
    ));
    let after = |run: &Run| mean(run, on + 60.0, on + 120.0, vent);
    check.find(Finding::holds(
        "5 moisture freezing: cold again after twenty minutes off, vent in the second minute, degC",
        format!("{:.1}", after(&full)),
        format!("within 1 K of the dry loop's {:.1}", after(&dry)),
        (after(&full) - after(&dry)).abs() < 1.0,
    ));
    for (which, from, to) in [("first", 0.0, off), ("second", on, 3600.0)] {
        let ice = |run: &Run| 1e6 * most(run, from, to, |s| s.ice);
        check.find(Finding::holds(
            format!("27 desiccant saturated, {which} twenty minutes: most ice with 5 g of water"),
            format!(
                "{:.0} mg; {:.1} mg where the bag has taken it",
                ice(&full),
                ice(&fresh)
            ),
            "more than 20 mg; less than 1 mg where the bag has taken it",
            ice(&full) > 20.0 && ice(&fresh) < 1.0,
        ));
    }
    check.plots.push(
        Plot::new("Row 5, 27: low side", "time, s", "kPa gauge")
            .line("desiccant full", full.curve(|s| s.low))
            .line("in the desiccant", fresh.curve(|s| s.low)),
    );
    Ok(())
}

/// A day with a fault.
fn with_fault<'a>(day: &[&'a str], fault: &'a str) -> Vec<&'a str> {
    day.iter().copied().chain([fault]).collect()
}

/// Row 28: beads reach the orifice tube's screen over time; as row 6 then.
fn bag(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let day = ["until=6h"];
    let good = runs.healthy(&day)?;
    let run = runs.healthy(&with_fault(&day, "condition.bag_burst=true"))?;
    let late = |run: &Run, of| mean(run, 20_400.0, 21_600.0, of);
    let early = |of| mean(&run, 600.0, 1200.0, of);
    let vent: fn(&Sample) -> f64 = |s| s.vent;
    let clean = |run: &Run| 100.0 * run.bay.plant().orifice_clean();
    check.find(Finding::holds(
        "28 bag burst: screen clogs over six hours, and beads are seen in the tube",
        format!(
            "{:.0} % open, {:.2} g of beads; healthy {:.0} %",
            clean(&run),
            1e3 * run.bay.plant().debris.caught.beads,
            clean(&good)
        ),
        "below 20 % open, beads; healthy above 95 %",
        clean(&run) < 20.0 && run.bay.plant().debris.caught.beads > 0.0 && clean(&good) > 95.0,
    ));
    check.find(Finding::holds(
        "28 bag burst: vent warm in the end and not at first, degC",
        format!(
            "{:.1}, in the first minutes {:.1}",
            late(&run, vent),
            early(vent)
        ),
        format!("up from {:.1}, at first as healthy", late(&good, vent)),
        late(&run, vent) > late(&good, vent) + VENT
            && (early(vent) - late(&good, vent)).abs() < VENT,
    ));
    let rates = [&run, &good].map(|r| r.cycles_per_minute());
    check.find(Finding::holds(
        "28 bag burst: cycles quickly",
        format!("{:.1} a minute", rates[0]),
        format!("more than the healthy {:.1}", rates[1]),
        rates[0] > rates[1],
    ));
    check.find(Finding::holds(
        "28 bag burst: low side, at its lowest in the last twenty minutes, kPag",
        format!("{:.0}", least(&run, 20_400.0, 21_600.0, |s| s.low)),
        format!(
            "down from {:.0}",
            least(&good, 20_400.0, 21_600.0, |s| s.low)
        ),
        least(&run, 20_400.0, 21_600.0, |s| s.low)
            < least(&good, 20_400.0, 21_600.0, |s| s.low) - LOW,
    ));
    Ok(())
}

/// Row 9: debris that a tube put in right hardly shows after a quarter of an hour closes the short screen of one put in backwards.
fn backwards(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let day = ["condition.bag_burst=true", "until=15min"];
    let right = runs.healthy(&day)?;
    let wrong = runs.healthy(&with_fault(&day, "condition.orifice_reversed=true"))?;
    let clean = |run: &Run| 100.0 * run.bay.plant().orifice_clean();
    check.find(Finding::holds(
        "9 orifice backwards: debris closes its screen, and not yet that of a tube put in right",
        format!(
            "{:.0} % open, {:.0} % put in right",
            clean(&wrong),
            clean(&right)
        ),
        "below 50 %, above 75 % put in right",
        clean(&wrong) < 50.0 && clean(&right) > 75.0,
    ));
    let vent = |run: &Run| mean(run, 780.0, 900.0, |s| s.vent);
    let low = |run: &Run| least(run, 300.0, 900.0, |s| s.low);
    let high = |run: &Run| most(run, 120.0, 900.0, |s| s.high);
    check.find(Finding::holds(
        "9 orifice backwards: low side, at its lowest from the fifth minute on, kPag",
        format!("{:.0}", low(&wrong)),
        format!("down from {:.0}", low(&right)),
        low(&wrong) < low(&right) - LOW,
    ));
    check.find(Finding::holds(
        "9 orifice backwards: high side, at its highest, kPag",
        format!("{:.0}", high(&wrong)),
        format!("up from {:.0}", high(&right)),
        high(&wrong) > high(&right) + HIGH,
    ));
    check.find(Finding::holds(
        "9 orifice backwards: vent, last two minutes, degC",
        format!("{:.1}", vent(&wrong)),
        format!("up from {:.1}", vent(&right)),
        vent(&wrong) > vent(&right) + VENT,
    ));
    Ok(())
}

/// Row 24: a mild muggy day, the blower low.
fn iced(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let day = [
        "day.ambient=24degC",
        "day.humidity=80%",
        "controls.blower=2",
        "until=60min",
    ];
    let stuck = with_fault(&day, "condition.cycling_switch_stuck=true");
    let (good, run) = (runs.healthy(&day)?, runs.healthy(&stuck)?);
    let early = |of| mean(&run, 120.0, 240.0, of);
    for (what, of, counts) in [
        (
            "low side, kPag",
            (|s: &Sample| s.low) as fn(&Sample) -> f64,
            LOW,
        ),
        ("high side, kPag", |s| s.high, HIGH),
    ] {
        let late = mean(&run, 3480.0, 3600.0, of);
        check.find(Finding::holds(
            format!("24 coil iced: {what}, after an hour"),
            format!("{late:.0}"),
            format!("falling, from {:.0} in the third minute", early(of)),
            late < early(of) - counts,
        ));
    }
    let vent = |run: &Run, from, to| mean(run, from, to, |s| s.vent);
    check.find(Finding::holds(
        "24 coil iced: vent cold first, degC in the first half hour at its coldest",
        format!("{:.1}", least(&run, 0.0, 1800.0, |s| s.vent)),
        format!("below the healthy {:.1}", vent(&good, 1680.0, 1800.0)),
        least(&run, 0.0, 1800.0, |s| s.vent) < vent(&good, 1680.0, 1800.0),
    ));
    let air = |run: &Run| 100.0 * run.last().air_share;
    check.find(Finding::holds(
        "24 coil iced: then no air, share of a clean coil's",
        format!("{:.0} %, healthy {:.0} %", air(&run), air(&good)),
        "below 25 %, healthy above 90 %",
        air(&run) < 25.0 && air(&good) > 90.0,
    ));
    check.find(Finding::holds(
        "24 coil iced: clutch",
        format!("{:.0} % in", 100.0 * run.all.engaged),
        "always in",
        run.all.engaged > 0.999,
    ));
    Ok(())
}

/// Row 26: the table's range, 60 to 90 % too little of 237 g.
fn oil_short(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let good = runs.healthy(&[])?;
    for (less, oil) in [(60, "start.oil=95g"), (90, "start.oil=24g")] {
        let run = runs.healthy(&[oil])?;
        let hotter = run.all.body - good.all.body;
        check.find(Finding::holds(
            format!("26 too little oil, -{less} %: compressor, degC"),
            format!("{:.0} ({hotter:+.0})", run.all.body),
            format!("at least 5 K hotter than {:.0}", good.all.body),
            hotter >= 5.0,
        ));
        let wear = |run: &Run| 100.0 * run.bay.plant().damage.wear();
        check.find(Finding::holds(
            format!("26 too little oil, -{less} %: wear in ten minutes"),
            format!(
                "{:.2} %, {:.1} g of oil in the compressor",
                wear(&run),
                1e3 * run.all.compressor_oil
            ),
            format!("more than the healthy {:.2} %", wear(&good)),
            wear(&run) > wear(&good),
        ));
    }
    Ok(())
}

/// Row 29: holes that take a good part of the charge in ten minutes, hastened for the run's sake.
fn leaks(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let good = runs.healthy(&[])?;
    for (what, at, um) in [
        ("shaft seal", "shaft-seal", 900.0),
        ("hose", "discharge-hose", 450.0),
        ("condenser", "condenser-bottom", 300.0),
        ("evaporator", "evaporator-outlet", 900.0),
        ("core", "low-port", 900.0),
    ] {
        let leak = format!(r#"condition.leak=[{{at="{at}",hole="{um} um"}}]"#);
        let run = runs.healthy(&[&leak])?;
        let start = run.samples.first().map_or(f64::NAN, |s| s.charge);
        let gone = 100.0 * (1.0 - run.last().charge / start);
        let (low, high, vent) = (
            run.on.low - good.on.low,
            run.on.high - good.on.high,
            run.all.vent - good.all.vent,
        );
        check.find(Finding::holds(
            format!("29 leak, {what}: {gone:.0} % gone in ten minutes, low, high side, vent"),
            format!("{low:+.0}, {high:+.0} kPa, {vent:+.1} K"),
            "down, down, up, as row 1 over time",
            low < -LOW && high < -HIGH && vent > VENT && gone > 20.0,
        ));
    }
    Ok(())
}

/// Row 33: the condenser's air blocked on a hot day, which brings the high side to the cut-out.
fn relief(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let hot = [
        "day.ambient=43degC",
        "engine.speed=800rpm",
        "condition.condenser_air=5%",
    ];
    let weak = with_fault(&hot, "condition.relief_opens=2500kPag");
    let (good, run) = (runs.healthy(&hot)?, runs.healthy(&weak)?);
    let lost = |run: &Run| 1e3 * run.bay.plant().network.account().to_room[0];
    check.find(Finding::holds(
        "33 relief valve opens at 2 500 kPag: gas lost in ten minutes",
        format!("{:.0} g, sound {:.1} g", lost(&run), lost(&good)),
        "more than 10 g, sound none",
        lost(&run) > 10.0 && lost(&good) < 0.1,
    ));
    let lifts = run
        .bay
        .events()
        .iter()
        .filter(|(_, e)| *e == Event::ReliefLifted)
        .count();
    check.find(Finding::holds(
        "33 relief valve opens at 2 500 kPag: saw-tooth of the high side",
        format!(
            "lifts {lifts} times, high side at most {:.0} kPag",
            most(&run, 0.0, 600.0, |s| s.high)
        ),
        "lifts more than once, high side at most 2 625 kPag",
        lifts > 1 && most(&run, 0.0, 600.0, |s| s.high) <= 2625.0,
    ));
    Ok(())
}

/// Row 34: the loop is as it should be, the reading is not.
fn gauges(runs: &Runs, check: &mut Check) -> Result<(), Error> {
    let good = runs.healthy(&[])?;
    let reading = |run: &Run, high: bool| {
        let i = &run.bay.shop().instruments;
        1e-3 * if high {
            i.high.pointer()
        } else {
            i.low.pointer()
        }
    };
    let same = |run: &Run| {
        (run.on.low - good.on.low).abs() < LOW
            && (run.on.high - good.on.high).abs() < HIGH
            && (run.all.vent - good.all.vent).abs() < VENT
    };
    let sides = [false, true];
    for (k, (what, over)) in [
        (
            "compound gauge 70 kPa high",
            "condition.low_gauge_offset=70kPag",
        ),
        (
            "high gauge 70 kPa high",
            "condition.high_gauge_offset=70kPag",
        ),
    ]
    .into_iter()
    .enumerate()
    {
        let run = runs.healthy(&[over])?;
        let off = reading(&run, sides[k]) - reading(&good, sides[k]);
        check.find(Finding::holds(
            format!("34 {what}"),
            format!(
                "reads {off:+.0} kPa, vent {:+.2} K",
                run.all.vent - good.all.vent
            ),
            "reads +70 kPa within 5, loop as healthy",
            (off - 70.0).abs() < 5.0 && same(&run),
        ));
    }
    for (k, (what, over)) in [
        (
            "low coupler's depressor short",
            "condition.low_core_stuck=true",
        ),
        (
            "high coupler's depressor short",
            "condition.high_core_stuck=true",
        ),
    ]
    .into_iter()
    .enumerate()
    {
        let run = runs.healthy(&[over])?;
        let shows = reading(&run, sides[k]);
        check.find(Finding::holds(
            format!("34 {what}"),
            format!(
                "reads {shows:.0} kPag, vent {:+.2} K",
                run.all.vent - good.all.vent
            ),
            "reads nothing of the loop (wrong by 100 kPa and more), loop as healthy",
            (shows - reading(&good, sides[k])).abs() > 100.0 && same(&run),
        ));
    }
    Ok(())
}
