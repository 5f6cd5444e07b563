//! The summary of a run: one JSON object in SI, or a short table in SI and US units. Bays beside the run stand in columns beside
//! it, with the difference.

use crate::{beside::Beside, failure::Failure, figure::Figure, text};
use lowside_session::{
    Bay,
    scenario::Altered,
    summary::{Summary, Window},
};
use lowside_units::{Duration, display};
use serde::Serialize;
use std::io::Write;

/// A summary and how fast it came.
#[derive(Debug, Serialize)]
struct Report {
    #[serde(flatten)]
    summary: Summary,
    /// Bay seconds in a second of wall time.
    real_time_factor: f64,
    /// What of the vehicle's data sheet was altered.
    #[serde(skip_serializing_if = "Option::is_none")]
    altered_data_sheet: Option<Altered>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    beside: Vec<BesideReport>,
}

/// The summary of a bay beside the run.
#[derive(Debug, Serialize)]
struct BesideReport {
    changes: String,
    /// Acts that it refused.
    refused: usize,
    /// Why it stands still, if it does; then it has no summary.
    halted: Option<String>,
    #[serde(flatten)]
    summary: Option<Summary>,
    #[serde(skip)]
    lines: Option<Lines>,
}

/// Prints the summary of a bay and of those beside it.
///
/// # Errors
/// [`Failure::Output`].
pub(crate) fn print(
    bay: &Bay,
    window: &Window,
    beside: &[Beside],
    real_time_factor: f64,
    json: bool,
    out: &mut impl Write,
) -> Result<(), Failure> {
    let summary = window.summary(bay);
    let reports = beside.iter().map(|b| {
        let (twin, summary) = (b.twin.bay(), b.summary());
        BesideReport {
            changes: b.changes.clone(),
            refused: b.twin.refused(),
            halted: b
                .twin
                .halt()
                .map(|why| format!("halted at {:.2} s: {why}", twin.seconds())),
            lines: summary.as_ref().map(|s| lines(twin, s)),
            summary,
        }
    });
    let report = Report {
        summary,
        real_time_factor,
        altered_data_sheet: bay.scenario().altered.clone(),
        beside: reports.collect(),
    };
    if json {
        let line = serde_json::to_string(&report).map_err(std::io::Error::from)?;
        writeln!(out, "{line}")?;
    } else if beside.is_empty() {
        write!(out, "{}", table(bay, &report))?;
    } else {
        write!(out, "{}", columns(bay, &report))?;
    }
    out.flush()?;
    Ok(())
}

