//! Round pressure gauges: the scale, the ring of saturation temperatures, and where the needle stands.

use lowside_lessons::Shown;
use lowside_session::{TICKS_PER_SECOND, Tick};
use lowside_units::{
    GaugePressure, Quantity, Temperature,
    display::{PressureUnit, TemperatureUnit, UnitSystem},
};

use crate::history::{History, Trace};

/// Which gauge.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Which {
    /// Compound gauge on the low hose.
    Low,
    /// High-pressure gauge on the high hose.
    High,
}

impl Which {
    /// What it reads of the loop, Pa gauge; none while its coupler is off.
    pub(crate) fn gauge(self, shown: &Shown<'_>) -> Option<f64> {
        match self {
            Self::Low => shown.low,
            Self::High => shown.high,
        }
    }
}

/// A mark on a scale.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Place along the sweep, 0 to 1.
    pub at: f64,
    /// Its number, where it carries one.
    pub label: Option<String>,
}

/// The unchanging face of a gauge.
#[derive(Debug, Clone, PartialEq)]
pub struct Face {
    /// Which gauge.
    pub which: Which,
    /// Pressure marks.
    pub pressure: Vec<Mark>,
    /// Saturation temperature marks.
    pub saturation: Vec<Mark>,
    /// Unit of the pressure scale.
    pub unit: &'static str,
    /// Unit of the vacuum part.
    pub vacuum_unit: &'static str,
    /// Unit of the temperature ring.
    pub temperature_unit: &'static str,
    /// Refrigerant of the ring.
    pub refrigerant: &'static str,
    /// Where the scale passes the atmosphere.
    pub zero_at: f64,
}

/// Share of the sweep below the atmosphere.
fn vacuum_share(which: Which) -> f64 {
    match which {
        Which::Low => 0.16,
        Which::High => 0.0,
    }
}

/// Top of the scale, Pa gauge.
fn top(which: Which, units: UnitSystem) -> f64 {
    match (which, units.pressure) {
        (Which::Low, PressureUnit::Psi) => GaugePressure::from_psi(150.0).si(),
        (Which::Low, _) => 1.0e6,
        (Which::High, PressureUnit::Psi) => GaugePressure::from_psi(500.0).si(),
        (Which::High, _) => 3.5e6,
    }
}

/// Full vacuum, Pa gauge.
const FULL_VACUUM: f64 = -101_325.0;

/// Place of a gauge pressure (Pa) along the sweep, 0 to 1, held at the pins.
pub fn place(which: Which, units: UnitSystem, p: f64) -> f64 {
    let v = vacuum_share(which);
    let at = if p < 0.0 {
        v * (1.0 - p / FULL_VACUUM)
    } else {
        v + (1.0 - v) * p / top(which, units)
    };
    at.clamp(0.0, 1.0)
}

/// Throb of a pointer over its pressure while the compressor turns slowly (own figure: a damped gauge on a hose trembles by about
/// half a per cent at idle and less the faster the strokes come; common practice, no source).
const THROB: f64 = 0.006;
/// Turns a second at which it has halved.
const SMOOTH: f64 = 20.0;

/// Trembling of a gauge's pointer from the compressor's strokes at wall time `seconds`, Pa. It is only seen: readings, charts and
/// the bay know nothing of it. Nothing with the coupler off or the compressor at rest.
pub fn flutter(shown: &Shown<'_>, which: Which, seconds: f64) -> f64 {
    let (coupled, turns) = (which.gauge(shown).is_some(), shown.sound.turns);
    if !coupled || turns <= 0.0 {
        return 0.0;
    }
    let p = shown.pointers[which as usize];
    // A hub that a slipping clutch hardly turns makes no strokes to speak of.
    let most = THROB * (p + shown.day.p) * turns.min(1.0) / (1.0 + turns / SMOOTH);
    // Strokes are too quick to be followed: what is left is their beat with the pointer's own swing.
    let wave = libm::sin(seconds * 41.0) * 0.6 + libm::sin(seconds * 58.7 + 1.0) * 0.4;
    most * wave
}

