//! The healthy vehicle on six days at three engine speeds, against the ranges of common practice.

use lowside_fluids::Refrigerant;
use lowside_session::library;

use super::{rises, with};
use crate::{
    Job,
    check::{Check, Finding},
    error::Error,
    plot::{Plot, Points},
    run::{Run, Runs, scenario},
};
use std::{fmt::Write as _, sync::Arc};

/// What fills the section.
pub const JOBS: &[Job] = &[table];

const PRACTICE: &str = "common practice, no single source (R-134a, recirculation, high blower, windows open, after 10 min)";

/// A day's ranges: degC; low side with the clutch in, high side at 1 500 rpm (kPa gauge); centre vent, degC.
pub(super) struct Day {
    pub(super) ambient: f64,
    low: (f64, f64),
    high: (f64, f64),
    vent: (f64, f64),
}

const fn day(ambient: f64, low: (f64, f64), high: (f64, f64), vent: (f64, f64)) -> Day {
    Day {
        ambient,
        low,
        high,
        vent,
    }
}

pub(super) const DAYS: [Day; 6] = [
    day(21.0, (150.0, 280.0), (830.0, 1200.0), (2.0, 8.0)),
    day(27.0, (150.0, 290.0), (1000.0, 1550.0), (3.0, 9.0)),
    day(32.0, (150.0, 310.0), (1250.0, 1900.0), (4.0, 12.0)),
    day(35.0, (160.0, 330.0), (1350.0, 2100.0), (4.0, 13.0)),
    day(38.0, (170.0, 345.0), (1500.0, 2250.0), (5.0, 15.0)),
    day(43.0, (190.0, 380.0), (1700.0, 2500.0), (7.0, 18.0)),
];

/// Said where the ranges are held against another gas than theirs.
const OTHER_GAS: &str =
    " The ranges are those of R-134a, held here against another gas for want of its own.";

const SPEEDS: [(f64, &str); 3] = [(800.0, "idle"), (1500.0, "1500 rpm"), (2500.0, "2500 rpm")];

/// Lines of a vehicle's file that say they were tuned.
pub(super) fn tuned(vehicle: &str) -> String {
    let mut text = String::new();
    let mut part = "";
    for line in library::vehicle(vehicle).unwrap_or_default().lines() {
        if let Some(name) = line.strip_prefix('[').and_then(|l| l.strip_suffix(']')) {
            part = name;
        } else if !line.starts_with('#') && line.contains("tuned") {
            let _ = write!(text, "{part}.{}; ", line.trim());
        }
    }
    if !text.is_empty() {
        text.insert_str(0, &format!("{vehicle}: "));
    }
    text.push_str("stirring between condenser cells (so that air costs what practice says)");
    text
}

type Table = Vec<(usize, usize, Arc<Run>)>;

fn table(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut checks = Vec::new();
    for vehicle in library::vehicle_names().split(", ") {
        let which = format!("vehicle={vehicle}");
        let sheet = scenario("healthy", &[&which, "start.charge=200g"])?.vehicle;
        let label = sheet.label_charge.kg();
        let charge = with("start.charge", label, "kg");
        let mut table: Table = Vec::new();
        for (d, day) in DAYS.iter().enumerate() {
            for (s, (rpm, _)) in SPEEDS.iter().enumerate() {
                let run = runs.healthy(&[
                    &which,
                    &charge,
                    &with("day.ambient", day.ambient, "degC"),
                    &with("engine.speed", *rpm, "rpm"),
                ])?;
                table.push((d, s, run));
            }
        }
        let mut found = of_vehicle(vehicle, &table);
        if sheet.refrigerant != Refrigerant::R134a {
            for check in &mut found {
                check.asked.push_str(OTHER_GAS);
            }
        }
        checks.extend(found);
    }
    Ok(checks)
}

