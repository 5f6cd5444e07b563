//! Takes of jobs carry their card, and takes of another physics are played again with one line that says so.

use crate::common::{answer_in, assert_refused, folder, lowside_in, object_in};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;

const CARD: &str = "2-low-charge";
const SCRIPT: &str = "[[act]]\nafter = \"2s\"\nact = { do = \"engine\", on = true }\n\
                      [[act]]\nact = { do = \"read\", instrument = \"low-gauge\" }\n";

/// Records the script in the bay of a card.
fn record(folder: &Path, card: &str) -> Value {
    fs::write(folder.join("s.toml"), SCRIPT).expect("written");
    let args = [
        "job", card, "--acts", "s.toml", "--then", "2s", "--record", "t.json", "--json",
    ];
    object_in(folder, &args)
}

/// The recorded take with something changed, without its seal.
fn changed(folder: &Path, change: impl FnOnce(&mut Value)) {
    let text = fs::read_to_string(folder.join("t.json")).expect("a take");
    let mut take: Value = serde_json::from_str(&text).expect("JSON");
    drop(take.as_object_mut().map(|take| take.remove("seal")));
    change(&mut take);
    fs::write(folder.join("t.json"), take.to_string()).expect("written");
}

#[test]
fn a_jobs_take_carries_its_card_and_hides_its_fault() {
    let folder = folder("job_take");
    let played = record(&folder, CARD);
    assert_eq!(played["comparable"], true);
    let text = fs::read_to_string(folder.join("t.json")).expect("a take");
    assert!(text.contains(r#""card":{"job":"2-low-charge"}"#), "{text}");
    for word in ["\"condition\"", "\"leak\"", "\"start\""] {
        assert!(!text.contains(word), "{word}: {text}");
    }
    let replayed = object_in(&folder, &["job", "--take", "t.json", "--json"]);
    assert_eq!(replayed, played);
    let named = object_in(&folder, &["job", CARD, "--take", "t.json", "--json"]);
    assert_eq!(named, played);
}

#[test]
fn a_take_of_ones_own_card_needs_no_card_beside_it() {
    let folder = folder("own_card");
    let file = lowside_tests::root().join(format!("scenarios/lessons/{CARD}.toml"));
    let text = fs::read_to_string(file).expect("a card");
    let text = text.replacen("en = \"", "en = \"Mine: ", 1);
    fs::write(folder.join("mine.toml"), text).expect("written");
    let played = record(&folder, "mine.toml");
    assert!(
        played["job"]
            .as_str()
            .is_some_and(|job| job.contains("Mine: ")),
        "{played}"
    );
    fs::remove_file(folder.join("mine.toml")).expect("removed");
    let take = fs::read_to_string(folder.join("t.json")).expect("a take");
    assert!(!take.contains("Mine: "));
    let replayed = object_in(&folder, &["job", "--take", "t.json", "--json"]);
    assert_eq!(replayed, played);
}

#[test]
fn a_card_that_is_not_there_is_named() {
    let folder = folder("no_card");
    record(&folder, CARD);
    let args = ["job", "--take", "t.json"];
    changed(&folder, |take| {
        take["card"] = json!({"job": "no-such-card"});
    });
    assert_refused(
        &lowside_in(&folder, &args),
        &args,
        &["t.json", "no-such-card"],
    );
    changed(&folder, |take| {
        drop(take.as_object_mut().map(|take| take.remove("card")));
    });
    assert_refused(
        &lowside_in(&folder, &args),
        &args,
        &["t.json", "carries none"],
    );
    // A card of one's own that is no card.
    let own = lowside_session::scramble::scramble("format = 1\nwhat = 2");
    changed(&folder, |take| take["card"] = json!({ "own": own }));
    assert_refused(&lowside_in(&folder, &args), &args, &["t.json", "card"]);
}

/// Refused acts are skipped, counted and named on one line, and the mark says that it is not comparable.
#[test]
fn a_take_of_another_physics_is_played_with_one_kind_line() {
    let folder = folder("other_physics");
    record(&folder, CARD);
    changed(&folder, |take| {
        take["physics"] = json!("0123456789abcdef");
        let log = take["log"].as_array_mut().expect("a list");
        log.push(json!([100, {"do": "tap", "on": true}]));
        log.push(json!([100, {"do": "air-conditioning", "on": true}]));
    });
    for args in [&["replay", "t.json"][..], &["job", "--take", "t.json"]] {
        let out = lowside_in(&folder, args);
        let err = String::from_utf8_lossy(&out.stderr);
        assert!(out.status.success(), "{err}");
        assert_eq!(err.lines().count(), 1, "{err}");
        for said in [
            "recorded under another physics",
            "refused here: 1: act 3 (there is no can on the service hose)",
        ] {
            assert!(err.contains(said), "{said}: {err}");
        }
        let marked = String::from_utf8_lossy(&out.stdout).contains("not comparable");
        assert_eq!(marked, args[0] == "job");
    }
    // Under the same physics it is an error.
    changed(&folder, |take| {
        drop(take.as_object_mut().map(|take| take.remove("physics")));
    });
    for args in [&["replay", "t.json"][..], &["job", "--take", "t.json"]] {
        assert_refused(&lowside_in(&folder, args), args, &["act 3 of the log"]);
    }
}

#[test]
fn a_careless_edit_is_named() {
    let folder = folder("edited");
    answer_in(
        &folder,
        &["run", "healthy", "--until", "1s", "--take", "t.json"],
    );
    let text = fs::read_to_string(folder.join("t.json")).expect("a take");
    let edited = text.replacen("Healthy", "Sickly", 1);
    fs::write(folder.join("t.json"), edited).expect("written");
    let args = ["replay", "t.json"];
    assert_refused(&lowside_in(&folder, &args), &args, &["t.json", "seal"]);
}
