//! How many takes of unknown vehicles are marked a second, on one core: read, replayed, and held against the bays of look-alikes.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use lowside_lessons::{
    drill::{Deck, Drill},
    mark::Mark,
};
use lowside_session::{
    Action, Bay, HoseAct, LearnerAct, Sitting, Take, VehicleAct,
    action::{Evidence, FaultId, Meter},
    library,
};
use lowside_shop::fault::{Cure, Severity};
use lowside_units::{Ratio, RotationSpeed};

/// Eight minutes with a vehicle: gauges standing and running, the vent, and what it is said to be.
fn attempt() -> String {
    let kind = library::shipped("healthy").expect("a shipped scenario");
    let drill = Drill::drawn(7, &Deck::default(), &kind);
    let mut bay = Bay::new(&drill.scenario);
    let act = |bay: &mut Bay, action: Action| bay.apply(action).expect("taken");
    let pass = |bay: &mut Bay, seconds: f64| {
        let until = bay.seconds() + seconds;
        while bay.seconds() < until {
            bay.step().expect("the engine goes on");
        }
    };
    let look = |bay: &mut Bay, seconds: f64, meters: &[Meter]| {
        pass(bay, seconds);
        for &instrument in meters {
            act(bay, LearnerAct::Read { instrument }.into());
            pass(bay, 5.0);
        }
    };
    act(&mut bay, HoseAct::LowCoupler { on: true }.into());
    act(&mut bay, HoseAct::HighCoupler { on: true }.into());
    let gauges = [Meter::LowGauge, Meter::HighGauge];
    look(&mut bay, 20.0, &gauges);
    let speed = RotationSpeed::from_rpm(1500.0);
    act(&mut bay, VehicleAct::Engine { on: true }.into());
    act(&mut bay, VehicleAct::EngineSpeed { speed }.into());
    act(&mut bay, VehicleAct::AirConditioning { on: true }.into());
    act(&mut bay, VehicleAct::Blower { step: 4 }.into());
    act(&mut bay, VehicleAct::Windows { on: true }.into());
    look(&mut bay, 300.0, &gauges);
    look(
        &mut bay,
        60.0,
        &[Meter::LowGauge, Meter::HighGauge, Meter::VentThermometer],
    );
    let said = LearnerAct::Commit {
        fault: FaultId::find("low-charge").expect("a row"),
        severity: Severity::Severe,
        evidence: Evidence::of(&[1, 2, 3]).expect("twelve at most"),
        repair: Cure::Charge,
    };
    let certainty = Ratio::from_percent(70.0);
    let fault = FaultId::find("low-charge").expect("a row");
    act(&mut bay, LearnerAct::Suspect { fault, certainty }.into());
    act(&mut bay, said.into());
    Take::in_sitting(&bay, Sitting::default()).to_text()
}

fn mark(c: &mut Criterion) {
    let text = attempt();
    let mut group = c.benchmark_group("mark");
    group.sample_size(10).throughput(Throughput::Elements(1));
    group.bench_function("a take", |b| {
        b.iter(|| Mark::of(&Take::parse(&text).expect("a take")).expect("replays"));
    });
    group.finish();
}

criterion_group!(benches, mark);
criterion_main!(benches);
