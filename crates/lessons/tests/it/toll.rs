//! What a careless job costs is told in figures, whatever its card asks for. Outcomes are common practice, no source.

use lowside_fluids::Refrigerant;
use lowside_lessons::{Cost, Severity, Truth, toll};
use lowside_plant::species::AIR;
use lowside_session::{
    Action, Bay, BenchAct, Event, HoseAct, MachineAct, Refused, Scenario, TICKS_PER_SECOND,
    VehicleAct, VesselAct, acts, library, predicate::Predicate, wait::Goal,
};
use lowside_shop::{
    joints::{Joint, Seal, Side},
    record::Prices,
};
use lowside_units::{Mass, Quantity, Ratio, Temperature, VolumeFlow};

fn bay(name: &str, set: &[String]) -> Bay {
    let mut scenario =
        Scenario::parse(library::scenario(name).expect("shipped"), set).expect("reads");
    scenario.act.clear();
    Bay::new(&scenario)
}

fn act(bay: &mut Bay, actions: &[Action]) {
    for action in actions {
        bay.apply(*action)
            .unwrap_or_else(|e| panic!("{action:?}: {e}"));
    }
}

fn run(bay: &mut Bay, seconds: u64) {
    for _ in 0..seconds * TICKS_PER_SECOND {
        bay.step().expect("the engine goes on");
    }
}

fn find<T>(bay: &Bay, wanted: impl Fn(Cost) -> Option<T>) -> Option<(Severity, T)> {
    toll(&Truth::of(bay))
        .into_iter()
        .find_map(|(severity, cost)| Some((severity, wanted(cost)?)))
}

/// Charges a van for a minute from a can, its hose purged or not.
fn charge(purge: bool) -> Bay {
    let mut bay = bay("charge-from-cans", &[]);
    act(
        &mut bay,
        &acts![VesselAct::TakeCan, VesselAct::Tap { on: true }],
    );
    if purge {
        act(&mut bay, &acts![HoseAct::Purge { on: true }]);
        run(&mut bay, 4);
        act(&mut bay, &acts![HoseAct::Purge { on: false }]);
    }
    let open = Ratio::from_si(1.0);
    act(&mut bay, &acts![HoseAct::LowValve { open }]);
    run(&mut bay, 60);
    bay
}

#[test]
fn a_hose_that_is_not_purged_brings_air() {
    let air = |bay: &Bay| {
        find(bay, |c| match c {
            Cost::Air(kg) => Some(kg),
            _ => None,
        })
    };
    assert_eq!(air(&charge(true)), None);
    let (severity, kg) = air(&charge(false)).expect("air is told");
    // A hose of 1.5 m and 5 mm bore holds 30 mL, and air weighs 1.2 g a litre.
    assert!((20e-6..0.5e-3).contains(&kg), "{kg} kg");
    assert_eq!(severity, Severity::Slight);
}

#[test]
fn liquid_at_the_compressor_is_told_with_its_time_and_what_it_cost() {
    let liquid = |bay: &Bay| {
        find(bay, |c| match c {
            Cost::Liquid {
                times,
                seconds,
                wear,
            } => Some((times, seconds, wear)),
            _ => None,
        })
    };
    let mut healthy = bay("healthy", &[]);
    run(&mut healthy, 300);
    assert_eq!(liquid(&healthy), None);
    let mut full = bay("healthy", &["start.charge=2000g".to_owned()]);
    run(&mut full, 300);
    let (_, (times, seconds, wear)) = liquid(&full).expect("liquid is told");
    let breaths = full
        .events()
        .iter()
        .filter(|(_, e)| *e == Event::LiquidAtCompressor);
    assert_eq!(times, breaths.count());
    assert!((0.5..300.0).contains(&seconds), "{seconds} s");
    let damage = &full.plant().damage;
    assert!((wear - damage.slugging - damage.washing).abs() < 1e-12 && wear > 0.0);
}

