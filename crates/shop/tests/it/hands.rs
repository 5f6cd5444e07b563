//! What a job needs by hand beside hoses and joints: battery, plugs, belt, bolts, caps, joint tools, the hub turned, the can rocked. What is
//! asked for here is common practice, no source.

use lowside_plant::loose::{Lead, Plug};
use lowside_session::{
    Action, Bay, BenchAct, FixingAct, HoseAct, InstrumentAct, Refused, VehicleAct, VesselAct, acts,
};
use lowside_shop::{
    fixings::{JointTool, SHAKES},
    joints::{Joint, LowPort, Seal, Side},
    meters,
    parts::Part,
};
use lowside_tests::runs::{act, run, scenario};
use lowside_units::{Mass, Ratio};

const PULLED: Plug = Plug::Off;

fn plug(at: Lead, state: Plug) -> FixingAct {
    FixingAct::Plug { at, state }
}

fn bay(name: &str, set: &[&str]) -> Bay {
    let mut scenario = scenario(name, set);
    scenario.act.clear();
    Bay::new(&scenario)
}

fn all(bay: &mut Bay, acts: impl IntoIterator<Item = Action>) {
    for action in acts {
        act(bay, action);
    }
}

fn parked() -> Bay {
    bay("healthy", &["engine.on=false"])
}

/// Starts a parked van and asks for cold.
fn cool(bay: &mut Bay) {
    all(
        bay,
        acts![
            VehicleAct::Engine { on: true },
            VehicleAct::Blower { step: 4 },
            VehicleAct::AirConditioning { on: true },
        ],
    );
    run(bay, 30.0);
}

/// Pressures have parted: the compressor pumps.
fn pumps(bay: &Bay) -> bool {
    let i = &bay.shop().instruments;
    i.high.reading() - i.low.reading() > 300e3
}

#[test]
fn a_clutch_without_its_plug_does_not_pull_in_and_the_meter_at_the_plug_tells() {
    let mut bay = parked();
    act(&mut bay, plug(Lead::Clutch, PULLED));
    act(&mut bay, InstrumentAct::ClutchMeter { on: true });
    cool(&mut bay);
    assert!(!bay.plant().drive.engaged && !pumps(&bay));
    let (volts, amperes) = meters::clutch(bay.plant());
    assert!(volts > 12.0 && amperes <= 0.0, "{volts} V, {amperes} A");
    act(&mut bay, plug(Lead::Clutch, Plug::On));
    run(&mut bay, 30.0);
    assert!(bay.plant().drive.engaged && pumps(&bay));
}

#[test]
fn a_belt_left_off_turns_nothing_though_the_clutch_pulls_in() {
    let mut bay = parked();
    act(&mut bay, FixingAct::Belt { on: false });
    cool(&mut bay);
    run(&mut bay, 600.0);
    assert!(bay.plant().drive.engaged && !pumps(&bay));
    assert!(meters::turning(bay.plant()).iter().all(|rpm| *rpm <= 0.0));
    assert!(
        bay.plant().damage.wear() <= 0.0,
        "what stands does not wear"
    );
    act(&mut bay, VehicleAct::Engine { on: false });
    act(&mut bay, FixingAct::Belt { on: true });
    cool(&mut bay);
    assert!(pumps(&bay));
}

#[test]
fn nothing_electrical_works_without_the_battery_lead() {
    let mut bay = parked();
    act(&mut bay, VehicleAct::Blower { step: 0 });
    run(&mut bay, 5.0);
    let draught = meters::vent_speed(bay.plant());
    act(&mut bay, VehicleAct::Blower { step: 4 });
    run(&mut bay, 5.0);
    assert!(meters::vent_speed(bay.plant()) > 4.0 * draught);
    act(&mut bay, FixingAct::Battery { on: false });
    run(&mut bay, 5.0);
    assert!(meters::vent_speed(bay.plant()) <= draught);
    let start = VehicleAct::Engine { on: true };
    assert_eq!(bay.apply(start), Err(Refused::BatteryOff));
    act(&mut bay, FixingAct::Battery { on: true });
    cool(&mut bay);
    assert!(pumps(&bay));
    let off = FixingAct::Battery { on: false };
    assert_eq!(bay.apply(off), Err(Refused::EngineRuns));
}

#[test]
fn a_switch_without_its_plug_opens_the_circuit_and_a_bridge_takes_its_guard_away() {
    let mut bay = bay("healthy", &["engine.on=false", "start.charge=60g"]);
    cool(&mut bay);
    run(&mut bay, 60.0);
    let cycles = bay.plant().drive.cycles;
    assert!(!bay.plant().drive.cycling.closed, "too little gas");
    act(&mut bay, plug(Lead::LowSwitch, Plug::Bridged));
    run(&mut bay, 60.0);
    assert!(bay.plant().drive.engaged);
    assert!(bay.plant().drive.cycles <= cycles + 1, "it cycles no more");
    let day = bay.plant().day().p;
    let low = bay.plant().network.node(bay.plant().circuit.low_side());
    assert!(low.state.p < day, "it draws the low side into a vacuum");
    act(&mut bay, plug(Lead::LowSwitch, PULLED));
    run(&mut bay, 1.0);
    assert!(!bay.plant().drive.engaged);
    // The other plugs: a cut-out in the circuit opens it too, and neither is bridged.
    let mut bay = parked();
    cool(&mut bay);
    act(&mut bay, plug(Lead::CutOut, PULLED));
    run(&mut bay, 1.0);
    assert!(!bay.plant().drive.engaged);
    for lead in [Lead::Clutch, Lead::CutOut] {
        let bridge = bay.apply(plug(lead, Plug::Bridged));
        assert_eq!(bridge, Err(Refused::NotBridged(lead)));
    }
    let mut old = self::bay("before-retrofit", &[]);
    let pull = plug(Lead::CutOut, PULLED);
    assert_eq!(old.apply(pull), Err(Refused::NoCutOut));
}

