//! What was weighed and measured: all that a closed bay knows of where the grams are.

use lowside_lessons::Shown as Known;
use lowside_units::{
    Mass, Quantity, Volume,
    display::{self, Shown, UnitSystem},
};

/// What scale and measuring cup say.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// Refrigerant that cans and cylinders have given.
    pub given: Shown,
    /// Refrigerant recovered.
    pub recovered: Shown,
    /// Refrigerant in the loop by that; none where it is not known by weight.
    pub charge: Option<Shown>,
    /// What the loop is to hold by its label.
    pub label: Shown,
    /// Oil measured out.
    pub oil_out: Shown,
    /// Oil put in.
    pub oil_in: Shown,
}

impl Weighed {
    /// Reads scale and cup.
    pub fn of(shown: &Known<'_>, units: UnitSystem) -> Self {
        let mass = |kg: f64| display::mass(Mass::from_kg(kg.max(0.0)), units);
        let oil = |m3: f64| display::volume(Volume::from_si(m3), units);
        Self {
            given: mass(shown.weighed.given),
            recovered: mass(shown.weighed.recovered),
            charge: shown.charge.map(mass),
            label: mass(shown.target),
            oil_out: oil(shown.oil_out()),
            oil_in: oil(shown.oil_in()),
        }
    }
}