#[test]
fn a_can_that_bursts_is_told_and_what_it_lost_was_not_given() {
    let mut bay = bay("charge-from-cans", &[]);
    act(&mut bay, &acts![VesselAct::TakeCan]);
    // Nobody may: a bath of 90 degC takes the can past what bursts it.
    act(
        &mut bay,
        &acts![VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(90.0)),
        }],
    );
    let given = |bay: &Bay| bay.shop().given(bay.plant());
    for _ in 0..600 {
        run(&mut bay, 1);
        if bay.shop().hands.attached.can().is_some_and(|c| c.burst) {
            break;
        }
    }
    run(&mut bay, 60);
    let left = bay
        .plant()
        .network
        .node(bay.shop().manifold.can)
        .content
        .whole()[0];
    assert!(left < 0.1, "it has emptied itself: {left} kg left");
    assert!(given(&bay) < 1e-3, "given {} kg", given(&bay));
    act(&mut bay, &acts![VesselAct::RemoveCan]);
    assert!(
        given(&bay) < 1e-3,
        "given {} kg after it is put away",
        given(&bay)
    );
    assert!(
        matches!(
            toll(&Truth::of(&bay))[0],
            (Severity::Grave, Cost::Burst { cans: 1 })
        ),
        "{:?}",
        toll(&Truth::of(&bay))
    );
    let vented = find(&bay, |c| match c {
        Cost::Vented(kg) => Some(kg),
        _ => None,
    });
    assert!(
        vented.is_some_and(|(s, kg)| s == Severity::Grave && kg > 0.2),
        "{vented:?}"
    );
}

/// A condenser without air bursts the discharge hose of a van without a cut-out; a compressor run dry at full speed seizes, and its clutch
/// slips on the locked shaft until it burns (common practice, no source).
#[test]
fn a_burst_hose_and_a_seized_compressor_are_told_with_their_time() {
    let on = ["engine.on=true", "controls.ac=true"];
    let blocked =
        ["idle_flow", "cool_flow", "top_flow"].map(|f| format!("vehicle.fan.{f}=0.01 kg/s"));
    let mut set = on.map(str::to_owned).to_vec();
    set.extend(blocked);
    let mut hot = bay("before-retrofit", &set);
    while !hot.plant().hose_burst() {
        run(&mut hot, 1);
        assert!(hot.seconds() < 600.0, "it bursts");
    }
    let told = find(&hot, |c| match c {
        Cost::HoseBurst { seconds } => Some(seconds),
        _ => None,
    });
    let (severity, at) = told.expect("the hose is told");
    assert_eq!(severity, Severity::Grave);
    assert!((at - hot.seconds()).abs() <= 1.0, "{at} s");

    let mut set = on.map(str::to_owned).to_vec();
    set.extend(
        [
            "start.oil=0 g",
            "engine.speed=5000 rpm",
            "condition.cycling_switch_stuck=true",
        ]
        .map(str::to_owned),
    );
    let mut dry = bay("healthy", &set);
    let seized = |bay: &Bay| {
        find(bay, |c| match c {
            Cost::Seized {
                seconds,
                clutch_burnt,
            } => Some((seconds, clutch_burnt)),
            _ => None,
        })
    };
    while !dry.plant().damage.seized {
        run(&mut dry, 1);
        assert!(dry.seconds() < 1200.0, "it seizes");
    }
    let (severity, (at, burnt)) = seized(&dry).expect("told");
    assert!(severity == Severity::Grave && (at - dry.seconds()).abs() <= 1.0 && !burnt);
    run(&mut dry, 1);
    let plant = dry.plant();
    let pulls = plant.clutch.holds(1.0) * plant.pulley_rpm() * core::f64::consts::TAU / 60.0;
    assert!(
        plant.compressor_rpm() <= 0.0 && pulls > 5e3,
        "{pulls} W slip"
    );
    assert!(
        (plant.slip_power() / pulls - 1.0).abs() < 1e-9,
        "the engine feels it"
    );
    run(&mut dry, 60);
    assert!(dry.plant().clutch.burnt() && dry.plant().slip_power() <= 0.0);
    assert!(seized(&dry).expect("told").1.1);
    let count = |e| dry.events().iter().filter(|(_, x)| *x == e).count();
    assert_eq!(
        [count(Event::ClutchSmells), count(Event::ClutchBurnt)],
        [1, 1]
    );
}

