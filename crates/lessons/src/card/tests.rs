//! Wrong cards: each mistake is found in its line.

use super::*;

/// A card that uses every key but those of `condition` and a vehicle's own.
pub(crate) const CARD: &str = r#"format = 1
kind = "job"
title = { en = "A", es = "B" }
complaint = { en = "A", es = "B" }
rung = 1
misconception = { en = "A", es = "B" }

[scenario]
format = 1
name = "a"
until = "5 min"
vehicle = "utility-van"
day = { ambient = "30 degC", humidity = "40 %", pressure = "101 kPa", sun = "0 %" }
start = { charge = "500 g", other_refrigerant = "0 %", air = "0 g", water = "0 g", oil = "200 g", cabin = "30 degC" }
engine = { on = true, speed = "1500 rpm" }
controls = { ac = true, blower = 4, recirculation = true, road_speed = "0 km/h", windows_open = false }
condition = { compressor_wear = "10 %" }
[[scenario.act]]
after = "1 s"
when = "engine is on"
at_most = "5 s"
act = { do = "engine", on = false }

[[step]]
title = { en = "A", es = "B" }
reason = { en = "A", es = "B" }
accept = { en = "A", es = "B" }
hints = [{ en = "A", es = "B" }, { en = "A", es = "B" }]
goal = ["charge > 150 g"]
hold = "2 s"
to_the_end = true
after = []

[[step]]
goal = ["vent < 12 degC", "engine is on"]
after = [1]
hints = [{ en = "A", es = "B" }, { en = "A", es = "B" }]
[step.title]
en = "A"
es = "B"
[step.reason]
en = "A"
es = "B"
[step.accept]
en = "A"
es = "B"

[[harm]]
title = { en = "A", es = "B" }
when = ["hurt is on"]
hold = "1 s"
severity = "grave"
"#;

/// Text put in place of another, and line, column, field and message of the mistake that follows.
type Wrong = (
    &'static str,
    &'static str,
    usize,
    usize,
    &'static str,
    &'static str,
);

