//! Bays beside a bay: in what they differ, what goes on inside them, and all of them on one strip chart.

use lowside_lessons::Shown as Known;
use lowside_plant::species::AIR;
use lowside_session::{
    Abreast, Bay, TICKS_PER_SECOND, Tick, TwinError, action::FaultId, twin::Change,
};
use lowside_shop::fault::{self, Severity};
use lowside_units::{
    Mass,
    display::{self, Shown, Style, UnitSystem},
};

use crate::{
    history::{History, Trace},
    plot::{Name, Plot, Scales, steps},
};

/// All faults in which a bay can differ, in the order of the registry.
pub fn faults() -> Vec<FaultId> {
    fault::all().map(FaultId::from).collect()
}

/// Opens a bay beside one, from its beginning, with a fault more at a severity.
///
/// # Errors
/// [`TwinError`] as [`Abreast::new`] has it; none is known of a fault.
pub fn beside(first: &Bay, fault: FaultId, severity: Severity) -> Result<Recorded, TwinError> {
    let with = fault.fault().map(|fault| {
        let scenario = first.scenario().with_fault(fault, severity);
        Change::Start(Box::new(scenario))
    });
    Abreast::new(first, with.as_slice()).map(Recorded::new)
}

/// A bay beside one, and what its instruments showed.
#[derive(Debug, Clone)]
pub struct Recorded {
    abreast: Abreast,
    history: History,
}

impl Recorded {
    /// Records a bay that stands at the beginning of its visit.
    pub fn new(abreast: Abreast) -> Self {
        Self {
            abreast,
            history: History::default(),
        }
    }

    /// Goes to where the first bay is, at most `most` ticks on. Returns whether it is there.
    pub fn follow(&mut self, first: &Bay, most: u64) -> bool {
        let history = &mut self.history;
        let mut began = false;
        self.abreast.follow(first, most, |bay| {
            // What was recorded beyond was of another way.
            if !began {
                history.cut(bay.tick());
                began = true;
            }
            if history.due(bay.tick()) {
                history.record(&Known::of(bay));
            }
        })
    }

    /// Its bay, to read.
    pub fn bay(&self) -> &Bay {
        self.abreast.bay()
    }

    /// What its instruments showed.
    pub fn history(&self) -> &History {
        &self.history
    }

    /// Does it go beside this bay, or one that was opened as it was?
    pub fn is_beside(&self, first: &Bay) -> bool {
        self.abreast.is_beside(first)
    }
}

/// What goes on inside, by name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Within {
    /// Refrigerant in the loop.
    Charge,
    /// Air in the loop.
    Air,
    /// Superheat of the suction gas.
    Superheat,
    /// Subcooling before the orifice.
    Subcooling,
}

/// What goes on inside a bay, as far as it applies now.
pub fn inside(bay: &Bay, units: UnitSystem) -> Vec<(Within, Shown)> {
    let charge = display::mass(Mass::from_kg(bay.charge()), units);
    let grams = bay.plant().held(AIR) * 1e3;
    let mut all = vec![(Within::Charge, charge)];
    // What a good vacuum leaves is no air.
    if grams > 0.01 {
        all.push((Within::Air, Style::new(2, "g").show(grams)));
    }
    let live = Plot::PressureEnthalpy.live(bay, units);
    for (name, within) in [
        (Name::Superheat, Within::Superheat),
        (Name::Subcooling, Within::Subcooling),
    ] {
        let span = live.span(name);
        all.extend(span.map(|span| (within, span.shown.clone())));
    }
    all
}

/// Readings of several bays over the last minutes, on one chart of side 1.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// Numbers on the upright axis and how high they stand, 0 to 1.
    pub numbers: Vec<(f64, String)>,
    /// Their unit.
    pub unit: &'static str,
    /// Of each bay pieces of (place along, height), 0 to 1.
    pub traces: Vec<Vec<Vec<(f64, f64)>>>,
}

/// Steps between numbers on an axis, times a power of ten.
const STEPS: [f64; 3] = [1.0, 2.0, 5.0];
/// Most numbers on it.
const NUMBERS: f64 = 6.0;
/// Columns of a trace.
const COLUMNS: usize = 240;