/// Venting by an open hand valve is letting it out, like any other way (40 CFR 82.154); what purges of a hose take is excused.
#[test]
fn what_blows_out_of_an_open_hose_counts_as_let_out_and_a_purge_does_not() {
    let let_out: Predicate = "let_out is on".parse().expect("a condition");
    let open = |x| {
        HoseAct::LowValve {
            open: Ratio::from_si(x),
        }
        .into()
    };
    let mut loose = bay("healthy", &[]);
    act(&mut loose, &[open(1.0)]);
    run(&mut loose, 60);
    act(&mut loose, &[open(0.0)]);
    run(&mut loose, 10);
    assert!(loose.vented() > 0.1, "{} kg", loose.vented());
    assert!(let_out.holds(&loose));
    let times = |bay: &Bay| bay.record(&Prices::default()).ventings;
    assert_eq!(times(&loose), 1, "once for as long as it blows");

    let mut careful = bay("charge-from-cans", &[]);
    for _ in 0..3 {
        act(
            &mut careful,
            &acts![VesselAct::TakeCan, VesselAct::Tap { on: true }],
        );
        act(&mut careful, &acts![HoseAct::Purge { on: true }]);
        run(&mut careful, 4);
        act(
            &mut careful,
            &acts![HoseAct::Purge { on: false }, open(1.0)],
        );
        run(&mut careful, 60);
        act(
            &mut careful,
            &acts![open(0.0), VesselAct::Tap { on: false }],
        );
        run(&mut careful, 10);
    }
    assert!(careful.vented() > 5e-3, "{} kg", careful.vented());
    assert!(!let_out.holds(&careful), "{} kg", careful.vented());

    // A port without its core blows as the coupler comes off.
    let low = |on| HoseAct::LowCoupler { on }.into();
    let core = BenchAct::ValveCore {
        side: Side::Low,
        fitted: false,
    };
    let mut bare = bay("charge-from-cans", &[]);
    act(
        &mut bare,
        &acts![
            low(false),
            core,
            low(true),
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            open(1.0),
        ],
    );
    run(&mut bare, 120);
    assert!(!let_out.holds(&bare));
    act(&mut bare, &[open(0.0), low(false)]);
    assert!(let_out.holds(&bare));
}

/// What blows out of a joint that hands put together without its O-ring is let out too; a scenario's own missing O-ring is nobody's act.
#[test]
fn a_joint_without_its_o_ring_lets_out_what_blows_there() {
    let let_out: Predicate = "let_out is on".parse().expect("a condition");
    let joint = Joint::CondenserOut;
    let seal = Seal::Missing;
    let mut bare = bay("charge-from-cans", &[]);
    act(
        &mut bare,
        &acts![
            BenchAct::OpenJoint { joint },
            BenchAct::CloseJoint { joint, seal },
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            HoseAct::LowValve {
                open: Ratio::from_si(1.0)
            },
        ],
    );
    run(&mut bare, 20);
    assert!(!let_out.holds(&bare), "{} kg", bare.vented());
    run(&mut bare, 280);
    assert!(bare.vented() > 0.05, "{} kg", bare.vented());
    assert!(let_out.holds(&bare));
    assert_eq!(bare.record(&Prices::default()).ventings, 1);
    let told = bare.events().iter().filter(|(_, e)| *e == Event::LetOut);
    assert!(told.count() >= 1);

    let missing = r#"condition.joint=[{at="condenser-out",seal="missing"}]"#;
    let mut came = bay("healthy", &[missing.to_owned()]);
    run(&mut came, 120);
    assert!(came.vented() > 0.05, "{} kg", came.vented());
    assert!(!let_out.holds(&came));
}

