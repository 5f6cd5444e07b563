//! Water in the loop: a dry loop never ices, a wet one freezes up at the orifice, starves, recovers when off and does it again.
//! Signs after a fault table of common practice (no single source); thresholds after the ASHRAE Handbook - Refrigeration.

use lowside_plant::species::WATER;
use lowside_session::{Bay, VehicleAct};
use lowside_shop::ledger::Place;
use lowside_tests::runs::{run, scenario};
use lowside_units::Quantity;

/// A day on which the clutch cycles, so that the evaporator is below 0 degC part of the time.
const MILD: &str = "day.ambient=27degC";
const NO_BAG: &str = "vehicle.accumulator.desiccant=0g";
const ATMOSPHERE: f64 = 101_325.0;

fn healthy_with(overrides: &[&str]) -> Bay {
    Bay::new(&scenario("healthy", overrides))
}

/// The van with 5 g of water and a desiccant that holds all it can.
fn wet(more: &[&str]) -> Bay {
    let mut all = vec![MILD, "start.water=5g", "condition.desiccant_load=100%"];
    all.extend(more);
    healthy_with(&all)
}

/// Gauge pressures of the accumulator over the coming seconds, lowest and highest, Pa.
fn low_side(bay: &mut Bay, seconds: f64) -> (f64, f64) {
    let end = bay.seconds() + seconds;
    let (mut lowest, mut highest) = (f64::MAX, f64::MIN);
    while bay.seconds() < end {
        bay.step().expect("the engine goes on");
        let plant = bay.plant();
        let p = plant.network.node(plant.circuit.low_side()).state.p - ATMOSPHERE;
        (lowest, highest) = (lowest.min(p), highest.max(p));
    }
    (lowest, highest)
}

/// Highest pressure of the high side over the coming seconds, Pa: what its gauge shows with the clutch in.
fn high_side(bay: &mut Bay, seconds: f64) -> f64 {
    let end = bay.seconds() + seconds;
    let mut highest = 0.0f64;
    while bay.seconds() < end {
        bay.step().expect("the engine goes on");
        let plant = bay.plant();
        highest = highest.max(plant.network.node(plant.circuit.high_side()).state.p);
    }
    highest
}

/// Every gram of water in the ledger, with what has left to the room, kg.
fn water(bay: &Bay) -> f64 {
    bay.ledger().iter().map(|e| e.content[WATER]).sum()
}

/// Water in the loop's refrigerant, ice and desiccant left out, kg per kg.
fn dissolved(bay: &Bay) -> f64 {
    let plant = bay.plant();
    let mut sum = [0.0; 2];
    for node in plant.volumes() {
        sum[0] += node.content[WATER];
        sum[1] += node.content[0];
    }
    sum[0] / sum[1]
}

fn books_close(bay: &Bay, at_start: f64) {
    let gap = (water(bay) / at_start - 1.0).abs();
    assert!(gap < 1e-9, "water off by {gap:.1e} of itself");
    assert!(
        bay.mass_error() < 1e-9,
        "mass off by {:.1e}",
        bay.mass_error()
    );
    assert!(
        bay.energy_error() < 1e-9,
        "energy off by {:.1e}",
        bay.energy_error()
    );
}

#[test]
fn a_dry_loop_never_ices() {
    for ambient in ["27degC", "35degC"] {
        let day = format!("day.ambient={ambient}");
        let mut bay = healthy_with(&[&day, "start.water=0.05g"]);
        let at_start = water(&bay);
        let free = dissolved(&bay);
        while bay.seconds() < 1800.0 {
            bay.step().expect("the engine goes on");
            assert!(
                bay.plant().ice() == 0.0,
                "{ambient}: ice at {} s",
                bay.seconds()
            );
        }
        assert!(
            dissolved(&bay) < 0.7 * free,
            "{ambient}: half an hour of a fresh desiccant left {:.0} of {:.0} mg/kg",
            1e6 * dissolved(&bay),
            1e6 * free
        );
        books_close(&bay, at_start);
    }
}

/// Runs as a dry loop does for some minutes, then the low side falls below the switch's point and the high side falls with it;
/// off for minutes it recovers, and on again it comes back (fault table, common practice: normal for 5-30 min, then 0-10 psig
/// or vacuum, high side down by 20-60 psi; recovers after minutes off).
#[test]
fn a_wet_loop_freezes_up_recovers_and_freezes_up_again() {
    let mut bay = wet(&[]);
    let at_start = water(&bay);
    let vent = |bay: &Bay| bay.plant().cabin.vent.t - 273.15;
    let switch = bay.plant().vehicle.switches.low_opens.si();
    for round in 1..=2 {
        let (lowest, _) = low_side(&mut bay, 150.0);
        assert!(
            lowest > switch - 12e3 && vent(&bay) < 14.0,
            "round {round}: {:.0} kPag, vent {:.1} degC while it still runs well",
            lowest / 1e3,
            vent(&bay)
        );
        // Two minutes at either end hold whole cycles of the clutch.
        let early = high_side(&mut bay, 120.0);
        run(&mut bay, 500.0);
        let (lowest, _) = low_side(&mut bay, 120.0);
        let late = high_side(&mut bay, 120.0);
        // 10 psig is 69 kPag; 20 psi is 138 kPa.
        assert!(
            lowest < 69e3,
            "round {round}: low side {:.0} kPag",
            lowest / 1e3
        );
        assert!(
            late < early - 138e3,
            "round {round}: high side {:.0} to {:.0} kPa",
            early / 1e3,
            late / 1e3
        );
        assert!(vent(&bay) > 18.0, "round {round}: vent {:.1}", vent(&bay));
        assert!(bay.plant().ice() > 40e-6, "{} kg of ice", bay.plant().ice());
        bay.apply(VehicleAct::AirConditioning { on: false })
            .expect("it can be done");
        run(&mut bay, 420.0);
        assert!(
            bay.plant().ice() == 0.0,
            "round {round}: {:.1} mg of ice after seven minutes off",
            1e6 * bay.plant().ice()
        );
        bay.apply(VehicleAct::AirConditioning { on: true })
            .expect("it can be done");
    }
    books_close(&bay, at_start);
}

