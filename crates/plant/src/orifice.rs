//! The orifice tube: a short tube 38 mm long with a bore of 1.2 to 1.83 mm.
//!
//! Choked flow of subcooled and two-phase refrigerant by Payne & O'Neal, "A mass flow rate correlation for refrigerants
//! and refrigerant/oil mixtures flowing through short tubes", HVAC&R Research 10(1) (2004) 73-87: coefficients from a
//! secondary source, held against two other published correlations in the tests. It was fitted to several refrigerants,
//! R-12 and R-134a among them; R-1234yf is younger than the fit and outside it: there the law rests on its reduced groups
//! (pressure, subcooling and densities over critical values) alone, unchecked. Outside its ground the law continues:
//! subcooling above 15 K scales with the square root of the driving pressure; qualities above 0.2 run over into the
//! critical flow of a vapour nozzle; and no flow exceeds what the pressure difference itself can drive. Air among the bubbles lifts the
//! pressure over saturation, where the fit has no ground either: bubbles are counted by their share, the air's pressure as a drive.

use serde::{Deserialize, Serialize};

use crate::{flow::Rate, stream::smooth};

/// What the law needs of the refrigerant ahead of the tube. SI units.
#[derive(Debug, Clone, Copy)]
pub struct Inlet {
    /// Pressure, Pa.
    pub p: f64,
    /// Saturation pressure at the inlet temperature, Pa.
    pub p_sat: f64,
    /// Subcooling, K (0 when two-phase).
    pub subcooling: f64,
    /// Flowing quality, 0 to 1.
    pub quality: f64,
    /// Saturated liquid density, kg/m3.
    pub rho_liq: f64,
    /// Vapour density (saturated unless the inlet is all gas), kg/m3.
    pub rho_gas: f64,
    /// Critical pressure, Pa.
    pub p_crit: f64,
    /// Critical temperature, K.
    pub t_crit: f64,
}

/// An orifice tube and the condition it is in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Orifice {
    /// Bore, m.
    pub bore: f64,
    /// Length, m.
    pub length: f64,
    /// Share of the flow area that is open, 0 to 1 (1 = clean).
    pub open: f64,
}

/// Subcooling up to which the correlation is trusted; its denominator vanishes near 35 K.
const SUBCOOLING_TOP: f64 = 15.0;
/// Quality up to which the published two-phase multiplier is used.
const QUALITY_TOP: f64 = 0.2;
/// Discharge coefficient on the full pressure difference, the most a short tube can pass (Payne & O'Neal data lie at 0.62-0.78).
const CD_TUBE: f64 = 0.78;
/// Discharge coefficient of the tube as a vapour nozzle.
const CD_VAPOUR: f64 = 0.85;
/// Critical flow factor sqrt(g) (2/(g+1))^((g+1)/(2(g-1))) at an expansion number g = 1.12.
const CRITICAL_FLOW: f64 = 0.634_2;

impl Orifice {
    /// Open flow area, m2.
    pub fn area(&self) -> f64 {
        core::f64::consts::FRAC_PI_4 * self.bore * self.bore * self.open
    }

    /// Mass flow for an inlet and a pressure difference `dp` (Pa, positive = forward), kg/s.
    pub fn rate(&self, inlet: &Inlet, dp: f64) -> Rate {
        let area = self.area();
        if area <= 0.0 {
            return Rate::default();
        }
        let flux = self.choked_flux(inlet);
        let drop = dp.max(0.0);
        let x = inlet.quality;
        // What the difference can drive, were nothing choked.
        let v = x / inlet.rho_gas + (1.0 - x) / inlet.rho_liq;
        let driven = CD_TUBE * drop / (v * (drop + 200.0)).sqrt() * core::f64::consts::SQRT_2;
        // The two limits meet smoothly: 1/G^4 adds up.
        let (c2, d2) = (flux * flux, driven * driven);
        let g = if driven > 0.0 {
            flux * driven / (c2 * c2 + d2 * d2).sqrt().sqrt()
        } else {
            0.0
        };
        let at_rest = area * CD_TUBE * core::f64::consts::SQRT_2 / (v * 200.0).sqrt();
        Rate::chord(g * area, dp, at_rest)
    }

