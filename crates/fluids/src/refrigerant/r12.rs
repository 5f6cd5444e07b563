//! R-12, dichlorodifluoromethane: what vehicles were built for until the early nineties.
//!
//! **Equation**: Marx, Pruss & Wagner, *Neue Zustandsgleichungen fuer R 12, R 22, R 11 und R 113*, VDI-Fortschritt-Berichte
//! series 19, no. 57 (1992); boiling point by the same. 116 to 525 K, to 200 MPa.
//! **Transport**: viscosity Klein, McLinden & Laesecke (1997), conductivity McLinden, Klein & Perkins (2000), both by extended
//! corresponding states; surface tension Mulero, Cachadina & Parra (2012).
//! **Water**: own fit within 3 % to the table in the moisture chapter of the ASHRAE Handbook - Refrigeration; hydrate Mori & Mori,
//! AIChE J. 35(7) (1989).
//! **Oil**: molar mass ASHRAE Standard 34, density of the liquid by the equation; chi our own choice: it mixes with naphthenic oil in
//! any share (common practice, no source).
//! **Service**: threaded ports of SAE J639, from memory. Vehicles are converted to R-134a: 40 CFR 82 subpart G, appendix B; charge
//! of three quarters to 85 % of the label's by common practice and SAE J1661, from memory. Class A1 of ASHRAE Standard 34, from
//! memory. Warming by IPCC AR4 (2007) table 2.14 and AR5 (2013) table 8.A.1.

use super::Refrigerant;
use super::data::{Data, Fitting, Gwp, InOil, Retrofit, Safety, WaterIn, p};
use crate::eos::{Coefficients, StartingCurve};
use crate::helmholtz::IdealTerms;
use crate::oil::Oil;
use crate::transport::Fit;

/// What is known of R-12.
pub(super) static DATA: Data = Data {
    boiling_point: 243.398,
    safety: Safety::A1,
    gwp: Gwp {
        ar4: 10_900.0,
        ar5: 10_200.0,
    },
    port: Fitting::Threaded,
    retrofit: Some(Retrofit {
        to: Refrigerant::R134a,
        charge: [0.75, 0.85],
    }),
    oil: Oil::Mineral,
    other_oils: &[Oil::Ester],
    in_oil: InOil {
        molar_mass: 120.91,
        liquid_density: 1_311.0,
        chi_mineral: 0.4,
        chi_ester: 0.5,
        chi_pag: 0.75,
    },
    water: WaterIn {
        solubility: [0.317_46, 3530.0, 2.8173],
        hydrate_melts: 285.2,
    },
    equation: Coefficients {
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
    },
    transport: Fit {
        t_critical: 385.1200,
        mid: 0.38904322,
        half: 0.31697945,
        // 3.9e-04
        fluidity_l: [
            7.07099061e+03,
            -7.56250165e+03,
            2.90539898e+03,
            -1.41471583e+03,
            6.91957035e+02,
            -2.06824119e+02,
            -1.25498419e+02,
            -1.25566136e+01,
            1.04924263e+02,
        ],
        // 2.0e-05
        mu_g_x: [
            5.04376485e-06,
            2.04466950e-06,
            -8.55687114e-07,
            -4.62087917e-07,
            -6.50856125e-07,
            1.22332715e-07,
            6.71267520e-08,
            6.95594047e-08,
            -3.15046634e-08,
        ],
        // 2.4e-04
        k_l_x: [
            2.22856392e-02,
            3.08225606e-02,
            1.50599203e-02,
            4.93626293e-03,
            1.65897242e-03,
            2.00638555e-04,
            7.91062262e-04,
            4.09311886e-04,
            -3.23200098e-04,
        ],
        // 6.3e-05
        k_g_x: [
            4.86092726e-03,
            4.69818438e-04,
            -1.01135610e-03,
            -6.91438262e-04,
            -5.57274694e-04,
            6.89922558e-04,
            -1.19928856e-04,
            -1.24433347e-04,
            6.72564890e-05,
        ],
        // 1.0e-05
        sigma: [
            5.16071864e-03,
            1.06958430e-02,
            6.67602781e-03,
            9.50998802e-04,
            -9.68799051e-05,
            2.44738819e-05,
            2.68943008e-06,
            2.74470933e-06,
            -7.57097288e-06,
        ],
        // 2.1e-04
        cp_l_x2: [
            1.64793156e+02,
            1.99092139e+02,
            6.25276057e+01,
            -1.38431468e+01,
            -4.15737786e+00,
            7.10008409e+00,
            -2.78633577e+00,
            -5.13049960e+00,
            6.77966506e+00,
        ],
        // 3.2e-04
        inverse_cp_g: [
            1.20191007e-03,
            8.73264993e-04,
            -2.35019613e-04,
            2.81208675e-04,
            -6.43672729e-05,
            -1.82546178e-04,
            2.63467442e-04,
            2.30016823e-05,
            -8.23129769e-05,
        ],
        // 4.0e-05
        mu_0: [
            1.19258401e-05,
            1.20919857e-05,
            -7.67859764e-07,
            -1.12948264e-06,
            8.09853868e-07,
        ],
        // 8.2e-05
        k_0: [
            1.00090346e-02,
            1.48276178e-02,
            1.54053625e-03,
            -2.92482173e-03,
            1.11217469e-03,
        ],
        // 4.7e-05
        cp_0: [
            6.04502160e+02,
            2.92086459e+02,
            -1.59507867e+02,
            5.34138844e+01,
            -1.13438160e+01,
        ],
    },
};