/// Least and greatest place of a pointer within the last minute of bay time, 0 to 1; none before the first sample.
pub fn memory(history: &History, now: Tick, which: Which, units: UnitSystem) -> Option<(f64, f64)> {
    let trace = match which {
        Which::Low => Trace::Low,
        Which::High => Trace::High,
    };
    let from = now.saturating_sub(60 * TICKS_PER_SECOND);
    let (lo, hi) = history.extent(trace, from, now)?;
    Some((place(which, units, lo), place(which, units, hi)))
}

/// Where the needle of a gauge stands, 0 to 1, trembling as it does at wall time `seconds`; still if none is given.
pub fn needle(shown: &Shown<'_>, which: Which, units: UnitSystem, seconds: Option<f64>) -> f64 {
    let p = shown.pointers[which as usize];
    let throb = seconds.map_or(0.0, |s| flutter(shown, which, s));
    place(which, units, p + throb)
}

impl Face {
    /// The face of a gauge of the set that is used.
    pub fn of(shown: &Shown<'_>, which: Which, units: UnitSystem) -> Self {
        // Steps of the scale in its unit, how many of them, and every how many are lettered.
        let (step, count, lettered): (f64, i32, i32) = match (which, units.pressure) {
            (Which::Low, PressureUnit::Psi) => (5.0, 30, 6),
            (Which::Low, PressureUnit::Kpa) => (50.0, 20, 4),
            (Which::Low, PressureUnit::Bar) => (0.5, 20, 4),
            (Which::High, PressureUnit::Psi) => (20.0, 25, 5),
            (Which::High, PressureUnit::Kpa) => (100.0, 35, 5),
            (Which::High, PressureUnit::Bar) => (1.0, 35, 5),
        };
        let pa = |n: f64| match units.pressure {
            PressureUnit::Psi => GaugePressure::from_psi(n).si(),
            PressureUnit::Kpa => GaugePressure::from_kpa(n).si(),
            PressureUnit::Bar => GaugePressure::from_bar(n).si(),
        };
        let mut pressure: Vec<Mark> = (0..=count)
            .map(|k| (k, f64::from(k) * step))
            .map(|(k, n)| Mark {
                at: place(which, units, pa(n)),
                label: (k % lettered == 0).then(|| n.to_string()),
            })
            .collect();
        if which == Which::Low {
            // Inches of mercury count downwards without a sign, as on every compound gauge.
            let vacuum: &[(f64, bool, f64)] = match units.pressure {
                PressureUnit::Psi => &[
                    (10.0, false, -33_863.9),
                    (20.0, false, -67_727.8),
                    (30.0, true, -101_591.7),
                ],
                PressureUnit::Kpa => &[(-50.0, false, -50e3), (-100.0, true, -100e3)],
                PressureUnit::Bar => &[(-0.5, false, -50e3), (-1.0, true, -100e3)],
            };
            for &(n, shown, p) in vacuum {
                let sign = if n < 0.0 { "\u{2212}" } else { "" };
                pressure.push(Mark {
                    at: place(which, units, p),
                    label: shown.then(|| format!("{sign}{}", n.abs())),
                });
            }
        }
        // The ring is printed for the gas that the gauge set is for, whatever is in the loop.
        let gas = shown.hands.hoses;
        let (table, atmosphere) = (gas.table(), shown.day.p);
        let (from, to, by, shown): (i32, i32, i32, i32) = match (which, units.temperature) {
            (Which::Low, TemperatureUnit::Fahrenheit) => (-20, 100, 10, 20),
            (Which::Low, TemperatureUnit::Celsius) => (-25, 40, 5, 10),
            (Which::High, TemperatureUnit::Fahrenheit) => (0, 190, 10, 20),
            (Which::High, TemperatureUnit::Celsius) => (-20, 85, 5, 20),
        };
        let saturation = (0..=(to - from) / by)
            .map(|k| from + k * by)
            .filter_map(|n| {
                let t = match units.temperature {
                    TemperatureUnit::Fahrenheit => Temperature::from_deg_f(f64::from(n)),
                    TemperatureUnit::Celsius => Temperature::from_deg_c(f64::from(n)),
                };
                let p = table.p_sat(t.k()) - atmosphere;
                let label = if n < 0 {
                    format!("\u{2212}{}", -n)
                } else {
                    n.to_string()
                };
                let roomy = place(which, units, p) - vacuum_share(which) > 0.12;
                (p >= 0.0 && p <= top(which, units)).then(|| Mark {
                    at: place(which, units, p),
                    label: (roomy && n.rem_euclid(shown) == 0).then_some(label),
                })
            })
            .collect();
        Self {
            which,
            pressure,
            saturation,
            unit: units.pressure.gauge_symbol(),
            vacuum_unit: match units.pressure {
                PressureUnit::Psi => "inHg",
                other => other.gauge_symbol(),
            },
            temperature_unit: units.temperature.symbol(),
            refrigerant: gas.name(),
            zero_at: vacuum_share(which),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::Bay;

    #[test]
    fn the_ring_agrees_with_the_published_saturation_pressure() {
        // R-134a at 40 degF: 35.1 psig, at 130 degF: 198.7 psig (pressure-temperature charts of the trade, from memory;
        // Tillner-Roth & Baehr 1994 gives 343.4 kPa and 1471 kPa absolute).
        let bay = bay("healthy");
        for (which, label, psig) in [(Which::Low, "40", 35.1), (Which::High, "120", 171.1)] {
            let face = Face::of(&Shown::of(&bay), which, UnitSystem::US);
            let mark = face
                .saturation
                .iter()
                .find(|m| m.label.as_deref() == Some(label))
                .expect("the mark is there");
            let want = place(which, UnitSystem::US, GaugePressure::from_psi(psig).si());
            assert!(
                (mark.at - want).abs() < 0.003,
                "{label}: {} against {want}",
                mark.at
            );
        }
    }

    #[test]
    fn a_needle_trembles_only_where_strokes_reach_it_and_about_its_reading() {
        use lowside_session::{HoseAct, VehicleAct};
        let mut bay = bay("healthy");
        for _ in 0..50 * 60 {
            bay.step().expect("the engine goes on");
        }
        let all: Vec<f64> = (0..4000)
            .map(|k| flutter(&Shown::of(&bay), Which::High, f64::from(k) * 0.0163))
            .collect();
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        let most = all.iter().fold(0.0_f64, |a, b| a.max(b.abs()));
        let p = bay.shop().instruments.high.pointer();
        assert!(most > 1e-3 * p && most < 1e-2 * p, "{most} of {p}");
        assert!(mean.abs() < 0.05 * most);
        bay.apply(HoseAct::HighCoupler { on: false }).unwrap();
        assert!(flutter(&Shown::of(&bay), Which::High, 0.1).abs() < 1e-9);
        bay.apply(VehicleAct::Engine { on: false }).unwrap();
        assert!(flutter(&Shown::of(&bay), Which::Low, 0.1).abs() < 1e-9);
    }

    #[test]
    fn the_last_minute_is_remembered_and_no_longer() {
        let mut bay = bay("healthy");
        let mut history = History::default();
        let mut pass = |bay: &mut Bay, seconds: u64| {
            for _ in 0..seconds * TICKS_PER_SECOND {
                bay.step().expect("the engine goes on");
                history.record(&Shown::of(bay));
            }
            memory(&history, bay.tick(), Which::High, UnitSystem::US).expect("samples")
        };
        let early = pass(&mut bay, 30);
        assert!(
            early.1 - early.0 > 0.1,
            "the start moved the pointer far: {early:?}"
        );
        let late = pass(&mut bay, 240);
        assert!(late.1 - late.0 < 0.05, "it has settled: {late:?}");
    }

    #[test]
    fn scales_rise_and_stop_at_their_pins() {
        for which in [Which::Low, Which::High] {
            for units in [UnitSystem::US, UnitSystem::SI, UnitSystem::MIXED] {
                let places: Vec<f64> = (-10..60)
                    .map(|k| place(which, units, f64::from(k) * 1e5))
                    .collect();
                assert!(places.windows(2).all(|w| w[0] <= w[1]));
                assert!(places[0] >= 0.0 && (places[69] - 1.0).abs() < 1e-12);
                let bay = bay("healthy");
                let face = Face::of(&Shown::of(&bay), which, units);
                assert!(face.pressure.iter().filter(|m| m.label.is_some()).count() >= 5);
            }
        }
    }
}
