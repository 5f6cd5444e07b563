//! Refrigerant properties: equations and fast tables against CoolProp's tables.

use lowside_fluids::{
    Refrigerant, Table as Fast,
    saturation::{at_pressure, at_temperature},
};

use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    reference::Table,
    run::Runs,
};

const SOURCE: &str = "CoolProp 8.0.0 with the same papers: R-134a Tillner-Roth & Baehr 1994, R-12 Marx, Pruss & Wagner 1992, \
                      R-1234yf Lemmon & Akasaka 2022; tests/data";

fn files(gas: Refrigerant) -> Result<(Table, Table), Error> {
    let (line, phase) = match gas {
        Refrigerant::R134a => (
            include_str!("../../../../tests/data/r134a_saturation.csv"),
            include_str!("../../../../tests/data/r134a_single_phase.csv"),
        ),
        Refrigerant::R12 => (
            include_str!("../../../../tests/data/r12_saturation.csv"),
            include_str!("../../../../tests/data/r12_single_phase.csv"),
        ),
        Refrigerant::R1234yf => (
            include_str!("../../../../tests/data/r1234yf_saturation.csv"),
            include_str!("../../../../tests/data/r1234yf_single_phase.csv"),
        ),
    };
    Ok((
        Table::read("saturation", line)?,
        Table::read("single_phase", phase)?,
    ))
}

/// The checks.
///
/// # Errors
/// When a reference table does not read.
pub fn checks(_: &Runs) -> Result<Vec<Check>, Error> {
    let mut found = Vec::new();
    for gas in Refrigerant::ALL {
        let (line, phase) = files(gas)?;
        found.push(saturation(gas, &line)?);
        found.push(single_phase(gas, &phase)?);
    }
    found.push(fixed_points());
    Ok(found)
}

/// Largest of the absolute values of the second numbers.
fn worst(points: &[(f64, f64)]) -> f64 {
    // NaN is the worst there is.
    points.iter().fold(0.0, |a, p| {
        if p.1.is_nan() {
            f64::INFINITY
        } else {
            f64::max(a, p.1)
        }
    })
}

fn saturation(gas: Refrigerant, file: &Table) -> Result<Check, Error> {
    let mut check = Check::new(
        format!("{gas}: saturation line"),
        "Fast table against reference, -60 degC to the table's warm end (0.985 of the critical temperature): pressure 0.02 %, \
         temperature 0.02 K, density 0.1 %, enthalpy 0.1 kJ/kg. The equation itself to the digits of the file.",
        SOURCE,
    );
    let (table, eq) = (gas.table(), gas.equation());
    let mut curves: [Vec<(f64, f64)>; 4] = Default::default();
    let mut exact = Vec::new();
    for row in file.rows() {
        let t = row.get("T_K")?;
        let p = row.get("p_Pa")?;
        if let Ok(e) = at_temperature(eq, t) {
            exact.push((t, (e.p / p - 1.0).abs()));
        }
        if t > table.t_max() {
            continue;
        }
        let s = table.sat(t);
        let c = t - 273.15;
        curves[0].push((c, (s.p / p - 1.0).abs()));
        curves[1].push((c, (table.t_sat(p) - t).abs()));
        for (rho, name) in [(s.rho_l, "rho_kgm3_liq"), (s.rho_g, "rho_kgm3_vap")] {
            curves[2].push((c, (rho / row.get(name)? - 1.0).abs()));
        }
        for (h, name) in [(s.h_l(), "h_Jkg_liq"), (s.h_g(), "h_Jkg_vap")] {
            curves[3].push((c, (h - row.get(name)?).abs() / 1e3));
        }
    }
    let asked = [
        ("pressure", 2e-4, ""),
        ("temperature", 0.02, "K"),
        ("density of either phase", 1e-3, ""),
        ("enthalpy of either phase", 0.1, "kJ/kg"),
    ];
    let mut plot = Plot::new(
        format!("{gas}: error of the fast table along saturation"),
        "temperature, degC",
        "error: share, K or kJ/kg",
    )
    .log();
    for ((what, most, unit), points) in asked.into_iter().zip(curves) {
        check.find(Finding::error(what, worst(&points), most, unit));
        let name = if unit.is_empty() {
            what.to_owned()
        } else {
            format!("{what}, {unit}")
        };
        plot = plot.marks(name, points);
    }
    check.find(Finding::error(
        "pressure, equation itself",
        worst(&exact),
        2e-8,
        "",
    ));
    check.plots.push(plot);
    Ok(check)
}

