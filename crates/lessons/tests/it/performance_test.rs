//! The performance test: its limits follow the day, a healthy van passes, a faulty one does not.

use lowside_lessons::{PerformanceTest, performance_test::progress};
use lowside_session::{
    Action, Bay, Change, HoseAct, RecordAct, Refused, TICKS_PER_SECOND, Take, TakeError, Timeline,
    Twin, VehicleAct, take::End,
};
use lowside_shop::record::{Performance, Prices};
use lowside_tests::runs::{act, run, run_observed, scenario};
use lowside_units::{GaugePressure, Ratio, RotationSpeed, Temperature};

fn begun(day: &str, more: &[&str]) -> Bay {
    let mut all = vec!["act=[]", "engine.on=true", "controls.ac=true", day];
    all.extend(more);
    let mut bay = Bay::new(&scenario("healthy", &all));
    bay.apply(RecordAct::PerformanceTest).expect("begins");
    bay
}

fn tested(day: &str, more: &[&str]) -> Performance {
    let mut bay = begun(day, more);
    run_observed(&mut bay, 470.0);
    assert!(bay.test_begun().is_some() && found(&bay).is_none());
    run_observed(&mut bay, 12.0);
    assert!(bay.test_begun().is_none() && !bay.test_disturbed());
    found(&bay).expect("done")
}

/// What the last test found, by the record.
fn found(bay: &Bay) -> Option<Performance> {
    bay.record(&Prices::default()).performance
}

/// Bands of common practice for a sound van at 1 500 rpm (R-134a, recirculation, high blower; no single source): the middle of
/// the limits lies in them, and moves with the day.
#[test]
fn a_healthy_van_passes_on_every_day() {
    let bands = [
        ("day.ambient=21degC", 150e3..=280e3, 830e3..=1200e3),
        ("day.ambient=32degC", 150e3..=310e3, 1250e3..=1900e3),
        ("day.ambient=43degC", 190e3..=380e3, 1700e3..=2500e3),
    ];
    let mut last = 0.0;
    for (day, low, high) in bands {
        let found = tested(day, &[]);
        assert!(found.passes(), "{found:?}");
        let middle = |c: lowside_shop::record::Checked| f64::midpoint(c.least, c.most);
        assert!(low.contains(&middle(found.low)), "{day}: {found:?}");
        assert!(high.contains(&middle(found.high)), "{day}: {found:?}");
        assert!(middle(found.high) > last + 200e3, "{day}: {found:?}");
        last = middle(found.high);
    }
    // Damp outside air lifts the vent: what condenses on the coil takes its capacity (common practice, no source).
    let outside = "controls.recirculation=false";
    let limit = |humidity| tested("day.ambient=32degC", &[outside, humidity]).vent.most;
    let (damp, dry) = (limit("day.humidity=70%"), limit("day.humidity=20%"));
    assert!(damp > dry + 2.0, "{damp:.1} and {dry:.1} K");
}

/// Signs of the trade: blocked condenser air raises the high side, a starved loop lowers it and warms the vent, a gauge that is
/// off reads wrong (common practice, no source).
#[test]
fn faults_fall_out_of_the_limits() {
    let day = "day.ambient=35degC";
    let blocked = tested(day, &["condition.condenser_air=40%"]);
    assert!(blocked.high.found > blocked.high.most, "{blocked:?}");
    let starved = tested(day, &["start.charge=350g"]);
    assert!(starved.high.found < starved.high.least, "{starved:?}");
    assert!(starved.vent.found > starved.vent.most, "{starved:?}");
    let gauge = tested(day, &["condition.low_gauge_offset=60kPag"]);
    assert!(
        gauge.low.found > gauge.low.most && gauge.high.passes(),
        "{gauge:?}"
    );
}

/// The limits are the readings of the sound vehicle and a margin: of a van without faults those are its own, and a van's faults do
/// not move them by a bit.
#[test]
fn the_limits_are_those_of_the_sound_vehicle() {
    let day = "day.ambient=35degC";
    let sound = tested(day, &[]);
    for checked in [sound.low, sound.high] {
        let middle = f64::midpoint(checked.least, checked.most);
        assert!((middle - checked.found).abs() < 1e-6, "{checked:?}");
    }
    let limits = |p: &Performance| [p.low, p.high].map(|c| (c.least, c.most));
    let faulty = tested(day, &["condition.condenser_air=40%", "start.charge=500g"]);
    assert_eq!(limits(&faulty), limits(&sound));
    assert_eq!(faulty.vent.most.to_bits(), sound.vent.most.to_bits());
}

