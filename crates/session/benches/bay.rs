//! How many times real time a bay runs: settled, cycling, charging from a can, in vacuum; and with twins beside it. What a checkpoint costs.

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use lowside_session::{Bay, Change, Scenario, TICKS_PER_SECOND, Twin, library, script::Player};

/// A bay that has run a scenario for so many seconds.
fn after(name: &str, overrides: &[&str], seconds: f64) -> Bay {
    let overrides: Vec<String> = overrides.iter().map(|o| (*o).to_owned()).collect();
    let text = library::scenario(name).expect("a shipped scenario");
    let scenario = Scenario::parse(text, &overrides).expect("sound overrides");
    let mut bay = Bay::new(&scenario);
    let mut player = Player::new(&scenario.act);
    while bay.seconds() < seconds {
        player.play(&mut bay).expect("acts are taken");
        bay.step().expect("the engine goes on");
    }
    bay
}

/// One second of bay time from each state; elements per second are bay seconds per second.
#[expect(clippy::large_stack_arrays, reason = "four bays, once")]
fn bay_second(c: &mut Criterion) {
    let mut group = c.benchmark_group("bay second");
    group.throughput(Throughput::Elements(1));
    for (name, bay) in [
        ("settled", after("healthy", &["day.ambient=38degC"], 300.0)),
        ("cycling", after("healthy", &["day.ambient=27degC"], 300.0)),
        ("charging", after("charge-from-cans", &[], 90.0)),
        ("evacuated", after("charge-from-cans", &[], 1.0)),
    ] {
        group.bench_function(name, |b| {
            let mut bay = bay.clone();
            b.iter(|| {
                for _ in 0..TICKS_PER_SECOND {
                    bay.step().expect("the engine goes on");
                }
            });
        });
    }
    group.finish();
}

/// A second of bay time with twins beside the bay, each in another fault; elements per second are bay seconds of all bays per second.
fn twins(c: &mut Criterion) {
    let mut group = c.benchmark_group("twins");
    for count in [0_u32, 1, 8, 32] {
        let mut first = after("healthy", &["day.ambient=38degC"], 0.0);
        let mut twins: Vec<Twin> = (0..count)
            .map(|k| {
                let air = 40.0 + 50.0 * f64::from(k) / f64::from(count);
                let set = [format!("condition.condenser_air={air}%")];
                let scenario = first.scenario().with(&set, |_| None).expect("a share");
                let changes = [Change::Start(Box::new(scenario))];
                Twin::new(&first, &changes).expect("another fault")
            })
            .collect();
        let mut pass = |seconds: u64| {
            for _ in 0..seconds * TICKS_PER_SECOND {
                first.step().expect("the engine goes on");
                for twin in &mut twins {
                    twin.follow(&first);
                }
            }
        };
        pass(300);
        group.throughput(Throughput::Elements(u64::from(count) + 1));
        group.bench_function(format!("{count} beside"), |b| b.iter(|| pass(1)));
    }
    group.finish();
}

/// A checkpoint: kept in memory for going back in time, written as text, and taken up from it.
fn checkpoint(c: &mut Criterion) {
    let bay = after("charge-from-cans", &[], 90.0);
    let text = bay.save().expect("a sound bay");
    let mut group = c.benchmark_group("checkpoint");
    group.bench_function("in memory", |b| b.iter(|| bay.clone()));
    group.bench_function("as text", |b| b.iter(|| bay.save().expect("a sound bay")));
    group.bench_function("taken up", |b| {
        b.iter(|| Bay::load(bay.scenario(), bay.log(), &text).expect("its own checkpoint"));
    });
    group.finish();
}

criterion_group!(benches, bay_second, twins, checkpoint);
criterion_main!(benches);
