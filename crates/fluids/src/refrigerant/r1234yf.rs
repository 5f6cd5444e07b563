//! R-1234yf, 2,3,3,3-tetrafluoroprop-1-ene: what vehicles are built for since the 2010s.
//!
//! **Equation**: Lemmon & Akasaka, *An International Standard Formulation for 2,3,3,3-Tetrafluoroprop-1-ene (R1234yf) ...*,
//! Int. J. Thermophys. 43 (2022) 119, doi 10.1007/s10765-022-03015-y. 121.6 to 410 K, to 100 MPa; used here as an extrapolation up
//! to 453 K. Boiling point: Richter, McLinden & Lemmon (2011), 0.05 K, from memory.
//! **Transport**: viscosity Bell (2016), conductivity Perkins & Huber (2011), surface tension Mulero, Cachadina & Parra (2012).
//! **Water**: no table and no hydrate were found: the figures of R-134a stand here, a guess.
//! **Oil**: molar mass ASHRAE Standard 34, density of the liquid by the equation; chi as that of R-134a, a guess within the class.
//! **Service**: quick couplers of SAE J639 that fit neither of the others, from memory. Class A2L of ASHRAE Standard 34, from memory.
//! Warming: IPCC AR4 did not list it, 4 is what regulations use; AR5 (2013) table 8.A.1 gives below 1.

use super::data::{Data, Fitting, Gwp, InOil, Safety, p};
use crate::eos::{Coefficients, StartingCurve};
use crate::helmholtz::{GaussianTerm, IdealTerms};
use crate::oil::Oil;
use crate::transport::Fit;

/// What is known of R-1234yf.
pub(super) static DATA: Data = Data {
    boiling_point: 243.665,
    safety: Safety::A2L,
    gwp: Gwp { ar4: 4.0, ar5: 1.0 },
    port: Fitting::QuickCoupler,
    retrofit: None,
    oil: Oil::Pag46,
    other_oils: &[Oil::Pag100, Oil::Pag150, Oil::Ester],
    in_oil: InOil {
        molar_mass: 114.04,
        liquid_density: 1_092.0,
        chi_mineral: 2.2,
        chi_ester: 0.5,
        chi_pag: 0.6,
    },
    water: super::r134a::DATA.water,
    equation: Coefficients {
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
    },
    transport: Fit {
        t_critical: 367.8500,
        mid: 0.38144087,
        half: 0.30770486,
        // 6.5e-04
        fluidity_l: [
            8.43706516e+03,
            -9.24547298e+03,
            2.44207919e+03,
            -2.08037663e+02,
            -1.84953494e+02,
            1.16183027e+03,
            -5.43515900e+02,
            -1.07291733e+03,
            7.45378810e+02,
        ],
        // 2.0e-05
        mu_g_x: [
            5.12798765e-06,
            2.13120953e-06,
            -1.11904790e-06,
            -5.40819953e-07,
            -3.43756721e-07,
            2.25633410e-07,
            -2.32912118e-08,
            1.25563012e-08,
            -7.02597190e-09,
        ],
        // 1.7e-04
        k_l_x: [
            2.23938702e-02,
            2.77071968e-02,
            1.25468813e-02,
            5.48970515e-03,
            1.55708289e-03,
            -2.70055772e-04,
            2.39693893e-04,
            -1.25179539e-04,
            -3.52891924e-04,
        ],
        // 1.3e-04
        k_g_x: [
            5.94983343e-03,
            7.62186006e-04,
            -1.70084626e-03,
            -8.74270297e-04,
            -8.00313116e-04,
            4.69531085e-04,
            -2.62820368e-04,
            -1.58313294e-04,
            2.20677604e-04,
        ],
        // 4.8e-06
        sigma: [
            4.27133213e-03,
            9.60655466e-03,
            6.92826382e-03,
            1.46726241e-03,
            -6.46580023e-05,
            1.34557760e-05,
            1.92105938e-07,
            1.14281540e-06,
            -2.99869715e-06,
        ],
        // 8.5e-04
        cp_l_x2: [
            2.15837980e+02,
            2.63551971e+02,
            7.11248095e+01,
            -1.73660917e+01,
            5.32503808e+00,
            -2.66379954e+00,
            -1.99775453e+01,
            1.20853068e+00,
            1.72094820e+01,
        ],
        // 5.1e-05
        inverse_cp_g: [
            8.62512717e-04,
            5.60497118e-04,
            -1.25744953e-04,
            2.07509102e-04,
            9.07595421e-06,
            -4.22211796e-05,
            7.41419501e-06,
            -2.13527406e-05,
            3.24087251e-05,
        ],
        // 4.6e-05
        mu_0: [
            1.24608263e-05,
            1.26022961e-05,
            -8.75167934e-07,
            -1.15723682e-06,
            8.70140523e-07,
        ],
        // 7.4e-10
        k_0: [
            1.40351238e-02,
            2.48853599e-02,
            5.72428579e-04,
            4.30925182e-09,
            -3.47821946e-09,
        ],
        // 7.4e-04
        cp_0: [
            8.94275497e+02,
            5.74058499e+02,
            -1.55739231e+02,
            1.74411117e+01,
            -6.94589324e+01,
        ],
    },
};
