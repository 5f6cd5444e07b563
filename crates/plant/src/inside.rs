//! The correlations of [`crate::in_tube`] tabled for the tick: groups of properties along saturation for each gas, powers of
//! quality, of flux and of heat flux. Nothing here takes a power or a logarithm once it is built.

use lowside_fluids::{Refrigerant, transport::Transport};
use std::sync::{LazyLock, OnceLock};

use crate::{
    in_tube::{LAMINAR, LAMINAR_TO, LEAST_HEAT, Saturated, TURBULENT_FROM, cooper_per},
    rows::Rows,
    stream::smooth,
};

/// Groups of one gas along saturation, and functions that are the same for all.
#[derive(Debug)]
pub struct Groups {
    /// 0.023 mu^-0.8 Pr^0.4 k; 3.8/pr^0.38; k, 1/mu, Pr, Pr^(2/3) of the liquid.
    condensing: Rows<6>,
    /// 0.023 mu^-0.8 Pr^0.4 k; 1.37 (rho_l/rho_g)^0.43 (mu_g/mu_l)^0.086; latent^-1.16; Cooper's group; mu^-1.17.
    boiling: Rows<5>,
    /// k, 1/mu, Pr, Pr^(2/3) of the vapour.
    vapour: Rows<4>,
}

static GROUPS: [OnceLock<Groups>; Refrigerant::ALL.len()] =
    [const { OnceLock::new() }; Refrigerant::ALL.len()];
static COMMON: LazyLock<Common> = LazyLock::new(Common::build);

/// Coldest temperature tabled, K.
const COLD: f64 = 213.15;
/// Steps in temperature, about 1.5 K.
const T_STEPS: usize = 100;
/// Largest square root of a Reynolds number tabled.
const ROOT_RE: f64 = 700.0;
/// Largest square root of a heat flux tabled, (W/m2)^(1/2).
const ROOT_HEAT: f64 = 300.0;
/// Driest quality of the boiling correlation.
const DRIEST: f64 = 0.99;

impl Groups {
    /// The groups of a gas, built at first use.
    pub fn of(gas: Refrigerant) -> &'static Self {
        GROUPS[gas as usize].get_or_init(|| Self::build(gas))
    }

    fn build(gas: Refrigerant) -> Self {
        let top = Transport::range(gas).1;
        let rows = |t| Saturated::of(gas, t);
        let lo = |s: &Saturated| {
            0.023 * libm::pow(s.t.mu_l, -0.8) * libm::pow(s.prandtl_l(), 0.4) * s.t.k_l
        };
        let two_thirds = |x: f64| libm::cbrt(x * x);
        Self {
            condensing: Rows::new(COLD, top, T_STEPS, |t| {
                let (s, pr) = (rows(t), rows(t).prandtl_l());
                [
                    lo(&s),
                    3.8 / libm::pow(s.reduced, 0.38),
                    s.t.k_l,
                    1.0 / s.t.mu_l,
                    pr,
                    two_thirds(pr),
                ]
            }),
            boiling: Rows::new(COLD, top, T_STEPS, |t| {
                let s = rows(t);
                let density = libm::pow(s.rho_l / s.rho_g, 0.43);
                [
                    lo(&s),
                    1.37 * density * libm::pow(s.t.mu_g / s.t.mu_l, 0.086),
                    libm::pow(s.latent, -1.16),
                    cooper_per(&s),
                    libm::pow(s.t.mu_l, -1.17),
                ]
            }),
            vapour: Rows::new(COLD, top, T_STEPS, |t| {
                let (s, pr) = (rows(t), rows(t).prandtl_g());
                [s.t.k_g, 1.0 / s.t.mu_g, pr, two_thirds(pr)]
            }),
        }
    }
}