#[test]
fn a_spring_lock_parts_with_its_tool_alone_and_a_nut_with_wrenches() {
    let tool = |tool| FixingAct::JointTool { tool };
    let (lock, nut) = (Joint::CondenserOut, Joint::CondenserIn);
    for (in_hand, fits, not) in [
        (JointTool::Wrenches, nut, lock),
        (JointTool::SpringLock, lock, nut),
    ] {
        let mut bay = bay("charge-from-cans", &[]);
        act(&mut bay, tool(in_hand));
        let before = bay.clone();
        let wrong = bay.apply(BenchAct::OpenJoint { joint: not });
        let refused = Refused::WrongTool {
            tool: in_hand,
            joint: not,
        };
        assert_eq!(wrong, Err(refused));
        assert_eq!(bay.differences(&before), Vec::new());
        act(&mut bay, BenchAct::OpenJoint { joint: fits });
        assert!(bay.shop().openings.apart(fits));
        // Its nut or spring is off: a cap comes off by hand.
        act(&mut bay, BenchAct::CapJoint { joint: fits });
        act(&mut bay, tool(JointTool::Wrenches));
        act(&mut bay, BenchAct::OpenJoint { joint: fits });
    }
}

/// Compressor out, a new one in: what was taken off one by one is off until it is put back.
#[test]
fn a_new_compressor_comes_in_without_what_was_taken_off_the_old_one() {
    let mut bay = bay("charge-from-cans", &[]);
    let part = Part::Compressor;
    let bolts = |on| FixingAct::Bolts { part, on };
    assert_eq!(bay.apply(bolts(false)), Err(Refused::BeltOn));
    all(
        &mut bay,
        acts![
            FixingAct::Battery { on: false },
            plug(Lead::Clutch, PULLED),
            FixingAct::Belt { on: false },
            bolts(false),
        ],
    );
    let belt = FixingAct::Belt { on: true };
    assert_eq!(bay.apply(belt), Err(Refused::Unbolted(part)));
    for joint in [Joint::CompressorIn, Joint::CompressorOut] {
        act(&mut bay, BenchAct::OpenJoint { joint });
    }
    all(
        &mut bay,
        acts![
            BenchAct::RemovePart { part },
            BenchAct::NewPart { part },
            BenchAct::RefitPart { part },
        ],
    );
    let loose = bay.plant().settings.loose;
    assert!(loose.belt && loose.battery && loose.plug(Lead::Clutch) == PULLED);
    assert!(bay.shop().is_unbolted(part));
    all(&mut bay, acts![bolts(true), belt]);
    assert!(!bay.plant().settings.loose.belt);
    let condenser = FixingAct::Bolts {
        part: Part::LiquidLine,
        on: false,
    };
    let none = Refused::NoBolts(Part::LiquidLine);
    assert_eq!(bay.apply(condenser), Err(none));
}

#[test]
fn a_part_that_hangs_on_its_lines_shakes_its_joints_loose() {
    let part = Part::Accumulator;
    let leak = |unbolted: bool, time: f64| {
        let mut bay = parked();
        if unbolted {
            act(&mut bay, FixingAct::Bolts { part, on: false });
        }
        run(&mut bay, 600.0);
        assert!(bay.shop().openings.joints_leak() <= 0.0, "nothing shakes");
        act(&mut bay, VehicleAct::Engine { on: true });
        run(&mut bay, time);
        bay
    };
    assert!(leak(false, 2.0 * SHAKES).shop().openings.joints_leak() <= 0.0);
    assert!(leak(true, 0.9 * SHAKES).shop().openings.joints_leak() <= 0.0);
    let mut bay = leak(true, 1.1 * SHAKES);
    // Two joints at 300 g a year.
    let year = 365.25 * 86_400.0;
    let grams = bay.shop().openings.joints_leak() * year * 1e3;
    assert!((grams - 600.0).abs() < 1.0, "{grams} g a year");
    act(&mut bay, VehicleAct::Engine { on: false });
    for joint in [Joint::EvaporatorOut, Joint::AccumulatorOut] {
        let seal = Seal::NewOiled;
        act(&mut bay, BenchAct::OpenJoint { joint });
        act(&mut bay, BenchAct::CloseJoint { joint, seal });
    }
    assert!(bay.shop().openings.joints_leak() <= 0.0, "made up anew");
}

