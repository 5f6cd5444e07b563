//! The main job, headless: an evacuated van charged from small cans, right and wrong.

use lowside_session::{Bay, Event, HoseAct, VehicleAct, VesselAct};
use lowside_tests::runs::{act, play, run, scenario};
use lowside_units::{Ratio, RotationSpeed, Temperature};

fn seen(bay: &Bay, event: Event) -> usize {
    bay.events().iter().filter(|(_, e)| *e == event).count()
}

const OPEN: HoseAct = HoseAct::LowValve {
    open: Ratio::from_fraction(1.0),
};
const SHUT: HoseAct = HoseAct::LowValve {
    open: Ratio::from_fraction(0.0),
};

/// Opens a can, purges, and lets it flow in warm water until it has no liquid left.
fn empty_a_can(bay: &mut Bay) {
    act(bay, SHUT);
    act(bay, VesselAct::TakeCan);
    act(bay, VesselAct::Tap { on: true });
    act(bay, HoseAct::Purge { on: true });
    run(bay, 3.0);
    act(bay, HoseAct::Purge { on: false });
    act(
        bay,
        VesselAct::Bath {
            temperature: Some(Temperature::from_deg_c(45.0)),
        },
    );
    act(bay, OPEN);
    for _ in 0..900 {
        run(bay, 1.0);
        if bay
            .plant()
            .network
            .node(bay.shop().manifold.can)
            .state
            .m_liq
            < 1e-3
        {
            break;
        }
    }
    act(bay, SHUT);
}

fn start(bay: &mut Bay) {
    act(bay, VehicleAct::Engine { on: true });
    act(bay, VehicleAct::Blower { step: 4 });
    act(bay, VehicleAct::AirConditioning { on: true });
}

#[test]
fn three_cans_cool_the_cabin() {
    let (bay, s) = play(&scenario("charge-from-cans", &[]));
    assert!(
        (0.95..1.02).contains(&s.refrigerant_kg),
        "{:.3} kg in the loop",
        s.refrigerant_kg
    );
    assert!(s.vent_degC_mean < 10.0, "vent {:.1} degC", s.vent_degC_mean);
    assert_eq!(seen(&bay, Event::CanEmpty), 3);
    assert_eq!(seen(&bay, Event::CanBurst), 0);
    // A 12 oz can gives 11-11.5 oz to the loop (common practice): residue and purge take the rest.
    let per_can = s.refrigerant_kg / 3.0 / 28.3495e-3;
    assert!((11.0..=11.9).contains(&per_can), "{per_can:.2} oz a can");
    assert!(s.max_mass_error_rel < 1e-9 && s.max_energy_error_rel < 1e-9);
}

#[test]
fn a_can_that_gives_vapour_gets_cold_and_slows() {
    let mut bay = Bay::new(&scenario("charge-from-cans", &[]));
    act(&mut bay, VesselAct::TakeCan);
    act(&mut bay, VesselAct::Tap { on: true });
    act(&mut bay, OPEN);
    let can = bay.shop().manifold.can;
    let state = |bay: &Bay| (bay.plant().network.node(can).state.t, bay.charge());
    run(&mut bay, 5.0);
    let first = bay.charge() / 5.0;
    run(&mut bay, 55.0);
    let before = state(&bay);
    run(&mut bay, 30.0);
    let after = state(&bay);
    assert!(after.0 < 308.15 - 15.0, "the can is at {:.1} K", after.0);
    assert!((after.1 - before.1) / 30.0 < 0.3 * first, "flow slows");
}

#[test]
fn with_one_can_the_clutch_short_cycles_and_the_vent_stays_warm() {
    let mut bay = Bay::new(&scenario("charge-from-cans", &[]));
    start(&mut bay);
    empty_a_can(&mut bay);
    run(&mut bay, 300.0);
    let cycles = bay.plant().drive.cycles;
    run(&mut bay, 120.0);
    let per_minute = f64::from(bay.plant().drive.cycles - cycles) / 2.0;
    assert!(per_minute > 8.0, "{per_minute} cycles a minute");
    assert!(
        bay.plant().cabin.vent.t > 273.15 + 10.0,
        "vent {:.1} K",
        bay.plant().cabin.vent.t
    );
}

