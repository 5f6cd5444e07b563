//! Tests of the advice: what is shown decides it, and nothing else.

use super::*;
use crate::tests::bay;
use lowside_plant::loose::{Lead, Plug};
use lowside_session::{
    Action, Bay, BenchAct, FixingAct, HoseAct, MachineAct, Scenario, TICKS_PER_SECOND, VehicleAct,
    VesselAct, acts, library,
};
use lowside_shop::{joints::Joint, parts::Part};
use lowside_units::{Quantity, Ratio, Temperature};

/// What is in the loop by weight, to the gram.
fn grams(bay: &Bay) -> f64 {
    (Shown::of(bay).charge.unwrap_or(0.0).max(0.0) * 1e3).round()
}

/// What is said in a bay without a card.
fn said(bay: &Bay) -> NextStep {
    next_step(&Shown::of(bay))
}

fn opened(set: &[&str]) -> Bay {
    let set: Vec<String> = set.iter().map(|s| (*s).to_owned()).collect();
    let text = library::scenario("healthy").expect("shipped");
    let mut scenario = Scenario::parse(text, &set).expect("sound");
    scenario.act.clear();
    Bay::new(&scenario)
}

fn pass(bay: &mut Bay, seconds: u64) {
    for _ in 0..seconds * TICKS_PER_SECOND {
        bay.step().expect("the engine goes on");
    }
}

/// The act that a step asks for, as an obedient learner does it.
fn obey(step: NextStep) -> Option<Action> {
    let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
    Some(match step {
        NextStep::TakeCan | NextStep::CanEmptySwap => VesselAct::TakeCan.into(),
        NextStep::OpenTap => VesselAct::Tap { on: true }.into(),
        NextStep::ShutTap | NextStep::CanEmptyTap => VesselAct::Tap { on: false }.into(),
        NextStep::Purge => HoseAct::Purge { on: true }.into(),
        NextStep::StopPurge => HoseAct::Purge { on: false }.into(),
        NextStep::StartEngine => VehicleAct::Engine { on: true }.into(),
        NextStep::StopEngine | NextStep::EngineOff => VehicleAct::Engine { on: false }.into(),
        NextStep::AcOn => VehicleAct::AirConditioning { on: true }.into(),
        NextStep::BlowerHigh => VehicleAct::Blower { step: 4 }.into(),
        NextStep::OpenLowValve => HoseAct::LowValve { open: full }.into(),
        NextStep::CanEmptyShut
        | NextStep::ChargedShut
        | NextStep::Overcharged
        | NextStep::ShutOpenHose => HoseAct::LowValve { open: shut }.into(),
        NextStep::WarmCan => VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(45.0)),
        }
        .into(),
        NextStep::TakeLowCoupler => HoseAct::LowCoupler { on: false }.into(),
        NextStep::TakeHighCoupler => HoseAct::HighCoupler { on: false }.into(),
        NextStep::PutLowCoupler => HoseAct::LowCoupler { on: true }.into(),
        _ => return None,
    })
}

#[test]
fn who_obeys_every_step_finishes_the_job() {
    let mut bay = bay("charge-from-cans");
    let mut seen = Vec::new();
    let mut last = None;
    while bay.seconds() < 3600.0 {
        let step = said(&bay);
        if last != Some(step) {
            seen.push(step);
            if let Some(act) = obey(step) {
                bay.apply(act).expect("the act is possible");
            }
            last = Some(step);
        }
        if step == NextStep::Done {
            break;
        }
        pass(&mut bay, 2);
        last = last.filter(|s| *s == said(&bay));
    }
    assert_eq!(
        seen.last(),
        Some(&NextStep::Done),
        "{seen:?} at {} s",
        bay.seconds()
    );
    assert_eq!(seen.first(), Some(&NextStep::TakeCan));
    assert_eq!(bay.shop().hands.cans_taken, 3, "{seen:?}");
    let label = bay.plant().vehicle.label_charge.si();
    assert!(
        (bay.charge() - label).abs() < 0.09,
        "charge {} (hoses, cans and purges keep some)",
        bay.charge()
    );
    assert!(seen.len() < 60, "no flapping: {seen:?}");
    let at = |step| seen.iter().position(|s| *s == step);
    assert!(
        at(NextStep::OpenLowValve) < at(NextStep::StartEngine),
        "a loop in a vacuum draws the first gas in before the engine runs: {seen:?}"
    );
    assert!(!bay.shop().hands.high_coupled && !bay.plant().settings.engine_on);
}

