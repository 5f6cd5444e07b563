//! `lowside scenarios`: what comes with the program.

use crate::failure::Failure;
use lowside_session::{Scenario, library};
use lowside_units::display;
use std::io::Write;

/// List the shipped scenarios: name for `lowside run`, length, what it is.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {}

/// Prints one line a scenario.
///
/// # Errors
/// [`Failure::Asked`] when a shipped scenario does not read; [`Failure::Output`].
pub(crate) fn run(_: &Args, out: &mut impl Write) -> Result<(), Failure> {
    for name in library::scenario_names() {
        let text = library::scenario(name).unwrap_or_default();
        let scenario =
            Scenario::parse(text, &[]).map_err(|e| Failure::Asked(format!("{name}: {e}")))?;
        let time = display::duration(scenario.until).number;
        writeln!(out, "{name:<24} {time:>8}  {}", scenario.name)?;
    }
    Ok(())
}
