//! Water against IAPWS.

use lowside_session::greater;

use lowside_fluids::water;

use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    reference::Table,
    run::Runs,
};

/// The checks.
///
/// # Errors
/// When a reference table does not read.
pub fn checks(_: &Runs) -> Result<Vec<Check>, Error> {
    let mut line = Check::new(
        "Water: saturation over ice and liquid",
        "Saturation pressure within 1e-4 over liquid (the short equation against IAPWS-95) and 1e-6 over ice; boiling \
         temperature back within 5 mK.",
        "IAPWS-95 (Wagner & Pruss 2002) and IAPWS R14-08 by CoolProp 8.0.0; tests/data/water_saturation.csv",
    );
    let (mut ice, mut liquid, mut back) = (Vec::new(), Vec::new(), Vec::new());
    let table = Table::read(
        "water_saturation",
        include_str!("../../../../tests/data/water_saturation.csv"),
    )?;
    for row in table.rows() {
        let (t, p) = (row.get("T_K")?, row.get("p_Pa")?);
        let point = (t - 273.15, (water::p_sat(t) / p - 1.0).abs());
        if row.text("over")? == "ice" {
            ice.push(point);
        } else {
            liquid.push(point);
        }
        back.push((t - 273.15, (water::boiling_temperature(p) - t).abs()));
    }
    let worst = |points: &[(f64, f64)]| points.iter().fold(0.0, |a, p| greater(a, p.1));
    line.find(Finding::error("pressure over ice", worst(&ice), 1e-6, ""));
    line.find(Finding::error(
        "pressure over liquid",
        worst(&liquid),
        1e-4,
        "",
    ));
    line.find(Finding::error(
        "boiling temperature",
        worst(&back),
        5e-3,
        "K",
    ));
    line.plots.push(
        Plot::new(
            "Water: error along saturation",
            "temperature, degC",
            "error: share or K",
        )
        .log()
        .marks("pressure over ice", ice)
        .marks("pressure over liquid", liquid)
        .marks("boiling temperature, K", back),
    );
    let mut points = Check::new(
        "Water: check values",
        "Triple point, ice at 230 K, normal boiling point.",
        "IAPWS SR1-86(1992) table 1; IAPWS R14-08(2011)",
    );
    for (what, got, asked) in [
        (
            "over liquid at 273.16 K",
            water::p_sat_liquid(273.16),
            611.657,
        ),
        ("over ice at 230 K", water::p_sat_ice(230.0), 8.947_35),
        (
            "over liquid at 373.1243 K",
            water::p_sat_liquid(373.1243),
            101_325.0,
        ),
    ] {
        let by = 1e-5 * asked;
        points.find(Finding::within(what, got, asked - by, asked + by, "Pa", 5));
    }
    Ok(vec![line, points])
}
