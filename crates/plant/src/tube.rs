//! Passages for thin gas: from continuum through the transition to free molecules.
//!
//! Below some kilopascals a hose passes what its bore and length allow, and the law of a hole, good for dense gas, says too
//! much. Here the tubes of a passage and its narrowest hole stand in series, and the whole runs over into the law of dense gas as
//! the pressure upstream rises.

use serde::{Deserialize, Serialize};

use crate::{
    flow::{Expands, Rate},
    state::State,
    stream::smooth,
};

/// Pressures upstream between which the law of thin gas runs over into that of dense gas, Pa (own figures).
const THIN: (f64, f64) = (10e3, 20e3);
/// Inverse Knudsen number d p/(mu sqrt(RT)) at which a hole passes half as a nozzle, half molecule by molecule (own closure:
/// the published transition lies at Knudsen numbers of 0.1 to 10, which is 13 to 0.13 here).
const HALF_MOLECULAR: f64 = 2.0;
/// Share of the upstream pressure below which a hole is laminar.
const HOLE_LAMINAR: f64 = 0.02;
/// Viscosities at 20 degC, Pa s: refrigerant vapour (R-134a 11.6, R-12 12.0, R-1234yf 11.2), air (U.S. Standard Atmosphere
/// 1976), water vapour (9.7; from memory).
const VISCOSITY: [f64; 3] = [11.6e-6, 18.1e-6, 9.7e-6];

/// Equal tubes side by side.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Tube {
    /// Bore, m.
    pub bore: f64,
    /// Length, m; 0 is no tube.
    pub length: f64,
    /// How many.
    pub count: f64,
}

impl Tube {
    /// A single tube.
    pub const fn single(bore: f64, length: f64) -> Self {
        Self {
            bore,
            length,
            count: 1.0,
        }
    }

    /// Volume conductance, m3/s, at a mean pressure `p` (Pa), for gas with R T = `rt` (J/kg) and viscosity `mu` (Pa s).
    ///
    /// Knudsen, Ann. Phys. 333 (1909) 75: viscous flow, and free molecules with slip between,
    /// pi d^4 p/(128 mu L) + (1/6) sqrt(2 pi RT) d^3/L (1 + b p)/(1 + 1.24 b p), b = d/(mu sqrt(RT)).
    pub fn conductance(&self, p: f64, rt: f64, mu: f64) -> f64 {
        let d = self.bore;
        let d3 = d * d * d;
        let viscous = core::f64::consts::PI * d3 * d * p / (128.0 * mu * self.length);
        let bp = d * p / (mu * rt.sqrt());
        let molecular =
            d3 / (6.0 * self.length) * (2.0 * core::f64::consts::PI * rt).sqrt() * (1.0 + bp)
                / (1.0 + 1.24 * bp);
        self.count * (viscous + molecular)
    }
}

/// Gas that enters a passage.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Inflow {
    /// Pressure upstream, Pa.
    pub(crate) p: f64,
    /// Density there, kg/m3.
    pub(crate) rho: f64,
    /// Viscosity, Pa s.
    pub(crate) mu: f64,
    /// Liquid share of what enters: the law is for gas alone.
    pub(crate) liquid: f64,
    /// How it expands.
    pub(crate) expands: Expands,
}

/// Does the law of thin gas have a say at this pressure upstream, Pa?
pub(crate) fn is_thin(p: f64) -> bool {
    p < THIN.1
}

/// Viscosity of the gas of a volume, Pa s: the parts weighed by their pressures, rising with temperature (within a tenth).
pub(crate) fn viscosity(s: &State) -> f64 {
    let p = s.p.max(1e-9);
    let (air, water) = (s.p_air / p, s.p_water / p);
    let at_20 =
        VISCOSITY[0] * (1.0 - air - water).max(0.0) + VISCOSITY[1] * air + VISCOSITY[2] * water;
    at_20 * s.t / 293.15
}

