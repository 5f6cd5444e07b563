//! What moves a fingerprint and what does not, and that every number of a bay does.

use serde::Deserialize;
use serde_json::Value;

use super::*;
use crate::{
    Bay,
    action::{RecordAct, VesselAct},
    checkpoint, library,
};

fn hash(state: &impl Serialize) -> u64 {
    hash_of(state).expect("finite")
}

/// The check values of FNV-1a, 64 bit, published with the algorithm (Fowler, Noll & Vo, `test_fnv.c`; from memory).
#[test]
fn the_hash_gives_its_published_check_values() {
    for (text, value) in [
        ("", 0xcbf2_9ce4_8422_2325),
        ("a", 0xaf63_dc4c_8601_ec8c),
        ("foobar", 0x8594_4171_f739_67e8),
    ] {
        let mut hash = Fnv(0xcbf2_9ce4_8422_2325);
        hash.bytes(text.as_bytes());
        assert_eq!(hash.0, value, "{text:?}");
    }
}

#[derive(Serialize, Clone)]
struct Old {
    level: f64,
    cans: Vec<u32>,
    stance: Stance,
}

#[derive(Serialize, Clone, Copy)]
enum Stance {
    Upright,
    Inverted,
    Bath(f64),
    Held { by: Option<f64> },
}

/// What a later version has more of, at its default.
#[derive(Serialize)]
struct New {
    number: f64,
    level: f64,
    flag: bool,
    cans: Vec<u32>,
    choice: Stance,
    stance: Stance,
    text: &'static str,
    none: Option<f64>,
    list: Vec<f64>,
    row: [f64; 3],
    inside: (u8, i8, Stance),
}

#[derive(Serialize)]
struct Renamed {
    levels: f64,
    cans: Vec<u32>,
    stance: Stance,
}

const OLD: fn() -> Old = || Old {
    level: 0.25,
    cans: vec![3, 0],
    stance: Stance::Inverted,
};

#[test]
fn a_new_field_at_its_default_moves_nothing() {
    let Old {
        level,
        cans,
        stance,
    } = OLD();
    let new = New {
        number: -0.0,
        level,
        flag: false,
        cans,
        choice: Stance::Upright,
        stance,
        text: "",
        none: None,
        list: Vec::new(),
        row: [0.0, -0.0, 0.0],
        inside: (0, 0, Stance::Upright),
    };
    assert_eq!(hash(&new), hash(&OLD()));
}

#[test]
fn whatever_changes_or_is_called_otherwise_moves_it() {
    let old = OLD();
    let renamed = Renamed {
        levels: old.level,
        cans: old.cans.clone(),
        stance: old.stance,
    };
    let mut seen = vec![hash(&old), hash(&renamed)];
    let with = |change: &dyn Fn(&mut Old)| {
        let mut other = OLD();
        change(&mut other);
        hash(&other)
    };
    seen.extend([
        with(&|o| o.level = 0.25f64.next_up()),
        with(&|o| o.level = -0.25),
        with(&|o| o.level = 0.0),
        with(&|o| o.cans = vec![0, 3]),
        with(&|o| o.cans = vec![3]),
        with(&|o| o.cans = vec![3, 0, 0]),
        with(&|o| o.stance = Stance::Upright),
        with(&|o| o.stance = Stance::Bath(0.0)),
        with(&|o| o.stance = Stance::Bath(1.0)),
        with(&|o| o.stance = Stance::Held { by: None }),
        with(&|o| o.stance = Stance::Held { by: Some(0.0) }),
        with(&|o| o.stance = Stance::Held { by: Some(1.0) }),
    ]);
    let all = seen.len();
    seen.sort_unstable();
    seen.dedup();
    assert_eq!(seen.len(), all, "two states have one fingerprint");
}

#[test]
fn what_is_no_number_is_refused_with_its_place() {
    let mut old = OLD();
    old.stance = Stance::Held { by: Some(f64::NAN) };
    let refused = hash_of(&old).expect_err("not a number");
    assert_eq!(
        refused.to_string(),
        "stance.Held.by = NaN is not a finite number"
    );
}

#[test]
fn differences_are_named() {
    let (mut a, mut b) = (OLD(), OLD());
    assert_eq!(differences(&a, &b), []);
    b.level = 0.0;
    b.cans = vec![3, 0, 7];
    a.stance = Stance::Bath(300.0);
    let told: Vec<_> = differences(&a, &b)
        .iter()
        .map(Difference::to_string)
        .collect();
    assert_eq!(
        told,
        [
            "level: 0.25 and nothing",
            "cans: 2 of them and 3 of them",
            "cans.2: nothing and 7",
            "stance: Bath and Inverted",
            "stance.Bath: 300.0 and nothing"
        ]
    );
}

