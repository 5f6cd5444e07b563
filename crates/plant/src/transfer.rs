//! A small compressor with a fan-cooled condenser behind it, that moves what it draws into another volume.
//!
//! It draws vapour or liquid from its inlet and gives it on, cooled. What its shaft puts in and its fan carries off crosses the
//! edge of the bay as one sum: the difference between the enthalpy that leaves it and the one it drew. Filling, clearance and
//! liquid limit are our own figures.

use serde::{Deserialize, Serialize};

use lowside_fluids::table::Table;

use crate::{
    species::{AIR, Content, OIL, REFRIGERANT, WATER},
    state::{CP_AIR, CP_OIL, CP_WATER, RHO_OIL, State, T_ZERO},
    stream::{Stream, smooth},
};

/// Share of the sweep filled at equal pressures.
const FILLING: f64 = 0.85;
/// Share of the sweep lost for each unit of pressure ratio above one: clearance gas that expands again.
const CLEARANCE: f64 = 0.008;
/// Liquid counts as no denser than this multiple of its vapour: its inlet throttles and boils it.
const LIQUID_CAP: f64 = 5.0;
/// The condenser fills with liquid while what is behind it stands above this share of saturation at its outlet temperature.
const CONDENSES_FROM: f64 = 0.9;

/// A running one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Transfer {
    /// Swept volume, m3/s.
    pub sweep: f64,
    /// Temperature at the condenser's outlet, K.
    pub t_out: f64,
}

/// What it does with its inlet now.
#[derive(Debug, Clone, Copy, Default)]
pub struct Drawn {
    /// Flow, kg/s.
    pub flow: f64,
    /// Energy each kilogram gains between inlet and outlet, J/kg; negative, since more heat is carried off than work put in.
    pub added: f64,
}

impl Transfer {
    /// Share of the sweep that is filled at a pressure ratio.
    pub fn filling(&self, ratio: f64) -> f64 {
        (FILLING - CLEARANCE * (ratio.max(1.0) - 1.0)).max(0.0)
    }

    /// Flow and heat for an inlet state and stream and the pressure behind it, Pa.
    pub fn work(
        &self,
        table: &Table,
        inlet: &State,
        content: &Content,
        stream: &Stream,
        p_out: f64,
    ) -> Drawn {
        if inlet.p <= 0.0 {
            return Drawn::default();
        }
        let rho = stream.rho.min(LIQUID_CAP * inlet.gas_density(content));
        let flow = self.filling(p_out / inlet.p) * self.sweep * rho;
        let sat = table.sat(self.t_out);
        let liquid =
            smooth((p_out / table.p_sat(self.t_out) - CONDENSES_FROM) / (1.0 - CONDENSES_FROM));
        // Vapour leaves as saturated: the few kilojoules of superheat below that pressure do not matter here.
        let refrigerant = liquid * sat.h_l() + (1.0 - liquid) * sat.h_g();
        let s = &stream.share;
        let dt = self.t_out - T_ZERO;
        let h = s[REFRIGERANT] * refrigerant
            + s[AIR] * CP_AIR * dt
            + s[WATER] * CP_WATER * dt
            + s[OIL] * (CP_OIL * dt + p_out / RHO_OIL);
        Drawn {
            flow,
            added: h - stream.h,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_draws_less_the_lower_the_suction_and_ends_in_a_vacuum() {
        let m = Transfer {
            sweep: 2.0e-4,
            t_out: 303.15,
        };
        assert!(m.filling(1.0) > m.filling(10.0) && m.filling(10.0) > m.filling(50.0));
        // Against 700 kPa it comes below 10 kPa absolute: better than 26 inHg.
        assert!(m.filling(700.0 / 10.0) > 0.0);
        assert!(m.filling(200.0) <= 0.0);
    }
}
