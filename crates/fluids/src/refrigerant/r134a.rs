//! R-134a, 1,1,1,2-tetrafluoroethane: what vehicles were built for from the early nineties on.
//!
//! **Equation**: Tillner-Roth & Baehr, *An International Standard Formulation for the Thermodynamic Properties of
//! 1,1,1,2-Tetrafluoroethane (HFC-134a)*, J. Phys. Chem. Ref. Data 23 (1994) 657, doi 10.1063/1.555958; boiling point by the same.
//! 170 to 455 K, to 70 MPa.
//! **Transport**: viscosity Huber, Laesecke & Perkins (2003), conductivity McLinden, Klein & Perkins (2000), surface tension
//! Mulero, Cachadina & Parra (2012).
//! **Water**: own fit within 3 % (worst 3.003) to the table in the moisture chapter of the ASHRAE Handbook - Refrigeration;
//! hydrate Hashimoto, Makino, Inoue & Ohgaki, J. Chem. Eng. Data 55 (2010) 4951.
//! **Oil**: molar mass ASHRAE Standard 34, density of the liquid by the equation; chi our own choice: it hardly dissolves in
//! naphthenic oil, mixes with PAG and ester (common practice, no source).
//! **Service**: quick couplers of SAE J639, from memory. Class A1 of ASHRAE Standard 34, from memory. Warming by IPCC AR4 (2007)
//! table 2.14 and AR5 (2013) table 8.A.1.

use super::data::{Data, Fitting, Gwp, InOil, Safety, WaterIn, p};
use crate::eos::{Coefficients, StartingCurve};
use crate::helmholtz::IdealTerms;
use crate::oil::Oil;
use crate::transport::Fit;

/// What is known of R-134a.
pub(super) static DATA: Data = Data {
    boiling_point: 247.076,
    safety: Safety::A1,
    gwp: Gwp {
        ar4: 1430.0,
        ar5: 1300.0,
    },
    port: Fitting::QuickCoupler,
    retrofit: None,
    oil: Oil::Pag46,
    other_oils: &[Oil::Pag100, Oil::Pag150, Oil::Ester],
    in_oil: InOil {
        molar_mass: 102.03,
        liquid_density: 1_207.0,
        chi_mineral: 2.2,
        chi_ester: 0.5,
        chi_pag: 0.6,
    },
    water: WaterIn {
        solubility: [17.055, 2818.5, -0.088_678],
        hydrate_melts: 283.19,
    },
    equation: Coefficients {
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
    },
    transport: Fit {
        t_critical: 374.2120,
        mid: 0.38434943,
        half: 0.31124290,
        // 2.2e-04
        fluidity_l: [
            6.67246375e+03,
            -7.77837703e+03,
            2.87499259e+03,
            -1.13811173e+03,
            3.10695189e+02,
            -1.14417835e+01,
            2.08455207e+02,
            -3.14603620e+02,
            1.56107465e+02,
        ],
        // 1.5e-05
        mu_g_x: [
            4.87174036e-06,
            2.05418559e-06,
            -7.49000831e-07,
            -3.73044958e-07,
            -5.68071611e-07,
            1.03443617e-07,
            1.25749385e-08,
            4.56576383e-08,
            -7.73946676e-09,
        ],
        // 1.3e-04
        k_l_x: [
            2.77643132e-02,
            3.72409659e-02,
            1.75395622e-02,
            5.72109675e-03,
            1.66674924e-03,
            5.75730738e-04,
            1.37715744e-03,
            2.21538756e-04,
            -6.11439146e-04,
        ],
        // 4.8e-05
        k_g_x: [
            6.21314850e-03,
            5.53066888e-04,
            -1.82502130e-03,
            -1.38574400e-03,
            -6.45314485e-04,
            9.77704108e-04,
            -3.98647349e-04,
            -2.26230587e-04,
            1.78911158e-04,
        ],
        // 1.0e-05
        sigma: [
            5.40475305e-03,
            1.08636448e-02,
            6.51955970e-03,
            8.46662304e-04,
            -9.42241284e-05,
            2.39452102e-05,
            2.77603910e-06,
            3.14177996e-06,
            -7.70602676e-06,
        ],
        // 2.2e-04
        cp_l_x2: [
            2.26805768e+02,
            2.76140126e+02,
            8.34859832e+01,
            -7.82381266e+00,
            8.63011309e+00,
            -6.47547555e+00,
            -1.34688004e+01,
            2.54626371e+00,
            9.87720694e+00,
        ],
        // 2.3e-04
        inverse_cp_g: [
            8.33394898e-04,
            6.40840112e-04,
            -6.52101804e-05,
            2.07162271e-04,
            -1.33330328e-05,
            -1.25489340e-04,
            6.30099000e-05,
            1.98819959e-05,
            -2.03487921e-06,
        ],
        // 1.1e-06
        mu_0: [
            1.19213588e-05,
            1.14949457e-05,
            -5.12357554e-07,
            8.09438736e-08,
            -1.16314585e-08,
        ],
        // 6.5e-11
        k_0: [
            1.35046603e-02,
            2.40294597e-02,
            3.03555276e-10,
            -3.64932545e-10,
            2.94858961e-10,
        ],
        // 5.2e-05
        cp_0: [
            8.36705496e+02,
            5.32854903e+02,
            -1.00510085e+02,
            5.05341175e+01,
            -2.48108234e+01,
        ],
    },
};
