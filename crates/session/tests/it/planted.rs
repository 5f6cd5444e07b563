//! Faults that are planted while a bay runs: the same to the bit as those a scenario plants, in their time, and gone when they are taken away.

use lowside_plant::passage::Passage;
use lowside_session::{
    Action, Bay, InstructorAct, Refused, Take, Twin, VehicleAct, action::FaultId,
};
use lowside_shop::fault::{self, Device, Fault, Severity};
use lowside_tests::{
    acts::{Dice, any, planted},
    runs::{act, run, scenario},
};
use lowside_units::Duration;

fn plant(fault: &str, severity: Severity, after: f64, over: f64) -> Action {
    InstructorAct::PlantFault {
        fault: FaultId::find(fault).expect("of the registry"),
        severity,
        after: Duration::from_s(after),
        over: Duration::from_s(over),
        secret: false,
    }
    .into()
}

fn clear(fault: &str) -> Action {
    let fault = FaultId::find(fault).expect("of the registry");
    let secret = false;
    InstructorAct::ClearFault { fault, secret }.into()
}

fn van() -> Bay {
    Bay::new(&scenario("healthy", &[]))
}

fn live() -> impl Iterator<Item = &'static Fault> {
    fault::all().filter(|fault| fault.comes_about())
}

/// A leak that came later stands later among the links; and a scenario's gauges have come to rest before it is opened.
fn stands_elsewhere(fault: &Fault) -> bool {
    ["leak", "holed"].contains(&fault.id)
        || fault.id.ends_with("gauge-off")
        || fault.id.ends_with("core-stuck")
}

#[test]
fn a_fault_planted_at_the_start_is_the_one_that_a_scenario_plants() {
    assert!(live().count() >= 20);
    for fault in live().filter(|fault| !stands_elsewhere(fault)) {
        let mut planted = van();
        act(&mut planted, plant(fault.id, Severity::Moderate, 0.0, 0.0));
        let mut given = Bay::new(&scenario("healthy", &[]).with_fault(fault, Severity::Moderate));
        run(&mut planted, 20.0);
        run(&mut given, 20.0);
        assert_eq!(planted.differences(&given), [], "{}", fault.id);
    }
}

#[test]
fn a_fault_begins_after_its_time_and_grows_evenly() {
    let mut bay = van();
    act(
        &mut bay,
        plant("orifice-clogged", Severity::Severe, 10.0, 40.0),
    );
    let open = |bay: &Bay| bay.plant().condition.orifice_open;
    // Severe is three tenths open.
    for (seconds, expected) in [
        (9.0, 1.0),
        (11.0, 0.825),
        (20.0, 0.475),
        (10.0, 0.3),
        (30.0, 0.3),
    ] {
        run(&mut bay, seconds);
        let within = (open(&bay) - expected).abs();
        assert!(
            within < 0.002,
            "{} s: {}, not {expected}",
            bay.seconds(),
            open(&bay)
        );
    }
    act(&mut bay, clear("orifice-clogged"));
    assert!((open(&bay) - 1.0).abs() < 1e-12);
    // Planted again while it grows, it goes on from where it is.
    act(
        &mut bay,
        plant("orifice-clogged", Severity::Extreme, 0.0, 10.0),
    );
    run(&mut bay, 5.0);
    act(
        &mut bay,
        plant("orifice-clogged", Severity::Slight, 0.0, 10.0),
    );
    assert!((open(&bay) - 0.55).abs() < 0.01, "{}", open(&bay));
    // Cleared before it has begun, it never comes.
    act(
        &mut bay,
        plant("condenser-air-blocked", Severity::Severe, 5.0, 0.0),
    );
    act(&mut bay, clear("condenser-air-blocked"));
    run(&mut bay, 10.0);
    assert!((bay.plant().condition.condenser_air - 1.0).abs() < 1e-12);
}