#[test]
fn an_open_card_leads_unless_there_is_danger() {
    let mut job = Job::open("1-first-charge").expect("shipped");
    let mut bay = job.bay();
    assert_eq!(
        advice(&Shown::of(&bay), None),
        Advice::Step(NextStep::TakeCan)
    );
    assert_eq!(advice(&Shown::of(&bay), Some(&job)), Advice::Card(0));
    let full = Ratio::from_si(1.0);
    bay.apply(HoseAct::LowValve { open: full }).unwrap();
    let shut = Advice::Step(NextStep::ShutOpenHose);
    assert_eq!(advice(&Shown::of(&bay), Some(&job)), shut);
    bay.apply(VesselAct::TakeCan).unwrap();
    bay.apply(VesselAct::Tap { on: true }).unwrap();
    for _ in 0..60 * TICKS_PER_SECOND {
        bay.step().expect("the engine goes on");
        job.look(&bay);
    }
    assert!(matches!(advice(&Shown::of(&bay), Some(&job)), Advice::Card(n) if n > 0));
}

fn give_a_can(bay: &mut Bay) {
    let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
    let temperature = Some(Temperature::from_deg_c(50.0));
    for act in acts![
        HoseAct::LowValve { open: shut },
        VesselAct::TakeCan,
        VesselAct::Tap { on: true },
        VesselAct::Bath { temperature },
        HoseAct::LowValve { open: full },
    ] {
        bay.apply(act).unwrap();
    }
    pass(bay, 400);
}

#[test]
fn a_can_too_many_is_told_where_the_charge_is_known() {
    let mut bay = bay("charge-from-cans");
    for act in acts![
        VehicleAct::Engine { on: true },
        VehicleAct::AirConditioning { on: true },
        VehicleAct::Blower { step: 4 },
    ] {
        bay.apply(act).unwrap();
    }
    for _ in 0..4 {
        give_a_can(&mut bay);
    }
    assert_eq!(said(&bay), NextStep::Overcharged);
    let open = Ratio::from_si(0.0);
    bay.apply(HoseAct::LowValve { open }).unwrap();
    assert_eq!(said(&bay), NextStep::TooMuch);
}

/// Whether it came full, short or with air: nobody has weighed what is in it.
#[test]
fn a_can_on_an_unknown_charge_is_a_guess() {
    for set in [&[][..], &["start.charge=22 oz"], &["start.air=0.3 g"]] {
        let mut bay = opened(set);
        pass(&mut bay, 120);
        assert_eq!(said(&bay), NextStep::TryHotter, "{set:?}");
        bay.apply(VehicleAct::Blower { step: 3 }).unwrap();
        assert_eq!(said(&bay), NextStep::Free, "{set:?}");
        give_a_can(&mut bay);
        assert_eq!(said(&bay), NextStep::UnknownCharge, "{set:?}");
    }
    // A head that stands high is no invitation to a hotter day.
    let mut hot = opened(&["start.air=15 g", "day.ambient=40 degC"]);
    pass(&mut hot, 60);
    let high = Shown::of(&hot).high.expect("connected");
    assert!(high > CALM, "{high} Pa");
    assert_eq!(said(&hot), NextStep::Free);
    let off = opened(&["engine.on=false"]);
    assert_eq!(said(&off), NextStep::Free, "nobody asks for the engine");
}