fn turn_up(bay: &mut Bay) {
    let speed = RotationSpeed::from_rpm(2500.0);
    act(bay, VehicleAct::EngineSpeed { speed });
}

/// A bay in which a test was broken off after 100 s and a second one has run to its end.
fn two_tests() -> Bay {
    let mut bay = begun("day.ambient=30degC", &[]);
    run_observed(&mut bay, 100.0);
    turn_up(&mut bay);
    run_observed(&mut bay, 1.0);
    assert!(bay.test_begun().is_none() && bay.test_disturbed());
    assert_eq!(found(&bay), None);
    act(&mut bay, RecordAct::PerformanceTest);
    // A valve of the gauge set is no setting of the vehicle.
    let open = Ratio::from_fraction(0.0);
    act(&mut bay, HoseAct::LowValve { open });
    run_observed(&mut bay, 482.0);
    bay
}

#[test]
fn a_changed_setting_breaks_it_off_and_a_replay_needs_nobody_to_watch() {
    let bay = two_tests();
    let text = Take::of(&bay).to_text();
    let again = Take::parse(&text).expect("a take").resume();
    let again = again.expect("the same bits");
    assert!(found(&bay).is_some() && found(&bay) == found(&again));
    assert!(bay.ledger_gap() < 1e-9);
}

/// A take of before the entries: what comes of a test was not in its log.
#[test]
fn a_take_without_entries_ends_the_same_while_somebody_watches() {
    let bay = two_tests();
    let mut take = Take::of(&bay);
    take.log.retain(|(_, act)| !act.is_entry());
    assert_eq!(take.log.len(), bay.log().len() - 2);
    assert!(matches!(take.resume(), Err(TakeError::Differs { .. })));
    for portion in [1, 7, u64::MAX] {
        let mut test = PerformanceTest::default();
        let mut replay = take.replay();
        let mut watch = |bay: &Bay| test.look(bay);
        while !replay.run_observed(portion, &mut watch).expect("replays") {}
        let (again, end) = replay.end();
        assert_eq!(end, End::Same, "portions of {portion}");
        assert_eq!(again.log(), bay.log());
    }
}

/// Whoever watches a whole take enters nothing twice.
#[test]
fn a_take_with_entries_gets_no_others() {
    let bay = two_tests();
    let take = Take::of(&bay);
    let mut test = PerformanceTest::default();
    let mut replay = take.replay();
    let mut watch = |bay: &Bay| test.look(bay);
    while !replay.run_observed(50, &mut watch).expect("replays") {}
    assert_eq!(replay.finish().expect("the same end").log(), bay.log());
}

/// Goes on with a bay whose past is kept, watched as the page does it.
fn go_on(bay: &mut Bay, past: &mut Timeline, test: &mut PerformanceTest, ticks: u64) {
    past.go_on(bay);
    for _ in 0..ticks {
        bay.step_observed(&mut |bay| test.look_with(bay, |acts| past.after(bay, acts)))
            .expect("the engine goes on");
        past.record(bay);
    }
}

#[test]
fn going_back_into_a_test_ends_it_the_same() {
    let straight = {
        let mut bay = begun("day.ambient=35degC", &["condition.condenser_air=60%"]);
        run_observed(&mut bay, 482.0);
        bay
    };
    let mut bay = begun("day.ambient=35degC", &["condition.condenser_air=60%"]);
    let (mut past, mut test) = (Timeline::new(&bay), PerformanceTest::default());
    let end = straight.tick();
    go_on(&mut bay, &mut past, &mut test, end);
    assert_eq!(found(&bay), found(&straight));
    // Back into the minutes that are read, into those before, where something else is done, and to the last second.
    for (back, acts) in [(400, 1), (50, 1), (479, 2)] {
        bay = past.seek(&bay, back * TICKS_PER_SECOND);
        assert_eq!(bay.log().len(), acts);
        assert_eq!((found(&bay), bay.test_disturbed()), (None, false));
        assert!(bay.test_begun().is_some());
        let share = progress(&bay).expect("under way");
        assert!((share - back as f64 / 480.0).abs() < 1e-9, "{share}");
        let lines = past.lines(&bay).len();
        if back == 50 {
            past.go_on(&bay);
            act(&mut bay, HoseAct::Purge { on: false });
        }
        let rest = end - bay.tick();
        go_on(&mut bay, &mut past, &mut test, rest);
        assert_eq!(found(&bay), found(&straight), "from {back} s");
        assert_eq!(past.lines(&bay).len(), lines, "only an entry was lost");
    }
}