/// What passes a hole `k` (effective area times sqrt 2, m2) and `tubes` in series at a pressure difference `dp`, where `dense` is
/// the answer of the law for dense gas.
pub(crate) fn thin(dense: Rate, k: f64, tubes: &[Tube; 2], gas: &Inflow, dp: f64) -> Rate {
    let drop = dp.abs();
    if drop <= 1e-9 || k <= 0.0 {
        return dense;
    }
    let rt = gas.p / gas.rho;
    let area = k / core::f64::consts::SQRT_2;
    let bore = (area / core::f64::consts::FRAC_PI_4).sqrt();
    let inverse_knudsen = bore * gas.p / (gas.mu * rt.sqrt());
    let molecular = 1.0 / (1.0 + inverse_knudsen / HALF_MOLECULAR);
    let eff = drop.min(gas.expands.chokes() * gas.p);
    let laminar = (HOLE_LAMINAR * gas.p).min(crate::flow::LAMINAR);
    let nozzle =
        k * gas.rho.sqrt() * eff / (eff + laminar).sqrt() * gas.expands.factor(eff / gas.p);
    let free = area * drop / (2.0 * core::f64::consts::PI * rt).sqrt();
    let hole = (1.0 - molecular) * nozzle + molecular * free;
    let p_mean = gas.p - 0.5 * drop;
    let mut resistance = 1.0 / hole;
    for t in tubes.iter().filter(|t| t.length > 0.0) {
        resistance += rt / (t.conductance(p_mean, rt, gas.mu) * drop);
    }
    let share = smooth((gas.p - THIN.0) / (THIN.1 - THIN.0)).max(gas.liquid.min(1.0));
    let flow = share * dense.flow.abs() + (1.0 - share) / resistance;
    Rate::chord(flow * dp.signum(), dp, 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::flow;

    /// Air at 20 degC.
    const RT: f64 = 287.055 * 293.15;
    const MU: f64 = 18.1e-6;

    /// The round figures of vacuum engineering for air at 20 degC, with centimetres, millibar and litres a second: a long tube
    /// passes 12.1 d^3/l by free molecules and 135 d^4 p/l in viscous flow, a hole 11.6 A (from memory).
    #[test]
    fn limits_are_those_of_the_handbooks() {
        let tube = Tube::single(1e-2, 1.0);
        let free = tube.conductance(0.0, RT, MU) * 1e3;
        assert!((free / 0.121 - 1.0).abs() < 0.01, "{free} l/s");
        let viscous = tube.conductance(1e4, RT, MU) * 1e3;
        assert!((viscous / 135.0 - 1.0).abs() < 0.02, "{viscous} l/s");
        let area = 1e-4;
        let gas = Inflow {
            p: 1e-4,
            rho: 1e-4 / RT,
            mu: MU,
            liquid: 0.0,
            expands: Expands::edge(1.0, 1.0),
        };
        let k = flow::k_from_hole(1.0, area);
        let rate = thin(Rate::default(), k, &[Tube::default(); 2], &gas, 1e-5);
        let hole = rate.flow * RT / 1e-5 * 1e3;
        assert!((hole / 11.6 - 1.0).abs() < 0.01, "{hole} l/s");
    }

    /// Knudsen's formula has its minimum of 0.95 of the free-molecular value near d/lambda = 0.65 (known since 1909).
    #[test]
    fn the_minimum_of_knudsen_is_there() {
        let tube = Tube::single(1e-2, 1.0);
        let free = tube.conductance(0.0, RT, MU);
        let (least, at) = (1..4000)
            .map(|k| f64::from(k) * 1e-3)
            .map(|p| (tube.conductance(p, RT, MU) / free, p))
            .fold((f64::MAX, 0.0), |a, b| if b.0 < a.0 { b } else { a });
        let path = MU / at * (core::f64::consts::FRAC_PI_2 * RT).sqrt();
        assert!(least > 0.93 && least < 0.97, "{least}");
        let ratio = 1e-2 / path;
        assert!(ratio > 0.4 && ratio < 1.0, "d/lambda {ratio}");
    }

    /// From 1 Pa to 30 kPa a passage gives more with more pressure, and the two laws meet without a jump.
    #[test]
    fn thin_runs_into_dense() {
        let k = flow::k_from_hole(0.65, 3.1e-6);
        let tubes = [Tube::single(2e-3, 10e-3), Tube::single(4.6e-3, 0.75)];
        let mut last = 0.0;
        for step in 0..2000 {
            let p = libm::pow(10.0, f64::from(step) * 4.477 / 2000.0);
            let rho = p / RT;
            let dp = 0.3 * p;
            let dense = flow::passage(k, rho, dp, (p, 0.0), 0.0, &Expands::edge(1.0, 1.0));
            let gas = Inflow {
                p,
                rho,
                mu: MU,
                liquid: 0.0,
                expands: Expands::edge(1.0, 1.0),
            };
            let flow = if is_thin(p) {
                thin(dense, k, &tubes, &gas, dp).flow
            } else {
                dense.flow
            };
            assert!(flow > last, "{p} Pa: {flow} after {last} kg/s");
            assert!(
                last <= 0.0 || flow < 1.03 * last,
                "{p} Pa: {flow} after {last} kg/s"
            );
            last = flow;
        }
    }
}
