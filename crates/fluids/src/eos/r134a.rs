//! R-134a: Tillner-Roth & Baehr, *An International Standard Formulation for the Thermodynamic Properties of
//! 1,1,1,2-Tetrafluoroethane (HFC-134a)*, J. Phys. Chem. Ref. Data 23 (1994) 657, doi 10.1063/1.555958. 170 to 455 K, to 70 MPa.
//!
//! The starting curves are correlations of the saturation line, good to a few percent; they only start the solver.

use super::{Coefficients, StartingCurve};
use crate::helmholtz::{IdealTerms, PowerTerm};

const fn p(n: f64, t: f64, d: u8, l: u8) -> PowerTerm {
    PowerTerm { n, t, d, l }
}

/// The equation of R-134a.
pub static COEFFICIENTS: Coefficients = Coefficients {
    molar_mass: 0.102032,
    gas_constant: 8.314471,
    t_red: 374.18,
    rho_red: 4978.830171000001,
    t_crit: 374.21,
    p_crit: 4059280.0,
    rho_crit: 5017.053,
    t_triple: 169.85,
    t_max: 455.0,
    p_max: 70000000.0,
    ideal: IdealTerms {
        a1: -1.019535,
        a2: 9.047135,
        log_tau: -1.629789,
        powers: &[(-9.723916, -0.5), (-3.92717, -0.75)],
        planck_einstein: &[],
    },
    power: &[
        p(0.05586817, -0.5, 2, 0),
        p(0.498223, 0.0, 1, 0),
        p(0.02458698, 0.0, 3, 0),
        p(0.0008570145, 0.0, 6, 0),
        p(0.0004788584, 1.5, 6, 0),
        p(-1.800808, 1.5, 1, 0),
        p(0.2671641, 2.0, 1, 0),
        p(-0.04781652, 2.0, 2, 0),
        p(0.01423987, 1.0, 5, 1),
        p(0.3324062, 3.0, 2, 1),
        p(-0.007485907, 5.0, 2, 1),
        p(0.0001017263, 1.0, 4, 2),
        p(-0.5184567, 5.0, 1, 2),
        p(-0.08692288, 5.0, 4, 2),
        p(0.2057144, 6.0, 1, 2),
        p(-0.005000457, 10.0, 2, 2),
        p(0.0004603262, 10.0, 4, 2),
        p(-0.003497836, 10.0, 1, 3),
        p(0.006995038, 18.0, 5, 3),
        p(-0.01452184, 22.0, 3, 3),
        p(-0.0001285458, 50.0, 10, 4),
    ],
    gaussian: &[],
    start_p: StartingCurve {
        terms: &[
            (0.4331478287291047, 0.845),
            (-9.090302559074352, 0.99),
            (2.1476074125217703, 1.14),
            (-1.557687007603464, 2.651),
            (-3.5020328972698604, 4.507),
            (14.958442337201044, 17.235),
        ],
        over_t: true,
        exponential: true,
    },
    start_rho_l: StartingCurve {
        terms: &[
            (18.772731940930015, 0.673),
            (-51.49939472178225, 0.994),
            (40.793536440596085, 1.257),
            (-1481.6500471538966, 5.783),
            (1600.534434298925, 5.943),
            (-67338.52423732559, 19.94),
        ],
        over_t: false,
        exponential: false,
    },
    start_rho_g: StartingCurve {
        terms: &[
            (-5.147386240766544, 0.476),
            (5.34618043286371, 0.966),
            (-7.611015272838434, 1.321),
            (-28.85436432788653, 8.491),
            (-9.079306067130748, 13.463),
            (64.0, 13.463),
        ],
        over_t: true,
        exponential: true,
    },
};
