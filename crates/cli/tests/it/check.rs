//! `lowside check`: what is shipped has no mistake, and a mistake is told with file, line, column and field.

use crate::common::{answer_in, folder, lowside_in};
use std::fs;
use std::path::{Path, PathBuf};

fn shipped() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios")
}

#[test]
fn every_shipped_card_and_scenario_passes() {
    let mut args = vec!["check".to_owned()];
    for place in ["", "lessons"] {
        for entry in fs::read_dir(shipped().join(place)).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|e| e == "toml") {
                args.push(path.display().to_string());
            }
        }
    }
    let args: Vec<&str> = args.iter().map(String::as_str).collect();
    let told = answer_in(&shipped(), &args);
    assert_eq!(told.lines().count(), args.len() - 1);
    let of = |what: &str| told.lines().filter(|l| l.ends_with(what)).count();
    let cards = args.iter().filter(|a| a.contains("lessons")).count();
    assert!(cards >= 16, "{cards} cards");
    assert_eq!(of(": a job card, no mistake"), cards, "{told}");
    assert_eq!(
        of(": a scenario, no mistake"),
        args.len() - 1 - cards,
        "{told}"
    );
}

#[test]
fn every_script_of_the_job_cards_passes() {
    let jobs = shipped().join("../tests/data/jobs");
    let mut seen = 0;
    for entry in fs::read_dir(&jobs).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|e| e == "toml") {
            let told = answer_in(&jobs, &["check", &path.display().to_string()]);
            assert!(told.ends_with(": a script, no mistake\n"), "{told}");
            seen += 1;
        }
    }
    assert!(seen > 20, "{seen}");
}

#[test]
fn a_mistake_is_told_with_its_place_and_the_others_are_still_looked_at() {
    let here = folder("check");
    let head = "format = 1\nname = \"a\"\nvehicle = \"utility-van\"\n";
    let files = [
        ("day.toml", format!("{head}[day]\nambient = \"60 degC\"\n")),
        (
            "act.toml",
            format!("{head}[[act]]\nact = {{ do = \"jump\" }}\n"),
        ),
        ("torn.toml", format!("{head}[day\n")),
        (
            "script.toml",
            "[[act]]\nafter = \"1 s\"\n[[act]]\nafter = \"1\"\n".to_owned(),
        ),
        (
            "own.toml",
            "format = 1\nname = \"a\"\nvehicle = \"van.toml\"\n".to_owned(),
        ),
        ("good.toml", head.to_owned()),
    ];
    fs::write(here.join("van.toml"), "name = 3\n").expect("written");
    let mut args = vec!["check"];
    for (name, text) in &files {
        fs::write(here.join(name), text).expect("written");
        args.push(name);
    }
    let out = lowside_in(&here, &args);
    assert_eq!(out.status.code(), Some(2));
    let told = String::from_utf8(out.stdout).expect("UTF-8");
    let begins = [
        "day.toml:5:1: day.ambient: 60 degC is outside -10 degC to 50 degC",
        "act.toml:5:1: act 1.act: unknown variant `jump`",
        "torn.toml:4:5: unclosed table",
        "script.toml:4:1: act 2.after: \"1\" has no unit",
        "own.toml:3:1: vehicle",
        "good.toml: a scenario, no mistake",
    ];
    assert_eq!(told.lines().count(), begins.len(), "{told}");
    for (line, begin) in told.lines().zip(begins) {
        assert!(line.starts_with(begin), "{line}");
    }
    let err = String::from_utf8_lossy(&out.stderr);
    assert_eq!(err, "lowside: 5 of 6 files have a mistake\n");
}

#[test]
fn a_file_that_is_none_is_refused() {
    let here = folder("check-none");
    crate::common::assert_refused(
        &lowside_in(&here, &["check", "no.toml"]),
        &["check"],
        &["no.toml", "no such file"],
    );
    crate::common::assert_refused(&lowside_in(&here, &["check"]), &["check"], &["FILE.toml"]);
}
