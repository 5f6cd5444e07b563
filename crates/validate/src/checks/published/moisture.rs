//! Water that liquid refrigerant dissolves.

use lowside_session::greater;

use lowside_fluids::{Refrigerant, moisture};

use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::Runs,
};

/// Degrees Fahrenheit; mg/kg in R-134a; in R-12.
const ROWS: [(f64, f64, f64); 15] = [
    (160.0, 4200.0, 700.0),
    (140.0, 3200.0, 440.0),
    (120.0, 2400.0, 270.0),
    (100.0, 1800.0, 165.0),
    (80.0, 1300.0, 98.0),
    (70.0, 1100.0, 76.0),
    (60.0, 880.0, 58.0),
    (50.0, 730.0, 44.0),
    (40.0, 600.0, 32.0),
    (30.0, 490.0, 23.3),
    (20.0, 390.0, 16.6),
    (10.0, 320.0, 11.8),
    (0.0, 250.0, 8.3),
    (-20.0, 150.0, 3.8),
    (-40.0, 89.0, 1.7),
];

/// A row's gas, its column and its name.
type Column = (Refrigerant, fn(&(f64, f64, f64)) -> f64, &'static str);

#[expect(clippy::unnecessary_wraps, reason = "a job may fail, this one cannot")]
pub(super) fn solubility(_: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "18. Solubility of water in liquid refrigerant",
        "-40 to 160 degF: within 3 %, rounded to a tenth (the table has two figures, half its last digit is up to 3 % by itself).",
        "ASHRAE Handbook - Refrigeration, moisture chapter; the model's law is a fit to this table",
    );
    check.tuned = "the three numbers of each gas's law".into();
    let kelvin = |f: f64| (f - 32.0) / 1.8 + 273.15;
    let columns: [Column; 2] = [
        (Refrigerant::R134a, |r| r.1, "R-134a"),
        (Refrigerant::R12, |r| r.2, "R-12"),
    ];
    let mut plot = Plot::new("Water in saturated liquid", "temperature, degF", "mg/kg").log();
    for (gas, printed, name) in columns {
        let ours = |f: f64| 1e6 * moisture::solubility(gas, kelvin(f));
        let worst = ROWS
            .iter()
            .map(|r| 100.0 * (ours(r.0) / printed(r) - 1.0).abs())
            .fold(0.0, greater);
        check.find(Finding::within(
            format!("{name}: largest difference of 15"),
            worst,
            0.0,
            3.05,
            "%",
            1,
        ));
        plot = plot
            .curve(name, ROWS.iter().map(|r| (r.0, ours(r.0))).collect())
            .marks(
                format!("{name}, handbook"),
                ROWS.iter().map(|r| (r.0, printed(r))).collect(),
            );
    }
    check.plots.push(plot);
    Ok(vec![check])
}
