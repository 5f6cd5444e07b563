//! Recovering a charge: rate, vacuum, rebound, the cylinder's limit, the oil; charging by weight.

use lowside_fluids::Refrigerant;
use lowside_session::{Bay, Event, HoseAct, InstrumentAct, MachineAct, Refused, VesselAct};
use lowside_shop::{cylinder, ledger::Place};
use lowside_tests::runs::{act, run, scenario};
use lowside_units::{GaugePressure, Mass, Ratio};

const OPEN: Ratio = Ratio::from_fraction(1.0);
const SHUT: Ratio = Ratio::from_fraction(0.0);

fn seen(bay: &Bay, event: Event) -> usize {
    bay.events().iter().filter(|(_, e)| *e == event).count()
}

/// The van at rest with the machine on both sides.
fn recovering(overrides: &[&str]) -> Bay {
    let mut all = vec!["engine.on=false", "controls.ac=false", "act=[]"];
    all.extend(overrides);
    let mut bay = Bay::new(&scenario("healthy", &all));
    act(
        &mut bay,
        MachineAct::TakeRecoveryMachine {
            gas: Refrigerant::R134a,
        },
    );
    act(&mut bay, HoseAct::LowValve { open: OPEN });
    act(&mut bay, HoseAct::HighValve { open: OPEN });
    act(&mut bay, MachineAct::RecoveryMachine { on: true });
    bay
}

/// SAE J2788 as the trade sums it up: at least 95 % in 30 minutes at 21 to 24 degC from a full orifice-tube loop.
#[test]
fn a_full_loop_is_recovered_to_95_percent_in_half_an_hour() {
    for ambient in ["day.ambient=21degC", "day.ambient=24degC"] {
        let mut bay = recovering(&[ambient]);
        let full = bay.charge();
        run(&mut bay, 1800.0);
        let share = bay.shop().recovered(bay.plant()) / full;
        assert!(share > 0.95, "{ambient}: {share:.3}");
        assert_eq!(seen(&bay, Event::MachineAtVacuum), 1);
        assert!(bay.mass_error() < 1e-9 && bay.energy_error() < 1e-9);
        assert!(bay.ledger_gap() < 1e-9, "{:.1e}", bay.ledger_gap());
    }
}

/// Machines before that standard stopped at 4 inHg and left more than 18 % behind at 21 degC and about 30 % at 10 degC
/// (published summary of SAE J2762). The cold accumulator keeps it: after five minutes the gauge has come back.
#[test]
fn a_shallow_vacuum_leaves_a_fifth_and_rebounds() {
    for (ambient, least, most) in [
        ("day.ambient=21degC", 0.18, 0.30),
        ("day.ambient=10degC", 0.25, 0.42),
    ] {
        let mut bay = recovering(&[ambient]);
        let pressure = GaugePressure::from_kpa(-13.5);
        act(&mut bay, MachineAct::RecoveryStop { pressure });
        let full = bay.charge();
        run(&mut bay, 1200.0);
        assert_eq!(seen(&bay, Event::MachineAtVacuum), 1);
        let left = 1.0 - bay.shop().recovered(bay.plant()) / full;
        assert!((least..most).contains(&left), "{ambient}: {left:.3} left");
        let low = bay.shop().instruments.low.reading();
        assert!(low > 0.0, "rebound: {low:.0} Pa");
        act(&mut bay, MachineAct::RecoveryMachine { on: true });
        run(&mut bay, 1200.0);
        let again = 1.0 - bay.shop().recovered(bay.plant()) / full;
        assert!(
            again < 0.9 * left,
            "a second pass takes more: {left:.3} then {again:.3}"
        );
    }
}