/// Density that the table gives at `p` and `t`.
fn density(table: &Fast, liquid: bool, p: f64, t: f64, start: f64) -> f64 {
    let sat = table.sat(t);
    let mut rho = start;
    for _ in 0..50 {
        let e = if liquid {
            table.liquid(rho, t, &sat)
        } else {
            table.vapour(rho, t)
        };
        rho += (p - e.p) / e.dp_drho;
    }
    rho
}

/// Bins of the error map, largest first.
const BINS: [(f64, &str); 4] = [
    (1e-3, "above 0.1 %"),
    (1e-4, "0.01 % to 0.1 %"),
    (1e-6, "1e-6 to 1e-4"),
    (0.0, "below 1e-6"),
];

fn single_phase(gas: Refrigerant, file: &Table) -> Result<Check, Error> {
    let mut check = Check::new(
        format!("{gas}: vapour and compressed liquid"),
        "Fast table against reference at pressure and temperature: density 0.1 %, enthalpy 0.1 kJ/kg; temperature found \
         from density and energy 0.02 K. The map shows where the density's error lies.",
        SOURCE,
    );
    let table = gas.table();
    let (mut rho_err, mut h_err, mut t_err) = (Vec::new(), Vec::new(), Vec::new());
    let mut map: [Vec<(f64, f64)>; 4] = Default::default();
    for row in file.rows() {
        let (t, p) = (row.get("T_K")?, row.get("p_Pa")?);
        let liquid = row.text("phase")? == "liquid";
        if (liquid && t > table.t_max()) || t > lowside_fluids::table::T_HOT {
            continue;
        }
        let (rho, h, u) = (row.get("rho_kgm3")?, row.get("h_Jkg")?, row.get("u_Jkg")?);
        let ours = density(table, liquid, p, t, rho);
        let e = if liquid {
            table.liquid(ours, t, &table.sat(t))
        } else {
            table.vapour(ours, t)
        };
        let off = (ours / rho - 1.0).abs();
        let c = t - 273.15;
        rho_err.push((c, off));
        h_err.push((c, (e.u + p / ours - h).abs() / 1e3));
        // Nine digits of a liquid's density leave its pressure open, not its temperature.
        t_err.push((c, (table.state(rho, u, t + 1.0).t - t).abs()));
        let bin = BINS.iter().position(|b| off >= b.0).unwrap_or(0);
        map[bin].push((h / 1e3, p / 1e3));
    }
    check.find(Finding::error("density", worst(&rho_err), 1e-3, ""));
    check.find(Finding::error("enthalpy", worst(&h_err), 0.1, "kJ/kg"));
    check.find(Finding::error(
        "temperature from density and energy",
        worst(&t_err),
        0.02,
        "K",
    ));
    let mut plot = Plot::new(
        format!("{gas}: error of density over enthalpy and pressure"),
        "enthalpy, kJ/kg",
        "pressure, kPa",
    )
    .log();
    for ((_, name), points) in BINS.into_iter().zip(map) {
        plot = plot.marks(name, points);
    }
    check.plots.push(plot);
    check.plots.push(
        Plot::new(format!("{gas}: errors"), "temperature, degC", "error")
            .log()
            .marks("density, share", rho_err)
            .marks("enthalpy, kJ/kg", h_err)
            .marks("temperature, K", t_err),
    );
    Ok(check)
}

fn fixed_points() -> Check {
    let mut check = Check::new(
        "Critical points, boiling points, molar masses",
        "What the equations hold against printed single values.",
        "NIST (critical points) and ASHRAE Standard 34 (molar masses), from memory; boiling points from the papers of the \
         equations, from memory",
    );
    for (gas, t, p, mass, boils) in [
        (Refrigerant::R134a, 374.21, 4.0593, 102.03, 247.076),
        (Refrigerant::R12, 385.12, 4.1361, 120.91, 243.398),
        (Refrigerant::R1234yf, 367.85, 3.3822, 114.04, 243.665),
    ] {
        let eq = gas.equation();
        let near = |what: &str, got: f64, asked: f64, by: f64, unit: &str, decimals| {
            Finding::within(
                format!("{gas}: {what}"),
                got,
                asked - by,
                asked + by,
                unit,
                decimals,
            )
        };
        check.find(near("critical temperature", eq.t_crit(), t, 0.05, "K", 2));
        check.find(near(
            "critical pressure",
            eq.p_crit() / 1e6,
            p,
            0.003,
            "MPa",
            4,
        ));
        check.find(near(
            "molar mass",
            eq.molar_mass() * 1e3,
            mass,
            0.02,
            "g/mol",
            2,
        ));
        let at = at_pressure(eq, 101_325.0).map_or(f64::NAN, |s| s.t);
        check.find(near("boils at 1 atm", at, boils, 0.05, "K", 3));
    }
    check
}
