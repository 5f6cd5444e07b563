//! Truths about vacuum, hoses and cans.

use lowside_fluids::{Refrigerant, air, water};
use lowside_plant::plant::TICK;
use lowside_session::{Bay, HoseAct, VesselAct, acts};
use lowside_shop::can;

use super::{TRADE, open};
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::{Plot, Points},
    run::{Runs, scenario},
};

/// 20 inHg of vacuum at sea level, Pa absolute (NIST SP 811: 3 386.389 Pa an inch).
const TWENTY_INCHES: f64 = 101_325.0 - 20.0 * 3_386.389;

/// Heat capacity of liquid R-134a near 10 degC, J/(kg K) (Tillner-Roth & Baehr 1994).
const LIQUID_CP: f64 = 1.37e3;

/// 9: 20 inHg leaves air and dries nothing.
pub(super) fn twenty_inches(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "9. 20 inHg dries nothing",
        "It leaves about 1.6 to 1.9 g of air in 4 litres, and water boils there at 72 degC. The loop is run with known air and its \
         pressure read; what water does there stands under \"Five grams of water\"; the air that 20 inHg leaves follows in proportion, to 4 litres of gas space. 20 degC.",
        "gas law; IAPWS-95 for the boiling point (71.72 degC)",
    );
    let (mut points, mut left) = (Vec::new(), f64::NAN);
    for grams in [0.2, 0.5, 1.0, 1.5, 2.0, 3.0] {
        let air = super::with("start.air", grams, "g");
        let run = runs.healthy(&[
            "start.charge=0g",
            &air,
            "engine.on=false",
            "controls.ac=false",
            "day.ambient=20degC",
            "until=1min",
        ])?;
        let space: f64 = run.bay.plant().volumes().map(|n| n.state.v_gas).sum();
        let pressure = run.last().low + 101.325;
        points.push((pressure, grams * 4e-3 / space));
        left = grams * (TWENTY_INCHES / 1e3 / pressure) * 4e-3 / space;
    }
    check.find(Finding::within(
        "air in 4 L at 20 inHg",
        left,
        1.55,
        1.9,
        "g",
        2,
    ));
    check.find(Finding::within(
        "water boils at",
        water::boiling_temperature(TWENTY_INCHES) - 273.15,
        71.5,
        72.5,
        "degC",
        1,
    ));
    check.plots.push(
        Plot::new("Air left in 4 L of loop", "pressure, kPa absolute", "g")
            .curve("loop at rest, 20 degC", points),
    );
    Ok(vec![check])
}

/// 10: a hose of liquid holds far more than a hose of air; a can chills itself.
pub(super) fn hose(_: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "10. Hose liquid beats hose air",
        "Six feet of quarter-inch bore hold 2.5 oz of liquid but 0.07 g of air. A can that gave 20 % as vapour without heat is 26 K \
         colder (24 to 28). Ours stands in still air; the heat that the air brought meanwhile is taken out of the figure.",
        TRADE,
    );
    let volume = core::f64::consts::FRAC_PI_4 * 6.35e-3 * 6.35e-3 * 6.0 * 0.3048;
    let sat = Refrigerant::R134a.table().sat(298.15);
    let liquid = volume * sat.rho_l / super::OUNCE;
    check.find(Finding::within(
        "liquid in the hose, 25 degC",
        liquid,
        2.4,
        2.6,
        "oz",
        2,
    ));
    let held = volume * air::density(298.15, 101_325.0) * 1e3;
    check.find(Finding::within(
        "air in the hose, 25 degC",
        held,
        0.065,
        0.075,
        "g",
        3,
    ));
    let (curve, [colder, warmed]) = can_gives_vapour()?;
    check.find(Finding::within(
        format!("can after giving 20 % as vapour ({colder:.1} K in still air, which gave back {warmed:.1} K)"),
        colder + warmed,
        24.0,
        28.0,
        "K colder",
        2,
    ));
    check.plots.push(
        Plot::new(
            "A can giving vapour to a running loop",
            "given, %",
            "K below the room",
        )
        .line("can", curve),
    );
    Ok(vec![check])
}

/// A full can, upright, on a running empty loop: share given (%) and how far it cooled (K); the cooling at 20 %, and how
/// far the air had warmed it by then (K).
fn can_gives_vapour() -> Result<(Points, [f64; 2]), Error> {
    let mut bay = Bay::new(&scenario(
        "healthy",
        &["start.charge=0g", "day.ambient=25degC"],
    )?);
    for act in acts![
        VesselAct::TakeCan,
        VesselAct::Tap { on: true },
        HoseAct::LowValve { open: open(1.0) },
    ] {
        bay.apply(act).map_err(|why| Error::Refused {
            act: format!("{act:?}"),
            why: Box::new(why),
        })?;
    }
    let mut curve = Vec::new();
    let (mut at_twenty, mut warmed) = ([f64::NAN; 2], 0.0);
    while bay.seconds() < 900.0 {
        bay.step()?;
        let node = bay.plant().network.node(bay.shop().manifold.can);
        let given = 100.0 * (1.0 - node.content[0] / can::NET);
        let colder = 298.15 - node.state.t;
        let shell = bay.plant().shells[bay.shop().manifold.can_shell].t;
        let capacity = node.content[0] * LIQUID_CP + can::METAL;
        warmed += can::IN_AIR * (298.15 - shell) * TICK / capacity;
        if at_twenty[0].is_nan() && given >= 20.0 {
            at_twenty = [colder, warmed];
        }
        if bay.tick().is_multiple_of(50) {
            curve.push((given, colder));
        }
        if given > 60.0 {
            break;
        }
    }
    Ok((curve, at_twenty))
}
