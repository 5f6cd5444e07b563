//! `cargo xtask bench`: how fast the tables and a bay are, natively and in the browser, in one run on one machine.
//!
//! Shared machines drift, so only ratios from one run mean anything: the tables stand beside the equation of state and, where
//! Python has CoolProp, beside its tabular back end; a take played in the browser stands beside the same take played natively.
use std::{
    fs,
    path::Path,
    process::{Command, Stdio},
};

use anyhow::{Context, Result};

use crate::{
    browser, page,
    place::{Place, read, run},
};

/// Runs everything and prints it.
pub(crate) fn run_all(place: &Place) -> Result<()> {
    println!("\n# Property tables against the equation of state (criterion)");
    run(&mut place.cargo(&[
        "bench",
        "--package=lowside-fluids",
        "--bench=state",
        "--",
        "state",
    ]))?;
    coolprop(place)?;
    println!("\n# A second of bay time, natively (criterion)");
    run(&mut place.cargo(&[
        "bench",
        "--package=lowside-session",
        "--features=text,checkpoint",
        "--bench=bay",
    ]))?;
    println!("\n# Takes of unknown vehicles marked (criterion)");
    run(&mut place.cargo(&["bench", "--package=lowside-lessons", "--bench=mark"]))?;
    targets(place)?;
    println!("\n# Whole takes, natively and in the browser");
    let site = page::build(place, false)?;
    let native = native(place)?;
    browser::speed(place, site, &native)
}

/// A figure of the benches above: group and name, what one is called and how many there are in a second, and the least that is asked, if
/// something is. The browser is asked for at least 0.7 of the native speed, which its own script says.
type Figure = (&'static str, &'static str, &'static str, f64, Option<f64>);

const FIGURES: [Figure; 9] = [
    (
        "R-134a",
        "state, tables",
        "table states a microsecond",
        1e-6,
        Some(10.0),
    ),
    (
        "bay second",
        "settled",
        "settled, times real time",
        1.0,
        Some(8_000.0),
    ),
    (
        "bay second",
        "cycling",
        "cycling, times real time",
        1.0,
        Some(5_000.0),
    ),
    (
        "bay second",
        "charging",
        "charging, times real time",
        1.0,
        None,
    ),
    (
        "twins",
        "32 beside",
        "a bay with 32 twins, times real time",
        1.0 / 33.0,
        Some(100.0),
    ),
    (
        "mark",
        "a take",
        "takes marked a minute on one core",
        60.0,
        None,
    ),
    (
        "checkpoint",
        "in memory",
        "checkpoints a second, in memory",
        1.0,
        None,
    ),
    (
        "checkpoint",
        "as text",
        "checkpoints a second, as text",
        1.0,
        None,
    ),
    (
        "checkpoint",
        "taken up",
        "checkpoints a second, taken up from text",
        1.0,
        None,
    ),
];

/// Says how the figures that criterion just kept stand against what is asked.
fn targets(place: &Place) -> Result<()> {
    println!("\n# Against what is asked (on a machine that does nothing else)");
    for (group, name, what, each, asked) in FIGURES {
        let folder = place
            .target
            .join("criterion")
            .join(group)
            .join(name)
            .join("new");
        let kept = |file: &str| -> Result<serde_json::Value> {
            let file = folder.join(file);
            let text =
                fs::read_to_string(&file).with_context(|| format!("reading {}", file.display()))?;
            serde_json::from_str(&text).context("reading what criterion kept")
        };
        // One iteration does so many of what is asked for.
        let elements = kept("benchmark.json")?["throughput"]["Elements"].as_f64();
        let seconds = kept("estimates.json")?["median"]["point_estimate"]
            .as_f64()
            .context("criterion kept no median")?
            * 1e-9;
        let found = elements.unwrap_or(1.0) / seconds * each;
        match asked {
            None => println!("{what}: {found:.0}"),
            Some(asked) => {
                let verdict = if found >= asked { "pass" } else { "miss" };
                println!("{what}: {found:.0}, at least {asked:.0} asked: {verdict}");
            }
        }
    }
    Ok(())
}

/// Times CoolProp's tabular back end over like states, where Python has it; says so where not.
fn coolprop(place: &Place) -> Result<()> {
    println!("\n# The same with CoolProp's tabular back end (Python)");
    let script = place.root.join("crates/fluids/benches/coolprop_tables.py");
    let has = |args: &[&str]| {
        Command::new("python3")
            .args(args)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .status()
            .is_ok_and(|s| s.success())
    };
    if has(&["-c", "import CoolProp, numpy"]) {
        run(Command::new("python3").arg(script))
    } else {
        println!("left out: python3 with the packages coolprop and numpy is not here");
        Ok(())
    }
}

/// Each take's speed natively, as `lowside replay` measures it: name, text, times real time.
fn native(place: &Place) -> Result<serde_json::Value> {
    let mut takes = Vec::new();
    for file in files(&place.root.join("tests/takes"))? {
        let text =
            fs::read_to_string(&file).with_context(|| format!("reading {}", file.display()))?;
        let mut lowside = place.cargo(&[
            "run",
            "--quiet",
            "--release",
            "--package=lowside-cli",
            "--",
            "replay",
        ]);
        let report = read(lowside.arg(&file).arg("--json"))?;
        let report: serde_json::Value =
            serde_json::from_str(&report).context("reading the report of a replay")?;
        takes.push(serde_json::json!({
            "name": file.file_name().unwrap_or_default().to_string_lossy(),
            "text": text,
            "seconds": report["t_s"],
            "native": report["real_time_factor"],
        }));
    }
    Ok(takes.into())
}

fn files(dir: &Path) -> Result<Vec<std::path::PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(dir).with_context(|| format!("reading {}", dir.display()))? {
        files.push(entry?.path());
    }
    files.sort();
    Ok(files)
}