/// It goes on from what it is by the time it begins, whoever brought it there: never through a sound part.
#[test]
fn a_fault_that_is_there_grows_from_where_it_stands() {
    let near = |value: f64, expected: f64| {
        assert!((value - expected).abs() < 0.01, "{value}, not {expected}");
    };
    // The scenario's, half open; a restricted passage and a gauge that is off likewise.
    let mut bay = Bay::new(&scenario(
        "healthy",
        &[
            "condition.orifice_open=50 %",
            "condition.low_gauge_offset=25 kPag",
            r#"condition.restriction=[{at="liquid-line",open="50 %"}]"#,
        ],
    ));
    let stands = |bay: &Bay| {
        let plant = bay.plant();
        let orifice = plant.condition.orifice_open;
        let line = plant.open_share(Passage::LiquidLine);
        [orifice, line, bay.shop().faults.offset[0] / 50e3]
    };
    let before = stands(&bay);
    for (id, much) in [
        ("orifice-clogged", Severity::Extreme),
        ("liquid-line-crushed", Severity::Extreme),
        ("low-gauge-off", Severity::Severe),
    ] {
        act(&mut bay, plant(id, much, 0.0, 40.0));
    }
    run(&mut bay, 0.1);
    for (now, before) in stands(&bay).into_iter().zip(before) {
        near(now, before);
    }
    run(&mut bay, 19.9);
    near(bay.plant().condition.orifice_open, 0.3);
    near(bay.shop().faults.offset[0], 37.5e3);
    // Grown up, and planted again: from there.
    run(&mut bay, 21.0);
    act(
        &mut bay,
        plant("orifice-clogged", Severity::Moderate, 0.0, 40.0),
    );
    run(&mut bay, 20.0);
    near(bay.plant().condition.orifice_open, 0.3);
    // Put right before it begins, it begins from sound.
    let mut bay = van();
    let device = Device::BlendDoor;
    act(
        &mut bay,
        plant("blend-door-leaks", Severity::Severe, 0.0, 0.0),
    );
    act(
        &mut bay,
        plant("blend-door-leaks", Severity::Extreme, 60.0, 60.0),
    );
    near(bay.plant().condition.blend_leak, 0.3);
    act(&mut bay, VehicleAct::Mend { device });
    run(&mut bay, 61.0);
    near(bay.plant().condition.blend_leak, 0.01);
    run(&mut bay, 60.0);
    near(bay.plant().condition.blend_leak, 0.6);
}

#[test]
fn what_is_put_right_grows_no_further() {
    let mut bay = van();
    act(
        &mut bay,
        plant("blend-door-leaks", Severity::Extreme, 0.0, 60.0),
    );
    act(&mut bay, plant("clutch-slips", Severity::Severe, 0.0, 0.0));
    run(&mut bay, 20.0);
    assert!(bay.plant().condition.blend_leak > 0.15);
    let device = Device::BlendDoor;
    act(&mut bay, VehicleAct::Mend { device });
    run(&mut bay, 40.0);
    assert!(bay.plant().condition.blend_leak.abs() < 1e-12);
    assert!((bay.plant().condition.clutch_hold - 0.3).abs() < 1e-12);
}

#[test]
fn a_leak_is_made_and_mended() {
    let mut bay = van();
    act(&mut bay, plant("holed", Severity::Extreme, 5.0, 0.0));
    run(&mut bay, 4.0);
    assert_eq!(bay.plant().leaks().len(), 0);
    let before = bay.charge();
    run(&mut bay, 60.0);
    let lost = before - bay.charge();
    assert!(lost > 0.01, "{lost} kg");
    let vented = bay.vented();
    assert!(vented > 0.01, "{vented} kg in the room");
    act(&mut bay, clear("holed"));
    assert_eq!(bay.plant().leaks().len(), 0);
    let vented = bay.vented();
    run(&mut bay, 20.0);
    assert!((bay.vented() - vented).abs() < 1e-9, "it is tight");
    assert!(bay.ledger_gap() < 1e-6 && bay.mass_error() < 1e-6);
}

