//! What a run prints where the bay is worked in by hand: readings and what eyes, ears, nose and hands tell, and nothing else.

use crate::{failure::Failure, figure::Figure, text};
use lowside_lessons::{Coat, Shown, Surface, Touch, senses::Feel};
use lowside_session::Sight;
use lowside_units::{Duration, display};
use serde::Serialize;
use std::io::Write;

/// From here on a hiss is heard, of what it can be (own figure).
const HEARD: f64 = 0.05;

/// Reads the name of a sight.
///
/// # Errors
/// A text that names what is allowed.
pub(crate) fn sight(name: &str) -> Result<Sight, String> {
    match name {
        "open" => Ok(Sight::Open),
        "hands" => Ok(Sight::Hands),
        "exam" => Ok(Sight::Exam),
        _ => Err("it is open, hands or exam".into()),
    }
}

/// Refuses what would tell what a closed bay hides.
///
/// # Errors
/// [`Failure::Asked`] naming the option.
pub(crate) fn refuse(sight: Sight, asked: &[(&str, bool)]) -> Result<(), Failure> {
    match asked.iter().find(|(_, asked)| *asked) {
        Some((option, _)) if sight.closed() => Err(Failure::Asked(format!(
            "{option}: it tells what a bay hides that is worked in by hand; leave it or --sight out"
        ))),
        _ => Ok(()),
    }
}

/// The readings as JSON. None where no instrument is connected, or nobody knows.
#[expect(non_snake_case, reason = "units are spelt as SI spells them")]
#[expect(clippy::struct_excessive_bools, reason = "each is perceived or not")]
#[derive(Debug, Serialize)]
struct Report {
    t_s: f64,
    gauge_low_kPa: Option<f64>,
    gauge_high_kPa: Option<f64>,
    vacuum_gauge_kPa_abs: Option<f64>,
    vent_degC: f64,
    cabin_degC: f64,
    clamp_degC: Option<f64>,
    scale_kg: Option<f64>,
    charged_by_weight_kg: Option<f64>,
    label_charge_kg: f64,
    clutch_in: bool,
    gas_hisses: bool,
    clutch_smells: bool,
    gas_blows_out: bool,
    air_hisses_in: bool,
    somebody_hurt: bool,
    relief_valve_blows: bool,
    condensate_drips: bool,
    oil_stains: usize,
    leaks_found: usize,
    places_searched: usize,
    /// How each surface within reach feels and looks; none where it is not in place.
    surfaces: Vec<(&'static str, Option<[&'static str; 2]>)>,
}

fn surface(surface: Surface) -> &'static str {
    match surface {
        Surface::Compressor => "compressor",
        Surface::Discharge => "discharge line",
        Surface::CondenserInlet => "condenser, inlet",
        Surface::CondenserOutlet => "condenser, outlet",
        Surface::Liquid => "liquid line",
        Surface::EvaporatorInlet => "pipe into the evaporator",
        Surface::EvaporatorOutlet => "pipe out of the evaporator",
        Surface::Accumulator => "accumulator",
        Surface::Suction => "suction line",
        Surface::Vessel => "vessel on the service hose",
    }
}

fn feel(feel: Feel) -> [&'static str; 2] {
    let touch = match feel.touch {
        Touch::Icy => "icy cold",
        Touch::Cool => "cool",
        Touch::AsTheDay => "as the day",
        Touch::Warm => "warm",
        Touch::TooHot => "too hot",
    };
    let coat = match feel.coat {
        Coat::Dry => "dry",
        Coat::Dew => "dew",
        Coat::Frost => "frost",
    };
    [touch, coat]
}