/// Water that a part takes up on the bench in four hours with its caps off and on, kg.
fn damp(part: Part) -> [f64; 2] {
    [false, true].map(|on| {
        let mut bay = bay("charge-from-cans", &[]);
        for joint in part.joints() {
            act(&mut bay, BenchAct::OpenJoint { joint: *joint });
        }
        act(&mut bay, BenchAct::RemovePart { part });
        for joint in part.joints() {
            act(&mut bay, BenchAct::CapJoint { joint: *joint });
        }
        act(&mut bay, BenchAct::NewPart { part });
        act(&mut bay, FixingAct::PartCaps { part, on });
        run(&mut bay, 4.0 * 3600.0);
        assert!(
            bay.ledger_gap() < 1e-9 && bay.mass_error() < 1e-9,
            "its water came from the room"
        );
        let bench = bay.shop().bench[part as usize].expect("on the bench");
        bench.bound + bench.oil_water
    })
}

/// Two open half-inch ends breathe grams of water a day: the trade's rule that the joints' breath is set by.
#[test]
fn a_new_part_without_its_caps_takes_up_damp() {
    for part in [Part::Accumulator, Part::Compressor] {
        let [bare, capped] = damp(part);
        assert!(capped <= 0.0, "{part:?}: {capped}");
        let a_day = bare * 6.0 * 1e3;
        assert!((0.5..8.0).contains(&a_day), "{part:?}: {a_day} g a day");
    }
}

/// Liquid charged at rest, and the first ten seconds of the compressor: what slugging wears.
fn first_start(tap: LowPort, by_hand: bool) -> f64 {
    let mut bay = bay("charge-from-cans", &["start.charge=10g"]);
    let side = Side::Low;
    act(&mut bay, HoseAct::LowCoupler { on: false });
    act(&mut bay, HoseAct::LowPort { at: tap });
    act(&mut bay, BenchAct::PortCap { side, on: false });
    act(&mut bay, HoseAct::LowCoupler { on: true });
    let gas = bay.scenario().vehicle.refrigerant;
    let open = |share| HoseAct::LowValve {
        open: Ratio::from_fraction(share),
    };
    all(
        &mut bay,
        acts![
            VesselAct::TakeCylinder {
                gas,
                holds: Mass::from_kg(9.0)
            },
            VesselAct::Invert { on: true },
            open(1.0),
            VesselAct::Dose {
                mass: Mass::from_g(900.0)
            },
        ],
    );
    run(&mut bay, 900.0);
    act(&mut bay, open(0.0));
    if by_hand {
        act(&mut bay, FixingAct::TurnHub);
        let start = VehicleAct::Engine { on: true };
        assert!(matches!(bay.apply(start), Err(Refused::Busy { .. })));
        run(&mut bay, 30.1);
        assert!(bay.plant().damage.wear() <= 0.0, "hands harm nothing");
    }
    cool(&mut bay);
    bay.plant().damage.slugging
}

#[test]
fn liquid_charged_at_rest_slugs_at_the_first_start_unless_the_hub_was_turned() {
    for tap in [LowPort::Accumulator, LowPort::Compressor] {
        let (missed, turned) = (first_start(tap, false), first_start(tap, true));
        assert!(
            missed > 2e-3 && turned < 0.5 * missed,
            "{tap:?}: {missed}, {turned} after ten turns"
        );
    }
}

/// Gas that a can has given after some minutes of charging, kg.
fn given(acts: &[Action], minutes: f64) -> f64 {
    let mut bay = bay("charge-from-cans", &["start.charge=400g"]);
    let open = Ratio::from_fraction(1.0);
    all(
        &mut bay,
        acts![
            VesselAct::TakeCan,
            VesselAct::Tap { on: true },
            VehicleAct::Engine { on: true },
            VehicleAct::Blower { step: 4 },
            VehicleAct::AirConditioning { on: true },
            HoseAct::LowValve { open },
        ],
    );
    all(&mut bay, acts.iter().copied());
    run(&mut bay, minutes * 60.0);
    bay.shop().given(bay.plant())
}

#[test]
fn a_can_that_stands_stops_short_and_rocking_or_warming_empties_it() {
    let rock = VesselAct::Rock { on: true }.into();
    let bath = VesselAct::Bath {
        temperature: Some(lowside_units::Temperature::from_deg_c(45.0)),
    }
    .into();
    let [stands, rocked, warmed] = [&[][..], &[rock], &[bath]].map(|acts| given(acts, 6.0));
    assert!(
        stands < 0.25 && rocked > stands + 0.05 && warmed > stands + 0.05,
        "given in six minutes: {stands} kg, {rocked} kg rocked, {warmed} kg warmed"
    );
    let mut bay = bay("charge-from-cans", &[]);
    all(&mut bay, acts![VesselAct::TakeCan]);
    all(&mut bay, [bath, rock]);
    let can = bay.shop().hands.attached.can().expect("on the hose");
    assert!(can.rocked && can.bath.is_none(), "in hands, not in water");
    act(&mut bay, bath);
    let can = bay.shop().hands.attached.can().expect("on the hose");
    assert!(!can.rocked && can.bath.is_some());
}
