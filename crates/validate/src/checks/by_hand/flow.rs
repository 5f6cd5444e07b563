//! Mass flow as a test bench infers it from heat, temperatures and pressures, beside what the links carry.

use lowside_fluids::flash::{Quantity, flash};
use lowside_plant::network::Node;

use super::{LABEL, with};
use crate::{
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::Runs,
};

/// How far two ways to measure a compressor's flow may differ, % (ISO 917, from memory).
const AGREE: f64 = 4.0;
/// Superheat from which a temperature tells the enthalpy of a gas, K.
const DRY: f64 = 3.0;

/// Enthalpy at the temperature and pressure of a node, J/kg, by the equation of state; none on the saturation line.
fn enthalpy(node: &Node) -> Option<f64> {
    let s = &node.state;
    let at = [(Quantity::Temperature, s.t), (Quantity::Pressure, s.p)];
    flash(lowside_fluids::Refrigerant::R134a, at[0], at[1])
        .ok()
        .map(|state| state.h)
}

/// Both coils' heat over the enthalpy that pressures and temperatures tell, at charges that leave gas and liquid in one phase.
pub(super) fn inferred(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Mass flow inferred from the coils' heat",
        "At 38 degC and 1 500 rpm, 60 to 100 % of the charge: heat that the condenser gives the air over the enthalpy from discharge line to liquid \
         line, and where the evaporator's outlet is superheated, heat that it takes over the enthalpy from liquid line to there, against the flows \
         of a trace less their oil: within 4 %.",
        "heat balance; two ways to measure one flow agree within 4 % (ISO 917, from memory)",
    );
    let (mut hot, mut cold, mut shown) = (Vec::new(), Vec::new(), Vec::new());
    for share in [60.0, 70.0, 80.0, 90.0, 100.0] {
        let charge = with("start.charge", LABEL * share / 100.0, "kg");
        let run = runs.healthy(&["day.ambient=38degC", &charge])?;
        let plant = run.bay.plant();
        let (c, net) = (&plant.circuit, &plant.network);
        let h = |id| enthalpy(net.node(id)).unwrap_or(f64::NAN);
        let (gas, liquid) = (h(c.high_side()), h(c.liquid_line.outlet()));
        // Oil takes its room in the stream and no part in the heat of evaporation.
        let [pumped, metered] = [c.compressor(), c.orifice()].map(|id| {
            let link = net.link(id);
            1e3 * link.flow * (1.0 - link.oil)
        });
        shown.push((share, pumped));
        let mut beside = |what: &str, found: f64, carries: f64, curve: &mut Vec<(f64, f64)>| {
            curve.push((share, found));
            check.find(Finding::within(
                format!("{share} %: {what} over {carries:.1} g/s shown"),
                100.0 * (found / carries - 1.0),
                -AGREE,
                AGREE,
                "%",
                1,
            ));
        };
        let condenser = 1e3 * plant.condenser.duty / (gas - liquid);
        beside("condenser, compressor", condenser, pumped, &mut hot);
        if run.on.superheat > DRY {
            let evaporator = 1e3 * plant.evaporator.duty / (h(c.evaporator.outlet()) - liquid);
            beside("evaporator, orifice tube", evaporator, metered, &mut cold);
        }
    }
    check.plots = vec![
        Plot::new("Mass flow", "charge, % of the label", "g/s")
            .curve("compressor", shown)
            .curve("by the condenser's heat", hot)
            .curve("by the evaporator's heat", cold),
    ];
    Ok(vec![check])
}