impl Report {
    fn of(seconds: f64, s: &Shown<'_>) -> Self {
        let kpa = |pa: f64| pa / 1e3;
        let deg_c = |k: f64| k - 273.15;
        let searched = || s.searched.iter().flatten();
        Self {
            t_s: seconds,
            gauge_low_kPa: s.low.map(kpa),
            gauge_high_kPa: s.high.map(kpa),
            vacuum_gauge_kPa_abs: s.vacuum.map(kpa),
            vent_degC: deg_c(s.air[0]),
            cabin_degC: deg_c(s.air[1]),
            clamp_degC: s.clamp.map(deg_c),
            scale_kg: s.hands.attached.weighed().then_some(s.weighs),
            charged_by_weight_kg: s.charge,
            label_charge_kg: s.target,
            clutch_in: s.sound.clutch,
            gas_hisses: s.sound.hiss > HEARD,
            clutch_smells: s.smells,
            gas_blows_out: s.blows,
            air_hisses_in: s.draws,
            somebody_hurt: s.hurt,
            leaks_found: searched().filter(|s| s.found).count(),
            places_searched: searched().count(),
            relief_valve_blows: s.relief,
            condensate_drips: s.drips,
            oil_stains: s.stained.iter().filter(|stained| **stained).count(),
            surfaces: Surface::ALL
                .map(|at| (surface(at), s.surface(at).map(feel)))
                .to_vec(),
        }
    }

    /// What is noticed besides.
    fn noticed(&self) -> impl Iterator<Item = &'static str> {
        let all = [
            (self.gas_hisses, "gas hisses"),
            (self.clutch_smells, "the clutch slips and smells"),
            (self.gas_blows_out, "gas blows out of what stands open"),
            (self.air_hisses_in, "air goes in through what stands open"),
            (self.relief_valve_blows, "the relief valve blows"),
            (self.condensate_drips, "condensate drips"),
            (self.oil_stains > 0, "oil has come out"),
            (self.somebody_hurt, "somebody is hurt"),
            (self.leaks_found > 0, "a search has found a leak"),
        ];
        all.into_iter().filter(|(so, _)| *so).map(|(_, what)| what)
    }

    fn lines(&self) -> Vec<(&'static str, Figure)> {
        let or_none =
            |value: Option<f64>, figure: fn(f64) -> Figure| value.map_or(Figure::None, figure);
        let gauge = |kpa: f64| Figure::Gauge(kpa * 1e3);
        vec![
            ("gauge, low side", or_none(self.gauge_low_kPa, gauge)),
            ("gauge, high side", or_none(self.gauge_high_kPa, gauge)),
            (
                "vacuum gauge",
                or_none(self.vacuum_gauge_kPa_abs, Figure::Absolute),
            ),
            ("centre vent", Figure::Temperature(self.vent_degC)),
            ("cabin", Figure::Temperature(self.cabin_degC)),
            (
                "clamp thermometer",
                or_none(self.clamp_degC, Figure::Temperature),
            ),
            ("scale", or_none(self.scale_kg, Figure::Mass)),
            (
                "charged by weight",
                or_none(self.charged_by_weight_kg, Figure::Mass),
            ),
            ("label charge", Figure::Mass(self.label_charge_kg)),
            ("clutch", Figure::Clutch(self.clutch_in)),
        ]
    }
}

/// Prints what is shown in a bay of a name after so many seconds.
///
/// # Errors
/// [`Failure::Output`].
pub(crate) fn print(
    (name, seconds): (&str, f64),
    shown: &Shown<'_>,
    json: bool,
    out: &mut impl Write,
) -> Result<(), Failure> {
    let report = Report::of(seconds, shown);
    if json {
        let line = serde_json::to_string(&report).map_err(std::io::Error::from)?;
        writeln!(out, "{line}")?;
    } else {
        let time = display::duration(Duration::from_s(seconds)).number;
        writeln!(
            out,
            "{}\nafter {time}; what instruments, eyes, ears, nose and hands tell\n",
            text::one_line(name)
        )?;
        for (what, figure) in report.lines() {
            let [si, us] = figure.shown();
            let line = format!("{what:<31}{si:>12}{us:>15}");
            writeln!(out, "{}", line.trim_end())?;
        }
        for (what, feel) in &report.surfaces {
            let [touch, coat] = feel.unwrap_or(["-", ""]);
            let line = format!("{what:<31}{touch:>12}{coat:>15}");
            writeln!(out, "{}", line.trim_end())?;
        }
        for what in report.noticed() {
            writeln!(out, "{what}")?;
        }
    }
    out.flush()?;
    Ok(())
}
