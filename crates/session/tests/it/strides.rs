//! Vehicle and shop take up to four ticks at once where little happens. What that changes is measured here against single ticks.

use lowside_plant::plant::{Plant, TICK};
use lowside_session::{Bay, InstrumentAct, TICKS_PER_SECOND, VehicleAct};
use lowside_tests::runs::scenario;

/// Means over the last five of ten minutes: head and low side, Pa, vent, K; and how often the clutch pulled in.
struct Means {
    sums: [f64; 3],
    cycles: u32,
}

impl Means {
    fn take(&mut self, plant: &Plant) {
        let p = |node| plant.network.node(node).state.p;
        let c = &plant.circuit;
        let now = [p(c.high_side()), p(c.low_side()), plant.cabin.vent.t];
        for (sum, now) in self.sums.iter_mut().zip(now) {
            *sum += now * TICK / 300.0;
        }
        self.cycles = plant.drive.cycles;
    }
}

/// Plays ten minutes as a bay does and tick by tick.
fn both(set: &[&str]) -> [Means; 2] {
    let mut bay = Bay::new(&scenario("healthy", set));
    let mut single = bay.plant().clone();
    let mut means = [0, 0].map(|cycles| Means {
        sums: [0.0; 3],
        cycles,
    });
    let mut played = lowside_session::script::Player::new(&bay.scenario().act.clone());
    while bay.tick() < 600 * TICKS_PER_SECOND {
        played.play(&mut bay).expect("taken");
        single.settings = bay.plant().settings;
        bay.step().expect("sound");
        single.tick().expect("sound");
        if bay.seconds() > 300.0 {
            means[0].take(bay.plant());
            means[1].take(&single);
        }
    }
    means
}

#[test]
fn long_steps_end_where_single_ticks_do() {
    for (day, cycling) in [("43degC", false), ("35degC", false), ("24degC", true)] {
        let [long, one] = both(&[&format!("day.ambient={day}")]);
        // Where it cycles the window may hold a part of a cycle more.
        let (share, kelvin) = if cycling { (5e-3, 0.1) } else { (1e-3, 0.05) };
        for k in 0..2 {
            let off = long.sums[k] / one.sums[k] - 1.0;
            assert!(off.abs() < share, "{day}: pressure {k} off by {off:e}");
        }
        let off = long.sums[2] - one.sums[2];
        assert!(off.abs() < kelvin, "{day}: vent off by {off} K");
        assert!(one.cycles > if cycling { 10 } else { 0 }, "{day}");
        assert!(long.cycles.abs_diff(one.cycles) <= 1, "{day}");
    }
}

/// In a settled loop the vehicle stands still for three ticks of four; an act finds it where the clock is, and one that is refused leaves it.
#[test]
fn an_act_falls_on_its_tick() {
    let mut bay = Bay::new(&scenario("healthy", &["day.ambient=35degC"]));
    while bay.tick() < 120 * TICKS_PER_SECOND + 2 {
        bay.step().expect("sound");
    }
    let watch = |bay: &Bay| bay.shop().clock;
    let behind = bay.seconds() - watch(&bay);
    assert!(behind > 0.5 * TICK, "two ticks are owed: {behind} s");
    let hash = bay.state_hash();
    let refused = bay.apply(VehicleAct::EngineSpeed {
        speed: lowside_units::RotationSpeed::from_rpm(1e9),
    });
    assert!(refused.is_err());
    assert_eq!(bay.state_hash(), hash);
    bay.apply(InstrumentAct::Stopwatch { on: true })
        .expect("taken");
    assert!(
        (watch(&bay) - bay.seconds()).abs() < 1e-9,
        "{}",
        watch(&bay)
    );
}
