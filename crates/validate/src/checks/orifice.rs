//! The orifice tube against three published correlations.

use lowside_session::greater;

use std::fmt::Write as _;

use lowside_fluids::Refrigerant;
use lowside_plant::orifice::{Inlet, Orifice};

use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    reference::{Row, Table},
    run::Runs,
};

const SOURCE: &str = "Payne & O'Neal, HVAC&R Research 10(1) (2004) 73; Choi, Chung & Kim, Int. J. Refrig. 27 (2004) 393; form of Kim & \
                      O'Neal, ASHRAE Trans. 100 (1994); coefficients from a secondary source; tests/data/orifice_flow.csv";

const FIFTEEN: &str = "0.0 to 15.0 %";
const OWN_SPREAD: &str = "The three correlations differ from each other by as much over these rows: the smallest bore and the highest subcooling lie outside the \
                          data of one.";

/// Our choked flow for a row of the table, kg/s.
fn ours(row: &Row<'_>) -> Result<f64, Error> {
    let gas: Refrigerant = row.parse("fluid", "a refrigerant")?;
    let (p, subcooling) = (row.get("p_up_Pa")?, row.get("subcooling_K")?);
    let table = gas.table();
    let t_sat = table.t_sat(p);
    let sat = table.sat(t_sat);
    let inlet = Inlet {
        p,
        p_sat: table.p_sat(t_sat - subcooling),
        subcooling,
        quality: row.get("quality")?,
        rho_liq: sat.rho_l,
        rho_gas: sat.rho_g,
        p_crit: table.p_crit(),
        t_crit: table.t_crit(),
    };
    let tube = Orifice {
        bore: row.get("d_m")?,
        length: row.get("l_m")?,
        open: 1.0,
    };
    Ok(tube.choked_flux(&inlet) * tube.area())
}

/// The checks.
///
/// # Errors
/// When the reference table does not read.
pub fn checks(_: &Runs) -> Result<Vec<Check>, Error> {
    let table = Table::read(
        "orifice_flow",
        include_str!("../../../../tests/data/orifice_flow.csv"),
    )?;
    let mut check = Check::new(
        "Choked flow of the orifice tube",
        "Payne & O'Neal to 0.1 %, subcooled and two-phase. The other two, subcooled and bores of 1.5 mm and more: 25 %, \
         the agreement that the three have between them.",
        SOURCE,
    );
    let (mut payne, mut choi, mut kim) = (0.0f64, Vec::new(), Vec::new());
    let mut spread = Vec::new();
    let mut curves: [Vec<(f64, f64)>; 4] = Default::default();
    for row in table.rows() {
        let flow = ours(&row)?;
        payne = payne.max((flow / row.get("payne_kgs")? - 1.0).abs());
        let (sub, bore, p) = (
            row.get("subcooling_K")?,
            row.get("d_m")?,
            row.get("p_up_Pa")?,
        );
        let gas: Refrigerant = row.parse("fluid", "a refrigerant")?;
        let (Some(c), Some(k)) = (row.maybe("choi_kgs")?, row.maybe("kim_kgs")?) else {
            continue;
        };
        if bore < 1.5e-3 - 1e-9 {
            continue;
        }
        choi.push((flow * 1e3, (flow / c - 1.0) * 100.0));
        kim.push((flow * 1e3, (flow / k - 1.0) * 100.0));
        spread.push((c / k - 1.0).abs() * 100.0);
        if (p - 1.6e6).abs() < 1.0 && (bore - 1.7e-3).abs() < 0.03e-3 && gas == Refrigerant::R134a {
            for (into, y) in curves.iter_mut().zip([flow, row.get("payne_kgs")?, c, k]) {
                into.push((sub, y * 1e3));
            }
        }
    }
    let worst = |points: &[(f64, f64)]| points.iter().fold(0.0, |a, p| greater(a, p.1.abs()));
    check.find(Finding::error("Payne & O'Neal", payne, 1e-3, ""));
    check.find(
        Finding::within(
            "Choi, Chung & Kim: largest difference",
            worst(&choi),
            0.0,
            25.0,
            "%",
            1,
        )
        .instead_of(FIFTEEN, OWN_SPREAD),
    );
    check.find(
        Finding::within(
            "Kim & O'Neal: largest difference",
            worst(&kim),
            0.0,
            25.0,
            "%",
            1,
        )
        .instead_of(FIFTEEN, OWN_SPREAD),
    );
    let apart = spread.iter().fold(0.0, |a, s| greater(a, *s));
    let _ = write!(
        check.asked,
        " Choi and Kim themselves differ by up to {apart:.0} % over the same rows."
    );
    check.plots.push(
        Plot::new(
            "Difference from the other two correlations, bores from 1.5 mm",
            "our flow, g/s",
            "ours over theirs - 1, %",
        )
        .marks("Choi, Chung & Kim", choi)
        .marks("Kim & O'Neal", kim),
    );
    let [a, b, c, d] = curves;
    check.plots.push(
        Plot::new(
            "R-134a at 1.6 MPa, bore 1.7 mm",
            "subcooling, K",
            "flow, g/s",
        )
        .curve("ours", a)
        .curve("Payne & O'Neal", b)
        .curve("Choi, Chung & Kim", c)
        .curve("Kim & O'Neal", d),
    );
    Ok(vec![check])
}
