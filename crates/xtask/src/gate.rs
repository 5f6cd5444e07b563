//! `cargo xtask test`: what must hold before a change is taken, in the order that finds a mistake soonest.
use std::{thread, time::Instant};

use anyhow::{Context, Result, bail};

use crate::{
    browser, page,
    place::{Place, run, works},
    tools,
};

/// Runs every check, or with `fast` those that need neither the page nor a browser. Stops at the first that fails.
pub(crate) fn run_all(place: &Place, fast: bool) -> Result<()> {
    let mut steps = Steps::default();
    tools::ensure_component("fmt", "rustfmt")?;
    tools::ensure_component("clippy", "clippy")?;
    steps.step("format", || {
        run(&mut place.cargo(&["fmt", "--all", "--check"]))
    })?;
    steps.step("lints, native", || {
        let mut cargo = place.cargo(&[
            "clippy",
            "--quiet",
            "--workspace",
            "--exclude=lowside-web",
            "--all-targets",
        ]);
        run(cargo.args(["--", "--deny=warnings"]))
    })?;
    steps.step("native tests", || native_tests(place))?;
    if fast {
        steps.report();
        println!(
            "left out with --fast: lints of the page, doc examples, documentation, the page, browser tests"
        );
        return Ok(());
    }
    tools::ensure_wasm_target()?;
    steps.step("lints, page", || {
        let mut cargo = place.cargo(&[
            "clippy",
            "--quiet",
            "--package=lowside-web",
            "--target=wasm32-unknown-unknown",
        ]);
        // The page's own profile: macros and build scripts are compiled once for both.
        run(cargo.args(["--profile", page::PROFILE, "--", "--deny=warnings"]))
    })?;
    // The page's linker keeps one core busy; the documentation is made beside it.
    let site = thread::scope(|scope| {
        let page = scope.spawn(|| page::build(place, false));
        steps.step("doc examples", || doc_examples(place))?;
        steps.step("documentation", || documentation(place))?;
        steps.step("page, what was left of it", || {
            page.join().unwrap_or_else(|_| bail!("building it failed"))
        })
    })?;
    site.hold()?;
    steps.step("browser tests", || browser::test(place, site, &[]))?;
    steps.report();
    Ok(())
}

/// Runs what the gate takes a part of: random bays by the hundred, and keys at random by the hundred thousand.
pub(crate) fn run_deep(place: &Place) -> Result<()> {
    let mut steps = Steps::default();
    steps.step("random bays", || {
        let mut cargo = place.cargo(&["test", "--workspace", "--exclude=lowside-web", "--tests"]);
        run(cargo.args(["--", "--ignored"]))
    })?;
    let site = steps.step("page", || page::build(place, false))?;
    steps.step("keys at random", || {
        browser::press_keys(place, site, 300_000)
    })?;
    steps.report();
    Ok(())
}

fn doc_examples(place: &Place) -> Result<()> {
    run(&mut place.cargo(&[
        "test",
        "--quiet",
        "--workspace",
        "--exclude=lowside-web",
        "--doc",
    ]))
}

fn documentation(place: &Place) -> Result<()> {
    let mut cargo = place.cargo(&[
        "doc",
        "--quiet",
        "--no-deps",
        "--workspace",
        "--exclude=lowside-web",
    ]);
    run(cargo
        .arg("--document-private-items")
        .env("RUSTDOCFLAGS", "--deny=warnings"))
}

/// With nextest where it is installed (each test its own process, quicker on many), else with cargo's own runner.
fn native_tests(place: &Place) -> Result<()> {
    let what = ["--workspace", "--exclude=lowside-web", "--no-fail-fast"];
    if works("cargo-nextest", &["--version"]) {
        run(place.cargo(&["nextest", "run"]).args(what))
    } else {
        run(place
            .cargo(&["test", "--lib", "--bins", "--tests"])
            .args(what))
    }
}

/// The steps taken and the seconds each took.
#[derive(Default)]
struct Steps {
    taken: Vec<(&'static str, f64)>,
}

impl Steps {
    fn step<T>(&mut self, name: &'static str, work: impl FnOnce() -> Result<T>) -> Result<T> {
        println!("\n== {name}");
        let started = Instant::now();
        let done = work().with_context(|| format!("{name}: not passed"))?;
        self.taken.push((name, started.elapsed().as_secs_f64()));
        Ok(done)
    }

    fn report(&self) {
        println!();
        for (name, seconds) in &self.taken {
            println!("{seconds:>7.1} s  {name}");
        }
        let all: f64 = self.taken.iter().map(|(_, seconds)| seconds).sum();
        println!("{all:>7.1} s  all {} steps passed", self.taken.len());
    }
}
