//! What is asked before an act that can hurt: it needs a second, deliberate press, with what the gauges show before it.
//!
//! The question goes by what is shown, as the advice does. A loop counts as empty only if that was seen: both gauges connected and down, or
//! stayed down before they came off, or something open that does not blow.

use lowside_session::{Action, Bay, BenchAct, Caution, HoseAct, VehicleAct, VesselAct};
use lowside_shop::{joints::Fit, parts::Part, weighed::NO_PRESSURE};
use lowside_units::{
    GaugePressure,
    display::{self, UnitSystem},
};

use crate::{Shown as Text, next::Shown, tools::Gas};

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Question {
    /// The caution of the act.
    pub caution: Caution,
    /// The gas it speaks of.
    pub gas: Gas,
    /// Low and high gauge; none where its coupler is off.
    pub gauges: [Option<Text>; 2],
    /// One of them shows pressure.
    pub pressure: bool,
}

/// What is to be asked before an act; nothing where it does no harm by what is shown, or would be refused.
pub fn question(bay: &Bay, action: Action, units: UnitSystem) -> Option<Question> {
    let now = Shown::of(bay);
    let caution = peril(bay, &now, action)?;
    let text = |pa: f64| display::gauge_pressure(GaugePressure::from_pa(pa), units);
    Some(Question {
        caution,
        gas: crate::caution::gas(bay, action),
        gauges: [now.low.map(text), now.high.map(text)],
        pressure: shows_pressure(&now),
    })
}

fn peril(bay: &Bay, now: &Shown, action: Action) -> Option<Caution> {
    let caution = risk(bay, action)?;
    if caution == Caution::OpensUnderPressure && shown_empty(now) {
        return None;
    }
    let mut after = bay.clone();
    after.apply(action).ok()?;
    let begins = caution == Caution::OpensUnderPressure || {
        let holds = |s: &Shown| match caution {
            Caution::BathTooHot => s.bath_too_hot(),
            _ => s.feeds_can(),
        };
        !holds(now) && holds(&Shown::of(&after))
    };
    begins.then_some(caution)
}

/// Returns what an act may do to people: give a can heat or pressure, or open the loop to the room.
fn risk(bay: &Bay, action: Action) -> Option<Caution> {
    match action {
        Action::Vehicle(act) => {
            (act == VehicleAct::Engine { on: true }).then_some(Caution::HighValveRunning)
        }
        Action::Hose(act) => match act {
            HoseAct::HighValve { .. } => Some(Caution::HighValveRunning),
            HoseAct::GaugeSet { .. }
            | HoseAct::LowCoupler { .. }
            | HoseAct::LowPort { .. }
            | HoseAct::HighCoupler { .. }
            | HoseAct::LowValve { .. }
            | HoseAct::Purge { .. }
            | HoseAct::Disconnect => None,
        },
        Action::Vessel(act) => match act {
            VesselAct::Bath { .. } => Some(Caution::BathTooHot),
            VesselAct::Tap { on: true } | VesselAct::TapScrew { .. } => {
                Some(Caution::HighValveRunning)
            }
            VesselAct::TakeCan
            | VesselAct::TakeCanOf { .. }
            | VesselAct::TakeSelfSealingCan
            | VesselAct::DropCan
            | VesselAct::Tap { on: false }
            | VesselAct::Invert { .. }
            | VesselAct::TakeCylinder { .. }
            | VesselAct::Dose { .. }
            | VesselAct::TakeNitrogen
            | VesselAct::Regulator { .. } => None,
        },
        Action::Bench(act) => opens(bay, act).then_some(Caution::OpensUnderPressure),
        // They neither heat a can nor open anything to the room.
        Action::Machine(_) | Action::Instrument(_) | Action::Record(_) => None,
    }
}