/// Recovered and evacuated in the bay: from then on the charge is known by weight again; opened, it is not.
#[test]
fn an_evacuated_loop_is_charged_by_weight() {
    let mut bay = opened(&["start.charge=22 oz"]);
    let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
    let gas = bay.shop().hands.hoses;
    for act in acts![
        VehicleAct::Engine { on: false },
        MachineAct::TakeRecoveryMachine { gas },
        HoseAct::LowValve { open: full },
        HoseAct::HighValve { open: full },
        MachineAct::RecoveryMachine { on: true },
    ] {
        bay.apply(act).unwrap();
    }
    pass(&mut bay, 1500);
    bay.apply(MachineAct::TakePump {
        speed: lowside_units::VolumeFlow::from_cfm(6.0),
    })
    .unwrap();
    assert_eq!(said(&bay), NextStep::WorkTool);
    bay.apply(MachineAct::Pump { on: true }).unwrap();
    bay.apply(MachineAct::Isolation { on: true }).unwrap();
    pass(&mut bay, 600);
    bay.apply(HoseAct::LowValve { open: shut }).unwrap();
    bay.apply(HoseAct::HighValve { open: shut }).unwrap();
    bay.apply(MachineAct::Isolation { on: false }).unwrap();
    bay.apply(MachineAct::Pump { on: false }).unwrap();
    bay.apply(HoseAct::Disconnect).unwrap();
    pass(&mut bay, 5);
    assert_eq!(said(&bay), NextStep::TakeCan);
    give_a_can(&mut bay);
    let by_weight = Shown::of(&bay).charge.expect("known");
    assert!(
        (by_weight - bay.charge()).abs() < 0.03,
        "{by_weight} by weight, {} in the loop",
        bay.charge()
    );
    assert_ne!(said(&bay), NextStep::UnknownCharge);
    let joint = Joint::CompressorIn;
    bay.apply(BenchAct::OpenJoint { joint }).unwrap();
    pass(&mut bay, 1);
    assert_eq!(Shown::of(&bay).charge, None);
}

#[test]
fn what_blows_comes_first_whatever_the_card_says() {
    let mut job = Job::open("2-low-charge").expect("shipped");
    let mut bay = job.bay();
    pass(&mut bay, 30);
    bay.apply(VehicleAct::Engine { on: true }).unwrap();
    pass(&mut bay, 30);
    job.look(&bay);
    assert!(matches!(
        advice(&Shown::of(&bay), Some(&job)),
        Advice::Card(_)
    ));
    assert_eq!(harm(&Shown::of(&bay)), None);
    let joint = Joint::CondenserOut;
    bay.apply(BenchAct::OpenJoint { joint }).unwrap();
    let first = |bay: &Bay| advice(&Shown::of(bay), Some(&job));
    assert_eq!(first(&bay), Advice::Step(NextStep::StopEngine));
    assert_eq!(
        harm(&Shown::of(&bay)),
        Some((bay.tick(), Harm::Injury(Worn::default())))
    );
    pass(&mut bay, 1);
    assert_eq!(first(&bay), Advice::Step(NextStep::StopEngine));
    bay.apply(VehicleAct::Engine { on: false }).unwrap();
    assert_eq!(first(&bay), Advice::Step(NextStep::KeepAway));
    pass(&mut bay, 300);
    assert!(matches!(first(&bay), Advice::Card(_)));
    assert_eq!(said(&bay), NextStep::CapEnds);
}

#[test]
fn a_burst_can_comes_first_and_the_engine_before_it() {
    let mut bay = opened(&["day.ambient=45 degC"]);
    pass(&mut bay, 60);
    let open = Ratio::from_si(1.0);
    for act in acts![
        VesselAct::TakeCan,
        VesselAct::Tap { on: true },
        HoseAct::HighValve { open },
    ] {
        bay.apply(act).unwrap();
    }
    pass(&mut bay, 60);
    assert!(matches!(harm(&Shown::of(&bay)), Some((_, Harm::Burst))));
    assert_eq!(said(&bay), NextStep::StopEngine);
    bay.apply(VehicleAct::Engine { on: false }).unwrap();
    assert_eq!(said(&bay), NextStep::BurstCan(Control::HighValve));
}

/// Bays that differ only in what nobody sees (charge, air, leaks, wear, the state of tube and coils), at rest at one temperature so that
/// every instrument shows the same, are advised the same whatever hands do.
#[test]
fn what_is_hidden_changes_no_advice() {
    let hidden: [&[&str]; 6] = [
        &[],
        &["start.charge=300 g"],
        &["start.charge=1.6 kg"],
        &["condition.condenser_air=40%"],
        &["condition.joint=[{at=\"condenser-in\",seal=\"old-dry\"}]"],
        &["start.charge=22 oz", "condition.compressor_wear=30%"],
    ];
    let (shut, full) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
    let acts = acts![
        HoseAct::LowCoupler { on: false },
        VesselAct::TakeCan,
        VesselAct::Tap { on: true },
        HoseAct::Purge { on: true },
        HoseAct::Purge { on: false },
        HoseAct::Disconnect,
        VesselAct::TakeNitrogen,
        VesselAct::TakeCan,
        HoseAct::HighCoupler { on: false },
        HoseAct::LowValve { open: full },
        VesselAct::RemoveCan,
        HoseAct::LowValve { open: shut },
        VehicleAct::AirConditioning { on: false },
    ];
    let told = |set: &[&str]| {
        let parked = ["engine.on=false"];
        let mut bay = opened(&[&parked[..], set].concat());
        let mut told = vec![(said(&bay), grams(&bay))];
        for act in acts {
            bay.apply(act).unwrap();
            for _ in 0..4 {
                pass(&mut bay, 1);
                told.push((said(&bay), grams(&bay)));
            }
        }
        told
    };
    let one = told(hidden[0]);
    assert!(one.iter().any(|(s, _)| *s == NextStep::UnknownCharge));
    for set in &hidden[1..] {
        assert_eq!(told(set), one, "{set:?}");
    }
}

