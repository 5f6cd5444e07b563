//! What `lowside run` and `replay` say to wrong requests: one line with file, field and what is allowed, exit code 2.

use crate::common::{assert_refused, folder, lowside_in, unsealed};
use std::fs::{self, File};
use std::path::Path;

fn check(folder: &Path, args: &[&str], parts: &[&str]) {
    assert_refused(&lowside_in(folder, args), args, parts);
}

#[test]
fn files_that_cannot_be_read() {
    let folder = folder("refused_files");
    fs::create_dir(folder.join("dir.toml")).expect("made");
    fs::write(folder.join("binary.toml"), [0xff, 0xfe, 0, 1, 2]).expect("written");
    fs::write(folder.join("zeros.toml"), [0; 4096]).expect("written");
    fs::write(folder.join("prose.toml"), "It was a hot day.\n").expect("written");
    fs::write(folder.join("empty.toml"), "").expect("written");
    // sparse: 100 MB that take no room
    for name in ["large.toml", "large.json"] {
        let file = File::create(folder.join(name)).expect("made");
        file.set_len(100_000_000).expect("grown");
    }
    fs::write(
        folder.join("deep.toml"),
        format!("a = {}", "[".repeat(50_000)),
    )
    .expect("written");
    fs::write(folder.join("deep.json"), "[".repeat(50_000)).expect("written");
    let cases: &[(&[&str], &[&str])] = &[
        (&["run"], &["SCENARIO"]),
        (
            &["run", "helthy"],
            &["helthy", "no such", "charge-from-cans, healthy"],
        ),
        (&["run", "gone.toml"], &["gone.toml", "no such file"]),
        (&["run", "dir.toml"], &["dir.toml", "directory"]),
        (&["run", "binary.toml"], &["binary.toml", "UTF-8", "byte 1"]),
        (&["run", "zeros.toml"], &["zeros.toml", "line 1"]),
        (&["run", "prose.toml"], &["prose.toml", "line 1"]),
        (
            &["run", "empty.toml"],
            &["empty.toml", "missing field `format`"],
        ),
        (
            &["run", "large.toml"],
            &["large.toml", "is larger than 262 kB"],
        ),
        (&["run", "deep.toml"], &["deep.toml", "50000 of the marks"]),
        (&["replay"], &["TAKE"]),
        (&["replay", "gone.json"], &["gone.json", "no such file"]),
        (&["replay", "dir.toml"], &["dir.toml", "directory"]),
        (&["replay", "binary.toml"], &["binary.toml", "UTF-8"]),
        (
            &["replay", "large.json"],
            &["large.json", "is larger than 8.4 MB"],
        ),
        (&["replay", "deep.json"], &["deep.json", "not a take"]),
        (&["replay", "prose.toml"], &["prose.toml", "not a take"]),
    ];
    for (args, parts) in cases {
        check(&folder, args, parts);
    }
    if cfg!(unix) {
        check(
            &folder,
            &["run", "/dev/zero"],
            &["/dev/zero", "regular file"],
        );
        check(
            &folder,
            &["replay", "/dev/zero"],
            &["/dev/zero", "regular file"],
        );
        let file_below_a_file = ["run", "empty.toml/x.toml"];
        check(
            &folder,
            &file_below_a_file,
            &["empty.toml/x.toml", "cannot be read"],
        );
    }
}

#[test]
fn files_that_cannot_be_written() {
    let folder = folder("refused_writes");
    let healthy = lowside_session::library::scenario("healthy").expect("shipped");
    fs::write(folder.join("s.toml"), healthy).expect("written");
    let cases: &[(&[&str], &[&str])] = &[
        (
            &["--trace", "gone/t.csv"],
            &["gone/t.csv", "cannot be written", "no such"],
        ),
        (&["--trace", "."], &[".", "cannot be written", "directory"]),
        (
            &["--take", "gone/t.json"],
            &["gone/t.json", "cannot be written"],
        ),
        (
            &["--trace", "s.toml"],
            &["--trace", "s.toml", "the scenario"],
        ),
        (
            &["--take", "./s.toml"],
            &["--take", "s.toml", "the scenario"],
        ),
        (&["--take", "a", "--trace", "a"], &["--take", "--trace"]),
        (
            &["--trace", "t.csv", "--every", "1ms"],
            &["--every", "0.001 s", "0.02 s to 86400 s"],
        ),
        (
            &["--trace", "t.csv", "--every", "2 days"],
            &["--every", "86400 s"],
        ),
        (
            &["--trace", "t.csv", "--every", "1kg"],
            &["--every", "1kg", "min"],
        ),
        (&["--every", "2s"], &["--trace"]),
    ];
    for (tail, parts) in cases {
        let args = [&["run", "s.toml", "--until", "1s"], *tail].concat();
        check(&folder, &args, parts);
    }
    let kept = fs::read_to_string(folder.join("s.toml")).expect("still there");
    assert_eq!(kept, healthy);
    if Path::new("/dev/full").exists() {
        let args = ["run", "s.toml", "--until", "1s", "--trace", "/dev/full"];
        check(
            &folder,
            &args,
            &["/dev/full", "cannot be written", "no space"],
        );
    }
}