/// The hose's end is open while one thing on it is changed for another: with a hand valve open the loop blows out of it, and an
/// evacuated one draws air (common practice, no source). With the valves shut nothing of the loop is lost.
#[test]
fn a_change_on_the_service_hose_opens_it_to_the_air() {
    let valve = |x| {
        HoseAct::LowValve {
            open: Ratio::from_si(x),
        }
        .into()
    };
    let changed = |name, open| {
        let mut bay = bay(name, &[]);
        act(&mut bay, &acts![VesselAct::TakeCan]);
        run(&mut bay, 5);
        act(&mut bay, &[valve(open)]);
        run(&mut bay, 30);
        let before = bay.vented();
        act(&mut bay, &acts![VesselAct::TakeNitrogen]);
        run(&mut bay, 3);
        let during = bay.vented() - before;
        run(&mut bay, 30);
        assert!(bay.ledger_gap() < 1e-9, "{:.1e}", bay.ledger_gap());
        (during, bay.vented() - before - during, bay)
    };
    let (during, after, _) = changed("healthy", 1.0);
    assert!(during > 5e-3, "{during} kg");
    assert!(after.abs() < 1e-4, "{after} kg");
    let (during, after, _) = changed("healthy", 0.0);
    assert!(during.abs() + after.abs() < 1e-6, "{during} and {after} kg");
    let air = |open| changed("charge-from-cans", open).2.plant().held(AIR);
    assert!(air(1.0) > air(0.0) + 1e-4, "{} kg", air(1.0));
}

/// Nobody unscrews a pump that turns, for whatever comes in its place.
#[test]
fn nothing_takes_the_place_of_a_pump_that_turns() {
    let mut bay = bay("charge-from-cans", &[]);
    let speed = VolumeFlow::from_cfm(6.0);
    act(
        &mut bay,
        &acts![
            MachineAct::TakePump { speed },
            MachineAct::Pump { on: true }
        ],
    );
    let gas = Refrigerant::R134a;
    let holds = Mass::from_kg(9.0);
    for take in acts![
        VesselAct::TakeNitrogen,
        VesselAct::TakeCan,
        VesselAct::TakeCanOf { gas },
        VesselAct::TakeSelfSealingCan,
        VesselAct::TakeCylinder { gas, holds },
        MachineAct::TakePump { speed },
        MachineAct::TakeRecoveryMachine { gas },
        HoseAct::Disconnect,
    ] {
        assert_eq!(bay.apply(take), Err(Refused::PumpRuns), "{take:?}");
    }
    act(
        &mut bay,
        &acts![MachineAct::Pump { on: false }, VesselAct::TakeNitrogen],
    );
}

#[test]
fn what_cannot_come_is_not_waited_for() {
    let mut bay = bay("charge-from-cans", &[]);
    let empty = Goal::Event(Event::CanEmpty);
    assert!(!empty.can_come(&bay), "without a can");
    assert!(!Goal::Cycles(1).can_come(&bay), "with the engine off");
    act(&mut bay, &acts![VesselAct::TakeCan]);
    run(&mut bay, 1);
    assert!(empty.can_come(&bay), "with a full can");
    act(
        &mut bay,
        &acts![
            VehicleAct::Engine { on: true },
            VehicleAct::AirConditioning { on: true },
        ],
    );
    assert!(Goal::Cycles(1).can_come(&bay));
    act(&mut bay, &acts![VesselAct::RemoveCan]);
    assert!(!empty.can_come(&bay), "after it is put away");
    assert!(Goal::VentSteady.can_come(&bay));
}
