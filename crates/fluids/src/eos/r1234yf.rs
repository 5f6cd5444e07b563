//! R-1234yf: Lemmon & Akasaka, *An International Standard Formulation for 2,3,3,3-Tetrafluoroprop-1-ene (R1234yf) ...*,
//! Int. J. Thermophys. 43 (2022) 119, doi 10.1007/s10765-022-03015-y. 121.6 to 410 K, to 100 MPa;
//! used here as an extrapolation up to 453 K.
//!
//! The starting curves are correlations of the saturation line, good to a few percent; they only start the solver.

use super::{Coefficients, StartingCurve};
use crate::helmholtz::{GaussianTerm, IdealTerms, PowerTerm};

const fn p(n: f64, t: f64, d: u8, l: u8) -> PowerTerm {
    PowerTerm { n, t, d, l }
}

/// The equation of R-1234yf.
pub static COEFFICIENTS: Coefficients = Coefficients {
    molar_mass: 0.1140416,
    gas_constant: 8.314462618,
    t_red: 367.85,
    rho_red: 4180.0,
    t_crit: 367.85,
    p_crit: 3384400.0,
    rho_crit: 4180.0,
    t_triple: 121.6,
    t_max: 410.0,
    p_max: 100000000.0,
    ideal: IdealTerms {
        a1: -12.081525543189,
        a2: 8.52896238365,
        log_tau: 3.0,
        powers: &[],
        planck_einstein: &[
            (8.65, 1.3918716868288703),
            (9.75, 4.268044039690091),
            (2.11, 12.233247247519369),
        ],
    },
    power: &[
        p(0.0340387, 1.0, 4, 0),
        p(1.912859, 0.222, 1, 0),
        p(-2.1984719881617, 0.61, 1, 0),
        p(-0.8147645305033, 1.122, 2, 0),
        p(0.2288282, 0.5, 3, 0),
        p(-1.65436, 2.14, 1, 2),
        p(-1.446628, 2.284, 3, 2),
        p(0.5961722, 1.05, 2, 1),
        p(-0.6148209, 2.33, 2, 2),
        p(-0.0180069, 0.778, 7, 1),
    ],
    gaussian: &[
        GaussianTerm {
            n: 0.2845275,
            t: 1.0,
            d: 1,
            eta: 28.1,
            epsilon: 0.96,
            beta: 1016.0,
            gamma: 1.061,
        },
        GaussianTerm {
            n: -0.3050809,
            t: 2.0,
            d: 1,
            eta: 28.0,
            epsilon: 0.96,
            beta: 1000.0,
            gamma: 1.062,
        },
        GaussianTerm {
            n: 2.198935,
            t: 1.236,
            d: 1,
            eta: 1.307,
            epsilon: 0.853,
            beta: 1.16,
            gamma: 1.3,
        },
        GaussianTerm {
            n: -0.4270329,
            t: 1.6,
            d: 1,
            eta: 1.96,
            epsilon: 1.15,
            beta: 1.2,
            gamma: 1.04,
        },
        GaussianTerm {
            n: -0.4015581,
            t: 1.85,
            d: 1,
            eta: 1.25,
            epsilon: 1.3,
            beta: 1.26,
            gamma: 1.0,
        },
        GaussianTerm {
            n: 0.1179587,
            t: 0.7,
            d: 1,
            eta: 1.0,
            epsilon: 1.5,
            beta: 1.6,
            gamma: 1.14,
        },
        GaussianTerm {
            n: -0.3141002,
            t: 1.75,
            d: 1,
            eta: 2.2,
            epsilon: 0.762,
            beta: 0.87,
            gamma: 1.1,
        },
    ],
    start_p: StartingCurve {
        terms: &[
            (-7.4507, 1.0),
            (2.164, 1.5),
            (-1.674, 3.0),
            (-3.318, 4.0),
            (-1.617, 9.0),
        ],
        over_t: true,
        exponential: true,
    },
    start_rho_l: StartingCurve {
        terms: &[
            (3.392, 0.4),
            (-4.119, 0.7),
            (8.932, 1.1),
            (-8.525, 1.5),
            (3.384, 2.1),
        ],
        over_t: false,
        exponential: false,
    },
    start_rho_g: StartingCurve {
        terms: &[
            (-3.616, 0.426),
            (-74.91, 2.0),
            (197.7, 2.4),
            (-152.76, 2.7),
            (-61.062, 7.5),
            (-115.53, 15.0),
        ],
        over_t: false,
        exponential: true,
    },
};
