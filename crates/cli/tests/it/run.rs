//! `lowside run`, `replay` and `scenarios` from outside: what they print and write.

use crate::common::{answer_in, folder, lowside_in, object_in};
use lowside_session::{Scenario, library};
use lowside_shop::{fault, ledger::PLACES};
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

const NUMBERS: &[&str] = &[
    "t_s",
    "low_kPa_abs",
    "high_kPa_abs",
    "low_kPa_abs_clutch_on_mean",
    "high_kPa_abs_clutch_on_mean",
    "vent_degC",
    "cabin_degC",
    "superheat_K",
    "subcooling_K",
    "clutch_duty",
    "refrigerant_kg",
    "capacity_W",
    "shaft_W",
    "max_mass_error_rel",
    "max_energy_error_rel",
    "real_time_factor",
];

fn here() -> &'static Path {
    Path::new(env!("CARGO_TARGET_TMPDIR"))
}

fn number(object: &Value, key: &str) -> f64 {
    object[key]
        .as_f64()
        .unwrap_or_else(|| panic!("{key} in {object}"))
}

/// One minute of the healthy van: every key of the contract with its type, books closed, and pressures on the right side
/// of each other and of the atmosphere.
#[test]
fn a_minute_of_the_healthy_van() {
    let run = object_in(here(), &["run", "healthy", "--until", "1min", "--json"]);
    for key in NUMBERS {
        assert!(number(&run, key).is_finite(), "{key} in {run}");
    }
    assert!(run["clutch_on"].is_boolean(), "{run}");
    assert!(
        run["clutch_cycles"].as_u64().is_some_and(|n| n >= 1),
        "{run}"
    );
    let hash = run["state_hash"].as_str().expect("a hash");
    assert!(hash.len() == 16 && hash.bytes().all(|b| b.is_ascii_hexdigit()));
    assert!((number(&run, "t_s") - 60.0).abs() < 1e-9, "{run}");
    assert!(number(&run, "max_mass_error_rel") < 1e-9, "{run}");
    assert!(number(&run, "max_energy_error_rel") < 1e-9, "{run}");
    assert!(number(&run, "real_time_factor") > 0.0, "{run}");
    assert!(
        number(&run, "high_kPa_abs_clutch_on_mean")
            > number(&run, "low_kPa_abs_clutch_on_mean") + 100.0
    );
    assert!(
        number(&run, "vent_degC") < number(&run, "cabin_degC"),
        "{run}"
    );
}

#[test]
fn two_runs_end_in_the_same_bits() {
    let run = || {
        object_in(
            here(),
            &["run", "charge-from-cans", "--until", "40s", "--json"],
        )
    };
    let (mut a, mut b) = (run(), run());
    a["real_time_factor"] = Value::Null;
    b["real_time_factor"] = Value::Null;
    assert_eq!(a, b);
}

/// Each override shows in the answer.
#[test]
fn set_reaches_every_part() {
    let run = |set: &[&str]| {
        let mut args = vec!["run", "healthy", "--until", "0s", "--json"];
        for s in set {
            args.extend(["--set", s]);
        }
        object_in(here(), &args)
    };
    let hot = run(&["day.ambient=38degC", "start.charge=0.6kg", "start.air=2g"]);
    assert!((number(&hot, "vent_degC") - 38.0).abs() < 1e-9, "{hot}");
    assert!((number(&hot, "cabin_degC") - 38.0).abs() < 1e-9, "{hot}");
    assert!((number(&hot, "refrigerant_kg") - 0.6).abs() < 1e-9, "{hot}");
    assert!((number(&hot, "air_kg") - 2e-3).abs() < 1e-9, "{hot}");
    let ended = object_in(here(), &["run", "healthy", "--json", "--set", "until=2s"]);
    assert!((number(&ended, "t_s") - 2.0).abs() < 1e-9, "{ended}");

    let minute = |set: &str| {
        let args = ["run", "healthy", "--until", "30s", "--json", "--set", set];
        object_in(here(), &args)
    };
    let plain = minute("engine.speed=1500rpm");
    for set in [
        "engine.speed=2500rpm",
        "vehicle.orifice.bore=1.5mm",
        "controls.blower=2",
        "condition.condenser_air=50%",
    ] {
        assert_ne!(minute(set)["state_hash"], plain["state_hash"], "{set}");
    }
    let off = minute("engine.on=false");
    assert_eq!(off["clutch_on"], Value::Bool(false));
    assert!(off["low_kPa_abs_clutch_on_mean"].is_null(), "{off}");
}

