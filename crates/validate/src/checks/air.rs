//! Moist air against PsychroLib.

use lowside_fluids::moist_air;

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
/// When the reference table does not read.
pub fn checks(_: &Runs) -> Result<Vec<Check>, Error> {
    let table = Table::read(
        "moist_air",
        include_str!("../../../../tests/data/moist_air.csv"),
    )?;
    let mut check = Check::new(
        "Moist air",
        "Humidity ratio, enthalpy, volume to the digits of the table; dew point and wet bulb to the 1 mK to which the \
         reference iterates, with as much again.",
        "PsychroLib 2.5.0 (ASHRAE Handbook Fundamentals 2017, ch. 1); tests/data/moist_air.csv",
    );
    let mut errors: [Vec<(f64, f64)>; 5] = Default::default();
    for row in table.rows() {
        let (c, rh, p) = (row.get("t_db_C")?, row.get("rh")?, row.get("p_Pa")?);
        let (w, t) = (row.get("w_kgkg")?, c + 273.15);
        let pairs = [
            moist_air::humidity_ratio(t, rh, p) / w - 1.0,
            (moist_air::enthalpy(t, w) - row.get("h_Jkgda")?) / 1e3,
            moist_air::volume(t, w, p) / row.get("v_m3kgda")? - 1.0,
            moist_air::dew_point(w, p) - 273.15 - row.get("t_dew_C")?,
            moist_air::wet_bulb(t, w, p) - 273.15 - row.get("t_wb_C")?,
        ];
        for (into, e) in errors.iter_mut().zip(pairs) {
            into.push((c, e.abs()));
        }
    }
    let asked = [
        ("humidity ratio", 2e-8, ""),
        ("enthalpy", 1e-6, "kJ/kg"),
        ("volume", 1e-6, ""),
        ("dew point", 2e-3, "K"),
        ("wet bulb", 2e-3, "K"),
    ];
    let mut plot = Plot::new(
        "Moist air: error against PsychroLib",
        "dry bulb, degC",
        "error: share, kJ/kg or K",
    )
    .log();
    for ((what, most, unit), points) in asked.into_iter().zip(errors) {
        let worst = points.iter().fold(0.0, |a: f64, p| {
            if p.1.is_nan() {
                f64::INFINITY
            } else {
                a.max(p.1)
            }
        });
        check.find(Finding::error(what, worst, most, unit));
        plot = plot.marks(what, points);
    }
    check.plots.push(plot);
    Ok(vec![check])
}
