//! `lowside faults`: what can be wrong with a vehicle, its filling or the gauge set.

use crate::{failure::Failure, open};
use lowside_plant::vehicle::Vehicle;
use lowside_session::scenario::setting;
use lowside_shop::{
    fault::{self, Fault, Severity},
    record::Prices,
};
use std::{io::Write, path::PathBuf};

/// List the faults: what sets each at four severities in a scenario's vehicle, what shows, what cures it and costs, what it looks like.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// Name of a shipped scenario or path of a TOML file.
    #[arg(default_value = "healthy")]
    scenario: PathBuf,
}

/// Prints some lines a fault.
///
/// # Errors
/// [`Failure::Asked`] when the scenario does not read; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let vehicle = open::scenario(&args.scenario, &[])?.vehicle;
    for fault in fault::all() {
        told(fault, &vehicle, out)?;
    }
    Ok(())
}

/// What a fault, or what is said of it, is called.
fn said<'a>(id: &'a str, more: &str) -> &'a str {
    lowside_words::fault(&format!("{id}{more}")).unwrap_or(id)
}

fn told(fault: &Fault, vehicle: &Vehicle, out: &mut impl Write) -> Result<(), Failure> {
    let id = fault.id;
    writeln!(out, "{}", said(id, ""))?;
    let mut last = String::new();
    for severity in Severity::ALL {
        let set = setting(fault, severity, vehicle);
        if set != last {
            writeln!(out, "  {:<9} --set '{set}'", severity.name())?;
        }
        last = set;
    }
    writeln!(out, "  shows     {}", said(id, ".sign"))?;
    let cost = fault.cost(&Prices::default());
    let cure = said(id, ".cure");
    writeln!(
        out,
        "  cure      {cure}; {} h, {cost:.0} in all",
        fault.hours
    )?;
    let alike: Vec<&str> = fault.look_alikes().map(|f| said(f.id, "")).collect();
    if !alike.is_empty() {
        writeln!(out, "  may be    {}", alike.join("; "))?;
    }
    Ok(())
}