/// The table has each number in SI and US units, and no more than a screen of lines.
/// A run whose data sheet was altered says so, with what it was; its take too, and so its replay.
#[test]
fn an_altered_data_sheet_is_told() {
    let dir = folder("altered");
    let set = ["--set", "vehicle.suction_line.pressure_loss=400kPa"];
    let run = ["run", "healthy", "--until", "1s", "--take", "t.json"];
    let text = answer_in(&dir, &[&run[..], &set].concat());
    let line = "altered data sheet: vehicle.suction_line.pressure_loss (was 8000 Pa)\n";
    assert!(text.contains(line), "{text}");
    assert!(answer_in(&dir, &["replay", "t.json"]).contains(line));
    let object = object_in(&dir, &["replay", "t.json", "--json"]);
    let list = &object["altered_data_sheet"];
    assert_eq!(list[0]["field"], "vehicle.suction_line.pressure_loss");
    let plain = object_in(&dir, &["run", "healthy", "--until", "1s", "--json"]);
    assert_eq!(plain["altered_data_sheet"], Value::Null);
}

/// What the list of faults says sets each is taken, and is that fault.
#[test]
fn the_list_of_faults_sets_what_it_says() {
    let text = answer_in(here(), &["faults"]);
    let healthy = library::scenario("healthy").expect("shipped");
    let mut seen = 0;
    for line in text.lines() {
        let Some((_, set)) = line.split_once("--set '") else {
            continue;
        };
        let set = set.trim_end_matches('\'').to_owned();
        let scenario = Scenario::parse(healthy, &[set]).expect(line);
        assert_eq!(scenario.faults().count(), 1, "{line}");
        seen += 1;
    }
    assert!(seen > 3 * fault::all().count(), "{seen}");
    let kinked = "Suction hose kinked\n  slight    --set 'condition.restriction=[{at=\"suction-line\",open=\"50 %\"}]'\n";
    assert!(text.contains(kinked), "{text}");
    assert!(
        text.contains("A new suction hose; 2 h, 260 in all\n"),
        "{text}"
    );
}

#[test]
fn the_table_is_short_and_in_both_systems() {
    let text = answer_in(here(), &["run", "healthy", "--until", "30s"]);
    assert!(text.lines().count() < 32, "{text}");
    for part in [
        "Healthy van",
        "after 0:30",
        "kPag",
        "psig",
        "psia",
        "\u{b0}C",
        "\u{b0}F",
        " oz",
        "hp",
        "state ",
    ] {
        assert!(text.contains(part), "{part:?} is missing in {text}");
    }
}

/// A row at the start and each --every; each row has all columns; the ledger adds up to what the vehicle was given; the
/// clutch's first pull is told once.
#[test]
fn the_trace_has_its_rows() {
    let folder = folder("trace");
    for (every, rows) in [("1s", 31), ("10s", 4), ("500ms", 61), ("7s", 5)] {
        let args = [
            "run", "healthy", "--until", "30s", "--json", "--trace", "t.csv", "--every", every,
        ];
        object_in(&folder, &args);
        let text = fs::read_to_string(folder.join("t.csv")).expect("a trace");
        let mut lines = text.lines();
        let head: Vec<&str> = lines.next().expect("a head").split(',').collect();
        let table: Vec<Vec<&str>> = lines.map(|l| l.split(',').collect()).collect();
        assert_eq!(table.len(), rows, "--every {every}");
        let ledger: Vec<usize> = (0..head.len())
            .filter(|i| head[*i].ends_with("_refrigerant_g") && !head[*i].starts_with("loop"))
            .collect();
        assert_eq!(ledger.len(), PLACES, "{head:?}");
        for row in &table {
            assert_eq!(row.len(), head.len(), "{row:?}");
            let sum: f64 = ledger
                .iter()
                .map(|i| row[*i].parse::<f64>().expect("g"))
                .sum();
            // 36 oz (NIST SP 811: an ounce is 28.349523 g), ten figures of six decimals
            assert!((sum - 36.0 * 28.349523).abs() < 2e-5, "{sum} g in {row:?}");
        }
        assert_eq!(
            text.matches("clutch-in").count(),
            1,
            "--every {every}: {text}"
        );
    }
}

