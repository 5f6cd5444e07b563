//! Published figures that our loop cannot run yet, and what each needs.

use crate::{
    check::{Check, Finding},
    error::Error,
    run::Runs,
};

const ROWS: &[(&str, &str, &str)] = &[
    (
        "6b. Expansion-valve system of 28 oz flat down to about 22 oz",
        "an expansion valve: the loop has an orifice tube by its design",
        "a trade association's article, 2021-07-20",
    ),
    (
        "10. R-134a's performance over CO2's",
        "CO2 as a refrigerant: a cycle above its critical point, which no table here holds",
        "Brown, Yana-Motta & Domanski, Int. J. Refrig. 25 (2002) 19",
    ),
    (
        "11. Mass of five sections over time after shut-down",
        "the measurements (only the abstract was reachable); ours are drawn under \"Shut-down\"",
        "Peuker, University of Illinois 2010",
    ),
    (
        "15. Purity of recycled R-134a",
        "the recycling stage of a machine (filter, drier, purge of air): ours recovers, and takes all the oil out",
        "SAE J2099",
    ),
];

/// One check an unreachable row.
///
/// # Errors
/// None.
#[expect(clippy::unnecessary_wraps, reason = "a job may fail, this one cannot")]
pub(super) fn checks(_: &Runs) -> Result<Vec<Check>, Error> {
    Ok(ROWS
        .iter()
        .map(|(what, needs, source)| {
            let mut check = Check::new(*what, "Cannot be run yet.", *source);
            check.find(Finding::not_yet(*what, needs));
            check
        })
        .collect())
}
