//! What one act came to: a bay beside its twin that left the act out.

use lowside_lessons::Shown as Known;
use lowside_session::{Abreast, Action, Bay, Tick, twin::Change};
use lowside_units::{
    GaugePressure, Mass, PressureDifference, Temperature, TemperatureDifference,
    display::{self, Shown, UnitSystem},
};

use crate::compare::Recorded;

/// In what two bays are told apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    /// High-pressure gauge.
    High,
    /// Compound gauge.
    Low,
    /// Centre vent.
    Vent,
    /// Refrigerant in the loop, by the books.
    Charge,
}

/// The reading that would differ most.
#[derive(Debug, Clone, PartialEq)]
pub struct Otherwise {
    /// Which.
    pub reading: Reading,
    /// What it would be.
    pub stands: Shown,
    /// By how much that is more or less than it is.
    pub by: Shown,
    /// It would be more.
    pub more: bool,
}

/// Acts that can be left out, each with its place among the acts of the log and when it was done, the latest first. What only takes a
/// reading or says something changes no bay.
pub fn acts(bay: &Bay) -> Vec<(usize, Tick, Action)> {
    let acts = bay.log().iter().filter(|(_, act)| !act.is_entry());
    let mut all: Vec<_> = acts
        .enumerate()
        .map(|(n, (tick, act))| (n, *tick, *act))
        .filter(|(_, _, act)| {
            !act.reads() && !matches!(act, Action::Learner(_) | Action::Record(_))
        })
        .collect();
    all.reverse();
    all
}

/// Opens a bay beside one, from its beginning, that leaves out some acts.
pub fn without(first: &Bay, acts: &[usize]) -> Option<Recorded> {
    let changes: Vec<Change> = acts.iter().map(|act| Change::LeaveOut(*act)).collect();
    Abreast::new(first, &changes).map(Recorded::new).ok()
}

/// What a gauge's line, a hand at the vent and a scale tell apart: 2 and 1 psi, half a kelvin, 5 g (own figures).
const TOLD_APART: [(Reading, f64); 4] = [
    (Reading::High, 14e3),
    (Reading::Low, 7e3),
    (Reading::Vent, 0.5),
    (Reading::Charge, 5e-3),
];

/// In which reading the twin stands furthest from its bay, by what can be told apart; none if in none.
pub fn otherwise(first: &Bay, twin: &Bay, units: UnitSystem) -> Option<Otherwise> {
    let (is, would) = (Known::of(first), Known::of(twin));
    let value = |bay: &Bay, known: &Known<'_>, reading| match reading {
        Reading::High => known.pointers[1],
        Reading::Low => known.pointers[0],
        Reading::Vent => known.air_pointers[0],
        Reading::Charge => bay.charge(),
    };
    let differs = |(reading, least): (Reading, f64)| {
        let stands = value(twin, &would, reading);
        let by = stands - value(first, &is, reading);
        (by.abs() >= least).then_some((reading, stands, by, by.abs() / least))
    };
    let most = TOLD_APART.into_iter().filter_map(differs);
    let (reading, stands, by, _) = most.max_by(|a, b| a.3.total_cmp(&b.3))?;
    let (stands, size) = match reading {
        Reading::High | Reading::Low => (
            display::gauge_pressure(GaugePressure::from_pa(stands), units),
            display::pressure_difference(PressureDifference::from_pa(by.abs()), units),
        ),
        Reading::Vent => (
            display::temperature(Temperature::from_k(stands), units),
            display::temperature_difference(TemperatureDifference::from_k(by.abs()), units),
        ),
        Reading::Charge => (
            display::mass(Mass::from_kg(stands), units),
            display::mass(Mass::from_kg(by.abs()), units),
        ),
    };
    Some(Otherwise {
        reading,
        stands,
        by: size,
        more: by > 0.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{RecordAct, TICKS_PER_SECOND, VehicleAct};

    fn goes_on(bay: &mut Bay, minutes: u64) {
        let until = bay.tick() + 60 * minutes * TICKS_PER_SECOND;
        while bay.tick() < until {
            bay.step().expect("the engine goes on");
        }
    }

    /// Of a hotter day the high side tells most; switching on what was on came to nothing; what was only noted is not offered.
    #[test]
    fn an_act_left_out_is_told_by_the_reading_it_moves_most() {
        let mut bay = bay("healthy");
        goes_on(&mut bay, 2);
        let temperature = Temperature::from_deg_c(43.0);
        bay.apply(VehicleAct::Ambient { temperature })
            .expect("a hot day");
        bay.apply(VehicleAct::AirConditioning { on: true })
            .expect("it is on");
        bay.apply(RecordAct::NoteReadings { after: false })
            .expect("gauges can be read");
        goes_on(&mut bay, 3);
        let offered: Vec<usize> = acts(&bay).into_iter().map(|(act, ..)| act).collect();
        assert_eq!(offered, [1, 0], "the latest first, and no note");
        let told = |act| {
            let mut twin = without(&bay, &[act]).expect("it can be left out");
            while !twin.follow(&bay, 1000) {}
            let samples = twin.history().samples().len();
            assert!(samples > 500, "{samples} of 600 half seconds");
            otherwise(&bay, twin.bay(), UnitSystem::US)
        };
        let hotter = told(0).expect("it is cooler without");
        assert_eq!(
            (hotter.reading, hotter.more),
            (Reading::High, false),
            "{hotter:?}"
        );
        assert_eq!(told(1), None);
    }
}