#[test]
fn a_take_replays_to_the_same_summary() {
    let folder = folder("take");
    let args = [
        "run",
        "charge-from-cans",
        "--until",
        "35.5s",
        "--json",
        "--take",
        "t.json",
    ];
    let mut run = object_in(&folder, &args);
    let mut again = object_in(&folder, &["replay", "t.json", "--json"]);
    run["real_time_factor"] = Value::Null;
    again["real_time_factor"] = Value::Null;
    assert_eq!(run, again);
    let table = answer_in(&folder, &["replay", "t.json"]);
    assert!(table.contains("Charge from cans"), "{table}");
    let text = fs::read_to_string(folder.join("t.json")).expect("a take");
    assert!(
        text.contains("\"do\":\"take-can\""),
        "the acts are in it: {text}"
    );
}

/// An overfull van whose suction line holds nothing and whose condenser gets no air halts; its take ends where it says, and halted.
#[test]
fn a_halted_run_replays_to_its_halt() {
    let folder = folder("halted");
    let sets = [
        "vehicle.suction_line.volume=20 cm3",
        "condition.condenser_air=0 %",
        "start.charge=1.5 kg",
    ];
    let mut run = vec!["run", "healthy", "--until", "1min", "--take", "t.json"];
    run.extend(sets.iter().flat_map(|set| ["--set", *set]));
    let told = [run, vec!["replay", "t.json"]].map(|args| {
        let out = lowside_in(&folder, &args);
        assert_eq!(out.status.code(), Some(1), "{args:?}");
        String::from_utf8(out.stderr).expect("text")
    });
    assert!(told[0].contains("the bay halted at"), "{told:?}");
    assert_eq!(told[0], told[1]);
}

/// A vehicle's file counts from the scenario's folder; with --set, from where the command is given; in a take it is whole.
#[test]
fn a_vehicle_from_a_file() {
    let folder = folder("vehicle");
    fs::create_dir_all(folder.join("deep/cars")).expect("folders");
    let van = library::vehicle("utility-van").expect("shipped");
    let narrow = van.replace("bore = \"1.83 mm\"", "bore = \"1.20 mm\"");
    assert_ne!(narrow, van);
    fs::write(folder.join("deep/cars/narrow.toml"), narrow).expect("written");
    let healthy = library::scenario("healthy").expect("shipped");
    let text = healthy.replace("utility-van", "cars/narrow.toml");
    fs::write(folder.join("deep/s.toml"), text).expect("written");
    let tail = ["--until", "5s", "--json"];
    let hash = |args: &[&str]| object_in(&folder, &[args, &tail].concat())["state_hash"].clone();

    let by_file = hash(&["run", "deep/s.toml", "--take", "t.json"]);
    assert_eq!(
        by_file,
        hash(&["run", "healthy", "--set", "vehicle.orifice.bore=1.2mm"])
    );
    assert_eq!(
        by_file,
        hash(&["run", "healthy", "--set", "vehicle=deep/cars/narrow.toml"])
    );
    assert_ne!(by_file, hash(&["run", "healthy"]));
    fs::remove_dir_all(folder.join("deep")).expect("removed");
    let replayed = object_in(&folder, &["replay", "t.json", "--json"]);
    assert_eq!(replayed["state_hash"], by_file);
}

#[test]
fn shipped_scenarios_are_listed_and_start() {
    let text = answer_in(here(), &["scenarios"]);
    let names: Vec<&str> = library::scenario_names().collect();
    assert_eq!(text.lines().count(), names.len(), "{text}");
    for (line, name) in text.lines().zip(names) {
        let mut words = line.split_whitespace();
        assert_eq!(words.next(), Some(name), "{line}");
        assert!(words.count() >= 3, "length and what it is: {line}");
        object_in(here(), &["run", name, "--until", "1s", "--json"]);
    }
}

/// A reader who leaves early is no reason for a word, let alone a panic.
#[test]
fn a_closed_pipe_is_quiet() {
    for args in [
        &["run", "healthy", "--until", "1s"][..],
        &["scenarios"],
        &["props", "R134a", "T=300", "p=1e5"],
    ] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_lowside"))
            .args(args)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("lowside starts");
        drop(child.stdout.take());
        let out = child.wait_with_output().expect("lowside ends");
        let err = String::from_utf8_lossy(&out.stderr);
        assert!(err.is_empty(), "{args:?}: {err}");
        // it may also have been done before the pipe was closed
        assert!(
            matches!(out.status.code(), Some(0 | 1)),
            "{args:?}: {:?}",
            out.status
        );
    }
}

