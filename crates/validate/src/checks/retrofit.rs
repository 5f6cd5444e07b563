//! The van on R-12 and converted to R-134a: the charge by the trade's rule.

use super::with;
use crate::{
    Job,
    check::{Check, Finding},
    error::Error,
    run::{Run, Runs},
};

/// What fills the section.
pub const JOBS: &[Job] = &[charge];

/// Level in the accumulator from which it counts as wet, share of its volume (own figure).
const WET: f64 = 0.02;
/// Charges between which the least is looked for, kg.
const FROM: (f64, f64) = (0.4, 1.3);
/// Halvings: to 7 g.
const HALVINGS: u32 = 7;

/// Share of what the vehicle does at its label that counts as the same.
const SAME: f64 = 0.99;

/// Least charge of a scenario with which something holds, kg.
fn least(runs: &Runs, name: &str, holds: impl Fn(&Run) -> bool) -> Result<f64, Error> {
    let (mut short, mut enough) = FROM;
    for _ in 0..HALVINGS {
        let middle = 0.5 * (short + enough);
        let run = runs.play(name, &[&with("start.charge", middle, "kg")], &[])?;
        if holds(&run) {
            enough = middle;
        } else {
            short = middle;
        }
    }
    Ok(enough)
}

fn charge(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Charge of a conversion from R-12 to R-134a",
        "75 to 85 % of the R-12 mass for the same performance: the least charge with which the same van does 99 % of what it does at its \
         label, at 35 degC and 1500 rpm, R-134a over R-12; and the least that keeps its accumulator wet, for which some say up to 90 %. \
         The liquids' densities alone would give 92 %.",
        "common practice, as in SAE J1661 (from memory)",
    );
    check.tuned =
        "condenser and liquid line of the van, on R-134a alone; nothing was tuned on R-12".into();
    let ratio = |holds: fn(&Run, f64) -> bool| -> Result<f64, Error> {
        let mut least_of = [0.0; 2];
        for (least_of, name) in least_of.iter_mut().zip(["healthy", "before-retrofit"]) {
            let full = runs.play(name, &[], &[])?.summary.capacity_W;
            *least_of = least(runs, name, |run| holds(run, full))?;
        }
        Ok(100.0 * least_of[0] / least_of[1])
    };
    let same = ratio(|run, full| run.summary.capacity_W >= SAME * full)?;
    let wet = ratio(|run, _| run.summary.accumulator_level > WET)?;
    for (what, found, most) in [
        ("same performance", same, 85.0),
        ("accumulator wet", wet, 90.0),
    ] {
        check.find(Finding::within(what, found, 75.0, most, "%", 1));
    }
    Ok(vec![check])
}
