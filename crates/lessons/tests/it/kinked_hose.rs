//! A collapsed suction hose fails the performance test, and passes it once the hose is renewed and the loop charged by weight. Written into
//! the data sheet it fails as well: the vehicle that it is held against has the data sheet as it stood before.

use lowside_plant::passage::Passage;
use lowside_session::{
    Bay, BenchAct, HoseAct, RecordAct, Scenario, Take, VehicleAct, acts, library,
};
use lowside_shop::{
    joints::{Joint, Seal},
    parts::Part,
    record::{Performance, Prices},
};
use lowside_tests::runs::{act, evacuate_and_charge, run, run_observed, scenario};

/// Runs the engine with the A/C on, makes the performance test and stops the engine.
fn tested(bay: &mut Bay) -> Performance {
    act(bay, VehicleAct::Engine { on: true });
    act(bay, RecordAct::PerformanceTest);
    run_observed(bay, 482.0);
    act(bay, VehicleAct::Engine { on: false });
    let record = bay.record(&Prices::default());
    record.performance.expect("the test is over")
}

/// Lays a new suction hose in; what was in the loop is lost.
fn renew_hose(bay: &mut Bay) {
    let joints = [Joint::AccumulatorOut, Joint::CompressorIn];
    for joint in joints {
        act(bay, BenchAct::OpenJoint { joint });
    }
    run(bay, 900.0);
    let part = Part::SuctionHose;
    for action in acts![
        BenchAct::RemovePart { part },
        BenchAct::NewPart { part },
        BenchAct::RefitPart { part },
    ] {
        act(bay, action);
    }
    let seal = Seal::NewOiled;
    for joint in joints {
        act(bay, BenchAct::CloseJoint { joint, seal });
    }
}

#[test]
fn a_collapsed_hose_fails_the_performance_test_until_it_is_renewed() {
    let kinked = r#"condition.restriction=[{at="suction-line",open="12 %"}]"#;
    let mut bay = coupled(&scenario(
        "healthy",
        &["act=[]", "day.ambient=32degC", kinked],
    ));
    let found = tested(&mut bay);
    assert!(!found.passes(), "{found:?}");
    // What it hides from the low-side port it takes from the compressor (common practice, no source): little flow, a low head.
    assert!(found.high.found < found.high.least, "{found:?}");
    renew_hose(&mut bay);
    assert!(bay.plant().open_share(Passage::SuctionLine) >= 1.0);
    evacuate_and_charge(&mut bay);
    let found = tested(&mut bay);
    assert!(found.passes(), "{found:?}, {:.3} kg", bay.charge());
    assert!(bay.ledger_gap() < 1e-9, "{:.1e}", bay.ledger_gap());
}

/// The hose's loss at 50 g/s where it has collapsed: some fifty times a sound one's, as 14 % of its flow area does.
const COLLAPSED: &str = "vehicle.suction_line.pressure_loss=400kPa";

fn coupled(scenario: &Scenario) -> Bay {
    let mut bay = Bay::new(scenario);
    act(&mut bay, HoseAct::LowCoupler { on: true });
    act(&mut bay, HoseAct::HighCoupler { on: true });
    bay
}

#[test]
fn a_hose_that_the_data_sheet_has_collapsed_fails_too() {
    let altered = scenario("healthy", &["act=[]", "day.ambient=32degC", COLLAPSED]);
    let mut bay = coupled(&altered);
    let found = tested(&mut bay);
    assert!(!found.passes(), "{found:?}");
    assert!(found.low.found > found.low.most, "{found:?}");
    // A take of it knows what was altered, so its replay is held against the same vehicle.
    let take = Take::parse(&Take::of(&bay).to_text()).expect("reads");
    assert_eq!(take.scenario, altered);
    let again = take.resume().expect("replays");
    assert_eq!(again.record(&Prices::default()).performance, Some(found));
}

/// A whole vehicle in the scenario is its own reference: nobody knows another of its kind.
#[test]
fn a_whole_vehicle_of_the_scenario_is_its_own_reference() {
    let van = library::vehicle("utility-van").expect("shipped");
    let own = van.replacen("[suction_line]", "[collapsed]", 1);
    let (rest, line) = own.split_once("[collapsed]").expect("a suction line");
    let line = line.replacen("8 kPa", "400 kPa", 1);
    let own = format!("{rest}[suction_line]{line}").replace("\n[", "\n[vehicle.");
    let healthy = library::scenario("healthy").expect("shipped");
    let text = healthy.replace("vehicle = \"utility-van\"\n", "") + "\n[vehicle]\n" + &own;
    let sets = ["act=[]", "day.ambient=32degC"].map(str::to_owned);
    let own = Scenario::parse(&text, &sets).expect("reads");
    let same = scenario("healthy", &["act=[]", "day.ambient=32degC", COLLAPSED]);
    assert_eq!((&own.vehicle, &own.altered), (&same.vehicle, &None));
    let found = tested(&mut coupled(&own));
    assert!(found.passes(), "{found:?}");
}