/// With its cycling switch bridged the compressor pulls the low side into vacuum.
#[test]
fn without_its_switch_the_low_side_falls_into_vacuum() {
    let bridged = "condition.cycling_switch_stuck=true";
    let mut bay = wet(&[bridged]);
    let at_start = water(&bay);
    let (lowest, _) = low_side(&mut bay, 900.0);
    assert!(lowest < 0.0, "{:.1} kPag", lowest / 1e3);
    books_close(&bay, at_start);
    let mut dry = healthy_with(&[MILD, bridged]);
    let (lowest, _) = low_side(&mut dry, 900.0);
    assert!(lowest > 50e3, "dry: {:.1} kPag", lowest / 1e3);
}

/// On a hot day at high load the evaporator stays above 0 degC, and not even a wet loop ices (common practice).
#[test]
fn a_hot_day_hides_the_water() {
    let mut bay = wet(&["day.ambient=38degC"]);
    run(&mut bay, 1200.0);
    assert!(bay.plant().ice() == 0.0, "{} kg", bay.plant().ice());
}

/// R-134a ices from about 0.5 g of water in a kilogram, R-12 from 20 mg: what liquid dissolves at 0 degC and a little below
/// (ASHRAE Handbook - Refrigeration: 490 and 23.3 mg/kg at 30 degF, 390 and 16.6 at 20 degF).
#[test]
fn r12_ices_with_far_less_water_than_r134a() {
    let ice = |gas: &str, charge_kg: f64, mg_per_kg: f64| {
        let mut bay = healthy_with(&[
            MILD,
            NO_BAG,
            &format!("vehicle.refrigerant={gas}"),
            &format!("start.charge={charge_kg}kg"),
            &format!("start.water={}mg", charge_kg * mg_per_kg),
        ]);
        let at_start = water(&bay);
        run(&mut bay, 900.0);
        books_close(&bay, at_start);
        1e6 * bay.plant().ice()
    };
    for (gas, charge, never, always) in [("R-134a", 1.02, 380.0, 560.0), ("R-12", 1.25, 15.0, 40.0)]
    {
        let (dry, damp) = (ice(gas, charge, never), ice(gas, charge, always));
        assert!(dry == 0.0, "{gas} with {never} mg/kg: {dry:.2} mg of ice");
        assert!(damp > 1.0, "{gas} with {always} mg/kg: {damp:.2} mg of ice");
    }
}

/// The desiccant takes water out, the wetter the faster, holds no more than it can, and a full one gives back to a dry loop.
#[test]
fn the_desiccant_takes_and_gives() {
    let after = |water: &str, load: &str| {
        let load = format!("condition.desiccant_load={load}");
        let mut bay = healthy_with(&["day.ambient=35degC", &format!("start.water={water}"), &load]);
        let before = (bay.plant().desiccant_water(), dissolved(&bay));
        run(&mut bay, 1800.0);
        let now = (bay.plant().desiccant_water(), dissolved(&bay));
        (now.0 - before.0, before.1, now.1)
    };
    let (taken, before, now) = after("2g", "5%");
    assert!(taken > 0.5e-3, "{taken} kg taken");
    assert!(now < 0.6 * before, "{before} to {now}");
    let (little, _, _) = after("0.2g", "5%");
    assert!(little < 0.2 * taken, "{little} against {taken} kg");
    let (given, _, now) = after("0g", "100%");
    assert!(given < 0.0 && now > 20e-6, "{given} kg, {now} in the loop");
    let (none, before, now) = after("5g", "100%");
    assert!(none.abs() < 1e-9, "a full bag takes {none} kg");
    // The hoses fill with what is at the ports.
    assert!((now / before - 1.0).abs() < 0.05, "{before} to {now}");
}

/// What is bound is in the ledger where it is: the desiccant's in the accumulator, the ice in the evaporator.
#[test]
fn the_ledger_shows_bound_water() {
    let mut bay = wet(&[]);
    run(&mut bay, 300.0);
    for (place, bound) in [
        (Place::Accumulator, bay.plant().desiccant_water()),
        (Place::Evaporator, bay.plant().ice()),
    ] {
        let ledger = bay.ledger();
        let entry = ledger.iter().find(|e| e.place == place).expect("a place");
        assert!(bound > 0.0 && (entry.bound - bound).abs() < 1e-12);
        assert!(entry.content[WATER] > entry.bound);
    }
}

/// The same bits twice and through a clone; ice and the desiccant's load are in the fingerprint.
#[test]
fn wet_loops_give_the_same_bits() {
    let mut a = wet(&[]);
    let mut b = wet(&[]);
    run(&mut a, 400.0);
    run(&mut b, 200.0);
    let mut b = b.clone();
    run(&mut b, 200.0);
    assert!(a.plant().ice() > 0.0);
    assert_eq!(a.state_hash(), b.state_hash());
    let load = |percent: &str| healthy_with(&[&format!("condition.desiccant_load={percent}")]);
    assert_ne!(load("50%").state_hash(), load("51%").state_hash());
}