#[test]
fn the_rate_falls_with_the_suction_and_the_accumulator_chills() {
    let mut bay = recovering(&["day.ambient=22degC"]);
    let machine = bay.shop().manifold.machine;
    run(&mut bay, 30.0);
    let early = bay.plant().network.link(machine).flow;
    run(&mut bay, 570.0);
    let late = bay.plant().network.link(machine).flow;
    // Small machines are rated 0.1-0.3 kg/min in vapour (from memory).
    assert!((0.1..0.3).contains(&(early * 60.0)), "{early:.4} kg/s");
    assert!(late < early / 3.0, "{early:.4} then {late:.4} kg/s");
    let accumulator = bay
        .plant()
        .network
        .node(bay.plant().circuit.low_side())
        .state
        .t;
    assert!(accumulator < 258.0, "{accumulator:.1} K");
}

/// Trade figures: up to 1 oz of oil with slow vapour, 1 to 3 oz with fast liquid.
#[test]
fn oil_comes_along_and_is_measured() {
    let mut bay = recovering(&["day.ambient=22degC"]);
    run(&mut bay, 1800.0);
    let both = bay.shop().station.separator;
    assert!((0.010..0.085).contains(&both), "{:.1} g", both * 1e3);
    let separator = bay
        .ledger()
        .into_iter()
        .find(|e| e.place == Place::Separator);
    assert!(separator.is_some_and(|e| (e.content[3] - both).abs() < 1e-15));
    let cylinder = bay.plant().network.node(bay.shop().manifold.can).content;
    assert!(cylinder[3] <= 1e-12, "none of it is in the cylinder");
}

/// Saturated liquid at 54 degC by CoolProp 8.0.0: 1083.22, 1195.57 and 970.98 kg/m3; four fifths of 11.9 L.
#[test]
fn the_filling_limit_is_four_fifths_liquid_at_54_degrees() {
    for (gas, rho) in [
        (Refrigerant::R134a, 1083.224),
        (Refrigerant::R12, 1195.575),
        (Refrigerant::R1234yf, 970.985),
    ] {
        let limit = cylinder::limit(gas.table());
        let by_hand = 0.8 * 11.9e-3 * rho;
        assert!(
            (limit / by_hand - 1.0).abs() < 1e-4,
            "{gas:?}: {limit} {by_hand}"
        );
    }
}

#[test]
fn a_full_cylinder_stops_the_machine_and_another_gas_does_not_mate() {
    let mut bay = recovering(&["day.ambient=24degC"]);
    let holds = Mass::from_kg(10.0);
    act(&mut bay, MachineAct::ChangeCylinder { holds });
    act(&mut bay, MachineAct::RecoveryMachine { on: true });
    run(&mut bay, 900.0);
    assert_eq!(seen(&bay, Event::CylinderFull), 1);
    let before = bay.state_hash();
    assert_eq!(
        bay.apply(MachineAct::RecoveryMachine { on: true }),
        Err(Refused::CylinderFull)
    );
    let wrong = bay.apply(MachineAct::TakeRecoveryMachine {
        gas: Refrigerant::R12,
    });
    assert!(
        matches!(wrong, Err(Refused::WrongFitting { .. })),
        "{wrong:?}"
    );
    assert_eq!(before, bay.state_hash());
    let holds = Mass::from_kg(0.0);
    act(&mut bay, MachineAct::ChangeCylinder { holds });
    act(&mut bay, MachineAct::RecoveryMachine { on: true });
    run(&mut bay, 60.0);
    assert!(bay.shop().recovered(bay.plant()) > 0.05);
    // Taken off and put on again it is what it was, and nothing is lost.
    let held = bay.shop().recovered(bay.plant());
    act(&mut bay, HoseAct::LowValve { open: SHUT });
    act(&mut bay, HoseAct::HighValve { open: SHUT });
    act(&mut bay, MachineAct::RecoveryMachine { on: false });
    act(&mut bay, HoseAct::Disconnect);
    let aside = bay.shop().recovered(bay.plant());
    assert!(
        (aside - held).abs() < 1e-12,
        "{held} kg, put aside {aside} kg"
    );
    run(&mut bay, 5.0);
    act(
        &mut bay,
        MachineAct::TakeRecoveryMachine {
            gas: Refrigerant::R134a,
        },
    );
    run(&mut bay, 5.0);
    assert!((bay.shop().recovered(bay.plant()) - held).abs() < 1e-9);
    assert!(bay.ledger_gap() < 1e-9, "{:.1e}", bay.ledger_gap());
    assert!(bay.mass_error() < 1e-9 && bay.energy_error() < 1e-9);
}

