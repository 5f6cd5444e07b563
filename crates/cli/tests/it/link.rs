//! A take as a link and back: the same take, short enough to be sent; a hundred that are no such link are refused, each with its reason.

use crate::common::{answer_in, assert_refused, folder, lowside_in};
use base64::{Engine, engine::general_purpose::URL_SAFE_NO_PAD};
use flate2::{Compression, write::DeflateEncoder};
use lowside_lessons::{
    Job,
    drill::{Deck, Drill},
    link,
};
use lowside_session::{Bay, Scenario, Sight, Sitting, Take};
use lowside_tests::{
    acts::{Dice, any},
    runs::scenario,
};
use serde_json::json;
use std::{
    fs,
    io::Write,
    path::Path,
    time::{Duration, Instant},
};

const PAGE: &str = "https://example.org/bay/";

/// As a browser packs it.
fn deflated(text: &[u8]) -> Vec<u8> {
    let mut packed = DeflateEncoder::new(Vec::new(), Compression::default());
    packed.write_all(text).expect("memory");
    packed.finish().expect("memory")
}

fn linked(text: &str) -> String {
    format!("#k={}", URL_SAFE_NO_PAD.encode(deflated(text.as_bytes())))
}

/// The link of a take as the command writes it, and the take it gives back.
fn through(folder: &Path, take: &Take) -> (String, Take) {
    fs::write(folder.join("there.json"), take.to_text()).expect("written");
    let link = answer_in(folder, &["link", "there.json", "--page", PAGE]);
    answer_in(folder, &["link", link.trim(), "-o", "back.json"]);
    let back = fs::read_to_string(folder.join("back.json")).expect("a take");
    (link.trim().to_owned(), Take::parse(&back).expect("sound"))
}

/// A bay in which so many acts were done, some seconds apart.
fn worked(scenario: &Scenario, seed: u64, acts: usize) -> Bay {
    let mut bay = Bay::new(scenario);
    let mut dice = Dice::new(seed);
    while bay.log().len() < acts {
        if bay.apply(any(&mut dice)).is_ok() {
            let ticks = 25 + dice.bits() % 1_000;
            for _ in 0..ticks {
                if bay.step().is_err() {
                    return bay;
                }
            }
        }
    }
    bay
}

#[test]
fn a_link_gives_back_the_same_take_whatever_it_begins_with() {
    let folder = folder("link_same");
    let kind = scenario("healthy", &[]);
    let drill = Drill::drawn(7, &Deck::default(), &kind).scenario;
    let own = scenario(
        "healthy-compact",
        &["condition.condenser_air=40%", "day.ambient=41degC"],
    );
    let hands = Sitting {
        sight: Sight::Hands,
        learner: Some("b-12".to_owned()),
        seed: 7,
        ..Sitting::default()
    };
    let job = Sitting {
        card: Some(lowside_session::take::Card::Job("2-low-charge".to_owned())),
        ..Sitting::default()
    };
    let card = Job::open("2-low-charge").expect("shipped");
    for (scenario, sitting) in [
        (kind.clone(), Sitting::default()),
        (own, Sitting::default()),
        (drill, hands),
        (card.bay().scenario().clone(), job),
    ] {
        let bay = worked(&scenario, 3, 6);
        let take = Take::in_sitting(&bay, sitting);
        let (link, back) = through(&folder, &take);
        assert_eq!(back, take, "{}", scenario.name);
        let fragment = link.strip_prefix(PAGE).expect("behind the page");
        assert!(fragment.starts_with("#k="), "{fragment}");
    }
}

/// Whole jobs of about eighty acts, as a person does them: the longest that are shipped with the tests.
#[test]
fn a_visit_of_eighty_acts_fits_into_a_link() {
    let folder = folder("link_eighty");
    for card in ["2-low-charge", "7-clogged-screen", "9-retrofit"] {
        let script = lowside_tests::data().join(format!("jobs/{card}.good.toml"));
        let script = script.to_str().expect("UTF-8");
        lowside_in(
            &folder,
            &["job", card, "--acts", script, "--record", "job.json"],
        );
        let text = fs::read_to_string(folder.join("job.json")).expect("a take");
        let take = Take::parse(&text).expect("sound");
        let (link, back) = through(&folder, &take);
        assert_eq!(back, take);
        let (length, acts) = (link.len() - PAGE.len(), take.log.len());
        assert!(acts >= 70, "{card}: {acts} acts");
        assert!(
            length <= link::LONGEST,
            "{card}: {acts} acts in {length} characters"
        );
        assert!(!link.contains("condition"), "{link}");
    }
}

