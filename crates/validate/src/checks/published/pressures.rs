//! Published pressures and vent temperatures beside ours.

use lowside_units::Quantity;

use super::with;
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Run, Runs, Trip},
};

const NO_CYCLE: &str =
    "The printed low sides are the lowest of a cycle; on this day the van's clutch stays in.";
const MINIMA: &str = "The printed low sides are the lowest of a cycle: asked of the cycle's minimum, not of the moment before the clutch lets go.";
const SWITCH: &str = "The printed range ends below the point at which the van's switch opens (145 to 170 kPag in three printed manuals), and its lag lets the \
                      loop fall a few kPa further only: the printed loops had another switch. Asked: the lowest of a cycle, at most at the van's own point.";
const OTHER_LOOP: &str = "A loop with an expansion valve and a variable compressor: both of its figures cannot be met by one coil of ours.";

/// Lowest low side around each trip, kPa gauge, in the mean: the switch answers with a lag, and the clutch lets go within the next second.
fn lowest(run: &Run, trips: &[&Trip]) -> f64 {
    let around = |trip: &&Trip| {
        let near = run.between(trip.t - 2.0, trip.t + 2.0).map(|s| s.low);
        near.fold(trip.low, f64::min)
    };
    trips.iter().map(around).sum::<f64>() / trips.len() as f64
}

pub(super) fn before_the_clutch_opens(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "1. Pressures before the clutch opens",
        "High side just before the clutch lets go (mean of the last two minutes' trips, at 1 500 rpm; where the clutch stays in, at the end), low side \
         at its lowest of a cycle, where the clutch cycles.",
        "US Army TM 5-3805-291-23-1, service pressures of R-134a, orifice tube or expansion valve",
    );
    let rows = [
        (21.0, (820.0, 1300.0), (70.0, 138.0)),
        (27.0, (950.0, 1450.0), (70.0, 173.0)),
        (32.0, (1175.0, 1650.0), (105.0, 210.0)),
        (38.0, (1300.0, 1850.0), (105.0, 210.0)),
        (43.0, (1450.0, 2075.0), (105.0, 210.0)),
    ];
    let (mut highs, mut lows) = (Vec::new(), Vec::new());
    for (day, high, low) in rows {
        let run = runs.healthy(&[&with("day.ambient", day, "degC")])?;
        let late: Vec<_> = run.trips.iter().filter(|t| t.t > 480.0).collect();
        let n = late.len() as f64;
        let (h, l) = if late.is_empty() {
            (run.on.high, run.on.low)
        } else {
            (
                late.iter().map(|t| t.high).sum::<f64>() / n,
                lowest(&run, &late),
            )
        };
        check.find(Finding::within(
            format!("{day} degC: high side"),
            h,
            high.0,
            high.1,
            "kPag",
            0,
        ));
        let what = format!("{day} degC: low side");
        let first = format!("{:.0} to {:.0} kPag", low.0, low.1);
        check.find(if late.is_empty() {
            Finding::beside(what, format!("{l:.0} kPag"), first, NO_CYCLE)
        } else {
            // A loop never falls below its own switch by more than the lag: where the printed range lies below that, that is the bound.
            let opens = run.bay.plant().vehicle.switches.low_opens.si();
            let (most, why) = if opens / 1e3 > low.1 {
                (opens / 1e3, SWITCH)
            } else {
                (low.1, MINIMA)
            };
            Finding::within(what, l, low.0, most, "kPag", 0).instead_of(first, why)
        });
        highs.push((day, h));
        lows.push((day, l));
    }
    check.plots = vec![
        Plot::new(
            "High side before the clutch opens",
            "day, degC",
            "kPa gauge",
        )
        .band(
            "printed",
            rows.iter().map(|r| (r.0, r.1.0, r.1.1)).collect(),
        )
        .curve("ours", highs),
        Plot::new("Low side before the clutch opens", "day, degC", "kPa gauge")
            .band(
                "printed",
                rows.iter().map(|r| (r.0, r.2.0, r.2.1)).collect(),
            )
            .curve("ours", lows),
    ];
    Ok(vec![check])
}

