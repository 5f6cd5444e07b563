//! The rooms and who may know whom, and the house rules that no compiler checks.
use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
    process::Command,
};

use lowside_tests::root;

const UNITS: &str = "lowside-units";
const FLUIDS: &str = "lowside-fluids";
const PLANT: &str = "lowside-plant";
const SHOP: &str = "lowside-shop";
const SESSION: &str = "lowside-session";
const LESSONS: &str = "lowside-lessons";
const PRESENT: &str = "lowside-present";
const CLI: &str = "lowside-cli";
const WORDS: &str = "lowside-words";

/// The diagram: each crate, and the crates of this workspace that its shipped code may use.
/// Dev-dependencies are free: a test may look at anything.
const DIAGRAM: &[(&str, &[&str])] = &[
    (UNITS, &[]),
    (FLUIDS, &[UNITS]),
    (PLANT, &[FLUIDS, UNITS]),
    (SHOP, &[PLANT, FLUIDS, UNITS]),
    (SESSION, &[SHOP, PLANT, FLUIDS, UNITS]),
    (LESSONS, &[SESSION, SHOP, PLANT, FLUIDS, UNITS]),
    (PRESENT, &[LESSONS, SESSION, SHOP, PLANT, FLUIDS, UNITS]),
    (
        CLI,
        &[PRESENT, LESSONS, SESSION, SHOP, PLANT, FLUIDS, UNITS, WORDS],
    ),
    // Languages know nothing of what they are used for.
    (WORDS, &[]),
    // The page sends actions and draws view models. It must not reach the physics.
    ("lowside-web", &[PRESENT, LESSONS, SESSION, UNITS, WORDS]),
    // Outside checks in one report: looks at the engine, never at how it is shown.
    (
        "lowside-validate",
        &[SESSION, SHOP, PLANT, FLUIDS, UNITS, WORDS],
    ),
    // The tool that builds everything must build when nothing else does.
    ("lowside-xtask", &[]),
    (
        "lowside-tests",
        &[
            CLI, PRESENT, LESSONS, SESSION, SHOP, PLANT, FLUIDS, UNITS, WORDS,
        ],
    ),
];

/// The crates whose results must be the same to the bit on every machine.
const ENGINE: &[&str] = &["units", "fluids", "plant", "shop", "session", "lessons"];

fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Every Rust source below `dir`, in no particular order.
fn sources(dir: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(dir).unwrap_or_else(|error| panic!("{}: {error}", dir.display())) {
        let path = entry.expect("a directory entry").path();
        if path.is_dir() {
            found.extend(sources(&path));
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
    found
}

fn assert_none(wrong: &[String]) {
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

/// What cargo knows of the crates of this workspace.
fn packages() -> Vec<serde_json::Value> {
    let out = Command::new(env!("CARGO"))
        .args(["metadata", "--no-deps", "--format-version=1", "--offline"])
        .current_dir(root())
        .output()
        .expect("cargo metadata runs");
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    let meta: serde_json::Value = serde_json::from_slice(&out.stdout).expect("cargo prints JSON");
    meta["packages"].as_array().expect("packages").clone()
}

/// Each binary is linked anew and runs after the others: tests of one crate share one.
#[test]
fn a_crate_has_one_binary_of_tests() {
    let packages = packages();
    let mut seen = 0;
    let mut wrong = Vec::new();
    for package in &packages {
        let targets = package["targets"].as_array().expect("targets");
        let tests = targets
            .iter()
            .filter(|target| target["kind"][0] == "test")
            .count();
        seen += tests;
        if tests > 1 {
            wrong.push(format!("{} has {tests} binaries of tests", package["name"]));
        }
    }
    assert!(seen > 5, "{seen} binaries of tests");
    assert_none(&wrong);
}

#[test]
fn crates_use_only_what_the_diagram_allows() {
    let packages = packages();
    let diagram: BTreeMap<&str, &[&str]> = DIAGRAM.iter().copied().collect();
    let mut wrong = Vec::new();
    for package in &packages {
        let from = package["name"].as_str().expect("a package has a name");
        let Some(allowed) = diagram.get(from) else {
            wrong.push(format!("{from} is not in the diagram"));
            continue;
        };
        for dependency in package["dependencies"].as_array().expect("dependencies") {
            let to = dependency["name"]
                .as_str()
                .expect("a dependency has a name");
            let shipped = dependency["kind"].as_str() != Some("dev");
            if shipped && diagram.contains_key(to) && !allowed.contains(&to) {
                wrong.push(format!("{from} must not know {to}"));
            }
        }
    }
    let exists = |name: &str| packages.iter().any(|package| package["name"] == name);
    let gone = diagram.keys().filter(|name| !exists(name));
    wrong.extend(gone.map(|name| format!("{name} is in the diagram but not in the workspace")));
    assert_none(&wrong);
}

#[test]
fn engine_crates_share_one_lint_configuration() {
    let crates = root().join("crates");
    let of = |name: &str| text(&crates.join(name).join("clippy.toml"));
    let model = of(ENGINE[0]);
    for banned in [
        "f64::exp\"",
        "f64::ln\"",
        "f64::powf\"",
        "f64::mul_add\"",
        "HashMap",
    ] {
        assert!(
            model.contains(banned),
            "the engine's clippy.toml no longer bans {banned}"
        );
    }
    for name in ENGINE {
        assert_eq!(
            of(name),
            model,
            "crates/{name}/clippy.toml differs from crates/{}'s",
            ENGINE[0]
        );
    }
}

#[test]
fn the_engine_has_no_clock() {
    let mut wrong = Vec::new();
    for name in ENGINE {
        for file in sources(&root().join("crates").join(name).join("src")) {
            for (number, line) in text(&file).lines().enumerate() {
                if line.contains("std::time") || line.contains("core::time") {
                    wrong.push(format!(
                        "{}:{}: {}",
                        file.display(),
                        number + 1,
                        line.trim()
                    ));
                }
            }
        }
    }
    assert_none(&wrong);
}

#[test]
fn every_source_says_first_what_it_is_for() {
    let root = root();
    let files: Vec<PathBuf> = ["crates", "web", "tests"]
        .iter()
        .flat_map(|dir| sources(&root.join(dir)))
        .collect();
    assert!(
        files.len() > DIAGRAM.len(),
        "only {} sources found",
        files.len()
    );
    let wrong: Vec<String> = files
        .iter()
        .filter(|file| !text(file).starts_with("//! "))
        .map(|file| format!("{}: the first line must be a //! line", file.display()))
        .collect();
    assert_none(&wrong);
}

/// View models that a closed bay is shown by; those of `closed` are found.
const CLOSED: &[&str] = &[
    "bench.rs",
    "closed.rs",
    "controls.rs",
    "dial.rs",
    "history.rs",
    "readout.rs",
    "record.rs",
    "record_file.rs",
    "retrofit.rs",
    "tools.rs",
];
/// What such a model must not know: with neither of them in its words, what is hidden is out of its reach.
const HIDDEN: &[&str] = &[
    "Bay", "Plant", "Shop", "Truth", "Job", "Network", "Ledger", "Record",
];

/// Names of what is hidden in the shipped part of a source, and globs, which could bring them in unseen.
fn peeks(source: &str) -> Vec<&str> {
    let shipped = source.split("#[cfg(test)]").next().unwrap_or_default();
    let code = shipped
        .lines()
        .filter(|line| !line.trim().starts_with("//"));
    code.flat_map(|line| {
        let names = line.split(|c: char| !c.is_alphanumeric() && c != '_');
        names
            .filter(|name| HIDDEN.contains(name))
            .chain(line.contains("::*").then_some("::*"))
    })
    .collect()
}

#[test]
fn closed_views_cannot_reach_what_is_hidden() {
    let present = root().join("crates/present/src");
    let named = CLOSED.iter().map(|name| present.join(name));
    let files: Vec<PathBuf> = named.chain(sources(&present.join("closed"))).collect();
    assert!(
        files.len() > CLOSED.len(),
        "no source of closed views found"
    );
    let wrong: Vec<String> = files
        .iter()
        .flat_map(|file| {
            let text = text(file);
            let told = |name: &str| format!("{} names {name}", file.display());
            peeks(&text).into_iter().map(told).collect::<Vec<_>>()
        })
        .collect();
    assert_none(&wrong);
    // It finds what it looks for: in views of an open bay, in an alias, in a glob, and not in prose or tests.
    for name in ["levels.rs", "notes.rs", "opened.rs", "toll.rs"] {
        assert!(!peeks(&text(&present.join(name))).is_empty(), "{name}");
    }
    assert_eq!(peeks("use lowside_session::Bay as Shed;"), ["Bay"]);
    assert_eq!(peeks("use lowside_session::*;"), ["::*"]);
    let clean = "// A Bay.\nuse lowside_shop::Hands;\n#[cfg(test)]\nmod tests { use x::Bay; }";
    assert!(peeks(clean).is_empty());
}

/// What a reader is told to run is what is run before a change is taken.
#[test]
fn the_readme_and_the_gate_run_the_same_command() {
    let readme = text(&root().join("README.md"));
    let told = commands(&readme).find(|line| line.starts_with("cargo xtask test"));
    let told = told.expect("README.md shows the test command in a code block");
    let gate = text(&root().join(".ci/run"));
    assert!(
        gate.lines().any(|line| line.trim() == told),
        ".ci/run has no line `{told}`"
    );
}

/// The lines of a Markdown text's fenced code blocks, without prompts and trailing comments.
fn commands(markdown: &str) -> impl Iterator<Item = &str> {
    markdown
        .split("```")
        .skip(1)
        .step_by(2)
        .flat_map(str::lines)
        .map(|line| {
            let line = line.trim().trim_start_matches("$ ");
            line.split(" #").next().unwrap_or_default().trim_end()
        })
}
