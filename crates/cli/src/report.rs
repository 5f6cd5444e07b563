//! The summary of a run: one JSON object in SI, or a short table in SI and US units.

use crate::{failure::Failure, text};
use lowside_session::{
    Bay,
    summary::{Summary, Window},
};
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Mass, Power, Ratio, Temperature,
    TemperatureDifference,
    display::{self, Shown, UnitSystem},
};
use serde::Serialize;
use std::io::Write;

/// A summary and how fast it came.
#[derive(Debug, Serialize)]
struct Report {
    #[serde(flatten)]
    summary: Summary,
    /// Bay seconds in a second of wall time.
    real_time_factor: f64,
}

/// Prints the summary of a bay.
///
/// # Errors
/// [`Failure::Output`].
pub(crate) fn print(
    bay: &Bay,
    window: &Window,
    real_time_factor: f64,
    json: bool,
    out: &mut impl Write,
) -> Result<(), Failure> {
    // before the first tick the window is empty, and the means are of what stands there
    let mut first = Window::default();
    let window = if bay.tick() == 0 {
        first.take(bay);
        &first
    } else {
        window
    };
    let summary = window.summary(bay);
    if json {
        let report = Report {
            summary,
            real_time_factor,
        };
        let line = serde_json::to_string(&report).map_err(std::io::Error::from)?;
        writeln!(out, "{line}")?;
    } else {
        write!(out, "{}", table(bay, &summary, real_time_factor))?;
    }
    out.flush()?;
    Ok(())
}

/// The table: what, SI, US.
fn table(bay: &Bay, s: &Summary, speed: f64) -> String {
    let kpa = AbsolutePressure::from_kpa;
    let absolute = |p: AbsolutePressure| both(|u| display::absolute_pressure(p, u));
    let mean = |p: Option<f64>| p.map_or_else(|| ["-".into(), "-".into()], |p| absolute(kpa(p)));
    let gauge = |pa: f64| both(|u| display::gauge_pressure(GaugePressure::from_pa(pa), u));
    let celsius = |t: f64| both(|u| display::temperature(Temperature::from_deg_c(t), u));
    let kelvin =
        |t: f64| both(|u| display::temperature_difference(TemperatureDifference::from_k(t), u));
    let mass = |kg: f64| both(|u| display::mass(Mass::from_kg(kg), u));
    let power = |w: f64| both(|u| display::power(Power::from_w(w), u));
    let heat = |w: f64| both(|u| display::heat_flow(Power::from_w(w), u));
    let share = |r: f64| one(display::ratio(Ratio::from_fraction(r)).to_string());
    let dials = &bay.shop().instruments;
    let clutch = if s.clutch_on { "in" } else { "out" };
    let rows = [
        ("gauge, low side", gauge(dials.low.reading())),
        ("gauge, high side", gauge(dials.high.reading())),
        ("low side", absolute(kpa(s.low_kPa_abs))),
        ("high side", absolute(kpa(s.high_kPa_abs))),
        (
            "low side, mean with clutch in",
            mean(s.low_kPa_abs_clutch_on_mean),
        ),
        (
            "high side, mean with clutch in",
            mean(s.high_kPa_abs_clutch_on_mean),
        ),
        ("centre vent", celsius(s.vent_degC)),
        ("centre vent, mean", celsius(s.vent_degC_mean)),
        ("cabin", celsius(s.cabin_degC)),
        ("superheat", kelvin(s.superheat_K)),
        ("subcooling", kelvin(s.subcooling_K)),
        ("discharge line", celsius(s.discharge_degC)),
        ("refrigerant in the loop", mass(s.refrigerant_kg)),
        ("air in the loop", mass(s.air_kg)),
        ("capacity, mean", heat(s.capacity_W)),
        ("shaft, mean", power(s.shaft_W)),
        ("clutch", one(clutch.into())),
        ("clutch, share of time in", share(s.clutch_duty)),
        ("clutch, times pulled in", one(s.clutch_cycles.to_string())),
        ("liquid drawn by compressor", share(s.suction_liquid)),
        ("compressor wear", share(s.compressor_wear)),
        ("accumulator level", share(s.accumulator_level)),
    ];
    let name = text::one_line(&bay.scenario().name);
    let time = display::duration(Duration::from_s(s.t_s)).number;
    let head = format!("{name}\nafter {time}; means and counts over the last 2 min\n");
    let lines = rows.map(|(what, [si, us])| {
        let line = format!("{what:<31}{si:>12}{us:>15}");
        line.trim_end().to_owned()
    });
    let foot = format!(
        "\nbooks: mass to {:.1e}, energy to {:.1e}; {speed:.0} times real time; state {}\n",
        s.max_mass_error_rel, s.max_energy_error_rel, s.state_hash
    );
    [head, lines.join("\n"), foot].join("\n")
}

fn both(show: impl Fn(UnitSystem) -> Shown) -> [String; 2] {
    [UnitSystem::SI, UnitSystem::US].map(|u| show(u).to_string())
}

fn one(text: String) -> [String; 2] {
    [text, String::new()]
}