pub(super) fn variable_type(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "2. A passenger car at idle",
        "Idle, recirculation, windows open, 60 % humidity; our compact car. That car has an expansion valve and a variable compressor: \
         ours is another loop, and the figures stand beside each other for what they are worth.",
        "a 2010 passenger-car service manual",
    );
    let rows = [
        (25.0, (1204.0, 1471.0), (171.0, 209.0)),
        (30.0, (1300.0, 1590.0), (196.0, 240.0)),
        (35.0, (1500.0, 1820.0), (229.0, 280.0)),
        (40.0, (1870.0, 2285.0), (292.0, 357.0)),
    ];
    let (mut highs, mut lows) = (Vec::new(), Vec::new());
    for (day, high, low) in rows {
        let run = idle_humid(runs, day, 60.0)?;
        for (what, ours, (lo, hi)) in [
            ("high side", run.on.high, high),
            ("low side", run.on.low, low),
        ] {
            check.find(Finding::beside(
                format!("{day} degC: {what}"),
                format!("{ours:.0} kPag"),
                format!("{lo:.0} to {hi:.0} kPag"),
                OTHER_LOOP,
            ));
        }
        highs.push((day, run.on.high));
        lows.push((day, run.on.low));
    }
    for (day, humidity, lo, hi) in [
        (30.0, 55.0, 14.5, 17.5),
        (30.0, 65.0, 17.5, 20.5),
        (25.0, 55.0, 8.4, 10.9),
        (25.0, 65.0, 10.9, 13.4),
        (20.0, 60.0, 6.0, 8.0),
    ] {
        let run = idle_humid(runs, day, humidity)?;
        check.find(Finding::beside(
            format!("{day} degC, {humidity} %: vent"),
            format!("{:.1} degC", run.all.vent),
            format!("{lo:.1} to {hi:.1} degC"),
            OTHER_LOOP,
        ));
    }
    check.plots = vec![
        Plot::new("High side at idle", "day, degC", "kPa gauge")
            .band(
                "printed",
                rows.iter().map(|r| (r.0, r.1.0, r.1.1)).collect(),
            )
            .curve("ours", highs),
        Plot::new("Low side at idle", "day, degC", "kPa gauge")
            .band(
                "printed",
                rows.iter().map(|r| (r.0, r.2.0, r.2.1)).collect(),
            )
            .curve("ours", lows),
    ];
    Ok(vec![check])
}

fn idle_humid(runs: &Runs, day: f64, humidity: f64) -> Result<std::sync::Arc<Run>, Error> {
    let overrides = [
        "engine.speed=800rpm",
        "controls.windows_open=true",
        &with("day.ambient", day, "degC"),
        &with("day.humidity", humidity, "%"),
    ];
    runs.play("healthy-compact", &overrides, &[])
}

pub(super) fn cycling_1994(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "3. A cycling-clutch orifice-tube car, stabilised",
        "Low side 240 to 344, high side 1 226 to 1 618 kPag. The day is not told; ours at 30 degC, idle, windows open.",
        "a 1994 passenger-car service manual",
    );
    let (mut highs, mut lows) = (Vec::new(), Vec::new());
    for day in [24.0, 27.0, 30.0, 33.0, 35.0] {
        let run = runs.healthy(&["engine.speed=800rpm", &with("day.ambient", day, "degC")])?;
        highs.push((day, run.on.high));
        lows.push((day, run.on.low));
    }
    check.find(Finding::within(
        "low side, 30 degC",
        lows[2].1,
        240.0,
        344.0,
        "kPag",
        0,
    ));
    check.find(Finding::within(
        "high side, 30 degC",
        highs[2].1,
        1226.0,
        1618.0,
        "kPag",
        0,
    ));
    check.plots = vec![
        Plot::new("Low side at idle", "day, degC", "kPa gauge")
            .band(
                "printed, day not told",
                vec![(24.0, 240.0, 344.0), (35.0, 240.0, 344.0)],
            )
            .curve("ours", lows),
        Plot::new("High side at idle", "day, degC", "kPa gauge")
            .band(
                "printed, day not told",
                vec![(24.0, 1226.0, 1618.0), (35.0, 1226.0, 1618.0)],
            )
            .curve("ours", highs),
    ];
    Ok(vec![check])
}

pub(super) fn standing(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "13. Standing pressure of R-134a",
        "To 0.12 bar: the table is printed to 0.1 bar, rounded up.",
        "a 2001 passenger-car service manual",
    );
    let mut ours = Vec::new();
    let rows = [
        (15.0, 3.9),
        (20.0, 4.7),
        (25.0, 5.6),
        (30.0, 6.7),
        (35.0, 7.8),
        (40.0, 9.1),
        (45.0, 10.5),
    ];
    for (day, bar) in rows {
        let run = runs.healthy(&[
            &with("day.ambient", day, "degC"),
            "engine.on=false",
            "controls.ac=false",
            "until=3min",
        ])?;
        let p = run.last().low / 100.0;
        ours.push((day, p));
        check.find(Finding::within(
            format!("{day} degC"),
            p,
            bar - 0.12,
            bar + 0.12,
            "bar gauge",
            2,
        ));
    }
    check.plots.push(
        Plot::new("Standing pressure", "temperature, degC", "bar gauge")
            .curve("ours", ours)
            .marks("printed", rows.to_vec()),
    );
    Ok(vec![check])
}
