//! `lowside props`: the state of a refrigerant from two quantities, as one JSON object in SI.

use crate::{failure::Failure, text::quoted};
use lowside_fluids::Refrigerant;
use lowside_fluids::flash::{FullState, Quantity, flash};
use lowside_units::{
    AbsolutePressure, Density, Pressure, Ratio, SpecificEnergy, SpecificEntropy, Temperature,
    UnitError,
};
use serde::Serialize;
use std::io::Write;

/// Refrigerant properties from two of T, p, h, s, rho, q, by the published equation of state.
///
/// Values take units: T=35degC p=250kPag h=250kJ/kg q=40%. A bare number is SI (K, Pa absolute, J/kg, J/(kg K), kg/m3,
/// kg/kg). Gauge pressures are over the standard atmosphere. Prints one JSON object in SI; q is null off the saturation
/// line, cp is null in a mixture. Enthalpy and entropy: 200 kJ/kg and 1 kJ/(kg K) for saturated liquid at 0 degC.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// R-134a, R-12 or R-1234yf.
    fluid: String,
    /// Two of T=, p=, h=, s=, rho=, q=.
    #[arg(value_name = "KEY=VALUE")]
    given: Vec<String>,
}

/// The answer, SI.
#[derive(Debug, Serialize)]
struct Answer {
    fluid: &'static str,
    #[serde(rename = "T")]
    t: f64,
    p: f64,
    rho: f64,
    h: f64,
    s: f64,
    u: f64,
    q: Option<f64>,
    cp: Option<f64>,
    phase: String,
}

impl Answer {
    fn new(gas: Refrigerant, state: &FullState) -> Self {
        Self {
            fluid: gas.name(),
            t: state.t,
            p: state.p,
            rho: state.rho,
            h: state.h,
            s: state.s,
            u: state.u,
            q: state.q,
            cp: state.cp,
            phase: state.phase.to_string(),
        }
    }
}

/// Looks the state up and prints it.
///
/// # Errors
/// [`Failure::Asked`] naming the argument and what is allowed; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let gas = gas(&args.fluid)?;
    let [first, second] = args.given.as_slice() else {
        return Err(Failure::Asked(format!(
            "quantities given: {}; exactly two are needed, e.g. T=35degC p=250kPag",
            args.given.len()
        )));
    };
    let state = flash(gas, given(first)?, given(second)?)
        .map_err(|e| Failure::Asked(format!("{gas}: {e}")))?;
    let answer = serde_json::to_string(&Answer::new(gas, &state)).map_err(std::io::Error::from)?;
    writeln!(out, "{answer}")?;
    Ok(())
}

/// A gas by its name, with or without hyphen, in any case.
fn gas(text: &str) -> Result<Refrigerant, Failure> {
    text.parse().map_err(|_| {
        let names = Refrigerant::ALL.map(Refrigerant::name).join(", ");
        Failure::Asked(format!(
            "fluid: {} is not known, use one of {names}",
            quoted(text)
        ))
    })
}

/// One `KEY=VALUE`, in SI.
fn given(text: &str) -> Result<(Quantity, f64), Failure> {
    let keys = Quantity::ALL.map(Quantity::symbol).join(", ");
    let Some((key, value)) = text.split_once('=') else {
        return Err(Failure::Asked(format!(
            "{} is not KEY=VALUE with KEY one of {keys}",
            quoted(text)
        )));
    };
    let Ok(quantity) = key.trim().parse::<Quantity>() else {
        return Err(Failure::Asked(format!(
            "{}: key {} is not one of {keys}",
            quoted(text),
            quoted(key)
        )));
    };
    let si = match quantity {
        Quantity::Temperature => read::<Temperature>(value),
        Quantity::Pressure => {
            Pressure::parse_absolute(value, AbsolutePressure::STANDARD_ATMOSPHERE)
                .map(AbsolutePressure::pa)
        }
        Quantity::Enthalpy => read::<SpecificEnergy>(value),
        Quantity::Entropy => read::<SpecificEntropy>(value),
        Quantity::Density => read::<Density>(value),
        Quantity::Quality => read::<Ratio>(value),
    };
    si.map(|v| (quantity, v))
        .map_err(|e| Failure::Asked(format!("{quantity}: {e}")))
}

fn read<Q: lowside_units::Quantity>(text: &str) -> Result<f64, UnitError> {
    Q::parse_or_si(text).map(Q::si)
}