/// A bay in which as much as possible has been done: a converted vehicle, its can, a part on the bench, a test under way.
fn busy() -> Bay {
    let mut bay = Bay::new(&library::shipped("before-retrofit").expect("shipped"));
    bay.apply(RecordAct::PerformanceTest)
        .expect("a test begins");
    bay.apply(VesselAct::TakeCan).expect("a can is taken");
    for _ in 0..200 {
        bay.step().expect("goes on");
    }
    bay
}

/// Every number and flag of the state as it is written, and what it is turned to.
fn turned(value: &Value) -> Option<Value> {
    match value {
        Value::Bool(flag) => Some((!flag).into()),
        Value::Number(n) => Some(match n.as_u64() {
            Some(n) => (n + 1).into(),
            None => n.as_f64()?.next_down().into(),
        }),
        _ => None,
    }
}

fn paths(value: &Value, at: &str, all: &mut Vec<String>) {
    match value {
        Value::Array(list) => {
            for (k, part) in list.iter().enumerate() {
                paths(part, &format!("{at}/{k}"), all);
            }
        }
        Value::Object(fields) => {
            for (key, part) in fields {
                paths(part, &format!("{at}/{key}"), all);
            }
        }
        Value::Bool(_) | Value::Number(_) => all.push(at.to_owned()),
        Value::Null | Value::String(_) => {}
    }
}

/// Walks all that is written of a bay and turns it by its last bit, one by one: each moves the fingerprint, and the difference is named.
#[test]
fn every_number_of_a_bay_moves_its_fingerprint() {
    let bay = busy();
    let plain = hash(&bay);
    let mut state = serde_json::to_value(&bay).expect("finite");
    assert_eq!(hash(&Bay::deserialize(&state).expect("its own")), plain);
    let mut all = Vec::new();
    paths(&state, "", &mut all);
    assert!(all.len() > 1500, "{} numbers and flags", all.len());
    let mut unread = Vec::new();
    for path in &all {
        let place = state.pointer_mut(path).expect("it is there");
        let was = place.clone();
        *place = turned(&was).expect("a number or a flag");
        match Bay::deserialize(&state) {
            Ok(other) => assert_ne!(hash(&other), plain, "{path}"),
            Err(_) => unread.push(path),
        }
        *state.pointer_mut(path).expect("it is there") = was;
    }
    assert!(unread.is_empty(), "cannot be turned: {unread:?}");
}

/// A checkpoint with any whole number far off, its fingerprint made to fit: refused by name, or a bay that steps or halts. No panic.
#[test]
fn a_checkpoint_made_by_hand_is_refused_or_runs() {
    let bay = busy();
    let kept: Value = serde_json::from_str(&bay.save().expect("finite")).expect("JSON");
    let mut all = Vec::new();
    paths(&kept["state"], "/state", &mut all);
    let mut refused = 0;
    for path in &all {
        let mut kept = kept.clone();
        let place = kept.pointer_mut(path).expect("it is there");
        if !place.is_u64() {
            continue;
        }
        *place = 1_000_000.into();
        let Ok(state) = Bay::deserialize(&kept["state"]) else {
            continue;
        };
        kept["hash"] = crate::take::hex(hash(&state)).into();
        match Bay::load(bay.scenario(), bay.log(), &kept.to_string()) {
            Err(StateError::Misfit(misfit)) => {
                assert!(misfit.path.contains('.'), "{misfit}");
                refused += 1;
            }
            Err(other) => panic!("{path}: {other}"),
            Ok(mut bay) => {
                for _ in 0..3 {
                    let _ = bay.step();
                }
            }
        }
    }
    assert!(refused > 60, "only {refused} refused");
}

#[test]
fn a_checkpoint_that_is_not_one_is_refused_with_its_place() {
    let bay = busy();
    let text = bay.save().expect("finite");
    let load = |text: &str| {
        Bay::load(bay.scenario(), bay.log(), text)
            .map(|_| ())
            .expect_err("no checkpoint")
            .to_string()
    };
    let cut = load(&text[..text.len() / 2]);
    assert!(cut.starts_with("not a checkpoint: state"), "{cut}");
    let other = load(&text.replace("\"clock\":", "\"clocks\":"));
    assert!(other.contains("state.shop"), "{other}");
    let edited = load(&text.replace("\"cycles\":", "\"cycles\":1"));
    assert!(edited.contains("fingerprint"), "{edited}");
    let none = load(&text.replace("\"clock\":4.0", "\"clock\":null"));
    assert!(none.contains("state.shop.clock"), "{none}");
    let large = load(&" ".repeat(checkpoint::LARGEST + 1));
    assert!(large.contains("1.0 MB"), "{large}");
    let few = Bay::load(bay.scenario(), &[], &text).expect_err("no acts");
    assert!(few.to_string().contains("acts"), "{few}");
    // Another vehicle, and one without the spare port.
    let van = Bay::load(
        &library::shipped("healthy").expect("shipped"),
        bay.log(),
        &text,
    );
    assert!(
        matches!(&van, Err(StateError::Misfit(m)) if m.path == "plant.network.gas"),
        "{van:?}"
    );
}