/// Returns whether an act opens the loop to the room.
fn opens(bay: &Bay, act: BenchAct) -> bool {
    let fit = |j| bay.shop().openings.fit(j);
    match act {
        BenchAct::OpenJoint { .. }
        | BenchAct::ValveCore { fitted: false, .. }
        | BenchAct::ConvertPort { .. }
        | BenchAct::FitCutOut { .. }
        | BenchAct::RenewSeals => true,
        // Caps come off with it.
        BenchAct::RemovePart { part } => Part::joints(part).iter().any(|j| fit(*j) == Fit::Capped),
        BenchAct::CapJoint { .. }
        | BenchAct::CloseJoint { .. }
        | BenchAct::RefitPart { .. }
        | BenchAct::NewPart { .. }
        | BenchAct::FitOrifice { .. }
        | BenchAct::DrainPart { .. }
        | BenchAct::FlushPart { .. }
        | BenchAct::PourOil { .. }
        | BenchAct::InjectOil { .. }
        | BenchAct::PortCap { .. }
        | BenchAct::ValveCore { fitted: true, .. }
        | BenchAct::SwitchScrew { .. } => false,
    }
}

/// Everybody can see that nothing is behind what is to be opened.
fn shown_empty(s: &Shown) -> bool {
    !shows_pressure(s) && (s.down || s.left_open && !s.blows && !s.hurt)
}

