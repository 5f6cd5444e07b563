//! The cautions of one bay: each comes at its act, stays until it is understood or its cause is gone, and is understood for this bay alone.

use lowside_fluids::Refrigerant;
use lowside_session::{Action, Bay, Tick, VesselAct};

use crate::caution::Caution;

/// A caution that is shown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Told {
    /// The caution itself.
    pub caution: Caution,
    /// The gas it speaks of.
    pub gas: Refrigerant,
    /// Place of the act in the log, and the act: taken back, it takes the caution with it.
    act: (usize, (Tick, Action)),
}

/// The cautions of one bay.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Cautions {
    told: Vec<Told>,
    understood: Vec<Caution>,
}

/// The gas that an act has to do with, by what is written on cans, fittings, and the `hoses` in hand.
pub fn gas(hoses: Refrigerant, action: Action) -> Refrigerant {
    match action {
        Action::Vessel(VesselAct::TakeCanOf { gas } | VesselAct::TakeCylinder { gas, .. }) => gas,
        _ => hoses,
    }
}

impl Cautions {
    /// Takes up the caution of the act that a bay has just seen; the new caution, if it is one to be told.
    pub fn raise(&mut self, bay: &Bay, caution: Caution) -> Option<Told> {
        let last = *bay.log().last()?;
        if self.understood.contains(&caution) {
            return None;
        }
        let known = self.told.iter().position(|t| t.caution == caution);
        let told = known.map_or(
            Told {
                caution,
                gas: gas(bay.shop().hands.hoses, last.1),
                act: (bay.log().len() - 1, last),
            },
            |at| self.told.remove(at),
        );
        self.told.push(told);
        known.is_none().then_some(told)
    }

    /// Lets go of those whose act was taken back or whose cause is gone.
    pub fn look(&mut self, bay: &Bay) {
        self.told.retain(|t| {
            let (at, entry) = t.act;
            bay.log().get(at) == Some(&entry) && t.caution.holds(bay)
        });
    }

    /// Puts one away for this bay.
    pub fn understand(&mut self, caution: Caution) {
        self.told.retain(|t| t.caution != caution);
        self.understood.push(caution);
    }

    /// The latest, and how many there are besides.
    pub fn latest(&self) -> Option<(Told, usize)> {
        let (last, rest) = self.told.split_last()?;
        Some((*last, rest.len()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tests::bay;
    use lowside_session::{HoseAct, Timeline, VehicleAct, acts};
    use lowside_units::{Ratio, Temperature};

    fn act(cautions: &mut Cautions, bay: &mut Bay, action: impl Into<Action>) -> Option<Caution> {
        let action = action.into();
        let caution = Caution::at(action, bay);
        bay.apply(action).expect("possible");
        let told = caution.and_then(|c| cautions.raise(bay, c));
        cautions.look(bay);
        told.map(|t| t.caution)
    }

    fn shown(cautions: &Cautions) -> Option<Caution> {
        cautions.latest().map(|(t, _)| t.caution)
    }

    #[test]
    fn a_caution_ends_with_its_cause_and_comes_again_until_it_is_understood() {
        let (shut, open) = (Ratio::from_fraction(0.0), Ratio::from_fraction(1.0));
        let bath = |c| VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(c)),
        };
        let invert = |on| VesselAct::Invert { on };
        let valve = |open| HoseAct::HighValve { open };
        let pairs = [
            (acts![valve(open), valve(shut)], Caution::HighValveRunning),
            (acts![bath(70.0), bath(40.0)], Caution::BathTooHot),
            (acts![invert(true), invert(false)], Caution::LiquidToSuction),
            (
                acts![invert(true), VehicleAct::Engine { on: false }],
                Caution::LiquidToSuction,
            ),
        ];
        for ([cause, end], caution) in pairs {
            let (mut bay, mut cautions) = (bay("healthy"), Cautions::default());
            act(&mut cautions, &mut bay, VesselAct::TakeCan);
            cautions.understand(Caution::EyesAndHands);
            for _ in 0..2 {
                assert_eq!(act(&mut cautions, &mut bay, cause), Some(caution));
                assert_eq!(shown(&cautions), Some(caution));
                act(&mut cautions, &mut bay, end);
                assert_eq!(shown(&cautions), None, "{end:?}");
                let _ = bay.apply(VehicleAct::Engine { on: true });
                let _ = bay.apply(VesselAct::Invert { on: false });
            }
            act(&mut cautions, &mut bay, cause);
            cautions.understand(caution);
            act(&mut cautions, &mut bay, end);
            let _ = bay.apply(VehicleAct::Engine { on: true });
            assert_eq!(act(&mut cautions, &mut bay, cause), None, "understood");
            let mut other = Cautions::default();
            let mut next = self::bay("healthy");
            act(&mut other, &mut next, VesselAct::TakeCan);
            assert_eq!(act(&mut other, &mut next, cause), Some(caution));
        }
    }

    #[test]
    fn a_caution_goes_with_the_act_that_is_taken_back() {
        let mut bay = bay("healthy");
        let mut past = Timeline::new(&bay);
        let mut cautions = Cautions::default();
        act(&mut cautions, &mut bay, VesselAct::TakeCan);
        bay.step().expect("the engine goes on");
        past.record(&bay);
        assert_eq!(shown(&cautions), Some(Caution::EyesAndHands));
        // The same act, taken back and done again, is another one.
        bay = past.undo(&bay).expect("an act");
        cautions.look(&bay);
        assert_eq!(shown(&cautions), None);
    }

    #[test]
    fn a_can_is_spoken_of_by_its_own_gas() {
        for (name, other) in [
            ("healthy", Refrigerant::R12),
            ("before-retrofit", Refrigerant::R134a),
        ] {
            let (mut bay, mut cautions) = (bay(name), Cautions::default());
            let hoses = bay.shop().hands.hoses;
            act(&mut cautions, &mut bay, VesselAct::TakeCan);
            assert_eq!(cautions.latest().expect("told").0.gas, hoses);
            let mut cautions = Cautions::default();
            act(&mut cautions, &mut bay, VesselAct::TakeCanOf { gas: other });
            assert_eq!(cautions.latest().expect("told").0.gas, other);
        }
        let (mut bay, mut cautions) = (bay("healthy-crossover"), Cautions::default());
        act(&mut cautions, &mut bay, VesselAct::TakeCan);
        assert_eq!(cautions.latest().expect("told").0.gas, Refrigerant::R1234yf);
    }
}
