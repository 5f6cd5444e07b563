//! What is asked about in bays that run.

use lowside_session::{Bay, TICKS_PER_SECOND, acts};
use lowside_shop::joints::{Fit, Joint, Seal, Side};
use lowside_units::{GaugePressure, Temperature};

use super::*;
use crate::{Cost, Truth, tests::bay, toll};

fn pass(bay: &mut Bay, seconds: u64) {
    for _ in 0..seconds * TICKS_PER_SECOND {
        bay.step().expect("the engine goes on");
    }
}

/// What is asked before an act that the bay would take.
fn asked(bay: &Bay, action: impl Into<Action>) -> Option<Caution> {
    let action = action.into();
    let taken = bay.clone().apply(action).is_ok();
    caution(&Shown::of(bay), action).filter(|_| taken)
}

const JOINT: Joint = Joint::EvaporatorOut;
const OPEN: BenchAct = BenchAct::OpenJoint { joint: JOINT };

#[test]
fn whatever_opens_a_loop_under_pressure_is_asked_about() {
    let mut bay = bay("healthy");
    assert!(asked(&bay, OPEN).is_some(), "needles that still rise");
    pass(&mut bay, 30);
    assert_eq!(asked(&bay, OPEN), Some(Caution::OpensUnderPressure));
    assert!(shows_pressure(&Shown::of(&bay)));
    assert!(asked(&bay, BenchAct::RenewSeals).is_some());
    // A core under its coupler is refused, not asked about.
    let core = BenchAct::ValveCore {
        side: Side::Low,
        fitted: false,
    };
    assert_eq!(asked(&bay, core), None);
    bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
    assert_eq!(asked(&bay, core), Some(Caution::OpensUnderPressure));
    bay.apply(HoseAct::HighCoupler { on: false }).unwrap();
    assert!(asked(&bay, OPEN).is_some(), "nobody knows");
    assert!(!shows_pressure(&Shown::of(&bay)));
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
    let kit = GaugePressure::from_kpa(2900.0);
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
        let asked = asked(&bay, act);
        assert_eq!(asked, Some(Caution::OpensUnderPressure), "{act:?}");
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
        let by_last = asked(&bay, last);
        assert_eq!(by_last, Some(Caution::HighValveRunning), "{order:?}");
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
    assert_eq!(asked(&bay, bath(53.0)), Some(Caution::BathTooHot));
    bay.apply(bath(53.0)).unwrap();
    assert_eq!(asked(&bay, bath(70.0)), None, "it is hot already");
}

/// What hangs on an open hose is shut off before it comes off (common practice): else can or loop blow into the room.
#[test]
fn what_comes_off_the_hose_open_is_asked_about() {
    let off = acts![
        VesselAct::TakeCan,
        VesselAct::RemoveCan,
        HoseAct::Disconnect
    ];
    let open = Ratio::from_fraction(1.0);
    let mut bay = bay("healthy");
    pass(&mut bay, 10);
    for act in off {
        assert_eq!(asked(&bay, act), None, "nothing hangs on the hose");
    }
    bay.apply(VesselAct::TakeCan).unwrap();
    pass(&mut bay, 5);
    for act in off {
        assert_eq!(asked(&bay, act), None, "a can that was never pierced");
    }
    let mut tap = bay.clone();
    tap.apply(VesselAct::Tap { on: true }).unwrap();
    pass(&mut tap, 5);
    for act in off {
        assert_eq!(asked(&tap, act), Some(Caution::Venting), "{act:?}");
        assert!(open_can(&Shown::of(&tap)).is_some());
        let mut done = tap.clone();
        done.apply(act).unwrap();
        let costs = toll(&Truth::of(&done)).into_iter();
        let vented = costs.into_iter().find_map(|(_, cost)| match cost {
            Cost::Vented(kg) => Some(kg),
            _ => None,
        });
        assert!(vented.is_some_and(|kg| kg > 0.3), "{vented:?}");
    }
    tap.apply(VesselAct::Tap { on: false }).unwrap();
    assert_eq!(asked(&tap, VesselAct::TakeCan), None);
    // A hand valve leads from the loop to the end of the hose.
    let mut valve = bay.clone();
    valve.apply(HoseAct::LowValve { open }).unwrap();
    pass(&mut valve, 5);
    for act in off {
        assert_eq!(asked(&valve, act), Some(Caution::Venting), "{act:?}");
        let shown = Shown::of(&valve);
        assert!(open_can(&shown).is_none() && shows_pressure(&shown));
    }
    // A can with a valve of its own shuts as the tap leaves it.
    let mut own = bay.clone();
    for act in acts![VesselAct::TakeSelfSealingCan, VesselAct::Tap { on: true }] {
        own.apply(act).unwrap();
    }
    assert_eq!(asked(&own, VesselAct::RemoveCan), None);
    // What hangs there turns, and is refused.
    let mut empty = crate::tests::bay("charge-from-cans");
    pass(&mut empty, 5);
    for act in acts![VesselAct::TakeCan, HoseAct::LowValve { open }] {
        empty.apply(act).unwrap();
    }
    let off = asked(&empty, HoseAct::Disconnect);
    assert_eq!(off, Some(Caution::OpenHose), "air would run in");
    assert_eq!(
        asked(&empty, VesselAct::TakeCan),
        None,
        "another takes its place"
    );
}

/// A hose on which nothing hangs ends in the room: a hand valve that opens it lets the loop out (common practice, no source).
#[test]
fn a_hand_valve_into_the_room_is_asked_about() {
    let open = Ratio::from_fraction(0.3);
    let [low, high] = acts![HoseAct::LowValve { open }, HoseAct::HighValve { open }];
    let mut bay = bay("healthy");
    pass(&mut bay, 30);
    assert_eq!(asked(&bay, low), Some(Caution::Venting));
    assert_eq!(asked(&bay, high), Some(Caution::HighValveRunning));
    let mut off = bay.clone();
    off.apply(VehicleAct::Engine { on: false }).unwrap();
    pass(&mut off, 5);
    assert_eq!(asked(&off, high), Some(Caution::Venting));
    off.apply(high).unwrap();
    let start = VehicleAct::Engine { on: true };
    assert_eq!(asked(&off, start), Some(Caution::HighValveRunning));
    let shut = HoseAct::HighValve {
        open: Ratio::default(),
    };
    assert_eq!(asked(&off, shut), None);
    // A can that is shut ends the hose.
    bay.apply(VesselAct::TakeCan).unwrap();
    assert_eq!([asked(&bay, low), asked(&bay, high)], [None; 2]);
    let mut empty = crate::tests::bay("charge-from-cans");
    pass(&mut empty, 5);
    assert_eq!(
        asked(&empty, low),
        Some(Caution::OpenHose),
        "air would run in"
    );
}
