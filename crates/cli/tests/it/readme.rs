//! `scenarios/README.md` against the program: every key, act, reading, unit, default and range in it is what the program
//! takes, and the program takes nothing that is not in it.

use lowside_session::{Bay, Scenario, ScenarioError, script::Player};
use lowside_shop::{
    fault::{self, Kind, Sound, Table},
    joints::Seal,
};
use lowside_units::{
    AbsolutePressure, Area, Conductance, Duration, GaugePressure, HeatCapacity, Length, Mass,
    MassFlow, Power, Quantity, Ratio, RotationSpeed, Speed, Temperature, TemperatureDifference,
    Unit, Volume, VolumeFlow,
};
use std::collections::{BTreeMap, BTreeSet};

const README: &str = include_str!("../../../../scenarios/README.md");
const BASE: &str = "format = 1\nname = \"x\"\nvehicle = \"utility-van\"\n";

/// The rows of the table whose head begins with `head`, cell by cell.
fn table(head: &str) -> Vec<Vec<&'static str>> {
    let rows = README
        .lines()
        .skip_while(move |l| !l.starts_with(&format!("| {head} |")))
        .skip(2)
        .take_while(|l| l.starts_with('|'));
    let cells = rows.map(|l| l.trim_matches('|').split('|').map(str::trim).collect());
    let table: Vec<Vec<&str>> = cells.collect();
    assert!(!table.is_empty(), "no table that begins with {head}");
    table
}

/// Both tables of keys: first cell bare, then the others.
fn keys() -> BTreeMap<&'static str, Vec<&'static str>> {
    let (before, after) = README
        .split_once("## Vehicle")
        .expect("a part on the vehicle");
    let rows = [before, after].into_iter().flat_map(|part| {
        let lines = part
            .lines()
            .skip_while(|l| !l.starts_with("| Key |"))
            .skip(2);
        lines.take_while(|l| l.starts_with('|'))
    });
    rows.map(|l| {
        let mut cells = l.trim_matches('|').split('|').map(str::trim);
        let key = cells.next().expect("a key").trim_matches('`');
        (key, cells.collect())
    })
    .collect()
}

fn set(text: &str) -> Result<Scenario, ScenarioError> {
    Scenario::parse(BASE, &[text.to_owned()])
}

/// Names in back quotes after "expected" in the message about a wrong name: what the program knows at that place.
fn known(text: &str) -> BTreeSet<String> {
    let message = set(text).expect_err(text).to_string();
    let (_, names) = message
        .split_once("expected ")
        .unwrap_or_else(|| panic!("{text}: {message}"));
    names
        .split('`')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect()
}

#[test]
fn every_key_is_told_and_no_other() {
    let mut program = BTreeSet::new();
    let mut tables = vec![String::new()];
    while let Some(path) = tables.pop() {
        for key in known(&format!("{path}zzz=1")) {
            let full = format!("{path}{key}");
            // a table takes a key of its own; a value does not
            let inner = set(&format!("{full}.zzz=1")).expect_err(&full).to_string();
            if inner.contains("unknown field") {
                tables.push(format!("{full}."));
            }
            if full == "vehicle" || !inner.contains("unknown field") {
                program.insert(full);
            }
        }
    }
    for key in known("act=[{zzz=1}]") {
        program.insert(format!("act.{key}"));
    }
    for key in known("condition.leak=[{zzz=1}]") {
        program.insert(format!("condition.leak.{key}"));
    }
    for key in known("condition.restriction=[{zzz=1}]") {
        program.insert(format!("condition.restriction.{key}"));
    }
    for key in known("condition.joint=[{zzz=1}]") {
        program.insert(format!("condition.joint.{key}"));
    }
    let told: BTreeSet<String> = keys().keys().map(|k| (*k).to_owned()).collect();
    assert!(program.len() > 60, "{program:?}");
    assert_eq!(told, program);
}

/// A full scenario as the program writes it has no key that is not told.
#[test]
fn every_key_that_is_written_is_told() {
    let full = "until = \"1 min\"\n[start]\ncharge = \"1 kg\"\noil = \"200 g\"\ncabin = \"300 K\"\n\
        [[act]]\nafter = \"1 s\"\nwhen = \"vent < 280 K\"\nat_most = \"9 s\"\nact = { do = \"take-can\" }\n";
    let scenario = Scenario::parse(&format!("{BASE}{full}"), &[]).expect("reads");
    let told = keys();
    let mut open = vec![(
        String::new(),
        serde_json::to_value(&scenario).expect("written"),
    )];
    let mut seen = 0;
    while let Some((path, value)) = open.pop() {
        match value {
            serde_json::Value::Object(map) if !path.ends_with("act.act") => {
                let dot = if path.is_empty() { "" } else { "." };
                open.extend(map.into_iter().map(|(k, v)| (format!("{path}{dot}{k}"), v)));
            }
            serde_json::Value::Array(list) if path == "act" => {
                open.extend(list.into_iter().map(|v| (path.clone(), v)));
            }
            _ => {
                seen += 1;
                assert!(told.contains_key(path.as_str()), "{path} is not told");
            }
        }
    }
    assert!(seen > 60, "{seen}");
}

