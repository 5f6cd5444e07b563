//! Unknown vehicles: what is drawn comes back, rivals find it by readings alone, marks go by the rubric.

use lowside_lessons::{
    drill::{Deck, Drill},
    mark::{Line, Mark},
    rivals::{Case, Debrief, Inquiry},
};
use lowside_session::{
    Action, Bay, BenchAct, HoseAct, InstrumentAct, LearnerAct, Scenario, Sitting, Take, VehicleAct,
    action::{Evidence, FaultId, Meter, Wheel},
    library,
};
use lowside_shop::{
    fault::{self, Cure, Severity},
    joints::Joint,
    meters::Point,
};
use lowside_units::{Ratio, RotationSpeed};

fn kind() -> Scenario {
    library::shipped("healthy").expect("shipped")
}

fn drawn(fault: &str, seed: u64) -> Drill {
    let deck = Deck {
        faults: vec![fault::named(fault).expect("a row")],
        nothing: 0.0,
        severities: [Severity::Severe, Severity::Severe],
        wider: 1.0,
    };
    Drill::drawn(seed, &deck, &kind())
}

fn pass(bay: &mut Bay, s: f64) {
    let until = bay.seconds() + s;
    while bay.seconds() < until {
        bay.step().expect("the engine goes on");
    }
}

fn act(bay: &mut Bay, act: impl Into<Action>) {
    bay.apply(act).expect("possible");
}

fn read(bay: &mut Bay, instrument: Meter) {
    act(bay, LearnerAct::Read { instrument });
    pass(bay, 5.0);
}

/// Connects the gauges, reads at rest, runs it, reads what is cheap, and watches both pressures after it was stopped.
fn look(bay: &mut Bay) {
    act(bay, HoseAct::LowCoupler { on: true });
    act(bay, HoseAct::HighCoupler { on: true });
    pass(bay, 20.0);
    read(bay, Meter::LowGauge);
    read(bay, Meter::HighGauge);
    act(bay, VehicleAct::Engine { on: true });
    let speed = RotationSpeed::from_rpm(1500.0);
    act(bay, VehicleAct::EngineSpeed { speed });
    act(bay, VehicleAct::AirConditioning { on: true });
    act(bay, VehicleAct::Blower { step: 4 });
    act(bay, VehicleAct::Windows { on: true });
    pass(bay, 300.0);
    for _ in 0..2 {
        read(bay, Meter::LowGauge);
        read(bay, Meter::HighGauge);
        read(bay, Meter::VentThermometer);
        pass(bay, 15.0);
    }
    read(bay, Meter::Tachometer(Wheel::Hub));
    read(bay, Meter::Anemometer);
    for at in [
        Point::Discharge,
        Point::LiquidLine,
        Point::EvaporatorIn,
        Point::EvaporatorOut,
    ] {
        act(bay, InstrumentAct::Clamp { at: Some(at) });
        pass(bay, 25.0);
        read(bay, Meter::Clamp(at));
    }
    act(bay, VehicleAct::AirConditioning { on: false });
    pass(bay, 45.0);
    read(bay, Meter::LowGauge);
    read(bay, Meter::HighGauge);
}

/// Says what it is, how sure, and by which readings.
fn say(bay: &mut Bay, id: &str, percent: f64, repair: Cure, evidence: &[u32]) {
    let fault = FaultId::find(id).expect("a row");
    let certainty = Ratio::from_percent(percent);
    act(bay, LearnerAct::Suspect { fault, certainty });
    act(
        bay,
        LearnerAct::Commit {
            fault,
            severity: Severity::Severe,
            evidence: Evidence::of(evidence).expect("twelve at most"),
            repair,
        },
    );
}

/// All readings that a commitment can name.
const ALL: [u32; 12] = [1, 2, 3, 4, 5, 6, 9, 10, 11, 12, 13, 14];

fn marked(bay: &Bay) -> Mark {
    let take = Take::in_sitting(bay, Sitting::default());
    let take = Take::parse(&take.to_text()).expect("a take");
    Mark::of(&take).expect("replays")
}

#[test]
fn the_same_seed_gives_the_same_vehicle_and_another_seed_another() {
    let deck = Deck::default();
    let draw = |seed| Drill::drawn(seed, &deck, &kind());
    assert_eq!(draw(5).scenario, draw(5).scenario);
    assert_ne!(draw(5).scenario, draw(6).scenario);
    for seed in 0..300 {
        let drill = draw(seed);
        drill
            .scenario
            .check()
            .unwrap_or_else(|e| panic!("seed {seed}: {e}"));
        let planted = drill.scenario.faults().next();
        assert_eq!(planted, drill.fault, "seed {seed}");
        let known = drill.scenario.as_known();
        assert_eq!(known.faults().count(), 0, "seed {seed}");
        assert!(known.scatter.is_none() && known.instruments.is_none());
    }
}