/// Puts a reading of several bays over the last minutes up to `to` on one chart.
pub fn strip(
    histories: &[&History],
    trace: Trace,
    to: Tick,
    minutes: u64,
    units: UnitSystem,
) -> Strip {
    let from = to.saturating_sub(minutes * 60 * TICKS_PER_SECOND);
    let scales = Scales(units);
    let (shown, unit): (&dyn Fn(f64) -> f64, _) = match trace {
        Trace::Low | Trace::High => (&|pa| scales.gauge(pa), scales.gauge_unit()),
        Trace::Vent | Trace::Cabin => (&|k| scales.t(k), scales.t_unit()),
        Trace::Vacuum => (&|pa| scales.vacuum(pa), scales.vacuum_unit()),
    };
    let ends = histories.iter().filter_map(|h| h.extent(trace, from, to));
    let ends = ends.map(|(lo, hi)| (shown(lo), shown(hi)));
    let (lo, hi) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), (lo, hi)| {
        (a.min(lo), b.max(hi))
    });
    let (lo, hi) = if lo <= hi { (lo, hi) } else { (0.0, 1.0) };
    let by = step((hi - lo).max(1.0) / NUMBERS);
    let (bottom, top) = ((lo / by).floor() * by, ((hi / by).floor() + 1.0) * by);
    let height = |v: f64| (v - bottom) / (top - bottom);
    let piece = |piece: Vec<(f64, f64)>| {
        let at = |(x, si)| (x, height(shown(si)));
        piece.into_iter().map(at).collect()
    };
    let pieces = |h: &&History| {
        let pieces = h.pieces(trace, from, to, COLUMNS).into_iter();
        pieces.map(piece).collect()
    };
    let decimals = usize::from(by < 1.0);
    let numbers = steps(bottom, top, by).into_iter();
    Strip {
        numbers: numbers
            .map(|v| {
                (
                    height(v),
                    format!("{v:.decimals$}").replace('-', "\u{2212}"),
                )
            })
            .collect(),
        unit,
        traces: histories.iter().map(pieces).collect(),
    }
}

/// The least round step that is not below one.
fn step(least: f64) -> f64 {
    let power = libm::pow(10.0, libm::floor(libm::log10(least)));
    let round = STEPS.iter().map(|s| s * power);
    round
        .into_iter()
        .find(|s| *s >= least)
        .unwrap_or(10.0 * power)
}

#[cfg(test)]
mod tests {
    use super::*;
    use lowside_session::library;

    /// A condenser that gets less air drives the high side up (common practice, no source): it stands higher on the one chart.
    #[test]
    fn a_blocked_condenser_stands_above_its_bay_on_one_chart() {
        let mut first = Bay::new(&library::shipped("healthy").expect("shipped"));
        let fault = FaultId::find("condenser-air-blocked").expect("of the registry");
        let mut other = beside(&first, fault, Severity::Severe).expect("it can differ");
        let mut history = History::default();
        for _ in 0..120 * TICKS_PER_SECOND {
            first.step().expect("it goes on");
            if history.due(first.tick()) {
                history.record(&Known::of(&first));
            }
            other.follow(&first, u64::MAX);
        }
        let both = [&history, other.history()];
        let chart = strip(&both, Trace::High, first.tick(), 2, UnitSystem::US);
        let ends: Vec<f64> = chart
            .traces
            .iter()
            .map(|pieces| pieces.last().and_then(|p| p.last()).expect("points").1)
            .collect();
        assert!(ends[1] > ends[0] + 0.1, "{ends:?}");
        let all = chart.traces.iter().flatten().flatten();
        assert!(
            all.clone()
                .all(|(x, y)| (0.0..=1.0).contains(x) && (0.0..=1.0).contains(y))
        );
        assert!(
            (3..=9).contains(&chart.numbers.len()),
            "{:?}",
            chart.numbers
        );
        assert_eq!(chart.unit, "psig");
    }

    #[test]
    fn inside_is_told_by_what_is_there() {
        let first = Bay::new(&library::shipped("healthy").expect("shipped"));
        let air = FaultId::find("air").expect("of the registry");
        let other = beside(&first, air, Severity::Severe).expect("it can differ");
        let names = |bay: &Bay| -> Vec<Within> {
            inside(bay, UnitSystem::SI)
                .into_iter()
                .map(|(w, _)| w)
                .collect()
        };
        assert!(names(other.bay()).contains(&Within::Air));
        assert!(!names(&first).contains(&Within::Air));
        let low = FaultId::find("low-charge").expect("of the registry");
        let other = beside(&first, low, Severity::Severe).expect("it can differ");
        let charge = |bay: &Bay| {
            inside(bay, UnitSystem::SI)[0]
                .1
                .number
                .parse::<f64>()
                .expect("a number")
        };
        // Severe is two fifths of the label's.
        assert!((charge(other.bay()) / charge(&first) - 0.4).abs() < 0.01);
    }
}