#[test]
fn every_act_and_its_fields_are_told_and_no_other() {
    let told: BTreeMap<&str, BTreeSet<String>> = table("`do =`")
        .iter()
        .map(|row| {
            let fields = row[1].split('`').skip(1).step_by(2).map(str::to_owned);
            (row[0].trim_matches('`'), fields.collect())
        })
        .collect();
    let names: BTreeSet<String> = told.keys().map(|n| (*n).to_owned()).collect();
    assert_eq!(names, known(r#"act=[{act={do="zzz"}}]"#));
    for (name, fields) in told {
        let wrong = format!(r#"act=[{{act={{do="{name}",zzz=1}}}}]"#);
        // an act without fields overlooks them
        if set(&wrong).is_ok() {
            assert!(fields.is_empty(), "{name} has no fields");
        } else {
            assert_eq!(fields, known(&wrong), "{name}");
        }
    }
}

/// Where the README gives an act's limits, both ends are taken and what lies beyond them is refused.
#[test]
fn ranges_of_acts() {
    let done = |name: &str, field: &str, value: &str| {
        let value = if value.contains(' ') {
            format!("{value:?}")
        } else {
            value.to_owned()
        };
        let with = match name {
            "dose" => r#"do="take-cylinder",gas="R-134a",holds="10 kg""#,
            "regulator" => r#"do="take-nitrogen""#,
            "machine-stop" => r#"do="take-machine",gas="R-134a""#,
            _ => r#"do="take-can""#,
        };
        let act = format!(r#"act=[{{act={{{with}}}}},{{act={{do="{name}",{field}={value}}}}}]"#);
        let mut overrides = vec![act.clone()];
        if name == "fit-cut-out" {
            // a vehicle that came without one
            overrides.push("vehicle=utility-van-r12".into());
        }
        let scenario = Scenario::parse(BASE, &overrides).unwrap_or_else(|e| panic!("{act}: {e}"));
        let mut bay = Bay::new(&scenario);
        Player::new(&scenario.act).play(&mut bay).is_ok()
    };
    let mut checked = 0;
    for row in table("`do =`") {
        let (name, field) = (row[0].trim_matches('`'), row[1].trim_matches('`'));
        let range = row[2]
            .replace(" (shut)", "")
            .replace(" (screwed in: pierces)", "")
            .replace(", or left out", "");
        if let Some(Range { ends, beyond }) = range_of(&range) {
            checked += 1;
            for end in ends {
                assert!(done(name, field, &end), "{name} refuses {end}");
            }
            for value in beyond {
                assert!(!done(name, field, &value), "{name} takes {value}");
            }
        }
    }
    assert!(checked >= 7, "{checked}");
}

#[test]
fn every_reading_is_told_and_no_other() {
    let message = set(r#"act=[{when="zzz < 3 degC"}]"#)
        .expect_err("no such")
        .to_string();
    let (_, names) = message.split_once("use one of ").expect("a list");
    let program: BTreeSet<&str> = names.split(", ").map(str::trim).collect();
    let rows = table("Reading");
    let told: BTreeSet<&str> = rows.iter().map(|r| r[0].trim_matches('`')).collect();
    assert_eq!(told, program);
    for row in rows {
        if row[2] == "switch" {
            let when = format!(r#"act=[{{when="{} is on"}}]"#, row[0].trim_matches('`'));
            assert!(set(&when).is_ok(), "{when}");
            continue;
        }
        let unit = units()
            .iter()
            .find(|(name, _)| *name == row[2])
            .expect("a kind")
            .1[0]
            .names[0];
        let when = format!(
            r#"act=[{{when="{} > 3 {unit}"}}]"#,
            row[0].trim_matches('`')
        );
        assert!(set(&when).is_ok(), "{when}");
    }
}

fn units() -> Vec<(&'static str, &'static [Unit])> {
    fn of<Q: Quantity>() -> (&'static str, &'static [Unit]) {
        (Q::NAME, Q::UNITS)
    }
    vec![
        of::<Mass>(),
        of::<Temperature>(),
        of::<TemperatureDifference>(),
        of::<AbsolutePressure>(),
        of::<GaugePressure>(),
        of::<Volume>(),
        of::<Length>(),
        of::<Area>(),
        of::<Speed>(),
        of::<RotationSpeed>(),
        of::<VolumeFlow>(),
        of::<MassFlow>(),
        of::<Power>(),
        of::<Conductance>(),
        of::<HeatCapacity>(),
        of::<Duration>(),
        of::<Ratio>(),
    ]
}

#[test]
fn kinds_and_their_units() {
    let told: BTreeMap<&str, &str> = table("Kind").iter().map(|r| (r[0], r[1])).collect();
    assert_eq!(told.len(), units().len());
    for (kind, units) in units() {
        for unit in units.iter().map(|u| u.names[0]).filter(|n| !n.is_empty()) {
            assert!(told[kind].contains(&format!("`{unit}`")), "{kind}: {unit}");
        }
    }
    // and every key is of a kind in that table, or of one that needs no unit
    for (key, cells) in keys() {
        let plain = [
            "text",
            "whole number",
            "true or false",
            "text or table",
            "`[[act]]`",
            "list",
            "a passage, as `lowside faults` names them",
        ];
        let known =
            told.contains_key(cells[1]) || plain.contains(&cells[1]) || cells[1].starts_with('`');
        assert!(known, "{key}: {}", cells[1]);
    }
}

/// The ends of a range, and values a hundredth of it outside.
struct Range {
    ends: [String; 2],
    beyond: [String; 2],
}

/// Reads `A UNIT to B UNIT`.
fn range_of(text: &str) -> Option<Range> {
    let (lo, hi) = text.split_once(" to ")?;
    let number = |t: &str| {
        let (n, unit) = t.split_once(' ').unwrap_or((t, ""));
        Some((n.parse::<f64>().ok()?, unit.to_owned()))
    };
    let ((a, lo_unit), (b, hi_unit)) = (number(lo)?, number(hi)?);
    // whole numbers step by one; others by a hundredth of their own end, enough in any unit
    let step = |end: f64, unit: &str| {
        if unit.is_empty() && b >= 1.0 && b.fract() == 0.0 {
            1.0
        } else {
            (end.abs() * 0.01).max(1e-3)
        }
    };
    let write = |n: f64, unit: &str| format!("{n} {unit}").trim().to_owned();
    Some(Range {
        beyond: [
            write(a - step(a, &lo_unit), &lo_unit),
            write(b + step(b, &hi_unit), &hi_unit),
        ],
        ends: [lo.to_owned(), hi.to_owned()],
    })
}

/// Both ends of every range are taken, and a little beyond is refused by a message that names the key.
#[test]
fn ranges_of_keys() {
    let mut checked = 0;
    for (key, cells) in keys() {
        let range = cells.last().expect("a range");
        let write = |value: &str| match key {
            "vehicle.cabin.blower" => format!("{key}=[\"{value}\"]"),
            _ => match (
                key.strip_prefix("act."),
                key.strip_prefix("condition.leak."),
                key.strip_prefix("condition.restriction."),
            ) {
                (Some(field), ..) => format!("act=[{{{field}=\"{value}\"}}]"),
                (_, Some(field), _) => {
                    format!("condition.leak=[{{at=\"shaft-seal\",{field}=\"{value}\"}}]")
                }
                (.., Some(field)) => {
                    format!("condition.restriction=[{{at=\"condenser\",{field}=\"{value}\"}}]")
                }
                _ => format!("{key}={value}"),
            },
        };
        let last = key.rsplit('.').next().expect("a name");
        let refused = |value: &str| {
            let e = set(&write(value)).expect_err(&write(value)).to_string();
            assert!(e.contains(last), "{key}: {value}: {e}");
        };
        let taken = |value: &str| {
            // so that the label's charge need not fit into the loop
            let mut overrides = vec!["start.charge=200g".to_owned(), write(value)];
            // and the clutch's two temperatures do not cross
            if last == "slips_to" {
                overrides.push("vehicle.fan.drives_from=420K".into());
            }
            if let Err(e) = Scenario::parse(BASE, &overrides) {
                panic!("{key}: {value}: {e}");
            }
        };
        if let Some(most) = range.strip_suffix(" characters") {
            assert_eq!(most, "1 to 200");
            taken(&"x".repeat(200));
            refused(&"x".repeat(201));
            refused("");
        } else if let Some(Range { ends, beyond }) = range_of(range.trim_start_matches("each ")) {
            // the two points of a switch must not cross
            let ends = if last == "low_opens" || last == "high_opens" {
                &ends[..0]
            } else {
                &ends[..]
            };
            for end in ends {
                taken(end);
            }
            for value in &beyond {
                refused(value);
            }
        } else if let Some(end) = range.strip_prefix("up to ").or(range.strip_prefix("from ")) {
            taken(end);
        } else {
            assert_eq!(*range, "", "{key}: a range in a form that is not checked");
            continue;
        }
        checked += 1;
    }
    assert!(checked > 65, "{checked}");
    for crossed in [
        "vehicle.switches.low_opens=300kPag",
        "vehicle.switches.high_closes=3000kPag",
    ] {
        assert!(set(crossed).is_err(), "{crossed}");
    }
}

/// Setting a key to the default that the README gives changes nothing.
#[test]
fn defaults_of_keys() {
    let plain = Scenario::parse(BASE, &[]).expect("reads");
    let words = [
        "",
        "none",
        "nothing",
        "no limit",
        "no waiting",
        "the label's",
        "the vehicle's",
        "the day's",
    ];
    let mut checked = 0;
    for (key, cells) in keys() {
        let default = cells[2];
        if key.starts_with("vehicle")
            || key.starts_with("condition.leak.")
            || key.starts_with("condition.restriction.")
            || key.starts_with("condition.joint.")
            || words.contains(&default)
        {
            continue;
        }
        let scenario = match key.strip_prefix("act.") {
            Some(field) => {
                let bare = set("act=[{}]").expect("reads");
                let given = set(&format!("act=[{{{field}=\"{default}\"}}]")).expect(key);
                assert_eq!(bare, given, "{key}");
                checked += 1;
                continue;
            }
            None => set(&format!("{key}={default}")).expect(key),
        };
        assert_eq!(scenario, plain, "{key} = {default}");
        checked += 1;
    }
    assert!(checked >= 18, "{checked}");
}

/// What the README says of a fault is what its row says.
#[test]
fn rows_of_faults() {
    let vehicle = Scenario::parse(BASE, &[]).expect("reads").vehicle;
    let told = keys();
    let mut checked = 0;
    for (place, table) in [
        ("start", Table::Start),
        ("condition", Table::Condition),
        ("condition.restriction", Table::Restriction),
        ("condition.leak", Table::Leak),
        ("condition.joint", Table::Joint),
    ] {
        for field in fault::fields(table) {
            let (lo, hi) = (field.range)(&vehicle);
            let say = |si: f64| {
                let unit = field.kind.unit()?;
                let number = (unit.of_si(si) * 10.0).round() / 10.0;
                Some(format!("{number} {}", unit.names[0]))
            };
            let range = say(lo).zip(say(hi)).map(|(lo, hi)| format!("{lo} to {hi}"));
            let default = match field.sound {
                // Each of a list says how much.
                _ if matches!(table, Table::Restriction | Table::Joint) => String::new(),
                _ if table == Table::Leak => "none".to_owned(),
                Sound::Is(si) => say(si).unwrap_or_else(|| (si > 0.0).to_string()),
                Sound::Of(_, said) => said.to_owned(),
            };
            let seals = Seal::WORSE.map(|seal| format!("`{}`", name(&seal)));
            let (last, first) = seals.split_last().expect("seals");
            let seals = format!("{} or {last}", first.join(", "));
            let row = [
                field.what,
                if field.kind == Kind::Seal {
                    &seals
                } else {
                    field.kind.name()
                },
                &default,
                &range.unwrap_or_default(),
            ];
            let key = format!("{place}.{}", field.key);
            assert_eq!(told[key.as_str()], row, "{key}");
            checked += 1;
        }
    }
    assert!(checked > 20, "{checked}");
}

/// A name as files have it.
fn name(of: &impl serde::Serialize) -> String {
    let value = serde_json::to_value(of).expect("a name");
    value.as_str().expect("text").to_owned()
}

/// The example reads, and its acts are taken.
#[test]
fn the_example_runs() {
    let example = README
        .split("```toml\n")
        .nth(1)
        .and_then(|t| t.split("```").next())
        .expect("an example");
    let scenario = Scenario::parse(example, &["until=10s".into()]).expect("reads");
    let mut bay = Bay::new(&scenario);
    let mut player = Player::new(&scenario.act);
    for _ in 0..500 {
        player.play(&mut bay).expect("taken");
        bay.step().expect("the engine goes on");
    }
    assert!(bay.plant().drive.cycles > 0, "the clutch pulls in");
}