#[test]
fn wrong_turns_are_answered() {
    let mut bay = bay("charge-from-cans");
    bay.apply(HoseAct::LowValve {
        open: Ratio::from_si(1.0),
    })
    .unwrap();
    assert_eq!(said(&bay), NextStep::ShutOpenHose);
    bay.apply(HoseAct::LowValve {
        open: Ratio::from_si(0.0),
    })
    .unwrap();
    bay.apply(VesselAct::TakeCan).unwrap();
    bay.apply(HoseAct::LowCoupler { on: false }).unwrap();
    assert_eq!(said(&bay), NextStep::PutLowCoupler);
    bay.apply(VehicleAct::Engine { on: true }).unwrap();
    bay.apply(HoseAct::HighValve {
        open: Ratio::from_si(1.0),
    })
    .unwrap();
    assert_eq!(said(&bay), NextStep::ShutHighValve);
    bay.apply(HoseAct::HighValve {
        open: Ratio::from_si(0.0),
    })
    .unwrap();
    bay.apply(VesselAct::Bath {
        temperature: Some(Temperature::from_deg_c(80.0)),
    })
    .unwrap();
    assert_eq!(said(&bay), NextStep::CoolBath);
}

/// An evacuated loop whose joint is opened draws the room's air in (common practice). Nothing of that is gas running out, and no gauge has a
/// boiling point to show of it.
#[test]
fn air_that_runs_into_an_evacuated_loop_is_told_as_such() {
    let mut bay = bay("charge-from-cans");
    pass(&mut bay, 5);
    for engine in [false, true] {
        let mut bay = bay.clone();
        if engine {
            bay.apply(VehicleAct::Engine { on: true }).unwrap();
        }
        let joint = Joint::CondenserOut;
        bay.apply(BenchAct::OpenJoint { joint }).unwrap();
        for _ in 0..120 {
            pass(&mut bay, 1);
            assert_eq!(said(&bay), NextStep::AirDrawnIn, "engine {engine}");
            assert_eq!(Shown::of(&bay).saturation, [None, None]);
        }
        let at = Event::AirDrawnIn(lowside_shop::detect::Spot::Joint(joint));
        let told = bay.events().iter().filter(|(_, e)| *e == at).count();
        assert_eq!(told, 1, "{:?}", bay.events());
        // Put together again it holds air, not a charge to be made up.
        let seal = lowside_shop::joints::Seal::NewOiled;
        bay.apply(BenchAct::CloseJoint { joint, seal }).unwrap();
        pass(&mut bay, 5);
        assert_eq!(said(&bay), NextStep::VacuumLost);
        assert_eq!(Shown::of(&bay).saturation[0], None);
    }
}

