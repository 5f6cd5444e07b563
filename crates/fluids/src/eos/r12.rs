//! Marx, Pruss & Wagner, *Neue Zustandsgleichungen fuer R 12, R 22, R 11 und R 113*, VDI-Fortschritt-Berichte
//! series 19, no. 57 (1992). 116 to 525 K, to 200 MPa.
//!
//! The starting curves are correlations of the saturation line, good to a few percent; they only start the solver.

use super::{Coefficients, StartingCurve};
use crate::helmholtz::{IdealTerms, PowerTerm};

const fn p(n: f64, t: f64, d: u8, l: u8) -> PowerTerm {
    PowerTerm { n, t, d, l }
}

/// The equation of R-12.
pub static COEFFICIENTS: Coefficients = Coefficients {
    molar_mass: 0.120913,
    gas_constant: 8.314471,
    t_red: 385.12,
    rho_red: 4672.781255944357,
    t_crit: 385.12,
    p_crit: 4136100.0,
    rho_crit: 4672.781255944357,
    t_triple: 116.099,
    t_max: 525.0,
    p_max: 200000000.0,
    ideal: IdealTerms {
        a1: 10.0100905,
        a2: -4.66434985,
        log_tau: 3.00361975,
        powers: &[],
        planck_einstein: &[
            (3.16062357, 3.72204562),
            (0.371258136, 6.30985083),
            (3.56226039, 1.78037889),
            (2.12152336, 1.07087607),
        ],
    },
    power: &[
        p(2.075343402, 0.5, 1, 0),
        p(-2.962525996, 1.0, 1, 0),
        p(0.01001589616, 2.0, 1, 0),
        p(0.01781347612, 2.5, 2, 0),
        p(0.02556929157, -0.5, 4, 0),
        p(0.002352142637, 0.0, 6, 0),
        p(-8.495553314e-05, 0.0, 8, 0),
        p(-0.01535945599, -0.5, 1, 1),
        p(-0.2108816776, 1.5, 1, 1),
        p(-0.01654228806, 2.5, 5, 1),
        p(-0.0118131613, -0.5, 7, 1),
        p(-4.16029583e-05, 0.0, 12, 1),
        p(2.784861664e-05, 0.5, 12, 1),
        p(1.618686433e-06, -0.5, 14, 1),
        p(-0.1064614686, 4.0, 1, 2),
        p(0.0009369665207, 4.0, 9, 2),
        p(0.02590095447, 2.0, 1, 3),
        p(-0.04347025025, 4.0, 1, 3),
        p(0.1012308449, 12.0, 3, 3),
        p(-0.1100003438, 14.0, 3, 3),
        p(-0.003361012009, 0.0, 5, 3),
        p(0.0003789190008, 14.0, 9, 4),
    ],
    gaussian: &[],
    start_p: StartingCurve {
        terms: &[
            (-0.4180899251614923, 0.894),
            (-6.821426208906223, 1.009),
            (1.4450198472690974, 1.274),
            (-1.4837613030063526, 3.0),
            (-2.1731387101462754, 4.927),
            (-5.72739817030707, 19.696),
        ],
        over_t: true,
        exponential: true,
    },
    start_rho_l: StartingCurve {
        terms: &[
            (2.6029953147390845, 0.391),
            (-1.289157172326326, 0.803),
            (1.8650658616334526, 1.301),
            (-0.7403291941448226, 2.566),
            (24.389351468278143, 12.555),
            (-67.79326638866661, 16.134),
        ],
        over_t: false,
        exponential: false,
    },
    start_rho_g: StartingCurve {
        terms: &[
            (-7.9660647155295505, 0.499),
            (23.959910083444367, 0.743),
            (-23.82796401904973, 0.857),
            (3.215927599962643, 1.368),
            (-4.437766797843962, 3.716),
            (-3.5598094489847374, 14.833),
        ],
        over_t: true,
        exponential: true,
    },
};
