//! The schema, the reader and the page that documents the format say the same.

use std::collections::BTreeSet;

use toml::{Table, Value as Toml};

use super::*;
use crate::{JobCard, card::tests::CARD};

/// The tables of a card, by their names in the schema ("" is the card itself), and where each stands in [`CARD`].
const TABLES: &[(&str, &[&str])] = &[
    ("", &[]),
    ("$defs/text", &["title"]),
    ("$defs/text", &["step", "0", "hints", "1"]),
    ("$defs/step", &["step", "0"]),
    ("$defs/harm", &["harm", "0"]),
    ("$defs/scenario", &["scenario"]),
    ("$defs/scenario/properties/day", &["scenario", "day"]),
    ("$defs/scenario/properties/start", &["scenario", "start"]),
    ("$defs/scenario/properties/engine", &["scenario", "engine"]),
    (
        "$defs/scenario/properties/controls",
        &["scenario", "controls"],
    ),
    (
        "$defs/scenario/properties/act/items",
        &["scenario", "act", "0"],
    ),
];

fn at<'a>(card: &'a mut Table, path: &[&str]) -> &'a mut Table {
    let mut table = card;
    let mut parts = path.iter();
    while let Some(key) = parts.next() {
        let value = table.get_mut(*key).expect("in the card");
        table = match value {
            Toml::Table(t) => t,
            Toml::Array(list) => {
                let n: usize = parts.next().expect("a place").parse().expect("a number");
                list[n].as_table_mut().expect("a table")
            }
            other => panic!("{key} is a {}", other.type_str()),
        };
    }
    table
}

fn refusal(card: &Table) -> Option<String> {
    let text = toml::to_string(card).expect("TOML");
    JobCard::parse(&text).err().map(|e| e.to_string())
}

fn names(schema: &Value, field: &str) -> BTreeSet<String> {
    match &schema[field] {
        Value::Object(map) => map.keys().cloned().collect(),
        Value::Array(list) => list
            .iter()
            .map(|v| v.as_str().expect("text").to_owned())
            .collect(),
        other => panic!("{field}: {other}"),
    }
}

/// The reader itself lists its keys when it meets one that it does not know; what it needs it misses.
#[test]
fn keys_are_those_of_the_reader() {
    let schema = card();
    let good: Table = toml::from_str(CARD).expect("TOML");
    assert_eq!(refusal(&good), None);
    for (name, path) in TABLES {
        let part = if name.is_empty() {
            &schema
        } else {
            schema.pointer(&format!("/{name}")).expect(name)
        };
        let mut odd = good.clone();
        at(&mut odd, path).insert("no-such-key".into(), 1.into());
        let told = refusal(&odd).expect("refused");
        let (_, list) = told.split_once("`no-such-key`, expected ").expect(&told);
        let known: BTreeSet<String> = list
            .split('`')
            .skip(1)
            .step_by(2)
            .map(str::to_owned)
            .collect();
        assert_eq!(names(part, "properties"), known, "{name}");
        let required = names(part, "required");
        for key in &known {
            let mut less = good.clone();
            let there = at(&mut less, path).remove(key).is_some();
            assert!(
                there || !required.contains(key),
                "{name}.{key}: the card of this test lacks it"
            );
            let missed = refusal(&less);
            assert_eq!(
                missed.is_some(),
                required.contains(key),
                "{name}.{key}: {missed:?}"
            );
        }
    }
}

#[test]
fn the_file_is_what_the_program_prints() {
    let file: Value = serde_json::from_str(include_str!(
        "../../../../scenarios/lessons/card.schema.json"
    ))
    .expect("JSON");
    assert_eq!(
        file,
        card(),
        "write it anew: lowside check --schema > scenarios/lessons/card.schema.json"
    );
}

/// Every key of a card has its row in the page, with its limits, and no row has a key that is none.
#[test]
fn the_page_documents_every_key() {
    let page = include_str!("../../../../scenarios/lessons/README.md");
    let rows = page.lines().filter_map(|l| l.strip_prefix("| `"));
    let told: BTreeSet<String> = rows
        .flat_map(|row| {
            let (first, _) = row.split_once(" | ").expect("cells");
            first
                .split('`')
                .step_by(2)
                .map(|k| k.trim_matches(['[', ']']).to_owned())
                .collect::<Vec<_>>()
        })
        .filter(|k| !k.is_empty())
        .collect();
    let schema = card();
    let mut keys = names(&schema, "properties");
    for list in ["step", "harm"] {
        let inner = names(&schema["$defs"][list], "properties");
        keys.extend(inner.iter().map(|k| format!("{list}.{k}")));
    }
    assert_eq!(told, keys);
    for limit in [
        format!("1 to {MOST} steps"),
        format!("at most {MOST}"),
        format!("1 to {MOST_CONDITIONS} [conditions]"),
        format!("1 to {LONGEST} characters"),
    ] {
        assert!(page.contains(&limit), "{limit}");
    }
    for severity in ["slight", "serious", "grave"] {
        assert!(page.contains(&format!("`{severity}`")), "{severity}");
    }
}

/// What the patterns let through is what the reader of quantities and conditions does.
#[test]
fn every_reading_and_unit_is_in_a_pattern() {
    let schema = card();
    let pattern = schema["$defs"]["condition"]["pattern"]
        .as_str()
        .expect("text");
    for reading in Reading::ALL {
        let name = reading.name();
        let (switch, value) = (format!("{name} is on"), format!("{name} > 1 kg"));
        let kind = |text: &str| {
            text.parse::<lowside_session::predicate::Predicate>()
                .is_ok()
        };
        assert_eq!(kind(&switch), reading.is_switch(), "{name}");
        assert!(!(reading.is_switch() && kind(&value)), "{name}");
        let (switches, values) = pattern.split_once(" is").expect("two halves");
        let half = if reading.is_switch() {
            switches
        } else {
            values
        };
        assert!(half.split(['(', '|', ')']).any(|n| n == name), "{name}");
    }
    let durations = schema["$defs"]["duration"]["pattern"]
        .as_str()
        .expect("text");
    for unit in Duration::UNITS.iter().flat_map(|u| u.names) {
        assert!(Duration::parse(&format!("1 {unit}")).is_ok());
        assert!(
            durations.split(['(', '|', ')']).any(|n| n == *unit),
            "{unit}"
        );
    }
}
