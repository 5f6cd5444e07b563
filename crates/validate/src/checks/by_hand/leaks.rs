//! Leaks of a loop at rest beside the theory of capillary and hole.

use lowside_plant::species::REFRIGERANT;

use super::{ATMOSPHERE, at_rest, with};
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    reference::Table,
    run::{Run, Runs},
};

/// Seconds of a year.
const YEAR: f64 = 365.25 * 86_400.0;

/// What a leak loses from the loop at rest, g a year, over ten minutes.
fn lost(run: &Run) -> f64 {
    let gone = run.bay.plant().network.account().to_room[REFRIGERANT];
    gone * 1e3 / run.bay.seconds() * YEAR
}

fn leaking(runs: &Runs, celsius: f64, leak: &str) -> Result<f64, Error> {
    let day = with("day.ambient", celsius, "degC");
    Ok(lost(&*at_rest(runs, &[&day, leak, "until=10min"], &[])?))
}

/// Pressure (Pa), density (kg/m3) and viscosity (Pa s) of saturated R-134a vapour.
fn vapour(celsius: f64) -> Result<[f64; 3], Error> {
    let table = Table::read(
        "saturation",
        include_str!("../../../../../tests/data/r134a_saturation.csv"),
    )?;
    for row in table.rows() {
        if (row.get("T_K")? - 273.15 - celsius).abs() < 0.01 {
            return Ok([
                row.get("p_Pa")?,
                row.get("rho_kgm3_vap")?,
                row.get("mu_Pas_vap")?,
            ]);
        }
    }
    Ok([f64::NAN; 3])
}

/// Hagen and Poiseuille for a gas, kg/s: a tube of radius `r` and length `l` (m) out of vapour `[p, rho, mu]` into the room.
fn poiseuille(r: f64, l: f64, [p, rho, mu]: [f64; 3]) -> f64 {
    let squares = p * p - ATMOSPHERE * ATMOSPHERE;
    core::f64::consts::PI * r.powi(4) * squares * rho / (16.0 * mu * l * p)
}

/// A seal that leaks is a tube: what it loses on a cold and on a hot day follows from what it loses at 20 degC.
pub(super) fn capillary(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "A small leak creeps as gas in a tube",
        "A tube of 8 um bore and 10 mm length: its loss at 20 degC worked out, set as the leak's size, and the van left at rest on days of 0 to \
         50 degC: within 5 % of what the same tube passes there.",
        "Hagen & Poiseuille, compressible and isothermal; pressures, densities and viscosities: CoolProp 8.0.0, tests/data",
    );
    let tube = |celsius: f64| -> Result<f64, Error> {
        Ok(poiseuille(4e-6, 10e-3, vapour(celsius)?) * 1e3 * YEAR)
    };
    let stated = tube(20.0)?;
    let leak = format!(r#"condition.leak=[{{at="discharge-hose",rate="{stated} g/yr"}}]"#);
    let (mut ours, mut theory) = (Vec::new(), Vec::new());
    for celsius in [0.0, 10.0, 20.0, 30.0, 40.0, 50.0] {
        let (found, asked) = (leaking(runs, celsius, &leak)?, tube(celsius)?);
        check.find(Finding::within(
            format!("{celsius} degC"),
            found,
            0.95 * asked,
            1.05 * asked,
            "g a year",
            2,
        ));
        ours.push((celsius, found));
        theory.push((celsius, asked));
    }
    check.plots.push(
        Plot::new("A tube of 8 um bore, 10 mm long", "day, degC", "g a year")
            .marks("ours", ours)
            .curve("Hagen & Poiseuille", theory),
    );
    Ok(vec![check])
}

/// Ratio of heat capacities of R-134a vapour near saturation at 20 degC, counted as an ideal gas (CoolProp 8.0.0: 1.12).
const GAMMA: f64 = 1.12;

/// A hole loses what a nozzle of its area passes at the speed of sound, times what a sharp edge leaves of it.
pub(super) fn hole(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "A hole chokes",
        "Flow at the speed of sound through 0.05 to 0.2 mm, the van at rest at 20 degC: discharge coefficient against an ideal nozzle 0.60 to 0.85, \
         as a sharp edge has it between low and far overcritical pressure.",
        "isentropic nozzle (de Saint-Venant & Wantzel); coefficients of sharp edges at overcritical pressure: Perry 1949, from memory",
    );
    let [p, rho, _] = vapour(20.0)?;
    let critical = GAMMA.sqrt() * (2.0 / (GAMMA + 1.0)).powf((GAMMA + 1.0) / (2.0 * (GAMMA - 1.0)));
    for mm in [0.05, 0.1, 0.2] {
        let leak = format!(r#"condition.leak=[{{at="discharge-hose",hole="{mm} mm"}}]"#);
        let area = core::f64::consts::FRAC_PI_4 * (mm * 1e-3_f64).powi(2);
        let nozzle = critical * area * (p * rho).sqrt() * 1e3 * YEAR;
        let found = leaking(runs, 20.0, &leak)?;
        check.find(Finding::within(
            format!("{mm} mm: {found:.0} g a year of {nozzle:.0}"),
            found / nozzle,
            0.60,
            0.85,
            "of the nozzle",
            3,
        ));
    }
    Ok(vec![check])
}
