//! The performance test: its limits follow the day, a healthy van passes, a faulty one does not.

use lowside_session::{Bay, HoseAct, RecordAct, Take, VehicleAct};
use lowside_shop::record::{Performance, Prices};
use lowside_tests::runs::{run, scenario};
use lowside_units::{Ratio, RotationSpeed};

fn begun(day: &str, more: &[&str]) -> Bay {
    let mut all = vec!["act=[]", "engine.on=true", "controls.ac=true", day];
    all.extend(more);
    let mut bay = Bay::new(&scenario("healthy", &all));
    bay.apply(RecordAct::PerformanceTest).expect("begins");
    bay
}

fn tested(day: &str, more: &[&str]) -> Performance {
    let mut bay = begun(day, more);
    run(&mut bay, 470.0);
    assert!(bay.test().is_some() && bay.record(&Prices::default()).performance.is_none());
    run(&mut bay, 12.0);
    assert!(bay.test().is_none() && !bay.test_disturbed());
    bay.record(&Prices::default()).performance.expect("done")
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

#[test]
fn a_changed_setting_breaks_it_off() {
    let mut bay = begun("day.ambient=30degC", &[]);
    run(&mut bay, 100.0);
    let speed = RotationSpeed::from_rpm(2500.0);
    bay.apply(VehicleAct::EngineSpeed { speed }).expect("turns");
    run(&mut bay, 1.0);
    assert!(bay.test().is_none() && bay.test_disturbed());
    bay.apply(RecordAct::PerformanceTest).expect("again");
    // A valve of the gauge set is no setting of the vehicle.
    let open = Ratio::from_fraction(0.0);
    bay.apply(HoseAct::LowValve { open }).expect("shut");
    run(&mut bay, 482.0);
    let take = Take::of(&bay);
    let again = take.resume().expect("the same bits");
    let found = |b: &Bay| b.record(&Prices::default()).performance.expect("done");
    assert_eq!(found(&bay), found(&again));
    assert!(bay.ledger_gap() < 1e-9);
}