    /// Choked mass flux through the tube, kg/(s m2).
    pub fn choked_flux(&self, i: &Inlet) -> f64 {
        let vapour = CD_VAPOUR * CRITICAL_FLOW * (i.p * i.rho_gas).sqrt();
        if i.quality <= 0.0 {
            return self.subcooled(i).max(vapour);
        }
        let x = i.quality.min(1.0);
        // Homogeneous scaling carries the nozzle law down to wet inlets; the published multiplier sets its level there.
        let v = |x: f64| x / i.rho_gas + (1.0 - x) / i.rho_liq;
        let nozzle = |x: f64| vapour / (v(x) * i.rho_gas).sqrt();
        if x <= QUALITY_TOP {
            return self.subcooled(i) * self.two_phase_multiplier(i, x);
        }
        let joint =
            self.subcooled(i) * self.two_phase_multiplier(i, QUALITY_TOP) / nozzle(QUALITY_TOP);
        let w = smooth((x - QUALITY_TOP) / (1.0 - QUALITY_TOP));
        nozzle(x) * (joint + (1.0 - joint) * w)
    }

    fn subcooled(&self, i: &Inlet) -> f64 {
        let sub = i.subcooling.clamp(0.0, SUBCOOLING_TOP);
        let over = (i.p - i.p_sat).max(0.0);
        // Beyond the trusted subcooling the flux follows the square root of the driving pressure.
        let scale = if i.subcooling > SUBCOOLING_TOP {
            (i.subcooling / SUBCOOLING_TOP).sqrt()
        } else {
            1.0
        };
        let p3 = over / (scale * scale) / i.p_crit;
        let p9 = sub / i.t_crit;
        let p6 = i.rho_gas / i.rho_liq;
        let p10 = self.length / self.bore;
        let top = 0.38811 + 11.427 * p3 - 14.194 * p9 + 1.0703 * p6 - 0.091928 * libm::log(p10);
        let bottom = 1.0 + 21.425 * p3 - 581.95 * p9 * p9;
        (top / bottom.max(0.2)).max(0.02) * scale * (i.rho_liq * i.p_crit).sqrt()
    }

    fn two_phase_multiplier(&self, i: &Inlet, x: f64) -> f64 {
        let published = |x: f64| {
            let r = 1.0 / ((1.0 - x) / i.rho_liq + x / i.rho_gas) / i.rho_liq;
            let ln2 = |y: f64| {
                let l = libm::log(y.max(1e-6));
                l * l
            };
            // Fitted to saturated inlets, so it is asked there: what air adds to the pressure drives the stream like pressure above
            // saturation (`subcooled`), and does not choke it.
            let p_sat = i.p_sat.min(i.p);
            let top = 1.1831 * r
                - 1.4680 * r * r
                - 0.15285 * ln2(r)
                - 14.639 * ln2((i.p_crit - p_sat) / i.p_crit)
                + 9.8401 * ln2((i.p_crit - p_sat) / i.p_crit)
                - 0.019798 * ln2(self.length / self.bore);
            let bottom = 1.0
                - 1.5348 * r
                - 2.0533 * x / (1.0 - x) * (i.rho_liq / i.rho_gas).sqrt()
                - 17.195 * (p_sat / i.p_crit) * (p_sat / i.p_crit) * (p_sat / i.p_crit);
            (top / bottom).clamp(0.05, 1.2)
        };
        // The fit does not run into exactly one at zero quality: the first hundredth bridges the gap. Below its pressures it
        // can rise a little with quality; flow never does.
        let first = published(0.01);
        if x < 0.01 {
            1.0 + (first - 1.0) * x / 0.01
        } else {
            published(x).min(first)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// R-134a at 45 degC with 3 % of vapour ahead of the tube, and air that adds up to half of the pressure: the more, the more it
    /// passes, and no more than the same pressure drives of liquid alone.
    #[test]
    fn air_drives_a_wet_stream() {
        let tube = Orifice {
            bore: 1.83e-3,
            length: 38e-3,
            open: 1.0,
        };
        let inlet = |air: f64, quality: f64| Inlet {
            p: 1.16e6 + air,
            p_sat: 1.16e6,
            subcooling: 0.0,
            quality,
            rho_liq: 1125.0,
            rho_gas: 57.7 + air / (287.055 * 318.15),
            p_crit: 4.059e6,
            t_crit: 374.21,
        };
        let fluxes: Vec<f64> = (0..=6)
            .map(|n| tube.choked_flux(&inlet(f64::from(n) * 1e5, 0.03)))
            .collect();
        assert!(fluxes.is_sorted(), "{fluxes:?}");
        assert!(fluxes[6] < tube.choked_flux(&inlet(6e5, 0.0)), "{fluxes:?}");
    }
}
