//! The relief valve: it snaps open and seats lower, so that a high side without a way out saw-tooths; a weak one is found, taken out and
//! replaced. Directions after common practice (no single source); its range of settings after service manuals, 2001-2002.

use lowside_session::{Bay, BenchAct, Event};
use lowside_shop::{
    detect::Spot,
    joints::{Joint, Seal},
    parts::Part,
};
use lowside_tests::runs::{act, run, scenario};

/// A hot day at idle with the condenser blocked.
const BLOCKED: [&str; 3] = [
    "day.ambient=43degC",
    "engine.speed=800rpm",
    "condition.condenser_air=5%",
];

fn bay(more: &[&str]) -> Bay {
    Bay::new(&scenario("healthy", &[&BLOCKED, more].concat()))
}

fn lifts(bay: &Bay) -> usize {
    let events = bay.events().iter();
    events.filter(|(_, e)| *e == Event::ReliefLifted).count()
}

/// Grams of refrigerant that have gone to the room.
fn lost(bay: &Bay) -> f64 {
    1e3 * bay.plant().network.account().to_room[0]
}

#[test]
fn a_weak_valve_saw_tooths_and_a_sound_one_leaves_it_to_the_cut_out() {
    let mut sound = bay(&[]);
    run(&mut sound, 600.0);
    assert_eq!(lifts(&sound), 0, "the cut-out comes first");
    assert!(lost(&sound) < 0.1);

    let mut weak = bay(&["condition.relief_opens=2500kPag"]);
    let (mut highest, mut least_open, mut found) = (0.0_f64, f64::INFINITY, 0.0_f64);
    for _ in 0..6000 {
        run(&mut weak, 0.1);
        let plant = weak.plant();
        let p = plant.network.node(plant.circuit.high_side()).state.p - plant.day().p;
        highest = highest.max(p);
        if plant.relief.lifted {
            least_open = least_open.min(p);
            let spot = Spot::Site(lowside_plant::leak::Site::ReliefValve);
            found = found.max(spot.escape(plant, weak.shop()).refrigerant);
        }
    }
    assert!(lifts(&weak) > 1, "{} lifts", lifts(&weak));
    assert!(highest < 1.05 * 2.5e6, "it holds the pressure: {highest}");
    assert!(
        least_open > 0.88 * 2.5e6,
        "it seats again some way below: {least_open}"
    );
    assert!(
        found > 1e-4,
        "what blows out is found at the valve: {found}"
    );
    assert!(lost(&weak) > 10.0, "{} g", lost(&weak));
}

#[test]
fn a_new_valve_opens_where_the_vehicle_says() {
    let mut bay = bay(&[
        "condition.relief_opens=2500kPag",
        "start.charge=0g",
        "start.air=3g",
        "engine.on=false",
    ]);
    let spec = bay.scenario().vehicle.switches.relief_opens;
    assert!(bay.plant().relief.opens < 2.6e6);
    let part = Part::ReliefValve;
    assert!(
        bay.apply(BenchAct::RemovePart { part }).is_err(),
        "its thread has to be apart first"
    );
    let joint = Joint::ReliefThread;
    act(&mut bay, BenchAct::OpenJoint { joint });
    act(&mut bay, BenchAct::RemovePart { part });
    assert!(
        bay.apply(BenchAct::CloseJoint {
            joint,
            seal: Seal::NewOiled
        })
        .is_err(),
        "there is nothing to screw in"
    );
    act(&mut bay, BenchAct::NewPart { part });
    act(&mut bay, BenchAct::RefitPart { part });
    act(
        &mut bay,
        BenchAct::CloseJoint {
            joint,
            seal: Seal::NewOiled,
        },
    );
    let opens = lowside_units::Quantity::si(spec);
    assert!((bay.plant().relief.opens - opens).abs() < 1.0);
}

#[test]
fn its_thread_opened_under_pressure_vents_and_hurts() {
    let mut bay = Bay::new(&scenario("healthy", &["engine.on=false"]));
    run(&mut bay, 5.0);
    act(
        &mut bay,
        BenchAct::OpenJoint {
            joint: Joint::ReliefThread,
        },
    );
    run(&mut bay, 30.0);
    assert!(bay.shop().injuries > 0);
    assert!(lost(&bay) > 100.0, "{} g", lost(&bay));
}
