//! Oil by hand: the cup, the bottle, and the balance that a technician draws up.

use lowside_fluids::oil::{Oil, Oils};
use lowside_plant::{plant::Plant, species::OIL};
use lowside_units::Quantity;
use serde::{Deserialize, Serialize};

use crate::{parts::PARTS, shop::Shop};

/// Density at which oil is measured by volume, kg/m3 (as the network counts it).
pub use lowside_plant::state::RHO_OIL;

/// What is in the bottle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum OilKind {
    /// PAG of viscosity grade 46 (ISO VG).
    Pag46,
    /// PAG 100.
    Pag100,
    /// PAG 150.
    Pag150,
    /// Ester, as used where mineral oil may remain.
    Ester,
    /// Mineral oil, for R-12; does not mix with R-134a or R-1234yf.
    Mineral,
}

impl OilKind {
    /// The oil itself.
    pub fn oil(self) -> Oil {
        match self {
            Self::Pag46 => Oil::Pag46,
            Self::Pag100 => Oil::Pag100,
            Self::Pag150 => Oil::Pag150,
            Self::Ester => Oil::Ester,
            Self::Mineral => Oil::Mineral,
        }
    }
}

impl From<Oil> for OilKind {
    fn from(oil: Oil) -> Self {
        match oil {
            Oil::Pag46 => Self::Pag46,
            Oil::Pag100 => Self::Pag100,
            Oil::Pag150 => Self::Pag150,
            Oil::Ester => Self::Ester,
            Oil::Mineral => Self::Mineral,
        }
    }
}

/// What was done with oil so far, kg.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct OilWork {
    /// Drained from each part into the measuring cup.
    pub drained: [f64; PARTS],
    /// Poured into each part from the bottle.
    pub poured: [f64; PARTS],
    /// What new parts came with.
    pub shipped: f64,
    /// What stayed in parts that were thrown away.
    pub scrapped: f64,
    /// Injected through the low-side port.
    pub injected: f64,
    /// What was poured last.
    pub kind: Option<OilKind>,
    /// Poured of a kind that does not belong to the vehicle's gas.
    pub wrong_kind: f64,
    /// In the waste can.
    pub waste: f64,
    /// Which oils are in the waste can.
    pub waste_of: Oils,
    /// Which oils stayed in parts that were thrown away.
    pub scrapped_of: Oils,
}

/// The balance as a technician draws it up from what was measured, beside what is really there, kg.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Worksheet {
    /// What the loop should hold.
    pub label: f64,
    /// Drained from parts, and measured in the recovery machine's separator.
    pub out: f64,
    /// What is thought to cling in thrown-away parts: not measurable, taken from what did not drain.
    pub scrapped: f64,
    /// Poured, injected, and come with new parts.
    pub put_in: f64,
    /// What the technician would take the loop to hold: label less out and scrapped plus in.
    pub by_balance: f64,
    /// What it really holds.
    pub truth: f64,
}

/// Draws up the balance.
pub fn worksheet(plant: &Plant, shop: &Shop) -> Worksheet {
    let w = &shop.oil;
    let label = plant.vehicle.oil.si();
    let out = w.drained.iter().sum::<f64>() + shop.station.separator;
    let put_in = w.poured.iter().sum::<f64>() + w.injected + w.shipped;
    Worksheet {
        label,
        out,
        scrapped: w.scrapped,
        put_in,
        by_balance: label - out - w.scrapped + put_in,
        truth: plant.held(OIL),
    }
}