#[test]
fn help_is_there_for_each_command() {
    for command in ["run", "replay", "scenarios", "faults"] {
        let out = lowside_in(here(), &[command, "--help"]);
        assert!(out.status.success() && !out.stdout.is_empty(), "{command}");
    }
}

/// A muffler in the suction line is one volume more, and no line of the report or column of the trace more: each says what it said.
#[test]
fn a_muffler_changes_no_line_of_the_report() {
    let folder = folder("muffler");
    let run = |file: &str, more: &[&str]| {
        let args = ["run", "healthy", "--until", "90s", "--trace", file];
        let report = answer_in(&folder, &[&args[..], more].concat());
        let trace = fs::read_to_string(folder.join(file)).expect("a trace");
        let last = trace.lines().last().expect("rows");
        let cells = last.split(',').map(|cell| cell.parse().unwrap_or(0.0));
        let heads = trace.lines().next().expect("heads").to_owned();
        (report, heads, cells.collect::<Vec<f64>>())
    };
    let (plain, heads, a) = run("plain.csv", &[]);
    let set = ["--set", "vehicle.suction_line.muffler=200cm3"];
    let (muffled, same, b) = run("muffled.csv", &set);
    let labels = |report: &str| -> Vec<String> {
        let lines = report.lines().take_while(|l| !l.starts_with("books"));
        // That the vehicle has one is told by itself.
        let lines = lines.filter(|l| !l.starts_with("altered data sheet"));
        lines.map(|l| l.chars().take(31).collect()).collect()
    };
    assert_eq!(labels(&muffled), labels(&plain));
    assert_eq!(same, heads);
    let column = |name: &str| heads.split(',').position(|h| h == name).expect(name);
    // The places of the ledger hold what they held, but for the gas in the muffler, and together the same.
    let refrigerant = heads
        .split(',')
        .enumerate()
        .filter(|(_, h)| h.ends_with("_refrigerant_g") && *h != "loop_refrigerant_g");
    let columns: Vec<usize> = refrigerant.map(|(k, _)| k).collect();
    let sum = |cells: &[f64]| columns.iter().map(|k| cells[*k]).sum::<f64>();
    assert!((sum(&a) - sum(&b)).abs() < 0.1, "{} {}", sum(&a), sum(&b));
    let line = column("suction_line_refrigerant_g");
    assert!(b[line] > a[line] + 1.0, "{} then {}", a[line], b[line]);
}

/// A replay is held against the state its take ended in, value by value, and a take of the first format says once that it cannot be compared.
#[test]
fn a_replay_that_ends_elsewhere_names_what_differs() {
    let folder = folder("checkpoint");
    let write = |name: &str, set: &str| {
        let (take, state) = (format!("{name}.json"), format!("{name}.state.json"));
        let args = ["run", "healthy", "--until", "5s", "--json", "--set", set];
        object_in(
            &folder,
            &[&args[..], &["--take", &take, "--checkpoint", &state]].concat(),
        );
    };
    write("a", "day.ambient=30degC");
    write("b", "day.ambient=31degC");
    let same = ["replay", "a.json", "--json", "--checkpoint", "a.state.json"];
    object_in(&folder, &same);

    let other = ["replay", "a.json", "--checkpoint", "b.state.json"];
    let out = lowside_in(&folder, &other);
    let err = String::from_utf8_lossy(&out.stderr);
    assert_eq!(out.status.code(), Some(2), "{err}");
    assert!(
        err.contains("b.state.json: the replay ends in another state"),
        "{err}"
    );
    assert!(err.contains("(room): "), "the volume is named: {err}");

    let take = fs::read_to_string(folder.join("a.json")).expect("a take");
    let mut old: Value = serde_json::from_str(&take).expect("JSON");
    old["format"] = 1.into();
    // As it was written then: it named no physics and had no seal.
    for part in ["physics", "seal"] {
        drop(old.as_object_mut().map(|take| take.remove(part)));
    }
    let old = old.to_string();
    fs::write(folder.join("old.json"), old).expect("written");
    let out = lowside_in(&folder, &["replay", "old.json"]);
    let err = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{err}");
    assert_eq!(err.lines().count(), 1, "{err}");
    assert!(err.contains("an earlier version recorded it"), "{err}");
}