#[test]
fn what_is_too_long_for_a_link_is_said_with_its_length() {
    let folder = folder("link_long");
    let bay = worked(&scenario("healthy", &[]), 1, 400);
    fs::write(folder.join("long.json"), Take::of(&bay).to_text()).expect("written");
    let out = lowside_in(&folder, &["link", "long.json"]);
    assert_refused(
        &out,
        &["long"],
        &["long.json", "1500 is the most", "hand on the file"],
    );
}

/// A hundred links that were cut, changed, made elsewhere or made to eat memory.
#[test]
#[expect(clippy::too_many_lines, reason = "one row a case")]
fn a_hundred_hostile_links_are_refused_each_with_its_reason() {
    let folder = folder("link_hostile");
    let take = Take::of(&worked(&scenario("healthy", &[]), 5, 12));
    let good = link::text(&take, &Job::scenario_of);
    let whole = linked(&good);
    let mut cases: Vec<(String, String, &str)> = Vec::new();
    let mut add = |what: String, link: String, why| cases.push((what, link, why));
    // Cut short anywhere.
    for n in 0..20 {
        let end = 3 + (whole.len() - 4) * n / 20;
        add(
            format!("cut at {end}"),
            whole[..end].to_owned(),
            "damaged or cut short",
        );
    }
    // A letter that no link has.
    for (n, letter) in ['*', '+', '/', '=', ' ', '%', 'ñ', '\u{1f527}', '"', '<']
        .iter()
        .enumerate()
    {
        let at = 5 + 7 * n;
        let text = format!("{}{letter}{}", &whole[..at], &whole[at + 1..]);
        add(format!("a {letter}"), text, "damaged or cut short");
    }
    // Whole, and not packed; packed, and no list.
    for (what, text) in [
        ("nothing", ""),
        ("words", "not a link"),
        ("an object", "{}"),
        ("a list", "[]"),
        ("a number", "1"),
        ("deep", &"[".repeat(60_000)),
        ("deep objects", &"{\"a\":".repeat(10_000)),
        ("half", &good[..good.len() / 2]),
        ("short", "[1,2,\"s:healthy\"]"),
        ("long", &good.replacen("{}]", "{},0]", 1)),
    ] {
        add(what.to_owned(), linked(text), "damaged or cut short");
    }
    for n in 0..5_u8 {
        let bytes: Vec<u8> = (0..120_u8)
            .map(|i| i.wrapping_mul(37).wrapping_add(n) | 6)
            .collect();
        add(
            format!("noise {n}"),
            format!("#k={}", URL_SAFE_NO_PAD.encode(bytes)),
            "damaged or cut short",
        );
    }
    let latin = URL_SAFE_NO_PAD.encode(deflated(b"[1,2,\"\xff\xfe\"]"));
    add(
        "no UTF-8".to_owned(),
        format!("#k={latin}"),
        "damaged or cut short",
    );
    // Larger once unpacked.
    for n in 1..=10_usize {
        add(
            format!("inflates to {n} times too much"),
            linked(&" ".repeat(n * link::LARGEST + 1)),
            "larger than 65.5 kB",
        );
    }
    // Longer than a link.
    for n in 1..=10_usize {
        add(
            format!("{n} too long"),
            format!("{whole}{}", "A".repeat(n * link::LONGEST)),
            "a link has at most 1500",
        );
    }
    // Of another version, or of a bay that is not there.
    for n in [0, 2, 3, 99, 4_000_000_000_u32] {
        add(
            format!("version {n}"),
            linked(&good.replacen("[1,", &format!("[{n},"), 1)),
            "this program reads version 1",
        );
    }
    for name in [
        "s:",
        "s:nowhere",
        "c:0-no-card",
        "x:healthy",
        "healthy",
        "s:../../etc/passwd",
    ] {
        add(
            name.to_owned(),
            linked(&good.replacen("s:healthy", name, 1)),
            "there is no bay called",
        );
    }
    let name = "n".repeat(50_000);
    add(
        "a long name".to_owned(),
        linked(&good.replacen("s:healthy", &name, 1)),
        "there is no bay called",
    );
    for other in ["#s=healthy", "#controls", "#", "#k", "#l=abc", "#K=abc"] {
        add(other.to_owned(), other.to_owned(), "there is no bay called");
    }
    // Whole lists that hold no take.
    let list: Vec<serde_json::Value> = serde_json::from_str(&good).expect("a list");
    let mut with = |what: &str, at: usize, value: serde_json::Value, why| {
        let mut list = list.clone();
        list[at] = value;
        add(
            what.to_owned(),
            linked(&serde_json::Value::from(list).to_string()),
            why,
        );
    };
    with("format 99", 1, json!(99), "format = 99 is outside");
    with("no format", 1, json!("two"), "format");
    with("no name", 2, json!(7), "scenario");
    with("no physics", 3, json!([1]), "physics");
    with("long ticks", 4, json!(10_000_000_000_u64), "ticks");
    with("ticks below none", 4, json!(-1), "ticks");
    with("ticks before the acts", 4, json!(1), "tick of act");
    with("no hash", 5, json!({}), "hash");
    with(
        "a long hash",
        5,
        json!("a".repeat(20_000)),
        "hash is larger",
    );
    with("no acts", 6, json!("none"), "damaged or cut short");
    with("an act alone", 6, json!([5]), "an act without its time");
    with("no act", 6, json!([0, 7, 0]), "act 1 of the log");
    with(
        "an unknown act",
        6,
        json!([0, "explode", 0]),
        "unknown variant",
    );
    with(
        "an act of another kind",
        6,
        json!([0, "engine", { "on": "loud" }]),
        "act 1 of the log",
    );
    with(
        "a tick below none",
        6,
        json!([-3, "engine", { "on": true }]),
        "log",
    );
    with(
        "ticks without end",
        6,
        json!([u64::MAX, "engine", { "on": true }, u64::MAX, "engine", { "on": true }]),
        "tick of act",
    );
    with(
        "many acts",
        6,
        (0..15_000).map(|_| 0).collect::<Vec<_>>().into(),
        "act 1 of the log",
    );
    with("no rest", 7, json!([]), "the whole");
    with("an unknown part", 7, json!({ "more": 1 }), "unknown field");
    with(
        "a part twice",
        7,
        json!({ "log": [], "log ": [] }),
        "unknown field",
    );
    with("no scenario", 7, json!({ "scenario": 5 }), "scenario");
    with(
        "a scenario out of range",
        7,
        json!({ "scenario": { "day": { "ambient": "400 K" } } }),
        "day.ambient",
    );
    with(
        "a field that is not there",
        7,
        json!({ "scenario": { "colour": "red" } }),
        "unknown field",
    );
    with("no sight", 7, json!({ "sight": "none" }), "sight");
    with("no card", 7, json!({ "card": { "job": "../x" } }), "card");
    with(
        "no learner",
        7,
        json!({ "learner": "Jos\u{e9} P." }),
        "learner",
    );
    with(
        "nothing hidden",
        7,
        json!({ "sight": "exam", "hidden": "zz" }),
        "hidden",
    );
    with(
        "hidden what is not",
        7,
        json!({ "sight": "exam", "hidden": lowside_session::scramble::scramble("{\"vehicle\":1}") }),
        "hidden",
    );
    assert!(cases.len() >= 100, "{} cases", cases.len());
    for (what, link, why) in &cases {
        let begun = Instant::now();
        let out = lowside_in(&folder, &["link", link]);
        let took = begun.elapsed();
        assert_refused(&out, &[what], &[why]);
        assert!(took < Duration::from_secs(1), "{what} takes {took:?}");
    }
}
