//! What is asked before an act that can hurt: what the gauges show, what is worn and, in an open bay, what a copy of it comes to. Whether it is
//! asked, [`lowside_lessons::confirm`] says.

use lowside_lessons::{
    Caution, Shown, cautions,
    confirm::{caution, open_can, shows_pressure},
};
use lowside_session::{Action, Bay};
use lowside_shop::protection::Worn;
use lowside_units::{
    GaugePressure, Mass,
    display::{self, UnitSystem},
};

use crate::{Shown as Text, ahead::Ahead, tools::Refrigerant};

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The caution of the act.
    pub caution: Caution,
    /// The gas it speaks of.
    pub gas: Refrigerant,
    /// Low and high gauge; none where its coupler is off.
    pub gauges: [Option<Text>; 2],
    /// One of them shows pressure.
    pub pressure: bool,
    /// What is left in the open can that is to come off, by the scale.
    pub can: Option<Text>,
    /// What a copy of the bay comes to; nobody knows in a closed one.
    pub ahead: Option<Ahead>,
}

/// What is to be asked before an act in a bay, worked in closed or not; nothing where it does no harm by what is shown, or is refused.
pub fn question(bay: &Bay, closed: bool, action: Action, units: UnitSystem) -> Option<Question> {
    let now = &Shown::of(bay);
    let caution = caution(now, action)?;
    bay.clone().apply(action).ok()?;
    let heats = caution == Caution::BathTooHot;
    let ahead = (!closed).then(|| Ahead::of(bay, action, heats, units));
    let text = |pa: f64| display::gauge_pressure(GaugePressure::from_pa(pa), units);
    Some(Question {
        caution,
        gas: cautions::gas(now.hands.hoses, action),
        gauges: [now.low.map(text), now.high.map(text)],
        pressure: shows_pressure(now),
        can: open_can(now).map(|_| display::mass(Mass::from_kg(now.weighs.max(0.0)), units)),
        ahead: ahead.flatten(),
    })
}

/// What has to be worn for a caution and is not: goggles, gloves.
pub fn missing(wanted: Worn, worn: Worn) -> [bool; 2] {
    [
        wanted.goggles && !worn.goggles,
        wanted.gloves && !worn.gloves,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{readout::Readout, readout::tests::bay};
    use lowside_session::{Bay, BenchAct, HoseAct, TICKS_PER_SECOND, VesselAct};
    use lowside_shop::joints::Joint;

    fn asked(bay: &Bay, action: impl Into<Action>) -> Question {
        question(bay, false, action.into(), UnitSystem::US).expect("asked")
    }

    fn pass(bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
    }

    #[test]
    fn a_question_has_the_figures_of_the_gauges_that_are_on() {
        let open = BenchAct::OpenJoint {
            joint: Joint::EvaporatorOut,
        };
        let mut bay = bay("healthy");
        pass(&mut bay, 30);
        let q = asked(&bay, open);
        assert_eq!(q.caution, Caution::OpensUnderPressure);
        let shown = Readout::of(&Shown::of(&bay), UnitSystem::US);
        assert_eq!(q.gauges, [Some(shown.low), Some(shown.high)]);
        assert!(q.pressure);
        bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
        let q = asked(&bay, open);
        assert!(q.gauges[0].is_none() && q.gauges[1].is_some());
        bay.apply(HoseAct::HighCoupler { on: false }).unwrap();
        let q = asked(&bay, open);
        let closed = question(&bay, true, open.into(), UnitSystem::US).expect("asked");
        assert!(
            q.ahead.is_some() && closed.ahead.is_none(),
            "a closed bay shows none"
        );
        assert_eq!(q.gauges, [None, None], "nobody knows");
        assert!(!q.pressure);
    }

    #[test]
    fn an_open_can_is_asked_about_with_what_the_scale_shows() {
        let mut bay = bay("healthy");
        bay.apply(VesselAct::TakeCan).unwrap();
        bay.apply(VesselAct::Tap { on: true }).unwrap();
        pass(&mut bay, 5);
        let q = asked(&bay, VesselAct::RemoveCan);
        assert_eq!((q.caution, q.gas), (Caution::Venting, Refrigerant::R134a));
        let left = q.can.expect("the scale shows it");
        // A small can holds 12 oz.
        assert_eq!((left.number.as_str(), left.unit), ("12.0", "oz"));
    }
}
