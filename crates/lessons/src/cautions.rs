//! The caution of one bay: the latest, which comes at its act, stays until it is understood or its cause is gone, and is understood for this
//! bay alone. None waits behind another: one that is overtaken comes again at the next act of its kind.

use lowside_fluids::Refrigerant;
use lowside_session::{Action, Bay, Tick, VesselAct};

use crate::{caution::Caution, shown::Shown};

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
    told: Option<Told>,
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
        let told = Told {
            caution,
            gas: gas(bay.shop().hands.hoses, last.1),
            act: (bay.log().len() - 1, last),
        };
        let before = self.told.replace(told);
        before.is_none_or(|t| t.caution != caution).then_some(told)
    }

    /// Lets go of one whose act was taken back or whose cause is gone.
    pub fn look(&mut self, now: &Shown<'_>) {
        self.told.take_if(|t| {
            let (at, entry) = t.act;
            now.log.get(at) != Some(&entry) || !t.caution.holds(now)
        });
    }

    /// Puts one away for this bay.
    pub fn understand(&mut self, caution: Caution) {
        self.told.take_if(|t| t.caution == caution);
        self.understood.push(caution);
    }

    /// The one to be shown.
    pub fn latest(&self) -> Option<Told> {
        self.told
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
        let caution = Caution::at(action, &Shown::of(bay));
        bay.apply(action).expect("possible");
        let told = caution.and_then(|c| cautions.raise(bay, c));
        cautions.look(&Shown::of(bay));
        told.map(|t| t.caution)
    }

    fn shown(cautions: &Cautions) -> Option<Caution> {
        cautions.latest().map(|t| t.caution)
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
        cautions.look(&Shown::of(&bay));
        assert_eq!(shown(&cautions), None);
    }

    /// One that was overtaken does not come up again by itself, and does at its next act.
    #[test]
    fn no_caution_waits_behind_another() {
        let (mut bay, mut cautions) = (bay("healthy"), Cautions::default());
        act(&mut cautions, &mut bay, VesselAct::TakeCan);
        let bath = VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(70.0)),
        };
        act(&mut cautions, &mut bay, bath);
        assert_eq!(shown(&cautions), Some(Caution::BathTooHot));
        cautions.understand(Caution::BathTooHot);
        assert_eq!(shown(&cautions), None, "nothing has waited");
        let again = act(&mut cautions, &mut bay, VesselAct::TakeCan);
        assert_eq!(again, Some(Caution::EyesAndHands));
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
            assert_eq!(cautions.latest().expect("told").gas, hoses);
            let mut cautions = Cautions::default();
            act(&mut cautions, &mut bay, VesselAct::TakeCanOf { gas: other });
            assert_eq!(cautions.latest().expect("told").gas, other);
        }
        let (mut bay, mut cautions) = (bay("healthy-crossover"), Cautions::default());
        act(&mut cautions, &mut bay, VesselAct::TakeCan);
        assert_eq!(cautions.latest().expect("told").gas, Refrigerant::R1234yf);
    }
}
