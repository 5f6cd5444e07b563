//! The pairs of `tests/data/sight_pairs.json` are what `tests/browser/sight.test.mjs` takes them for: each is a healthy van and another that
//! differs in what is hidden alone, and a person in either bay is shown the same.

use std::fs;

use lowside_lessons::Shown;
use lowside_session::{Bay, TICKS_PER_SECOND, Take, library, take};
use lowside_tests::data;
use serde_json::{Value, json};

/// Writes the fields of `from` over those of `into`, within objects that both have.
fn merge(into: &mut Value, from: &Value) {
    match (into, from) {
        (Value::Object(into), Value::Object(from)) => {
            for (key, value) in from {
                merge(into.entry(key.clone()).or_insert(Value::Null), value);
            }
        }
        (into, from) => *into = from.clone(),
    }
}

fn played(acts: &Value, seconds: u64, hidden: &Value) -> Bay {
    let van = library::shipped("healthy").expect("shipped");
    let text = Take::of(&Bay::new(&van)).to_text();
    let mut take: Value = serde_json::from_str(&text).expect("JSON");
    merge(&mut take["scenario"], hidden);
    take["log"] = acts.clone();
    take["ticks"] = json!(seconds * TICKS_PER_SECOND);
    // It is another take than the one that was sealed.
    take.as_object_mut().expect("an object").remove("seal");
    let take = Take::parse(&take.to_string()).expect("a take");
    let mut replay = take.replay();
    assert!(replay.run(u64::MAX).expect("it plays"));
    replay.end().0
}

/// What is shown as it is read: to the steps of the instruments.
fn read<'a>(shown: &Shown<'a>) -> Shown<'a> {
    Shown {
        pointers: shown.dials,
        air_pointers: shown.air,
        vacuum_pointer: shown.vacuum,
        ..shown.clone()
    }
}

#[test]
fn each_pair_is_shown_the_same_and_is_not() {
    let text = fs::read_to_string(data().join("sight_pairs.json")).expect("readable");
    let all: Value = serde_json::from_str(&text).expect("JSON");
    let pairs = all["pairs"].as_array().expect("a list");
    assert!(pairs.len() >= 10, "{} pairs", pairs.len());
    for pair in pairs {
        let name = &pair["name"];
        let acts = &all["acts"][pair["acts"].as_str().expect("a name")];
        let seconds = pair["seconds"].as_u64().expect("a number");
        let [sound, other] = [&json!({}), &pair["hidden"]].map(|h| played(acts, seconds, h));
        let (a, b) = (Shown::of(&other), Shown::of(&sound));
        assert_eq!(read(&a), read(&b), "{name}");
        // A pointer stands where no eye can tell it from the other.
        let apart = |a: [f64; 2], b: [f64; 2]| (a[0] - b[0]).abs().max((a[1] - b[1]).abs());
        assert!(apart(a.pointers, b.pointers) < 20.0, "{name}: Pa on a dial");
        assert!(
            apart(a.air_pointers, b.air_pointers) < 1e-3,
            "{name}: K in the air"
        );
        assert_ne!(
            take::fingerprint(&other),
            take::fingerprint(&sound),
            "{name}"
        );
        assert_ne!(other.scenario(), sound.scenario(), "{name}");
    }
}