/// The lines of the table: what, and its figure.
type Lines = [(&'static str, Figure); 22];

fn lines(bay: &Bay, s: &Summary) -> Lines {
    let dials = &bay.shop().instruments;
    let mean = |p: Option<f64>| p.map_or(Figure::None, Figure::Absolute);
    [
        ("gauge, low side", Figure::Gauge(dials.low.reading())),
        ("gauge, high side", Figure::Gauge(dials.high.reading())),
        ("low side", Figure::Absolute(s.low_kPa_abs)),
        ("high side", Figure::Absolute(s.high_kPa_abs)),
        (
            "low side, mean with clutch in",
            mean(s.low_kPa_abs_clutch_on_mean),
        ),
        (
            "high side, mean with clutch in",
            mean(s.high_kPa_abs_clutch_on_mean),
        ),
        ("centre vent", Figure::Temperature(s.vent_degC)),
        ("centre vent, mean", Figure::Temperature(s.vent_degC_mean)),
        ("cabin", Figure::Temperature(s.cabin_degC)),
        ("superheat", Figure::Kelvin(s.superheat_K)),
        ("subcooling", Figure::Kelvin(s.subcooling_K)),
        ("discharge line", Figure::Temperature(s.discharge_degC)),
        ("refrigerant in the loop", Figure::Mass(s.refrigerant_kg)),
        ("air in the loop", Figure::Mass(s.air_kg)),
        ("capacity, mean", Figure::Heat(s.capacity_W)),
        ("shaft, mean", Figure::Power(s.shaft_W)),
        ("clutch", Figure::Clutch(s.clutch_on)),
        ("clutch, share of time in", Figure::Share(s.clutch_duty)),
        ("clutch, times pulled in", Figure::Count(s.clutch_cycles)),
        (
            "liquid drawn by compressor",
            Figure::Share(s.suction_liquid),
        ),
        ("compressor wear", Figure::Share(s.compressor_wear)),
        ("accumulator level", Figure::Share(s.accumulator_level)),
    ]
}

fn head(bay: &Bay, s: &Summary) -> String {
    let name = text::one_line(&bay.scenario().name);
    let time = display::duration(Duration::from_s(s.t_s)).number;
    let altered = altered(bay);
    format!("{name}\n{altered}after {time}; means and counts over the last 2 min\n")
}

/// Says what of the vehicle's data sheet was altered, and what it was.
fn altered(bay: &Bay) -> String {
    let list = bay.scenario().altered.iter().flat_map(Altered::list);
    let fields: Vec<String> = list
        .map(|a| match &a.was {
            Some(serde_json::Value::String(was)) => format!("{} (was {was})", a.field),
            Some(was) => format!("{} (was {was})", a.field),
            None => format!("{} (was not there)", a.field),
        })
        .collect();
    if fields.is_empty() {
        return String::new();
    }
    format!(
        "altered data sheet: {}\n",
        text::one_line(&fields.join(", "))
    )
}

fn books(s: &Summary) -> String {
    format!(
        "mass to {:.1e}, energy to {:.1e}",
        s.max_mass_error_rel, s.max_energy_error_rel
    )
}

/// The table: what, SI, US.
fn table(bay: &Bay, report: &Report) -> String {
    let s = &report.summary;
    let lines = lines(bay, s).map(|(what, figure)| {
        let [si, us] = figure.shown();
        let line = format!("{what:<31}{si:>12}{us:>15}");
        line.trim_end().to_owned()
    });
    let foot = format!(
        "\nbooks: {}; {:.0} times real time; state {}\n",
        books(s),
        report.real_time_factor,
        s.state_hash
    );
    [head(bay, s), lines.join("\n"), foot].join("\n")
}

/// The table with bays beside the run: what, the run, then each bay and its difference from the run; in SI, and again in US units
/// where they differ.
fn columns(bay: &Bay, report: &Report) -> String {
    let s = &report.summary;
    let beside = || (1..).zip(&report.beside);
    let mut text = vec![head(bay, s)];
    text.extend(beside().map(|(i, b)| format!("beside {i}: {}\n", text::one_line(&b.changes))));
    let run = lines(bay, s);
    for (system, unit) in [(0, "in SI units"), (1, "in US units")] {
        let heads =
            beside().map(|(i, _)| format!("{:>14}{:>14}", format!("beside {i}"), "difference"));
        text.push(format!(
            "\n{unit:<31}{:>12}{}\n",
            "the run",
            heads.collect::<String>()
        ));
        for (k, (what, figure)) in run.iter().enumerate() {
            let value = &figure.shown()[system];
            if value.is_empty() {
                continue;
            }
            let cells = report.beside.iter().map(|b| {
                let other = b.lines.as_ref().map_or(Figure::None, |lines| lines[k].1);
                let (value, difference) = (&other.shown()[system], &other.over(*figure)[system]);
                format!("{value:>14}{difference:>14}")
            });
            text.push(format!(
                "{what:<31}{value:>12}{}\n",
                cells.collect::<String>()
            ));
        }
    }
    let (books_of_run, speed) = (books(s), report.real_time_factor);
    let hash = &s.state_hash;
    text.push(format!(
        "\nthe run: books: {books_of_run}; {speed:.0} times real time; state {hash}\n"
    ));
    text.extend(beside().map(|(i, b)| {
        let end = match &b.summary {
            Some(s) => format!("books: {}; state {}", books(s), s.state_hash),
            None => b.halted.clone().unwrap_or_default(),
        };
        format!("beside {i}: {end}; acts refused: {}\n", b.refused)
    }));
    text.concat()
}