const WRONG: &[Wrong] = &[
    (
        "format = 1\nkind",
        "format = 2\nkind",
        1,
        1,
        "format",
        "format: 2 is outside 1 to 1",
    ),
    (
        "\"job\"",
        "\"exam\"",
        2,
        1,
        "kind",
        "kind: unknown variant `exam`, expected `job`",
    ),
    (
        "title =",
        "titel =",
        3,
        1,
        "titel",
        "unknown field `titel`, expected one of `format`",
    ),
    (
        "rung = 1",
        "rung = 100",
        5,
        1,
        "rung",
        "rung: 100 is outside 0 to 99",
    ),
    (
        "misconception = { en = \"A\"",
        "misconception = { en = \" \"",
        6,
        19,
        "misconception.en",
        "misconception.en (number of characters): 0 is outside 1 to 600",
    ),
    (
        "complaint = { en = \"A\"",
        "complaint = { en = \" \"",
        4,
        15,
        "complaint.en",
        "complaint.en (number of characters): 0",
    ),
    (
        "complaint = { en = \"A\", es = \"B\" }",
        "complaint = { en = \"A\" }",
        4,
        1,
        "complaint",
        "complaint: missing field `es`",
    ),
    (
        "complaint = {",
        "complaint = ",
        4,
        17,
        "",
        "unexpected key or value",
    ),
    (
        "name = \"a\"",
        "name = \"\"",
        10,
        1,
        "scenario.name",
        "scenario.name (number of characters): 0",
    ),
    (
        "\"5 min\"",
        "\"5 eggs\"",
        11,
        1,
        "scenario.until",
        "scenario.until: \"5 eggs\"",
    ),
    (
        "utility-van",
        "bus",
        12,
        1,
        "scenario.vehicle",
        "scenario.vehicle: \"bus\" is not known",
    ),
    (
        "30 degC\", humidity",
        "60 degC\", humidity",
        13,
        9,
        "scenario.day.ambient",
        "scenario.day.ambient: 60 degC is outside",
    ),
    (
        "sun =",
        "son =",
        13,
        71,
        "scenario.day.son",
        "scenario.day: unknown field `son`",
    ),
    (
        "blower = 4",
        "blower = 9",
        16,
        25,
        "scenario.controls.blower",
        "scenario.controls.blower: 9 is outside 0 to 4",
    ),
    (
        "compressor_wear = \"10 %\"",
        "compressor_wear = \"110 %\"",
        17,
        15,
        "scenario.condition.compressor_wear",
        "scenario.condition.compressor_wear: ",
    ),
    (
        "after = \"1 s\"",
        "after = \"-1 s\"",
        19,
        1,
        "scenario.act 1.after",
        "scenario.act 1.after: -1 s is outside",
    ),
    (
        "do = \"engine\"",
        "do = \"jump\"",
        22,
        1,
        "scenario.act 1.act",
        "scenario.act 1.act: unknown variant `jump`",
    ),
    (
        "hints = [{ en = \"A\", es = \"B\" }, { en = \"A\", es = \"B\" }]\ngoal",
        "hints = [{ en = \"A\", es = \"B\" }]\ngoal",
        28,
        1,
        "step[1].hints",
        "step[1].hints: invalid length 1",
    ),
    (
        "\"charge > 150 g\"",
        "\"charge is on\"",
        29,
        1,
        "step[1].goal",
        "step[1].goal: charge is compared by < or >",
    ),
    (
        "hold = \"2 s\"",
        "hold = \"30 h\"",
        30,
        1,
        "step[1].hold",
        "step[1].hold: ",
    ),
    (
        "to_the_end = true",
        "to_the_end = 1",
        31,
        1,
        "step[1].to_the_end",
        "step[1].to_the_end: invalid type: integer `1`",
    ),
    (
        "vent < 12 degC",
        "vnt < 12 degC",
        35,
        1,
        "step[2].goal",
        "step[2].goal: \"vnt\" is not a reading",
    ),
    (
        "after = [1]",
        "after = [2]",
        36,
        1,
        "step[2].after",
        "step[2].after = 2 is not a step before it: use 1 to 1",
    ),
    (
        "[step.accept]\nen = \"A\"",
        "[step.accept]\nen = \"A\u{202e}\"",
        45,
        1,
        "step[2].accept.en",
        "step[2].accept.en: the character U+202E",
    ),
    (
        "[step.accept]\nen = \"A\"\nes = \"B\"",
        "",
        34,
        1,
        "step[2]",
        "step[2]: missing field `accept`",
    ),
    (
        "[\"hurt is on\"]",
        "[]",
        50,
        1,
        "harm[1].when",
        "harm[1].when (number of conditions): 0 is outside 1 to 12",
    ),
    (
        "\"grave\"",
        "\"bad\"",
        52,
        1,
        "harm[1].severity",
        "harm[1].severity: unknown variant `bad`, expected one of `slight`",
    ),
    (
        "severity = \"grave\"",
        "fails = true",
        52,
        1,
        "harm[1].fails",
        "harm[1]: unknown field `fails`",
    ),
];

#[test]
fn every_mistake_is_told_with_line_column_and_field() {
    assert_eq!(JobCard::mistake(CARD), None);
    let mut off = Vec::new();
    for (good, bad, line, column, field, message) in WRONG {
        assert!(CARD.contains(good), "{good}");
        let text = CARD.replacen(good, bad, 1);
        let found = JobCard::mistake(&text).unwrap_or_else(|| panic!("{bad} passes"));
        let place = (found.line, found.column, found.field.as_str());
        if place != (*line, *column, *field) || !found.message.starts_with(message) {
            off.push(format!("{bad}: {found:?}"));
        }
    }
    assert!(off.is_empty(), "{}", off.join("\n"));
}

#[test]
fn lists_that_are_none_and_texts_that_are_too_long_are_refused() {
    let table = CARD.replace("[[harm]]", "[harm]");
    let found = JobCard::mistake(&table).expect("refused");
    assert!(
        found
            .message
            .starts_with("harm: is a table, and harms are written [[harm]]"),
        "{found}"
    );
    assert_eq!((found.line, found.column), (48, 2));
    let long = CARD.replacen("\"A\"", &format!("{:?}", "x".repeat(LONGEST + 1)), 1);
    let found = JobCard::mistake(&long).expect("refused");
    assert_eq!((found.line, found.field.as_str()), (3, "title.en"));
    let huge = "#".repeat(LARGEST + 1);
    let found = JobCard::mistake(&huge).expect("refused");
    assert!(found.message.contains("larger than"), "{found}");
}