/// Liquid into the high side, engine off: the cylinder's valve shuts at the set weight, the scale and the loop agree.
#[test]
fn liquid_goes_into_the_high_side_by_weight() {
    let mut bay = Bay::new(&scenario(
        "charge-from-cans",
        &["start.charge=0g", "start.air=0.0025g", "act=[]"],
    ));
    let cylinder = VesselAct::TakeCylinder {
        gas: Refrigerant::R134a,
        holds: Mass::from_kg(9.0),
    };
    act(&mut bay, cylinder);
    act(&mut bay, VesselAct::Invert { on: true });
    act(&mut bay, VesselAct::Tap { on: true });
    act(&mut bay, HoseAct::Purge { on: true });
    run(&mut bay, 3.0);
    act(&mut bay, HoseAct::Purge { on: false });
    run(&mut bay, 5.0);
    act(&mut bay, InstrumentAct::ZeroScale);
    act(&mut bay, HoseAct::HighValve { open: OPEN });
    let mass = Mass::from_g(600.0);
    act(&mut bay, VesselAct::Dose { mass });
    run(&mut bay, 300.0);
    assert_eq!(seen(&bay, Event::Dosed), 1);
    let by_scale = -bay.shop().instruments.scale.reading();
    assert!(
        (by_scale - 0.600).abs() < 0.004,
        "{by_scale:.3} kg by the scale"
    );
    // What is still in the hose counts as given but is not in the vehicle: the trade's old trap.
    let hoses = bay.ledger()[6].content[0];
    assert!(
        (bay.charge() + hoses - 0.600).abs() < 0.04,
        "{:.3} kg in loop, {hoses:.3} in hoses",
        bay.charge()
    );
    assert!(bay.charge() > 0.5);
    let none = bay
        .apply(VesselAct::Dose {
            mass: Mass::from_kg(50.0),
        })
        .expect_err("more than a dose may be");
    assert_eq!(none.to_string(), "mass: 50000 g is outside 10 g to 5000 g");
    assert!(bay.ledger_gap() < 1e-9, "{:.1e}", bay.ledger_gap());
}

#[test]
fn the_tap_pierces_screwed_in_and_flows_backed_out() {
    let mut bay = Bay::new(&scenario("charge-from-cans", &["act=[]"]));
    let back = |share| VesselAct::TapScrew {
        back: Ratio::from_fraction(share),
    };
    let flow = |bay: &Bay| {
        bay.plant()
            .network
            .link(bay.shop().manifold.tap_vapour)
            .flow
    };
    act(&mut bay, VesselAct::TakeSelfSealingCan);
    act(&mut bay, back(0.5));
    run(&mut bay, 0.1);
    assert!(flow(&bay) <= 0.0, "not pierced yet");
    act(&mut bay, back(0.0));
    run(&mut bay, 0.1);
    assert!(flow(&bay) <= 0.0, "the needle is in the hole");
    act(&mut bay, back(0.5));
    run(&mut bay, 0.1);
    assert!(flow(&bay) > 0.0);
    act(&mut bay, back(1.0));
    run(&mut bay, 0.1);
    assert!(flow(&bay) <= 0.0, "let go, its own valve shuts");
    act(&mut bay, VesselAct::RemoveCan);
    assert!(bay.shop().lost[0] <= 0.0 && bay.shop().shelf[0] > 0.33);
    // A plain can pulled off with its tap open empties into the room.
    act(&mut bay, VesselAct::TakeCan);
    act(&mut bay, VesselAct::Tap { on: true });
    act(&mut bay, VesselAct::RemoveCan);
    assert!(bay.shop().lost[0] > 0.33);
    assert!(bay.ledger_gap() < 1e-9, "{:.1e}", bay.ledger_gap());
}