#[test]
fn an_entry_is_taken_back_with_the_act_before_it() {
    let mut bay = Bay::new(begun("day.ambient=35degC", &[]).scenario());
    let (mut past, mut test) = (Timeline::new(&bay), PerformanceTest::default());
    act(&mut bay, RecordAct::PerformanceTest);
    go_on(&mut bay, &mut past, &mut test, 100 * TICKS_PER_SECOND);
    turn_up(&mut bay);
    go_on(&mut bay, &mut past, &mut test, 50);
    assert!(bay.test_disturbed());
    // Taken back with its consequence, done again with it.
    bay = past.undo(&bay).expect("an act");
    assert!(bay.test_begun().is_some() && !bay.test_disturbed());
    assert_eq!(past.can(&bay), (true, true));
    bay = past.redo(&bay).expect("it is done again");
    assert!(bay.test_disturbed());
    bay = past.undo(&bay).expect("an act");
    go_on(&mut bay, &mut past, &mut test, 382 * TICKS_PER_SECOND);
    assert!(found(&bay).is_some_and(|p| p.passes()));
    bay = past.undo(&bay).expect("the act that began it");
    assert!(bay.log().is_empty() && found(&bay).is_none());
    assert_eq!(past.can(&bay), (false, true));
}

/// A test goes on in a bay that was kept as text, converted or not.
#[test]
fn a_kept_bay_ends_its_test_the_same() {
    for (name, more) in [
        ("healthy", "start.charge=900 g"),
        ("before-retrofit", "start.other_refrigerant=55 %"),
    ] {
        let mut bay = Bay::new(&scenario(name, &["start.air=0 g", more]));
        run(&mut bay, 20.0);
        act(&mut bay, RecordAct::PerformanceTest);
        run(&mut bay, 200.0);
        let text = bay.save().expect("finite");
        let mut other = Bay::load(bay.scenario(), bay.log(), &text).expect("its own");
        for bay in [&mut bay, &mut other] {
            run_observed(bay, 290.0);
        }
        assert_eq!(other.differences(&bay), [], "{name}");
        assert!(found(&bay).is_some(), "{name}");
    }
}

#[test]
fn an_entry_without_a_test_or_out_of_range_is_refused() {
    let mut bay = begun("day.ambient=35degC", &[]);
    let result = |low| RecordAct::PerformanceResult {
        low: [GaugePressure::from_kpa(low); 3],
        high: [GaugePressure::from_kpa(1500.0); 3],
        vent: [Temperature::from_deg_c(8.0); 3],
    };
    let before = bay.state_hash();
    for low in [-300.0, 1e5, f64::NAN] {
        let refused = bay
            .apply(result(low))
            .expect_err("out of range")
            .to_string();
        assert!(refused.contains("low"), "{refused}");
        assert_eq!(bay.state_hash(), before);
    }
    act(&mut bay, result(200.0));
    for entry in [result(200.0), RecordAct::PerformanceBrokenOff] {
        assert_eq!(bay.apply(entry), Err(Refused::NoTest));
    }
}

/// What was read at one vehicle says nothing about the one beside it, and an act to be left out is counted without it.
#[test]
fn a_twin_takes_over_no_entry() {
    let mut bay = begun("day.ambient=35degC", &[]);
    run_observed(&mut bay, 482.0);
    act(&mut bay, VehicleAct::Recirculation { on: false });
    let mut twin = Twin::new(&bay, &[Change::LeaveOut(1)]).expect("an act less");
    twin.follow(&bay);
    let done: Vec<Action> = twin.bay().log().iter().map(|(_, act)| *act).collect();
    assert_eq!(done, [RecordAct::PerformanceTest.into()]);
    assert_eq!((found(twin.bay()), twin.refused()), (None, 0));
}
