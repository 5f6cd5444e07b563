//! `cargo xtask validate`: every outside check in one report. The engine is built and run as a program of its own, so that this
//! tool needs none of it.
use anyhow::{Context, Result};

use crate::place::{Place, run as run_program};

/// Builds and runs the checks; the report stands in the target directory whether or not a check misses.
pub(crate) fn run(place: &Place) -> Result<()> {
    let out = place.target.join("validation");
    let mut cargo = place.cargo(&["run", "--release", "--package=lowside-validate", "--"]);
    let done = run_program(cargo.arg("--out").arg(&out));
    println!("the report: {}", out.join("report.html").display());
    done.context("not every figure is what is asked")
}