#[test]
fn six_cans_flood_the_compressor_and_drive_the_head_up() {
    let mut bay = Bay::new(&scenario("charge-from-cans", &[]));
    start(&mut bay);
    let mut heads = Vec::new();
    for _ in 0..6 {
        empty_a_can(&mut bay);
        run(&mut bay, 240.0);
        heads.push(
            bay.plant()
                .network
                .node(bay.plant().circuit.high_side())
                .state
                .p,
        );
    }
    assert!(bay.charge() > 1.8, "{:.2} kg", bay.charge());
    assert!(seen(&bay, Event::LiquidAtCompressor) > 0);
    let mut wettest = 0.0f64;
    for _ in 0..60 {
        run(&mut bay, 1.0);
        wettest = wettest.max(bay.plant().suction_liquid());
    }
    assert!(wettest > 0.12, "{wettest:.2} liquid");
    assert!(
        heads[5] > heads[2] + 300e3,
        "head after three and six cans: {:.0} and {:.0} kPa",
        heads[2] / 1e3,
        heads[5] / 1e3
    );
}

#[test]
fn the_high_valve_open_while_running_drives_gas_into_the_can() {
    let mut bay = Bay::new(&scenario("healthy", &["day.ambient=32degC"]));
    run(&mut bay, 120.0);
    act(&mut bay, VesselAct::TakeCan);
    act(&mut bay, VesselAct::Tap { on: true });
    let can = bay.shop().manifold.can;
    let before = bay.plant().network.node(can).content[0];
    act(
        &mut bay,
        HoseAct::HighValve {
            open: Ratio::from_fraction(1.0),
        },
    );
    run(&mut bay, 60.0);
    let node = bay.plant().network.node(can);
    assert!(
        node.content[0] > before + 0.01,
        "the can took {:.1} g",
        1e3 * (node.content[0] - before)
    );
    // On a hot day with the engine faster the high side passes what a small can stands: it bursts.
    act(
        &mut bay,
        VehicleAct::Ambient {
            temperature: Temperature::from_deg_c(43.0),
        },
    );
    act(
        &mut bay,
        VehicleAct::EngineSpeed {
            speed: RotationSpeed::from_rpm(2500.0),
        },
    );
    for _ in 0..600 {
        run(&mut bay, 1.0);
        if seen(&bay, Event::CanBurst) > 0 {
            break;
        }
    }
    assert_eq!(
        seen(&bay, Event::CanBurst),
        1,
        "the can stands at {:.0} kPa",
        bay.plant().network.node(can).state.p / 1e3
    );
    run(&mut bay, 5.0);
    assert!(
        bay.ledger()[9].content[0] > 0.2,
        "what was in it is in the room"
    );
}

#[test]
fn an_unpurged_hose_brings_its_air_and_no_more() {
    let air = |purge: bool| {
        let mut bay = Bay::new(&scenario("charge-from-cans", &[]));
        act(&mut bay, VesselAct::TakeCan);
        act(&mut bay, VesselAct::Tap { on: true });
        if purge {
            act(&mut bay, HoseAct::Purge { on: true });
            run(&mut bay, 3.0);
            act(&mut bay, HoseAct::Purge { on: false });
        }
        act(&mut bay, OPEN);
        run(&mut bay, 60.0);
        bay.ledger()[..6].iter().map(|e| e.content[1]).sum::<f64>()
    };
    let (kept, purged) = (air(false), air(true));
    // A hose of 30 cm3 holds p V / (R T) = 34 mg of air at 35 degC.
    assert!(
        (kept - 34.4e-6).abs() < 8e-6,
        "{:.1} mg from an unpurged hose",
        kept * 1e6
    );
    assert!(purged < 0.3 * kept, "{:.1} mg after purging", purged * 1e6);
}

#[test]
fn a_loop_opened_to_the_room_fills_with_air_or_empties() {
    // Evacuated, nothing on the hose, low valve open: the room flows in.
    let mut bay = Bay::new(&scenario("charge-from-cans", &[]));
    act(&mut bay, OPEN);
    run(&mut bay, 300.0);
    let air: f64 = bay.ledger()[..6].iter().map(|e| e.content[1]).sum();
    // A loop never evacuated holds 3.6 g in 3.16 L (prototype): ours is 3.4 L less 0.24 L of oil.
    assert!((3.0e-3..4.4e-3).contains(&air), "{:.2} g of air", air * 1e3);
    // Charged, the same valve vents it.
    let mut bay = Bay::new(&scenario("healthy", &["engine.on=false"]));
    act(&mut bay, OPEN);
    run(&mut bay, 1800.0);
    assert!(bay.charge() < 0.1, "{:.2} kg left", bay.charge());
    let vented = bay.ledger()[9].content[0];
    assert!(vented > 0.9, "{vented:.2} kg in the room");
}