/// A wrong override of the healthy van, and what the message has to have.
const FIELDS: &[(&str, &[&str])] = &[
    ("wheels=4", &["unknown field `wheels`", "`vehicle`"]),
    ("day.ambiant=3degC", &["day", "ambiant", "`ambient`"]),
    (
        "day.ambient=60degC",
        &["day.ambient", "60 degC", "-10 degC to 50 degC"],
    ),
    ("day.ambient=35psi", &["day.ambient", "35psi", "degC, degF"]),
    ("day.ambient=35", &["day.ambient", "35", "unit"]),
    ("day.ambient=nan degC", &["day.ambient", "nan"]),
    ("day=3", &["day", "integer"]),
    ("start.charge=-1kg", &["start.charge", "0 g to 2898.5 g"]),
    (
        "vehicle.condenser.volume=0.01L",
        &["vehicle.condenser.volume", "0.0001 m3 to 0.005 m3"],
    ),
    (
        "engine.speed=9000rpm",
        &["engine.speed", "9000 rpm", "5000"],
    ),
    ("engine.on=yes", &["engine.on", "yes", "boolean"]),
    ("controls.blower=9", &["controls.blower", "9", "0 to 4"]),
    (
        "controls.blower=300",
        &["controls.blower", "300", "0 to 255"],
    ),
    ("controls.blower=1.5", &["controls.blower", "1.5"]),
    ("until=30h", &["until", "30 h", "24 h"]),
    ("format=2", &["format", "2", "1 to 1"]),
    ("name=", &["name", "1 to 200"]),
    ("vehicle=bus", &["vehicle", "bus", "utility-van"]),
    (
        "vehicle=gone.toml",
        &["vehicle", "gone.toml", "no such file"],
    ),
    ("vehicle=bad.toml", &["vehicle", "bad.toml", "line 2"]),
    (
        "vehicle=odd.toml",
        &["vehicle", "odd.toml", "wheels", "`orifice`"],
    ),
    (
        "vehicle.orifice.bore=9mm",
        &["vehicle.orifice.bore", "0.009 m", "0.003 m"],
    ),
    (
        "vehicle.refrigerant=R-22",
        &["vehicle.refrigerant", "R-22", "R-134a"],
    ),
    ("day.ambient", &["override", "PATH=VALUE"]),
    ("=4", &["override", "no field"]),
    ("a..b=4", &["override", "no field"]),
    ("name.x=4", &["override", "name.x"]),
    ("act=4", &["act", "[[act]]"]),
    (r#"act=[{act={do="jump"}}]"#, &["act 1", "jump", "`engine`"]),
    (
        r#"act=[{act={do="tap"}}]"#,
        &["act 1", "missing field `on`"],
    ),
    (
        r#"act=[{},{when="vnt < 3 degC"}]"#,
        &[
            "act 2.when",
            "vnt",
            "low, high, vent, cabin, can_liquid, charge",
        ],
    ),
    (
        r#"act=[{when="vent = 3 degC"}]"#,
        &["act 1.when", "READING < VALUE"],
    ),
    (
        r#"act=[{when="vent < 3 psig"}]"#,
        &["act 1.when", "psig", "degC"],
    ),
    (r#"act=[{after="-3 s"}]"#, &["act 1.after", "-3 s"]),
    // refused when it is done
    (
        r#"act=[{after="0.5 s"},{act={do="tap",on=true}}]"#,
        &["act 2", "0.50 s", "no can"],
    ),
    (
        r#"act=[{act={do="blower",step=9}}]"#,
        &["act 1", "step", "9", "0 to 4"],
    ),
];

/// Wrong values, by --set on the healthy van.
#[test]
fn fields_that_cannot_be() {
    let folder = folder("refused_fields");
    fs::write(folder.join("bad.toml"), "name = \"x\"\n[orifice\n").expect("written");
    fs::write(folder.join("odd.toml"), "wheels = 4\n").expect("written");
    for (set, parts) in FIELDS {
        let args = ["run", "healthy", "--until", "1s", "--set", set];
        // the last `until` counts, so a wrong one must stand alone
        let args = if set.starts_with("until") {
            &[&args[..2], &args[4..]].concat()
        } else {
            &args[..]
        };
        check(&folder, args, &[&["healthy"], *parts].concat());
    }
    for until in ["25h", "-1s", "5", "5kg", "soon", ""] {
        check(
            &folder,
            &["run", "healthy", &format!("--until={until}")],
            &["healthy", "until"],
        );
    }
}

#[test]
fn long_and_hostile_text_comes_back_short() {
    let folder = folder("hostile");
    let long = "z".repeat(100_000);
    for set in [
        format!("{long}=3"),
        format!("day.ambient={long}"),
        format!("vehicle={long}"),
        format!("vehicle={long}.toml"),
        format!("{}=3", "a.".repeat(50_000)),
        format!("day.ambient={}", "[".repeat(100_000)),
        "day.ambient=3\n0\u{1b}[2J".into(),
        format!("act=[{{when=\"{long}\"}}]"),
    ] {
        check(&folder, &["run", "healthy", "--set", &set], &["healthy"]);
    }
    let out = lowside_in(
        &folder,
        &["run", "healthy", "--set", "day.ambient=\u{1b}[2J"],
    );
    assert!(!out.stderr.contains(&0x1b));
}

#[test]
fn takes_that_were_changed() {
    let folder = folder("refused_takes");
    let args = [
        "run",
        "charge-from-cans",
        "--until",
        "12s",
        "--json",
        "--take",
        "t.json",
    ];
    crate::common::object_in(&folder, &args);
    let text = unsealed(&fs::read_to_string(folder.join("t.json")).expect("a take"));
    let cases: &[(&str, &str, &[&str])] = &[
        ("\"hash\":\"", "\"hash\":\"0", &["ended in", "says 0"]),
        ("\"format\":2,\"ph", "\"format\":7,\"ph", &["format = 7"]),
        (
            "\"ticks\":600",
            "\"ticks\":99999999",
            &["ticks = 99999999", "4320000"],
        ),
        ("\"ticks\":600", "\"ticks\":10", &["tick of act", "10"]),
        ("\"ticks\":600", "\"ticks\":-1", &["ticks", "-1"]),
        ("\"ticks\":600", "\"tacks\":600", &["tacks", "`ticks`"]),
        (
            "\"ambient\":\"308.15 K\"",
            "\"ambient\":\"900 K\"",
            &["day.ambient", "50 degC"],
        ),
        (
            "{\"do\":\"take-can\"}",
            "{\"do\":\"invert\",\"on\":true}",
            &["act 1", "no can"],
        ),
        (
            "\"do\":\"take-can\"",
            "\"do\":\"jump\"",
            &["act 1 of the log", "jump", "`engine`"],
        ),
    ];
    for (from, to, parts) in cases {
        // acts stand in the scenario's script and in the log: it is the log that is replayed
        let start = if from.contains("\"do\"") {
            text.find("\"log\"").expect("a log")
        } else {
            0
        };
        let changed = format!("{}{}", &text[..start], text[start..].replacen(from, to, 1));
        assert_ne!(changed, text, "{from} is in {text}");
        fs::write(folder.join("c.json"), changed).expect("written");
        check(
            &folder,
            &["replay", "c.json"],
            &[&["c.json"], *parts].concat(),
        );
    }
    fs::write(folder.join("c.json"), &text[..text.len() / 2]).expect("written");
    check(&folder, &["replay", "c.json"], &["c.json", "not a take"]);
}

/// Unicode Standard Annex 9: U+202E turns the direction of writing, so that a name would not read as it stands. NUL and escape sequences play
/// with terminals. Names of scenarios, takes, cards and labels with such characters are refused, and no refusal prints them.
#[test]
fn names_that_would_not_show_as_written() {
    let folder = folder("refused_names");
    let good = "good.json";
    let shown = |args: &[&str], parts: &[&str]| {
        let out = lowside_in(&folder, args);
        assert_refused(&out, args, parts);
        let err = String::from_utf8_lossy(&out.stderr);
        assert!(
            err.trim_end().chars().all(lowside_units::shows),
            "{args:?}: {err:?}"
        );
    };
    let run = ["run", "healthy", "--until", "1s", "--take", good];
    assert!(lowside_in(&folder, &run).status.success());
    let take = unsealed(&fs::read_to_string(folder.join(good)).expect("a take"));
    for (c, number) in [
        ('\u{202e}', "U+202E"),
        ('\u{2066}', "U+2066"),
        ('\u{1b}', "U+001B"),
        ('\u{7f}', "U+007F"),
    ] {
        let (name, vehicle) = (format!("name=van{c}"), format!("vehicle.name=van{c}"));
        shown(
            &["run", "healthy", "--set", &name],
            &["name: the character", number, "letters"],
        );
        shown(
            &["run", "healthy", "--set", &vehicle],
            &["vehicle.name", number],
        );
        // What was asked for is repeated without them, too.
        shown(&["run", &format!("gone{c}.toml")], &["gone"]);
    }
    for escape in ["\\u0000", "\\u202e"] {
        let old = take.replace("35 degC day\"", &format!("35 degC day{escape}\""));
        assert!(old != take, "the name is there");
        fs::write(folder.join("old.json"), old).expect("written");
        shown(
            &["replay", "old.json"],
            &["scenario: name: the character U+", "letters"],
        );
        let label = format!(
            r#"[[0,{{"do":"label","charge":"980 g","particulars":{{"technician":"A{escape}"}}}}]]"#
        );
        fs::write(
            folder.join("label.json"),
            take.replace("\"log\":[]", &format!("\"log\":{label}")),
        )
        .expect("written");
        shown(
            &["replay", "label.json"],
            &["act 1", "technician: the character U+"],
        );
    }
    let card = lowside_lessons::library::card("2-low-charge").expect("shipped");
    let mut wrong = card.clone();
    wrong.step[0].title.es.push('\u{202e}');
    let said = wrong.check().expect_err("refused").to_string();
    assert!(
        said.starts_with("step[1].title.es: the character U+202E"),
        "{said}"
    );
}