fn shows_pressure(s: &Shown) -> bool {
    [s.low, s.high].iter().flatten().any(|p| *p > NO_PRESSURE)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;
    use lowside_session::{TICKS_PER_SECOND, acts};
    use lowside_shop::joints::{Joint, Seal, Side};
    use lowside_units::{Ratio, Temperature};

    fn pass(bay: &mut Bay, seconds: u64) {
        for _ in 0..seconds * TICKS_PER_SECOND {
            bay.step().expect("the engine goes on");
        }
    }

    fn asked(bay: &Bay, action: impl Into<Action>) -> Option<Question> {
        question(bay, action.into(), UnitSystem::US)
    }

    const JOINT: Joint = Joint::EvaporatorOut;
    const OPEN: BenchAct = BenchAct::OpenJoint { joint: JOINT };

    #[test]
    fn whatever_opens_a_loop_under_pressure_is_asked_about_with_the_gauges_figures() {
        let mut bay = bay("healthy");
        assert!(asked(&bay, OPEN).is_some(), "needles that still rise");
        pass(&mut bay, 30);
        let q = asked(&bay, OPEN).expect("asked");
        assert_eq!(q.caution, Caution::OpensUnderPressure);
        let shown = crate::readout::Readout::of(&bay, UnitSystem::US);
        assert_eq!(q.gauges, [Some(shown.low), Some(shown.high)]);
        assert!(q.pressure);
        assert!(asked(&bay, BenchAct::RenewSeals).is_some());
        // A core under its coupler is refused, not asked about.
        let core = BenchAct::ValveCore {
            side: Side::Low,
            fitted: false,
        };
        assert_eq!(asked(&bay, core), None);
        bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
        let q = asked(&bay, core).expect("asked");
        assert!(q.gauges[0].is_none() && q.gauges[1].is_some());
        bay.apply(HoseAct::HighCoupler { on: false }).unwrap();
        let q = asked(&bay, OPEN).expect("asked");
        assert_eq!(q.gauges, [None, None], "nobody knows");
        assert!(!q.pressure);
        // Nothing happened by asking.
        assert_eq!(bay.shop().openings.fit(JOINT), Fit::Untouched);
        bay.apply(OPEN).unwrap();
        assert_eq!(asked(&bay, OPEN), None, "it is apart already");
        let again = BenchAct::OpenJoint {
            joint: Joint::CondenserIn,
        };
        pass(&mut bay, 2);
        assert!(asked(&bay, again).is_some(), "it still blows");
        pass(&mut bay, 900);
        assert_eq!(asked(&bay, again), None, "it has blown off for all to see");
    }

    #[test]
    fn fittings_and_the_cut_out_of_a_conversion_are_asked_about() {
        let mut bay = bay("before-retrofit");
        pass(&mut bay, 5);
        bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
        bay.apply(HoseAct::HighCoupler { on: false }).unwrap();
        let kit = crate::retrofit::switches(&bay, UnitSystem::US).kit.0;
        for act in acts![
            BenchAct::ConvertPort {
                side: Side::Low,
                new_core: true,
            },
            BenchAct::ConvertPort {
                side: Side::High,
                new_core: false,
            },
            BenchAct::FitCutOut { opens: kit },
        ] {
            let q = asked(&bay, act).expect("asked");
            assert_eq!(q.caution, Caution::OpensUnderPressure, "{act:?}");
        }
    }

    #[test]
    fn what_was_seen_to_be_empty_is_opened_without_a_question() {
        let mut bay = bay("charge-from-cans");
        pass(&mut bay, 5);
        assert_eq!(asked(&bay, OPEN), None, "both gauges stand in a vacuum");
        for act in acts![
            HoseAct::LowCoupler { on: false },
            HoseAct::HighCoupler { on: false },
        ] {
            bay.apply(act).unwrap();
        }
        pass(&mut bay, 5);
        assert_eq!(asked(&bay, OPEN), None, "and did until they came off");
        // What is let in, nobody has seen the end of.
        let mut filled = bay.clone();
        for act in acts![
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            HoseAct::LowCoupler { on: true },
            HoseAct::LowValve {
                open: Ratio::from_fraction(1.0),
            },
        ] {
            filled.apply(act).unwrap();
        }
        pass(&mut filled, 1);
        filled.apply(HoseAct::LowCoupler { on: false }).unwrap();
        assert!(asked(&filled, OPEN).is_some(), "a can was let in");
        bay.apply(OPEN).unwrap();
        let other = BenchAct::OpenJoint {
            joint: Joint::AccumulatorOut,
        };
        pass(&mut bay, 120);
        assert_eq!(asked(&bay, other), None);
    }

    #[test]
    fn one_gauge_shows_one_side_and_caps_hide_what_is_behind_them() {
        let mut bay = bay("healthy");
        bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
        bay.apply(OPEN).unwrap();
        pass(&mut bay, 900);
        let other = Joint::AccumulatorOut;
        bay.apply(BenchAct::OpenJoint { joint: other }).unwrap();
        for joint in [JOINT, other] {
            bay.apply(BenchAct::CapJoint { joint }).unwrap();
        }
        let part = Part::Accumulator;
        assert!(asked(&bay, BenchAct::RemovePart { part }).is_some());
        let seal = Seal::NewOiled;
        let close = BenchAct::CloseJoint { joint: JOINT, seal };
        assert_eq!(asked(&bay, close), None);
        assert!(asked(&bay, OPEN).is_some());
    }

    #[test]
    fn the_high_valve_into_a_can_is_asked_about_by_whichever_act_completes_it() {
        let [valve, tap, engine] = acts![
            HoseAct::HighValve {
                open: Ratio::from_fraction(0.3),
            },
            VesselAct::Tap { on: true },
            VehicleAct::Engine { on: true },
        ];
        for order in [
            [valve, tap, engine],
            [engine, valve, tap],
            [tap, engine, valve],
        ] {
            let mut bay = bay("healthy");
            for act in acts![VehicleAct::Engine { on: false }, VesselAct::TakeCan] {
                bay.apply(act).unwrap();
            }
            let [first, second, last] = order;
            for act in [first, second] {
                assert_eq!(asked(&bay, act), None, "{act:?} of {order:?}");
                bay.apply(act).unwrap();
            }
            let q = asked(&bay, last).expect("asked");
            assert_eq!(q.caution, Caution::HighValveRunning, "{order:?}");
            bay.apply(last).unwrap();
            let wider = HoseAct::HighValve {
                open: Ratio::from_fraction(0.9),
            };
            assert_eq!(asked(&bay, wider), None, "asked once");
        }
    }

    /// 52 degC (125 degF) is the limit printed on small cans (common practice).
    #[test]
    fn water_too_hot_for_a_can_is_asked_about_once() {
        let mut bay = bay("healthy");
        let bath = |c| VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(c)),
        };
        assert_eq!(asked(&bay, bath(70.0)), None, "there is no can");
        bay.apply(VesselAct::TakeCan).unwrap();
        assert_eq!(asked(&bay, bath(51.0)), None);
        let q = asked(&bay, bath(53.0)).expect("asked");
        assert_eq!(q.caution, Caution::BathTooHot);
        bay.apply(bath(53.0)).unwrap();
        assert_eq!(asked(&bay, bath(70.0)), None, "it is hot already");
    }
}
