//! Published figures that our loop cannot run yet, and what each needs.

use crate::{
    check::{Check, Finding},
    error::Error,
    run::Runs,
};

const ROWS: &[(&str, &str, &str)] = &[
    (
        "6b. Expansion-valve system of 28 oz flat down to about 22 oz",
        "an expansion valve",
        "a trade association's article, 2021-07-20",
    ),
    (
        "9. Irreversibility +18 % from idle to 48 km/h, +5 % from 48 to 97 km/h",
        "the engine speeds of that car (only the abstract was reachable)",
        "Ratts & Brown, Appl. Therm. Eng. 20 (2000) 1039",
    ),
    (
        "10. R-134a's performance over CO2's",
        "CO2 as a refrigerant",
        "Brown, Yana-Motta & Domanski, Int. J. Refrig. 25 (2002) 19",
    ),
    (
        "11. Mass of five sections over time after shut-down",
        "the measurements (only the abstract was reachable); ours are drawn under \"Shut-down\"",
        "Peuker, University of Illinois 2010",
    ),
    (
        "12. Oil circulation peaks about 10 s after the clutch engages",
        "a reading of the oil in circulation",
        "SAE 980286, abstract",
    ),
    (
        "15. Purity of recycled R-134a",
        "recovery and recycling",
        "SAE J2099",
    ),
    (
        "18. Solubility of water",
        "water dissolved in refrigerant",
        "ASHRAE Handbook Refrigeration, moisture chapter",
    ),
    (
        "19. Charge to 15 g, and the check by recovery",
        "a recovery machine",
        "SAE J639, J2788 (from memory)",
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
