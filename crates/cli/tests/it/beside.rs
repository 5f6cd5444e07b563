//! `--beside`: what stands in the columns is what runs of their own give.

use crate::common::{answer_in, assert_refused, folder, lowside_in, object_in};
use serde_json::Value;
use std::fs;
use std::path::Path;

fn here() -> &'static Path {
    Path::new(env!("CARGO_TARGET_TMPDIR"))
}

/// Cells of a line of a table that begins with `what`, the unit kept with its number: `294 kPa`.
fn cells(table: &str, what: &str) -> Vec<String> {
    let line = table.lines().find(|l| l.starts_with(what));
    let line = line.unwrap_or_else(|| panic!("{what} is missing in {table}"));
    let rest = &line[what.len()..];
    let cells = rest.split("  ").map(str::trim).filter(|c| !c.is_empty());
    cells.map(str::to_owned).collect()
}

/// Names of the lines of figures in a report of one run.
fn names(table: &str) -> Vec<String> {
    let figures = table.lines().skip(3).take_while(|l| !l.is_empty());
    figures.map(|l| l[..31].trim().to_owned()).collect()
}

/// Each column has, to the digit, the figures of a run with the same change set, in both systems of units.
#[test]
fn columns_are_what_runs_of_their_own_give() {
    let changes = [
        "condition.condenser_air=40%",
        "start.charge=700g, controls.blower=2",
        "condition.leak=[{at=\"condenser-top\",hole=\"1 mm\"}],day.ambient=25degC",
        "vehicle=compact-car",
    ];
    let sets: [&[&str]; 4] = [
        &["condition.condenser_air=40%"],
        &["start.charge=700g", "controls.blower=2"],
        &[
            "condition.leak=[{at=\"condenser-top\",hole=\"1 mm\"}]",
            "day.ambient=25degC",
        ],
        &["vehicle=compact-car"],
    ];
    let run = ["run", "healthy", "--until", "150s"];
    let beside: Vec<&str> = changes.iter().flat_map(|c| ["--beside", c]).collect();
    let all = answer_in(here(), &[&run[..], &beside].concat());
    let (si, us) = all.split_once("in US units").expect("both systems");
    let mut plain = vec![answer_in(here(), &run)];
    for set in sets {
        let set: Vec<&str> = set.iter().flat_map(|s| ["--set", s]).collect();
        plain.push(answer_in(here(), &[&run[..], &set].concat()));
    }
    let names = names(&plain[0]);
    assert!(names.len() > 20, "{names:?}");
    for name in &names {
        for (k, alone) in plain.iter().enumerate() {
            // column 0 is the run; then each has its difference after it
            let column = if k == 0 { 0 } else { 2 * k - 1 };
            let shown = cells(alone, name);
            assert_eq!(cells(si, name)[column], shown[0], "{name}, {k}: {all}");
            if let Some(shown) = shown.get(1) {
                assert_eq!(&cells(us, name)[column], shown, "{name}, {k}: {all}");
            }
        }
    }
    for (k, alone) in plain.iter().enumerate().skip(1) {
        let state = |text: &str| text.split("state ").nth(1).map(|s| s[..16].to_owned());
        let foot = all
            .lines()
            .rfind(|l| l.starts_with(&format!("beside {k}:")));
        assert_eq!(foot.and_then(state), state(alone), "{all}");
    }
}

/// Columns stand under their heads, whatever is in them.
#[test]
fn columns_are_aligned() {
    let changes = ["start.charge=100g", "condition.condenser_air=5%"];
    let beside: Vec<&str> = changes.iter().flat_map(|c| ["--beside", c]).collect();
    let text = answer_in(
        here(),
        &[&["run", "healthy", "--until", "90s"][..], &beside].concat(),
    );
    let table = text.lines().skip_while(|l| !l.starts_with("in SI units"));
    let lines = table.take_while(|l| !l.starts_with("the run:"));
    let wide: Vec<usize> = lines
        .map(|l| l.chars().count())
        .filter(|n| *n > 0)
        .collect();
    assert!(
        wide.len() > 35 && wide.iter().all(|n| *n == wide[0]),
        "{text}"
    );
}

/// A difference has a sign and is the second less the first: half the condenser's air lifts the high side and warms the vent
/// (fault tables of the trade, common practice, no source).
#[test]
fn differences_have_their_sign() {
    let args = [
        "run",
        "healthy",
        "--until",
        "5min",
        "--beside",
        "condition.condenser_air=50%",
    ];
    let text = answer_in(here(), &args);
    let mean = |name| cells(&text, name)[2].clone();
    let pressure = mean("high side, mean with clutch in");
    let more = pressure
        .strip_prefix('+')
        .and_then(|p| p.strip_suffix(" kPa"));
    let more: f64 = more.and_then(|p| p.parse().ok()).expect(&pressure);
    assert!(more > 100.0, "{text}");
    assert!(mean("centre vent, mean").starts_with('+'), "{text}");
    assert!(mean("capacity, mean").starts_with('\u{2212}'), "{text}");
    assert_eq!(mean("refrigerant in the loop"), "0 g");
    let again = [
        "run",
        "healthy",
        "--until",
        "5min",
        "--beside",
        "condition.condenser_air=100%",
    ];
    let same = answer_in(here(), &again);
    assert!(!same.contains('+') && !same.contains('\u{2212}'), "{same}");
}