#[test]
fn what_cannot_come_about_is_refused_and_changes_nothing() {
    let mut bay = van();
    let hash = bay.state_hash().expect("finite");
    for id in [
        "low-charge",
        "air",
        "water",
        "oil-low",
        "desiccant-wet",
        "joint-leaks",
        "nothing",
    ] {
        let refused = bay.apply(plant(id, Severity::Severe, 0.0, 0.0));
        assert!(
            matches!(refused, Err(Refused::ByHand(_))),
            "{id}: {refused:?}"
        );
    }
    for (id, after, over, field) in [
        ("cycling-switch-stuck", 0.0, 1.0, "over"),
        ("leak", 0.0, 60.0, "over"),
        ("orifice-clogged", -1.0, 0.0, "after"),
        ("orifice-clogged", 14_401.0, 0.0, "after"),
        ("orifice-clogged", 0.0, f64::NAN, "over"),
    ] {
        let refused = bay
            .apply(plant(id, Severity::Severe, after, over))
            .expect_err(id);
        assert!(refused.to_string().starts_with(field), "{refused}");
    }
    assert_eq!(bay.state_hash(), Ok(hash));
    // Nobody plants leaks without end.
    let leak = || plant("leak", Severity::Slight, 0.0, 0.0);
    let made = (0..100).take_while(|_| bay.apply(leak()).is_ok()).count();
    assert!((10..50).contains(&made), "{made}");
}

#[test]
fn a_take_and_a_checkpoint_go_on_in_the_middle_of_it() {
    let mut bay = van();
    act(
        &mut bay,
        plant("condenser-plugged", Severity::Severe, 5.0, 60.0),
    );
    act(&mut bay, plant("bag-burst", Severity::Severe, 50.0, 0.0));
    run(&mut bay, 30.0);
    let take = Take::parse(&Take::of(&bay).to_text()).expect("a take");
    let again = take.resume().expect("the same end");
    let loaded =
        Bay::load(bay.scenario(), bay.log(), &bay.save().expect("finite")).expect("its own");
    assert_eq!(loaded.differences(&bay), []);
    for other in [again, loaded] {
        let (mut one, mut other) = (bay.clone(), other);
        run(&mut one, 60.0);
        run(&mut other, 60.0);
        assert_eq!(one.state_hash(), other.state_hash());
        assert!((one.plant().open_share(Passage::Condenser) - 0.3).abs() < 1e-12);
    }
}

/// The healthy vehicle of the performance test stays healthy; a twin that does what its bay does does this too.
#[test]
fn a_sound_vehicle_beside_it_stays_sound() {
    let mut bay = van();
    let (mut sound, mut same) = (Twin::sound(&bay), Twin::new(&bay, &[]).expect("no change"));
    act(
        &mut bay,
        plant("evaporator-air-blocked", Severity::Severe, 0.0, 0.0),
    );
    run(&mut bay, 5.0);
    sound.follow(&bay);
    same.follow(&bay);
    assert!((sound.bay().plant().condition.evaporator_air - 1.0).abs() < 1e-12);
    assert_eq!(same.bay().state_hash(), bay.state_hash());
}

/// Whatever is planted and cleared among whatever else is done, the books close and the replay is the bay.
#[test]
fn random_plantings_among_random_acts_leave_the_books_closed() {
    for seed in 0..12 {
        let mut dice = Dice::new(seed);
        let mut bay = van();
        while bay.seconds() < 120.0 && bay.halt().is_none() {
            let action = if dice.chance(0.4) {
                planted(&mut dice)
            } else {
                any(&mut dice)
            };
            drop(bay.apply(action));
            for _ in 0..100 {
                if bay.step().is_err() {
                    break;
                }
            }
        }
        if bay.halt().is_none() {
            assert!(bay.ledger_gap() < 1e-6, "{seed}: {}", bay.ledger_gap());
            assert!(bay.mass_error() < 1e-6, "{seed}");
        }
        let take = Take::parse(&Take::of(&bay).to_text()).expect("a take");
        let again = take.resume().expect("the same end");
        assert_eq!(again.tick(), bay.tick());
    }
}
