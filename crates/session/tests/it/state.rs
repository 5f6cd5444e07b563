//! The state of a bay is one value: saved and put into a bay built anew, it goes on to the bit as the bay that was never away.

use std::fs;

use lowside_session::{Bay, HoseAct, Take};
use lowside_tests::{
    acts::{Dice, any},
    runs::{act, run, scenario},
};

/// The bay by way of its text. Saved again it is the same text, byte for byte.
fn back(bay: &Bay, what: &str) -> Bay {
    let text = bay.save().unwrap_or_else(|e| panic!("{what}: {e}"));
    let back =
        Bay::load(bay.scenario(), bay.log(), &text).unwrap_or_else(|e| panic!("{what}: {e}"));
    alike(&back, bay, what);
    assert!(back.save().as_ref() == Ok(&text), "{what}: another text");
    assert_eq!(back.log(), bay.log(), "{what}");
    back
}

/// Two bays are in the same state, or the leaves that differ are told.
fn alike(a: &Bay, b: &Bay, what: &str) {
    let differs = a.differences(b);
    let first: Vec<String> = differs.iter().take(5).map(ToString::to_string).collect();
    assert!(
        differs.is_empty(),
        "{what} at tick {}: {} leaves differ, first {first:#?}",
        a.tick(),
        differs.len()
    );
    assert_eq!(a.state_hash(), b.state_hash(), "{what}");
}

/// Ticks between looks at whether bays are alike.
const EVERY: u64 = 250;

/// Random acts on a random bay: cans, pump, machine, joints apart, parts on the bench, two gases, foreign oil, leaks and damage.
fn random_run(seed: u64) {
    let mut dice = Dice::new(seed ^ 0x57a7e);
    let charge = format!("start.charge={}kg", dice.between(0.0, 1.5));
    let ambient = format!("day.ambient={}K", dice.between(268.0, 318.0));
    let water = format!("start.water={}g", dice.between(-5.0, 5.0).max(0.0));
    let other = format!(
        "start.other_refrigerant={} %",
        dice.between(-20.0, 40.0).max(0.0)
    );
    let name = ["charge-from-cans", "healthy", "before-retrofit"][(seed % 3) as usize];
    let mut bay = Bay::new(&scenario(name, &[&charge, &ambient, &water, &other]));
    let leave = (0..3).map(|_| dice.bits() % 6000);
    let leave: Vec<u64> = leave.collect();
    let mut away: Vec<Bay> = Vec::new();
    while bay.tick() < 6500 {
        if leave.contains(&bay.tick()) {
            away.push(back(&bay, &format!("seed {seed}")));
        }
        if dice.chance(0.02) {
            let action = any(&mut dice);
            let done = bay.apply(action);
            for other in &mut away {
                assert_eq!(other.apply(action), done, "seed {seed}: {action:?}");
            }
        }
        let stepped = bay.step();
        for other in &mut away {
            assert_eq!(other.step(), stepped, "seed {seed}");
        }
        if bay.tick().is_multiple_of(EVERY) {
            for other in &away {
                alike(other, &bay, &format!("seed {seed}"));
            }
        }
    }
    for other in &away {
        alike(other, &bay, &format!("seed {seed}"));
        assert!(other.mass_error() < 1e-9 && other.energy_error() < 1e-9);
    }
}

#[test]
fn random_bays_go_on_from_their_text_to_the_bit() {
    (0..45).for_each(random_run);
}

#[test]
fn the_golden_takes_end_where_they_do_from_any_moment_of_theirs() {
    let folder = lowside_tests::root().join("tests/takes");
    for file in fs::read_dir(folder).expect("there are takes") {
        let path = file.expect("an entry").path();
        let text = fs::read_to_string(&path).expect("a file");
        let take = Take::parse(&text).expect("a take");
        let mut replay = take.replay();
        let mut seen = Vec::new();
        while !replay.run(take.ticks / 7).expect("replays") {
            seen.push(back(replay.bay(), &path.display().to_string()));
        }
        assert!(seen.len() >= 6);
        let whole = replay.finish().expect("its own end");
        for mut bay in seen {
            let done = bay.log().len();
            let mut rest = take.log[done..].iter().peekable();
            while bay.tick() < take.ticks {
                while let Some((_, action)) = rest.next_if(|(tick, _)| *tick <= bay.tick()) {
                    act(&mut bay, *action);
                }
                bay.step().expect("goes on");
            }
            for (_, action) in rest {
                act(&mut bay, *action);
            }
            alike(&bay, &whole, &path.display().to_string());
        }
    }
}

/// What used to be told apart by nobody.
#[test]
fn what_differs_is_named() {
    let start = || Bay::new(&scenario("healthy", &[]));
    let (mut a, mut b) = (start(), start());
    act(&mut a, HoseAct::LowCoupler { on: false });
    let paths = |a: &Bay, b: &Bay| -> Vec<String> {
        a.differences(b).into_iter().map(|d| d.path).collect()
    };
    let found = paths(&a, &b);
    assert!(
        found.contains(&"shop.hands.low_coupled".to_owned()),
        "{found:?}"
    );
    run(&mut a, 1.0);
    run(&mut b, 1.0);
    let found = paths(&a, &b);
    assert!(
        found
            .iter()
            .any(|path| path.starts_with("plant.network.nodes.")
                && path.ends_with("(low-side hose)")),
        "{found:?}"
    );
    assert_ne!(a.state_hash(), b.state_hash());
}