#[test]
fn json_has_each_bay_with_its_numbers() {
    let set = "condition.orifice_open=40%";
    let run = ["run", "healthy", "--until", "40s", "--json"];
    let both = object_in(here(), &[&run[..], &["--beside", set]].concat());
    let alone = object_in(here(), &[&run[..], &["--set", set]].concat());
    let beside = both["beside"][0].as_object().expect("one beside it");
    assert_eq!(beside["changes"], set);
    assert_eq!(
        (&beside["refused"], &beside["halted"]),
        (&0.into(), &Value::Null)
    );
    for (key, value) in alone.as_object().expect("an object") {
        if key != "real_time_factor" {
            assert_eq!(&beside[key], value, "{key}");
        }
    }
    let plain = object_in(here(), &run);
    assert!(plain.get("beside").is_none(), "{plain}");
    assert_eq!(both["state_hash"], plain["state_hash"]);
}

const VISIT: &str = "format = 1\nname = \"visit\"\nvehicle = \"utility-van\"\nuntil = \"40 s\"\n\
    [engine]\non = true\n[controls]\nac = true\nblower = 4\n\
    [[act]]\nafter = \"5 s\"\n\
    [[act]]\nact = { do = \"take-can\" }\n\
    [[act]]\nact = { do = \"tap\", on = true }\n\
    [[act]]\nafter = \"5 s\"\nact = { do = \"blower\", step = 2 }\n";

/// An act is numbered as in its script, where one may only wait; what needs it is refused and counted. In a take it is numbered as
/// in its log.
#[test]
fn an_act_is_left_out() {
    let folder = folder("beside");
    fs::write(folder.join("v.toml"), VISIT).expect("written");
    let foot = |args: &[&str]| {
        let text = answer_in(&folder, args);
        text.lines().last().expect("a foot").to_owned()
    };
    let run = ["run", "v.toml", "--take", "v.json", "--beside"];
    let without_can = foot(&[&run[..], &["without=2"]].concat());
    assert!(without_can.ends_with("acts refused: 1"), "{without_can}");
    let without_blower = foot(&[&run[..], &["without = 4"]].concat());
    assert!(
        without_blower.ends_with("acts refused: 0"),
        "{without_blower}"
    );
    let replay = ["replay", "v.json", "--beside"];
    assert_eq!(foot(&[&replay[..], &["without=1"]].concat()), without_can);
    assert_eq!(
        foot(&[&replay[..], &["without=3"]].concat()),
        without_blower
    );

    let shorter = VISIT.replace("act = { do = \"blower\", step = 2 }", "");
    fs::write(folder.join("s.toml"), shorter).expect("written");
    let alone = answer_in(&folder, &["run", "s.toml"]);
    let state = alone
        .split("state ")
        .nth(1)
        .map(str::trim)
        .expect("a state");
    assert!(without_blower.contains(state), "{without_blower}: {alone}");

    for (change, parts) in [
        ("without=1", &["act 1 only waits"][..]),
        ("without=0", &["\"0\" is outside 1 to 4"]),
        ("without=5", &["\"5\" is outside 1 to 4"]),
        ("without=x", &["\"x\" is outside 1 to 4"]),
        ("until=1min", &["until", "as long as"]),
        ("act=[]", &["act", "leave one out"]),
        (
            "day.ambient=90degC",
            &["day.ambient: 90 degC is outside -10 degC to 50 degC"],
        ),
        ("day.ambient=20degC,,", &["needs the form PATH=VALUE"]),
        ("vehicle=no.toml", &["no.toml", "there is no such file"]),
    ] {
        let args = ["run", "v.toml", "--beside", change];
        let parts = [&["--beside"][..], parts].concat();
        assert_refused(&lowside_in(&folder, &args), &args, &parts);
    }
}

/// A suction line that holds nothing and a condenser without air halt an overfull van within a minute: the run beside it goes on.
#[test]
fn a_halted_bay_beside_says_so() {
    let halts =
        "vehicle.suction_line.volume=20 cm3, condition.condenser_air=0 %, start.charge=1.5 kg";
    let run = ["run", "healthy", "--until", "1min"];
    let beside = [&run[..], &["--beside", halts]].concat();
    let text = answer_in(here(), &beside);
    let foot = text.lines().last().expect("a foot");
    assert!(foot.starts_with("beside 1: halted at "), "{text}");
    assert!(foot.ends_with("; acts refused: 0"), "{text}");
    let alone = answer_in(here(), &run);
    let cabin = cells(&alone, "cabin")[0].clone();
    assert_eq!(cells(&text, "cabin"), [&cabin, "-", "-"]);
    let json = object_in(here(), &[&beside[..], &["--json"]].concat());
    let told = json["beside"][0]["halted"].as_str().expect("told");
    assert!(foot.contains(told), "{text}: {told}");
    assert!(json["beside"][0].get("cabin_degC").is_none(), "{json}");
}

/// The vehicle beside may come from a file.
#[test]
fn another_vehicle_beside() {
    let folder = folder("beside-vehicle");
    let van = lowside_session::library::vehicle("utility-van").expect("shipped");
    fs::write(folder.join("mine.toml"), van.replace("Utility", "My")).expect("written");
    let run = ["run", "healthy", "--until", "20s", "--json"];
    let both = object_in(
        &folder,
        &[&run[..], &["--beside", "vehicle=mine.toml"]].concat(),
    );
    assert_eq!(both["beside"][0]["state_hash"], both["state_hash"]);
}
