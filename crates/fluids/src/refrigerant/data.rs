//! What there is to know about a refrigerant. Each has a file with a [`Data`] that names the sources of its values; everything
//! else asks that.

use super::Refrigerant;
use crate::eos::Coefficients;
use crate::helmholtz::PowerTerm;
use crate::oil::Oil;
use crate::transport::Fit;

/// The facts of one refrigerant.
#[derive(Debug)]
pub struct Data {
    /// Normal boiling point (at 101 325 Pa), K.
    pub boiling_point: f64,
    /// Safety class.
    pub safety: Safety,
    /// Warming of the climate.
    pub gwp: Gwp,
    /// Kind of service port. Its shape is the refrigerant's own, so that no other hose goes onto it.
    pub port: Fitting,
    /// What vehicles built for it are converted to, if they are.
    pub retrofit: Option<Retrofit>,
    /// The oil that vehicles for it are built with, and new parts come with.
    pub oil: Oil,
    /// Other oils that go with it.
    pub other_oils: &'static [Oil],
    /// How it dissolves in oil.
    pub in_oil: InOil,
    /// How it dissolves water.
    pub water: WaterIn,
    /// Equation of state.
    pub equation: Coefficients,
    /// Transport properties.
    pub transport: Fit,
}

impl Data {
    /// An oil goes with it.
    #[must_use]
    pub fn takes(&self, oil: Oil) -> bool {
        oil == self.oil || self.other_oils.contains(&oil)
    }
}

/// Safety class of ASHRAE Standard 34: toxicity A lower, B higher; flammability 1 none, 2L lower with slow flames, 2 lower, 3 higher.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[expect(missing_docs, reason = "the classes are their names")]
pub enum Safety {
    A1,
    A2L,
    A2,
    A3,
    B1,
    B2L,
    B2,
    B3,
}

impl Safety {
    /// It can burn.
    #[must_use]
    pub const fn burns(self) -> bool {
        match self {
            Self::A1 | Self::B1 => false,
            Self::A2L | Self::A2 | Self::A3 | Self::B2L | Self::B2 | Self::B3 => true,
        }
    }
}

/// Warming by a kilogram against a kilogram of carbon dioxide over a hundred years, kg/kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gwp {
    /// By the fourth assessment report of the IPCC.
    pub ar4: f64,
    /// By the fifth.
    pub ar5: f64,
}

/// How hoses go onto a service port.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fitting {
    /// Screwed onto a thread, over which a conversion fitting can be screwed.
    Threaded,
    /// Snapped onto a quick coupler, over which nothing goes.
    QuickCoupler,
}

/// What a vehicle is converted to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Retrofit {
    /// The refrigerant it holds afterwards.
    pub to: Refrigerant,
    /// Least and most of it, share of the mass on the maker's label.
    pub charge: [f64; 2],
}

impl Retrofit {
    /// Half way between the least and the most, share of the mass on the maker's label.
    #[must_use]
    pub fn middle(&self) -> f64 {
        0.5 * (self.charge[0] + self.charge[1])
    }
}

/// What [`crate::oil`] needs to know of a refrigerant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InOil {
    /// Molar mass, g/mol.
    pub molar_mass: f64,
    /// Density of the liquid at 25 degC, kg/m3.
    pub liquid_density: f64,
    /// Interaction parameter of Flory and Huggins with mineral oil: up to about 0.5 they mix in any share, above they part.
    pub chi_mineral: f64,
    /// The same with polyol ester.
    pub chi_ester: f64,
    /// The same with polyalkylene glycol.
    pub chi_pag: f64,
}

/// What [`crate::moisture`] needs to know of a refrigerant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WaterIn {
    /// Solubility in the liquid, mg/kg: a, b, c of exp(a - b/T + c ln T) with T in K; 233 to 344 K.
    pub solubility: [f64; 3],
    /// Temperature above which its hydrate melts, where hydrate, water and both of its phases stand together, K.
    pub hydrate_melts: f64,
}

/// A polynomial or exponential term of an equation: n delta^d tau^t exp(-delta^l).
pub(super) const fn p(n: f64, t: f64, d: u8, l: u8) -> PowerTerm {
    PowerTerm { n, t, d, l }
}