/// A leak that hands have not made shows only by gauges that rise; an open hose shows itself. A can puts an end to either.
#[test]
fn a_vacuum_that_does_not_hold_is_told_by_the_gauges_alone() {
    let text = library::scenario("charge-from-cans").expect("shipped");
    let leak = ["condition.leak=[{at=\"condenser-top\",hole=\"200 um\"}]".to_owned()];
    let mut scenario = Scenario::parse(text, &leak).expect("sound");
    scenario.act.clear();
    let mut leaky = Bay::new(&scenario);
    pass(&mut leaky, 5);
    assert_eq!(said(&leaky), NextStep::TakeCan, "nothing shows yet");
    pass(&mut leaky, 1200);
    assert_eq!(said(&leaky), NextStep::VacuumLost);
    assert!(
        !leaky
            .events()
            .iter()
            .any(|(_, e)| matches!(e, Event::AirDrawnIn(_)))
    );
    let mut bay = bay("charge-from-cans");
    pass(&mut bay, 300);
    assert_eq!(said(&bay), NextStep::TakeCan, "a tight loop holds");
    let (shut, open) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
    bay.apply(HoseAct::LowValve { open }).unwrap();
    assert_eq!(said(&bay), NextStep::ShutOpenHose);
    pass(&mut bay, 60);
    bay.apply(HoseAct::LowValve { open: shut }).unwrap();
    assert_eq!(said(&bay), NextStep::VacuumLost);
    let told = bay
        .events()
        .iter()
        .filter(|(_, e)| *e == Event::AirByTheHose);
    assert_eq!(told.count(), 1);
    let mut filled = self::bay("charge-from-cans");
    give_a_can(&mut filled);
    pass(&mut filled, 60);
    assert_ne!(said(&filled), NextStep::VacuumLost);
    assert!(Shown::of(&filled).low.is_some_and(|p| p > 0.0));
    assert!(Shown::of(&filled).saturation[0].is_some());
}

/// A plug, belt, bolts or lead that was left off is asked for when the engine runs, or is to run, before the card's steps; not while one
/// works.
#[test]
fn what_was_left_off_is_asked_for_when_the_engine_runs() {
    let plug = |at, state| Action::from(FixingAct::Plug { at, state });
    let bolts = |on| FixingAct::Bolts {
        part: Part::Accumulator,
        on,
    };
    let belt = |on| FixingAct::Belt { on };
    for (off, on, asked) in [
        (
            plug(Lead::Clutch, Plug::Off),
            plug(Lead::Clutch, Plug::On),
            Loosened::Plug(Lead::Clutch),
        ),
        (
            plug(Lead::LowSwitch, Plug::Bridged),
            plug(Lead::LowSwitch, Plug::On),
            Loosened::Bridge,
        ),
        (belt(false).into(), belt(true).into(), Loosened::Belt),
        (
            bolts(false).into(),
            bolts(true).into(),
            Loosened::Bolts(Part::Accumulator),
        ),
    ] {
        let mut job = Job::open("2-low-charge").expect("shipped");
        let mut bay = job.bay();
        pass(&mut bay, 5);
        bay.apply(VehicleAct::Engine { on: false }).unwrap();
        bay.apply(off).unwrap();
        job.look(&bay);
        let first = |bay: &Bay| advice(&Shown::of(bay), Some(&job));
        assert!(matches!(first(&bay), Advice::Card(_)), "at work");
        bay.apply(VehicleAct::Engine { on: true }).unwrap();
        assert_eq!(first(&bay), Advice::Step(NextStep::PutBack(asked)));
        bay.apply(VehicleAct::Engine { on: false }).unwrap();
        bay.apply(on).unwrap();
        bay.apply(VehicleAct::Engine { on: true }).unwrap();
        assert!(matches!(first(&bay), Advice::Card(_)), "{asked:?}");
    }
}

/// An evacuated van that cans are to charge, some liquid in it from a can turned over at rest: first the battery's lead, then the hub.
#[test]
fn before_the_first_start_lead_and_hub_are_seen_to() {
    let mut bay = opened(&["engine.on=false", "start.charge=0 kg", "start.air=2.5 mg"]);
    pass(&mut bay, 5);
    let open = |share| HoseAct::LowValve {
        open: Ratio::from_fraction(share),
    };
    for act in acts![
        VesselAct::TakeCan,
        VesselAct::Tap { on: true },
        HoseAct::Purge { on: true },
    ] {
        bay.apply(act).unwrap();
    }
    pass(&mut bay, 4);
    for act in acts![
        HoseAct::Purge { on: false },
        VesselAct::Invert { on: true },
        open(1.0)
    ] {
        bay.apply(act).unwrap();
    }
    pass(&mut bay, 3);
    let upright = VesselAct::Invert { on: false };
    bay.apply(upright).unwrap();
    bay.apply(open(0.0)).unwrap();
    assert_eq!(said(&bay), NextStep::TurnHub);
    bay.apply(FixingAct::Battery { on: false }).unwrap();
    assert_eq!(said(&bay), NextStep::PutBack(Loosened::Battery));
    bay.apply(FixingAct::Battery { on: true }).unwrap();
    bay.apply(FixingAct::TurnHub).unwrap();
    assert_eq!(said(&bay), NextStep::StartEngine);
}