/// Nothing of what is hidden reaches the rivals: the vehicle's own scenario is asked for its readings and for what everybody knows.
#[test]
fn rivals_find_a_clear_fault_by_readings_alone() {
    for (fault, seed) in [
        ("low-charge", 1),
        ("condenser-air-blocked", 2),
        ("orifice-clogged", 3),
    ] {
        let drill = drawn(fault, seed);
        let mut bay = Bay::new(&drill.scenario);
        look(&mut bay);
        let mut inquiry = Inquiry::new(Case::of(&bay));
        while !inquiry.advance(5_000) {}
        let odds = inquiry.odds();
        let first = odds.last()[0];
        let cures = |id: &str| fault::named(id).map(|f| f.cure);
        assert_eq!(
            first.fault.map(|f| f.cure),
            cures(fault),
            "{fault}: {:?}",
            &odds.last()[..3]
        );
        assert!(first.likely > 0.6, "{fault}: {first:?}");
        let before = odds.after[0].iter().filter(|s| s.likely > 0.1).count();
        assert_eq!(before, 0, "nobody is suspected before a reading");
        let debrief = Debrief::of(&inquiry, drill.fault, None);
        // Some reading decided where one suspect ended well ahead, and none where none did.
        assert_eq!(
            debrief.decided.is_some(),
            first.likely >= 0.7,
            "{fault}: {first:?}"
        );
        assert!(
            debrief.rival.is_some_and(|r| r.fault != drill.fault),
            "{fault}"
        );
    }
}

#[test]
fn who_looks_first_and_says_what_it_is_gets_most_of_the_marks() {
    for (fault, seed) in [
        ("low-charge", 11),
        ("blend-door-leaks", 12),
        ("compressor-worn", 13),
    ] {
        let drill = drawn(fault, seed);
        let mut bay = Bay::new(&drill.scenario);
        look(&mut bay);
        let cure = drill.fault.expect("planted").cure;
        say(&mut bay, fault, 95.0, cure, &ALL);
        let mark = marked(&bay);
        assert!(mark.total() >= 90.0, "{fault}: {mark:?}");
        assert_eq!(mark, marked(&bay), "the same take, the same marks");
    }
}

#[test]
fn who_guesses_gets_little_and_who_is_sure_and_wrong_less() {
    let drill = drawn("low-charge", 21);
    let guess = |id: &str, percent, cure| {
        let mut bay = Bay::new(&drill.scenario);
        say(&mut bay, id, percent, cure, &[]);
        marked(&bay)
    };
    let wrong = guess(
        "compressor-worn",
        20.0,
        Cure::NewPart(lowside_shop::parts::Part::Compressor),
    );
    assert!(wrong.total() <= 40.0, "{wrong:?}");
    let sure = guess(
        "compressor-worn",
        100.0,
        Cure::NewPart(lowside_shop::parts::Part::Compressor),
    );
    assert!(sure.total() < wrong.total() - 5.0, "{sure:?}");
    let bay = Bay::new(&drill.scenario);
    let silent = marked(&bay);
    assert!(
        silent.total().abs() < 1e-9 && silent.said.is_none(),
        "{silent:?}"
    );
}

#[test]
fn who_opens_a_loop_under_pressure_fails_and_who_is_slow_loses_time_alone() {
    let drill = drawn("low-charge", 31);
    let mut bay = Bay::new(&drill.scenario);
    look(&mut bay);
    let mut slow = bay.clone();
    let mut reckless = bay.clone();
    say(&mut bay, "low-charge", 90.0, Cure::Charge, &ALL);
    let good = marked(&bay);

    pass(&mut slow, 45.0 * 60.0);
    say(&mut slow, "low-charge", 90.0, Cure::Charge, &ALL);
    let slow = marked(&slow);
    let lost = |line: Line| good.lines[line as usize] - slow.lines[line as usize];
    assert!(lost(Line::Time) > 2.0, "{slow:?}");
    let others = Line::ALL.into_iter().filter(|line| *line != Line::Time);
    assert!(
        others.into_iter().all(|line| lost(line).abs() < 1e-9),
        "{slow:?}"
    );

    act(
        &mut reckless,
        BenchAct::OpenJoint {
            joint: Joint::CondenserOut,
        },
    );
    pass(&mut reckless, 60.0);
    say(&mut reckless, "low-charge", 90.0, Cure::Charge, &ALL);
    let reckless = marked(&reckless);
    assert!(reckless.total() < 50.0, "{reckless:?}");
    assert!(reckless.total() < good.total() - 30.0, "{reckless:?}");
}
