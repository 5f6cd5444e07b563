//! The thirteen truths that most teaching gets wrong. None is scripted: each is a run of the same model.

use lowside_units::Ratio;

use super::{Sweep, shop, with};
use crate::{
    Job,
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Run, Runs},
};
mod charge;
mod choke;
mod clutch;
mod mixture;
mod stop;

mod vacuum;

pub(super) use choke::rises_at_first;
pub(super) use stop::{BY_BORE, MINUTES, equalise};

/// What fills the section.
pub const JOBS: &[Job] = &[
    charge::hidden,
    charge::cliff,
    charge::over,
    choke::choked,
    subcooling_alone,
    standing,
    mixture::alone,
    shop::holding,
    vacuum::twenty_inches,
    vacuum::hose,
    clutch::cycling,
    shop::left_behind,
    stop::last,
];

const TRADE: &str =
    "trade knowledge and an earlier check model of such a loop; no published source";
/// A jumper over the cycling switch: the loop finds its own balance.
pub(super) const JUMPED: &str = "vehicle.switches.low_opens=20kPag";

/// One ounce, kg.
const OUNCE: f64 = 0.028_349_523;

/// Charges in ounces, with overrides besides.
fn by_ounces(runs: &Runs, ounces: &[u8], more: &[&str]) -> Result<Sweep, Error> {
    ounces
        .iter()
        .map(|oz| {
            let oz = f64::from(*oz);
            let charge = with("start.charge", oz * OUNCE, "kg");
            let mut all = vec![charge.as_str()];
            all.extend(more);
            Ok((oz, runs.healthy(&all)?))
        })
        .collect()
}

const BY_DAY: &str = "One range for every day: the hotter the day, the more heat the coil asks for, the warmer the air the grille draws back in at idle, \
                      and the more backs up; from 35 to 43 degC by a straight line.";

fn subcooling_alone(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "5. Subcooling near zero alone proves nothing",
        "A healthy loop at idle shows 0.5 to 3 K up to 35 degC, up to 6 at 43. A low charge shows near zero with large superheat.",
        TRADE,
    );
    let mut points: [Vec<(f64, f64)>; 4] = Default::default();
    for day in [27.0, 32.0, 35.0, 38.0, 43.0] {
        let ambient = with("day.ambient", day, "degC");
        let idle = runs.healthy(&["engine.speed=800rpm", &ambient])?;
        let most = 3.0 + 3.0 * ((day - 35.0) / 8.0_f64).max(0.0);
        check.find(
            Finding::within(
                format!("healthy, idle, {day} degC: subcooling"),
                idle.on.subcooling,
                0.5,
                most,
                "K",
                1,
            )
            .instead_of("1.0 to 3.0 K", BY_DAY),
        );
        let low = runs.healthy(&["engine.speed=800rpm", &ambient, "start.charge=510g"])?;
        check.find(Finding::holds(
            format!("half the charge, idle, {day} degC"),
            format!(
                "subcooling {:.1} K, superheat {:.1} K",
                low.on.subcooling, low.on.superheat
            ),
            "subcooling below 1 K, superheat above 8 K",
            low.on.subcooling < 1.0 && low.on.superheat > 8.0,
        ));
        for (into, y) in points.iter_mut().zip([
            idle.on.subcooling,
            idle.on.superheat,
            low.on.subcooling,
            low.on.superheat,
        ]) {
            into.push((day, y));
        }
    }
    let [a, b, c, d] = points;
    check.plots.push(
        Plot::new("Subcooling and superheat at idle", "day, degC", "K")
            .curve("healthy, subcooling", a)
            .curve("healthy, superheat", b)
            .curve("half charge, subcooling", c)
            .curve("half charge, superheat", d),
    );
    Ok(vec![check])
}

fn standing(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "6. Standing pressure says only that some liquid is there",
        "Soaked for four hours at 30 degC, the engine off: with any liquid saturation pressure whatever the charge (0.5 %), above it only with air; where \
         oil and vapour have taken up all of it, below. At 75 degF 77 to 79 psig.",
        "saturation of R-134a (Tillner-Roth & Baehr 1994); Dalton",
    );
    let saturation = lowside_fluids::Refrigerant::R134a.table().p_sat(303.15) / 1e3 - 101.325;
    let still = [
        "engine.on=false",
        "controls.ac=false",
        "day.ambient=30degC",
        "until=4h",
    ];
    let (mut pure, mut mixed) = (Vec::new(), Vec::new());
    for grams in [150.0, 300.0, 600.0, 1020.0, 1500.0, 2000.0] {
        for air in [0.0, 2.0] {
            let (charge, air_text) = (
                with("start.charge", grams, "g"),
                with("start.air", air, "g"),
            );
            let mut all = still.to_vec();
            all.extend([charge.as_str(), air_text.as_str()]);
            let run = runs.healthy(&all)?;
            let p = run.last().low;
            let liquid = liquid(&run);
            if air > 0.0 {
                let alone = pure.last().map_or(saturation, |&(_, p)| p).min(saturation);
                mixed.push((grams, p));
                check.find(Finding::holds(
                    format!("{grams} g with 2 g of air"),
                    format!("{p:.0} kPag"),
                    format!("at least 20 kPa above {alone:.0} kPag"),
                    p > alone + 20.0,
                ));
            } else {
                pure.push((grams, p));
                let by = 0.005 * saturation;
                let (lo, hi) = if liquid > 0.0 {
                    (saturation - by, saturation + by)
                } else {
                    (0.0, saturation - by)
                };
                check.find(Finding::within(
                    format!("{grams} g, {:.0} g of it liquid", 1e3 * liquid),
                    p,
                    lo,
                    hi,
                    "kPag",
                    0,
                ));
            }
        }
    }
    let psig = (lowside_fluids::Refrigerant::R134a
        .table()
        .p_sat((75.0 + 459.67) / 1.8)
        - 101_325.0)
        / 6894.757;
    check.find(Finding::within(
        "saturation of R-134a at 75 degF",
        psig,
        77.0,
        79.0,
        "psig",
        1,
    ));
    check.plots.push(
        Plot::new("Standing pressure at 30 degC", "charge, g", "kPa gauge")
            .curve("R-134a alone", pure)
            .curve("with 2 g of air", mixed),
    );
    Ok(vec![check])
}

/// Liquid refrigerant in the loop at the end of a run, kg.
fn liquid(run: &Run) -> f64 {
    run.bay.plant().volumes().map(|n| n.state.m_liq).sum()
}

/// A hand valve, so far open.
fn open(share: f64) -> Ratio {
    Ratio::from_fraction(share)
}