fn of_vehicle(vehicle: &str, table: &Table) -> Vec<Check> {
    let tuned = tuned(vehicle);
    let mut low = Check::new(
        format!("{vehicle}: low side with the clutch in"),
        "Mean while the clutch was in over the last two minutes, at every speed.",
        PRACTICE,
    );
    let mut high = Check::new(
        format!("{vehicle}: high side"),
        "Mean while the clutch was in. The range is for 1 500 rpm; the other speeds are drawn beside it.",
        PRACTICE,
    );
    let mut vent = Check::new(
        format!("{vehicle}: centre vent"),
        "Mean of the last two minutes, at every speed.",
        PRACTICE,
    );
    for (d, s, run) in table {
        let (day, (_, speed)) = (&DAYS[*d], SPEEDS[*s]);
        let at = format!("{} degC, {speed}", day.ambient);
        let row = |range: (f64, f64), got, unit: &str, n| {
            Finding::within(at.clone(), got, range.0, range.1, unit, n)
        };
        low.find(row(day.low, run.on.low, "kPag", 0));
        if *s == 1 {
            high.find(row(day.high, run.on.high, "kPag", 0));
        }
        vent.find(row(day.vent, run.all.vent, "degC", 1));
    }
    let curve = |s: usize, of: fn(&Run) -> f64| -> Vec<(f64, f64)> {
        table
            .iter()
            .filter(|row| row.1 == s)
            .map(|row| (DAYS[row.0].ambient, of(&row.2)))
            .collect()
    };
    let plot = |title: &str, y: &str, of: fn(&Run) -> f64, range: fn(&Day) -> (f64, f64)| {
        let mut plot = Plot::new(format!("{vehicle}: {title}"), "day, degC", y).band(
            "common practice",
            DAYS.iter()
                .map(|d| (d.ambient, range(d).0, range(d).1))
                .collect(),
        );
        for (s, (_, name)) in SPEEDS.iter().enumerate() {
            plot = plot.curve(*name, curve(s, of));
        }
        plot
    };
    low.plots
        .push(plot("low side", "kPa gauge", |r| r.on.low, |d| d.low));
    high.plots.push(plot(
        "high side (range for 1 500 rpm)",
        "kPa gauge",
        |r| r.on.high,
        |d| d.high,
    ));
    vent.plots
        .push(plot("vent", "degC", |r| r.all.vent, |d| d.vent));
    for check in [&mut low, &mut high, &mut vent] {
        check.tuned.clone_from(&tuned);
    }
    let mut rules = rules(vehicle, table, &curve);
    rules.tuned = tuned;
    vec![low, high, vent, rules]
}

fn rules(vehicle: &str, table: &Table, curve: &dyn Fn(usize, fn(&Run) -> f64) -> Points) -> Check {
    let mut check = Check::new(
        format!("{vehicle}: rules of thumb"),
        "High side in psig is 2.0 to 2.6 times the day in degF (1 500 rpm). Up to 27 degC the clutch cycles; at 38 degC and idle \
         it need not. High side and vent rise with the day (vent where the clutch stays in: a cycling switch sets its own). No healthy \
         vehicle meets its high-pressure cut-out. \
         Cooling over shaft work lies between 0.8 and 6.",
        "common practice, no source",
    );
    let psi_per_f = |run: &Run| run.on.high / 6.894_757 / (run.ambient * 1.8 + 32.0);
    for (d, s, run) in table {
        let at = format!("{} degC, {}", DAYS[*d].ambient, SPEEDS[*s].1);
        if *s == 1 {
            check.find(Finding::within(
                format!("{at}: high side over day"),
                psi_per_f(run),
                2.0,
                2.6,
                "psig/degF",
                2,
            ));
        }
        if DAYS[*d].ambient <= 27.0 && *s > 0 {
            check.find(Finding::holds(
                format!("{at}: cycles"),
                format!("{:.1} a minute", run.cycles_per_minute()),
                "above 0",
                run.cycles_per_minute() > 0.0,
            ));
        }
        // The lowest cut-out of the three vehicles opens at 2 700 kPag.
        let cut_outs = run.trips.iter().filter(|t| t.high > 2500.0).count();
        check.find(Finding::holds(
            format!("{at}: high-pressure cut-out"),
            format!("lets go {cut_outs} times in ten minutes"),
            "never",
            cut_outs == 0,
        ));
        let cop = run.summary.capacity_W / run.summary.shaft_W;
        if *s == 1 {
            check.find(Finding::within(
                format!("{at}: cooling over shaft work"),
                cop,
                0.8,
                6.0,
                "",
                2,
            ));
        }
    }
    for (s, (_, speed)) in SPEEDS.iter().enumerate() {
        let heads: Vec<f64> = curve(s, |r| r.on.high).iter().map(|p| p.1).collect();
        check.find(Finding::holds(
            format!("{speed}: high side rises with the day"),
            super::list(&heads, 0),
            "rising",
            rises(&heads, 0.0),
        ));
        let steady =
            |row: &&(usize, usize, Arc<Run>)| row.1 == s && row.2.summary.clutch_cycles == 0;
        let vents: Vec<f64> = table
            .iter()
            .filter(steady)
            .map(|row| row.2.all.vent)
            .collect();
        check.find(Finding::holds(
            format!("{speed}: vent rises with the day where the clutch stays in"),
            super::list(&vents, 1),
            "rising",
            rises(&vents, 0.0),
        ));
    }
    let mut cycles = Plot::new(
        format!("{vehicle}: clutch cycles"),
        "day, degC",
        "cycles a minute",
    );
    let mut capacity = Plot::new(format!("{vehicle}: cooling"), "day, degC", "kW");
    let mut cop = Plot::new(
        format!("{vehicle}: cooling over shaft work"),
        "day, degC",
        "",
    );
    for (s, (_, name)) in SPEEDS.iter().enumerate() {
        cycles = cycles.curve(*name, curve(s, Run::cycles_per_minute));
        capacity = capacity.curve(*name, curve(s, |r| r.summary.capacity_W / 1e3));
        cop = cop.curve(
            *name,
            curve(s, |r| r.summary.capacity_W / r.summary.shaft_W),
        );
    }
    check.plots = vec![cycles, capacity, cop];
    check
}
