//! What a copy of an open bay does in the seconds after an act that can hurt: computed, not told from memory.

use lowside_plant::species::{AIR, REFRIGERANT};
use lowside_session::{Action, Bay, Event, TICKS_PER_SECOND};
use lowside_units::{
    GaugePressure, Mass,
    display::{self, Shown, Style, UnitSystem},
};

/// What a copy has come to.
#[derive(Debug, Clone, PartialEq)]
pub struct Ahead {
    /// How far ahead.
    pub after: Shown,
    /// Pressure in the can and what it holds; none where none hangs on the hose, or it has burst.
    pub can: Option<[Shown; 2]>,
    /// The can has burst.
    pub burst: bool,
    /// Refrigerant that has gone into the room.
    pub lost: Option<Shown>,
    /// Air that has run into loop and hoses.
    pub air: Option<Shown>,
    /// Whoever did it is hurt.
    pub hurt: bool,
}

/// How long the copy runs, s: long enough that a can fills or a loop blows off; water heats a can slowly (own figures).
const SECONDS: u64 = 12;
const HEATING: u64 = 240;
/// Least that is worth telling, kg.
const TELLS: f64 = 1e-3;
const TELLS_AIR: f64 = 50e-6;

impl Ahead {
    /// Does an act in a copy of a bay and lets it run, until a can bursts at the latest; none where the engine cannot vouch for it.
    pub fn of(bay: &Bay, action: Action, heats: bool, units: UnitSystem) -> Option<Self> {
        let mut copy = bay.clone();
        let heard = copy.events().len();
        copy.apply(action).ok()?;
        let happened = |copy: &Bay, event| copy.events()[heard..].iter().any(|(_, e)| *e == event);
        let seconds = if heats { HEATING } else { SECONDS };
        for _ in 0..seconds * TICKS_PER_SECOND {
            if happened(&copy, Event::CanBurst) {
                break;
            }
            copy.step().ok()?;
        }
        let burst = happened(&copy, Event::CanBurst);
        let mass = |kg: f64| display::mass(Mass::from_kg(kg), units);
        let can = copy
            .shop()
            .hands
            .attached
            .can()
            .filter(|c| !c.burst)
            .map(|_| {
                let node = copy.plant().network.node(copy.shop().manifold.can);
                let gauge = node.state.p - copy.plant().day().p;
                let held = node.content.whole()[REFRIGERANT];
                [
                    display::gauge_pressure(GaugePressure::from_pa(gauge), units),
                    mass(held),
                ]
            });
        let gone = |species| {
            let to_room = |bay: &Bay| bay.plant().network.account().to_room[species];
            to_room(&copy) - to_room(bay)
        };
        Some(Self {
            after: Style::new(0, "s").show((copy.seconds() - bay.seconds()).round()),
            can,
            burst,
            lost: Some(gone(REFRIGERANT)).filter(|kg| *kg > TELLS).map(mass),
            air: Some(-gone(AIR))
                .filter(|kg| *kg > TELLS_AIR)
                .map(|kg| display::small_mass(Mass::from_kg(kg), units)),
            hurt: happened(&copy, Event::Injury),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{BenchAct, HoseAct, VesselAct, acts};
    use lowside_shop::joints::Joint;
    use lowside_units::{Ratio, Temperature};

    fn pass(bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
    }

    fn number(shown: &Shown) -> f64 {
        shown.number.replace(' ', "").parse().expect("a number")
    }

    fn with_can() -> Bay {
        let mut bay = bay("healthy");
        for act in acts![VesselAct::TakeCan, VesselAct::Tap { on: true }] {
            bay.apply(act).unwrap();
        }
        pass(&mut bay, 60);
        bay
    }

    /// The copy does what the bay does when the act is done, and leaves the bay as it was.
    #[test]
    fn the_copy_comes_to_what_the_bay_comes_to() {
        let open = Ratio::from_fraction(1.0);
        let mut bay = with_can();
        let act = Action::from(HoseAct::HighValve { open });
        let before = bay.clone();
        let told = Ahead::of(&bay, act, false, UnitSystem::US).expect("the engine goes on");
        assert_eq!(bay.differences(&before), Vec::new());
        assert_eq!(
            (told.after.to_string().as_str(), told.burst),
            ("12 s", false)
        );
        let [pressure, holds] = told.can.expect("it hangs there");
        bay.apply(act).unwrap();
        pass(&mut bay, SECONDS);
        let node = bay.plant().network.node(bay.shop().manifold.can);
        let psi = (node.state.p - bay.plant().day().p) / 6894.757;
        assert!(
            (number(&pressure) - psi).abs() <= 1.0,
            "{pressure} against {psi}"
        );
        // 28.35 g an ounce.
        let ounces = node.content.whole()[REFRIGERANT] / 0.028_35;
        assert!(
            (number(&holds) - ounces).abs() < 0.1,
            "{holds} against {ounces}"
        );
    }

    #[test]
    fn each_harm_is_told_of_where_it_comes() {
        let mut bay = with_can();
        let ahead =
            |bay: &Bay, act, heats| Ahead::of(bay, act, heats, UnitSystem::SI).expect("possible");
        let hot = VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(95.0)),
        };
        assert!(
            ahead(&bay, hot.into(), true).burst,
            "nearly boiling water bursts a full can"
        );
        let joint = BenchAct::OpenJoint {
            joint: Joint::EvaporatorOut,
        };
        let told = ahead(&bay, joint.into(), false);
        assert!(told.hurt && told.lost.is_some_and(|m| number(&m) > 50.0) && told.air.is_none());
        bay = crate::readout::tests::bay("charge-from-cans");
        pass(&mut bay, 5);
        let told = ahead(&bay, joint.into(), false);
        assert!(
            !told.hurt && told.lost.is_none() && told.air.is_some(),
            "{told:?}"
        );
    }
}