/// Functions of quality, Reynolds number and heat flux.
#[derive(Debug)]
struct Common {
    /// (1-x)^0.8 and x^0.76 (1-x)^0.04.
    shah: Rows<2>,
    /// (1-x)^0.8, x^0.774 (1-x)^0.026 and (1-x)^-0.43.
    boiling: Rows<3>,
    /// Over the root of Re: (f/8)(Re-1000) and 12.7 (f/8)^(1/2).
    turbulent: Rows<2>,
    /// Over the root of the heat flux: q^1.16 and q^0.67.
    heat: Rows<2>,
}

impl Common {
    fn build() -> Self {
        let pow = libm::pow;
        Self {
            shah: Rows::new(0.0, 1.0, 200, |x| {
                [pow(1.0 - x, 0.8), pow(x, 0.76) * pow(1.0 - x, 0.04)]
            }),
            boiling: Rows::new(0.0, DRIEST, 198, |x| {
                [
                    pow(1.0 - x, 0.8),
                    pow(x, 0.774) * pow(1.0 - x, 0.026),
                    pow(1.0 - x, -0.43),
                ]
            }),
            turbulent: Rows::new(0.0, ROOT_RE, 350, |root| {
                let re = (root * root).max(LAMINAR_TO);
                let f = 1.0 / (0.79 * libm::log(re) - 1.64);
                let f8 = f * f / 8.0;
                [f8 * (re - 1000.0), 12.7 * f8.sqrt()]
            }),
            heat: Rows::new(0.0, ROOT_HEAT, 300, |root| {
                let q = (root * root).max(LEAST_HEAT);
                [pow(q, 1.16), pow(q, 0.67)]
            }),
        }
    }
}

/// Powers of a mass flux, found once for a coil and step.
#[derive(Debug, Clone, Copy)]
pub struct Flux {
    whole: f64,
    counted: f64,
    per_08: f64,
}

/// Those that boiling asks for besides.
#[derive(Debug, Clone, Copy)]
pub struct BoilingFlux {
    flux: Flux,
    per_117: f64,
    boiling: f64,
}

/// One coil's tubes: hydraulic diameter and its powers, and the gas inside.
#[derive(Debug, Clone, Copy)]
pub struct Inside {
    groups: &'static Groups,
    common: &'static Common,
    bore: f64,
    per_bore: f64,
    bore_02: f64,
    bore_117: f64,
}

/// Least mass flux counted where a phase changes, kg/(s m2): slower, gravity drains the film (condensing) or bubbles stir the pool (own
/// figure, 20-60).
const LEAST_FLUX: f64 = 40.0;
/// Static quality from which the wall of a condensing cell dries to that of vapour.
const DRYING: f64 = 0.05;

impl Inside {
    /// Tubes of hydraulic diameter `bore` (m) with `gas` in them.
    pub fn new(gas: Refrigerant, bore: f64) -> Self {
        Self {
            groups: Groups::of(gas),
            common: &COMMON,
            bore,
            per_bore: 1.0 / bore,
            bore_02: libm::pow(bore, -0.2),
            bore_117: libm::pow(bore, 1.17),
        }
    }

    /// Powers of a mass flux (kg/(s m2)).
    pub fn flux(&self, flux: f64) -> Flux {
        let counted = flux.max(LEAST_FLUX);
        Flux {
            whole: flux,
            counted,
            per_08: libm::pow(counted, 0.8),
        }
    }

    /// Powers of a mass flux for boiling.
    pub fn boiling_flux(&self, flux: f64) -> BoilingFlux {
        let flux = self.flux(flux);
        BoilingFlux {
            flux,
            per_117: libm::pow(flux.counted, 1.17),
            boiling: 24_000.0 * libm::pow(flux.counted, -1.16),
        }
    }

    /// Nusselt number of one phase ([`crate::in_tube::single_phase`]).
    fn nusselt(&self, re: f64, pr: f64, pr_23: f64) -> f64 {
        let g = ((re - LAMINAR_TO) * (1.0 / (TURBULENT_FROM - LAMINAR_TO))).clamp(0.0, 1.0);
        if g <= 0.0 {
            return LAMINAR;
        }
        let [top, bottom] = self.common.turbulent.at(re.max(TURBULENT_FROM).sqrt());
        LAMINAR + g * (top * pr / (1.0 + bottom * (pr_23 - 1.0)) - LAMINAR)
    }

