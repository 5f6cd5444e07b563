//! The truth about R-12 left in R-134a.

use lowside_fluids::Blend;
use lowside_session::HoseAct;

use super::open;
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    reference::Table,
    run::{Run, Runs},
};

/// 75 degF, K.
const ROOM: f64 = (75.0 + 459.67) / 1.8;
/// One psi, kPa (NIST SP 811).
const PSI: f64 = 6.894_757;
/// The van at rest at 75 degF for 100 minutes.
const STILL: [&str; 5] = [
    "engine.on=false",
    "controls.ac=false",
    "day.ambient=75degF",
    "start.cabin=75degF",
    "until=100min",
];

/// Gauge pressure of the low side in a sample nearest to a time, psi.
fn psig(run: &Run, t: f64) -> f64 {
    let near = |a: f64| (a - t).abs();
    run.samples
        .iter()
        .min_by(|a, b| near(a.t).total_cmp(&near(b.t)))
        .map_or(f64::NAN, |s| s.low / PSI)
}

/// The loop left alone for an hour, then two minutes of gas let out at the low side, then left alone again until it is warm: psig before
/// and after, and the share of the charge that went.
fn vented(runs: &Runs, content: &str) -> Result<[f64; 3], Error> {
    let mut all = STILL.to_vec();
    all.push(content);
    let acts = [(3600.0, 0.2), (3720.0, 0.0)]
        .map(|(t, share)| (t, HoseAct::LowValve { open: open(share) }.into()));
    let run = runs.play("healthy", &all, &acts)?;
    let left = run.bay.charge();
    let charge = run.bay.scenario().start.charge().unwrap_or(f64::NAN);
    Ok([psig(&run, 3599.0), psig(&run, 6000.0), 1.0 - left / charge])
}

/// 7: it raises the pressure as air does, and no purging takes it away.
pub(super) fn alone(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "7. R-12 left in R-134a looks like air and cannot be purged",
        "At rest at 75 degF: 77-79 psig pure (see truth 6), about 88 psig at 10 mol % of R-12, 100 at 50 %. The mixture has one \
         composition in both phases here, so that its pressure lies between dew and bubble: that is asked, and bubble is what \
         about 88 and 100 are. Then gas is let out at the low side for two minutes: the pressure comes back; with air in place of R-12 it \
         comes back lower. The head of the running van rises with the R-12.",
        "Kunz & Wagner 2012 with Bell & Lemmon 2016 by CoolProp 8.0.0 (tests/data/r12_r134a_saturation.csv); trade knowledge",
    );
    let file = Table::read(
        "r12_r134a_saturation.csv",
        include_str!("../../../../../tests/data/r12_r134a_saturation.csv"),
    )?;
    let gauge = |pa: f64| (pa - 101_325.0) / 1e3 / PSI;
    for x in [0.1, 0.5] {
        let content = by_moles(x);
        let [before, after, gone] = vented(runs, &content)?;
        for row in file.rows() {
            if (row.get("x_R12")? - x).abs() < 1e-9 && (row.get("T_K")? - ROOM).abs() < 0.01 {
                // The van's own reading to a tenth.
                let (dew, bubble) = (gauge(row.get("p_dew")?), gauge(row.get("p_bubble")?));
                check.find(Finding::within(
                    format!("at rest, {:.0} mol % of R-12", x * 100.0),
                    before,
                    dew - 0.1,
                    bubble + 0.1,
                    "psig",
                    1,
                ));
            }
        }
        check.find(Finding::holds(
            format!("the same after {:.0} % of it was let out", gone * 100.0),
            format!("{after:.1} psig"),
            "as before within 1 psi",
            (after - before).abs() < 1.0 && gone > 0.1,
        ));
    }
    let [before, after, gone] = vented(runs, "start.air=5g")?;
    let pure = gauge(lowside_fluids::Refrigerant::R134a.table().p_sat(ROOM));
    check.find(Finding::holds(
        format!("5 g of air in its place, {:.0} % let out", gone * 100.0),
        format!(
            "{:.1}, then {:.1} psi above saturation",
            before - pure,
            after - pure
        ),
        "at least a third of the excess gone",
        after - pure < 0.667 * (before - pure),
    ));
    let (mut head, mut low) = (Vec::new(), Vec::new());
    for percent in [0.0, 5.0, 10.0, 20.0, 30.0, 40.0] {
        let run = runs.healthy(&[&format!("start.other_refrigerant={}", percent / 100.0)])?;
        head.push((percent, run.on.high));
        low.push((percent, run.on.low));
    }
    check.find(Finding::holds(
        "head with 0 to 40 % (by mass) of R-12, 35 degC, 1 500 rpm",
        head.iter()
            .map(|(_, p)| format!("{p:.0}"))
            .collect::<Vec<_>>()
            .join(", ")
            + " kPag",
        "each higher than the one before",
        head.windows(2).all(|w| w[1].1 > w[0].1),
    ));
    let standing = |x: f64| gauge(blend(x).map_or(f64::NAN, |b| b.table().p_sat(ROOM)));
    check.plots.push(
        Plot::new("Standing pressure at 75 degF", "R-12, mol %", "psig").curve(
            "one composition",
            (0..=20)
                .map(|k| 5.0 * f64::from(k))
                .map(|x| (x, standing(x / 100.0)))
                .collect(),
        ),
    );
    check.plots.push(
        Plot::new(
            "The running van with R-12 in its R-134a",
            "R-12, mass %",
            "kPa gauge",
        )
        .curve("head", head)
        .curve("low side", low),
    );
    Ok(vec![check])
}

fn blend(x: f64) -> Option<Blend> {
    Blend::by_mole(x).ok()
}

/// An override for the mole share of R-12.
fn by_moles(x: f64) -> String {
    let share = blend(x).map_or(f64::NAN, Blend::mass_share);
    format!("start.other_refrigerant={share}")
}
