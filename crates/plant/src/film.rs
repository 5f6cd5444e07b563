//! Oil film on the walls of a coil: how fast what flows over it drags it along.
//!
//! The film is thin and stiff, so that it flows laminar between the wall and the shear at its surface: its mean speed is
//! shear x thickness / (2 viscosity) (Couette; gravity is left out: at 5 m/s of vapour the shear is ten times the film's weight).
//! The shear is f rho u^2 / 2 with the friction factor of a rippled film, f / f_smooth = 1 + 0.045 (m - 4), where m is the
//! thickness in units of the gas's own length of friction (Asali, Hanratty & Andreussi, AIChE J. 31 (1985) 895, for films from
//! which no drops are torn; from memory).

use serde::{Deserialize, Serialize};

/// Thickness up to which a film is as good as smooth, and growth of the friction factor beyond it, both by the gas's own length.
const SMOOTH_TO: f64 = 4.0;
const RIPPLES: f64 = 0.045;
/// Fastest a film goes over what drags it (own figure: waves of thin liquid reach a tenth of the gas's speed).
const FASTEST: f64 = 0.1;

/// The walls of a volume that is made of tubes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Walls {
    /// Wetted surface, m2.
    pub surface: f64,
    /// Cross-section of all parallel tubes, m2.
    pub flow_area: f64,
    /// Bore of one, m.
    pub bore: f64,
}

/// What flows over a film: gas, or gas and liquid as one mixture of their mean density.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wind {
    /// Its speed, m/s.
    pub speed: f64,
    /// Its density, kg/m3.
    pub rho: f64,
    /// Dynamic viscosity of the gas, Pa s.
    pub mu: f64,
}

/// Mean speed of a film of `thickness` (m) and dynamic viscosity `mu` (Pa s) in tubes of `bore` (m), m/s. 0 in gas at rest, a tenth of
/// the wind's at most.
pub fn speed(wind: Wind, thickness: f64, mu: f64, bore: f64) -> f64 {
    if wind.speed <= 0.0 || thickness <= 0.0 || wind.mu <= 0.0 {
        return 0.0;
    }
    let nu_gas = wind.mu / wind.rho;
    let re = (wind.speed * bore / nu_gas).max(1.0);
    // Hagen & Poiseuille and Blasius's form for smooth tubes.
    let smooth = (16.0 / re).max(0.046 * libm::pow(re, -0.2));
    // m grows with the root of f itself: f = smooth (1 + RIPPLES (a f^1/2 - SMOOTH_TO)).
    let a = RIPPLES * smooth * thickness * wind.speed / (nu_gas * core::f64::consts::SQRT_2);
    let flat = smooth * (1.0 - RIPPLES * SMOOTH_TO);
    let root = 0.5 * (a + (a * a + 4.0 * flat).sqrt());
    let f = (root * root).max(smooth);
    let shear = 0.5 * f * wind.rho * wind.speed * wind.speed;
    (shear * thickness / (2.0 * mu)).min(FASTEST * wind.speed)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// R-134a vapour at 0 degC (17 kg/m3, 11 uPa s) at 5 m/s in a 3 mm tube.
    const WIND: Wind = Wind {
        speed: 5.0,
        rho: 17.0,
        mu: 11e-6,
    };

    /// By hand: 100 um of oil of 16 mPa s; f_smooth 0.046 x 23 200^-0.2 = 0.00616; f = 0.0323 solves the friction law (m = 98);
    /// shear 6.9 Pa; 21 mm/s.
    #[test]
    fn a_film_creeps_by_the_shear_on_it() {
        let u = speed(WIND, 1e-4, 16e-3, 3e-3);
        assert!((u - 0.0214).abs() < 5e-4, "{u} m/s");
        // The law itself.
        let f = u * 4.0 * 16e-3 / (17.0 * 25.0 * 1e-4);
        let m = 1e-4 * 5.0 * (f / 2.0f64).sqrt() * 17.0 / 11e-6;
        let smooth = 0.046 * libm::pow(5.0 * 3e-3 * 17.0 / 11e-6, -0.2);
        assert!((f / smooth - 1.0 - 0.045 * (m - 4.0)).abs() < 1e-6, "{f}");
    }

    #[test]
    fn stiff_and_thin_films_creep_slower() {
        let c = |thickness, mu| speed(WIND, thickness, mu, 3e-3);
        assert!(c(1e-4, 32e-3) < c(1e-4, 16e-3) && c(5e-5, 16e-3) < c(1e-4, 16e-3));
        let still = Wind { speed: 0.0, ..WIND };
        assert!(speed(still, 1e-4, 16e-3, 3e-3) <= 0.0);
    }
}