    /// Vapour alone, W/(m2 K): properties of saturated vapour at its temperature `t` (K), which for the superheats of a loop
    /// puts it within a tenth.
    pub fn vapour(&self, g: &Flux, t: f64) -> f64 {
        let [k, per_mu, pr, pr_23] = self.groups.vapour.at(t);
        self.nusselt(g.whole * self.bore * per_mu, pr, pr_23) * k * self.per_bore
    }

    /// Liquid alone, W/(m2 K).
    pub fn liquid(&self, g: &Flux, t: f64) -> f64 {
        let [_, _, k, per_mu, pr, pr_23] = self.groups.condensing.at(t);
        self.nusselt(g.whole * self.bore * per_mu, pr, pr_23) * k * self.per_bore
    }

    /// Condensing at quality `x`, W/(m2 K) ([`crate::in_tube::shah`]).
    pub fn condensing(&self, g: &Flux, t: f64, x: f64) -> f64 {
        let [lo, two, ..] = self.groups.condensing.at(t);
        let [a, b] = self.common.shah.at(x);
        lo * g.per_08 * self.bore_02 * (a + two * b)
    }

    /// Boiling at quality `x` and heat flux `heat` (W/m2), W/(m2 K) ([`crate::in_tube::gungor_winterton`]); oil in the liquid leaves the
    /// share `oily` of what flow alone carries over, and bubbles as they are.
    pub fn boiling(&self, g: &BoilingFlux, t: f64, x: f64, heat: f64, oily: f64) -> f64 {
        let [lo, xtt, latent, pool, per_mu_117] = self.groups.boiling.at(t);
        let [a, b, c] = self.common.boiling.at(x);
        let [q_116, q_067] = self.common.heat.at(heat.max(0.0).sqrt());
        let lo = lo * g.flux.per_08 * self.bore_02;
        let e = a * (1.0 + g.boiling * q_116 * latent) + xtt * b;
        let suppressed = 1.0 / (1.0 + 1.15e-6 * e * e * c * self.bore_117 * per_mu_117 * g.per_117);
        oily * lo * e + suppressed * pool * q_067
    }

    /// A condenser cell: vapour, condensing and liquid joined smoothly by static quality, flowing quality and void fraction. `oily` is what
    /// the liquid's oil leaves of the conductance, 0 to 1.
    pub fn condenser_cell(
        &self,
        g: &Flux,
        t: f64,
        quality: f64,
        x: f64,
        void: f64,
        oily: f64,
    ) -> f64 {
        let wet = smooth((1.0 - quality) * (1.0 / DRYING));
        let open = smooth(void * (1.0 / DRYING));
        let mut h = 0.0;
        if wet < 1.0 {
            h += (1.0 - wet) * self.vapour(g, t);
        }
        if wet * open > 0.0 {
            h += wet * open * oily * self.condensing(g, t, x);
        }
        if open < 1.0 {
            h += wet * (1.0 - open) * oily * self.liquid(g, t);
        }
        h
    }

    /// An evaporator cell: boiling, and past the quality `dry_from` the wall dries until it meets vapour alone. `oily` as in
    /// [`Self::condenser_cell`].
    pub fn evaporator_cell(
        &self,
        g: &BoilingFlux,
        t: f64,
        x: f64,
        dry_from: f64,
        heat: f64,
        oily: f64,
    ) -> f64 {
        let wet = smooth((1.0 - x) / (1.0 - dry_from));
        let mut h = 0.0;
        if wet < 1.0 {
            h += (1.0 - wet) * self.vapour(&g.flux, t);
        }
        if wet > 0.0 {
            h += wet * self.boiling(g, t, x, heat, oily);
        }
        h
    }
}
