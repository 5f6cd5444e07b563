//! Cylinders: the charging cylinder, and the vessel of the recovery machine with its limit.

use lowside_fluids::table::Table;
use lowside_plant::species::Content;
use serde::{Deserialize, Serialize};

use crate::can::Stance;

/// Water capacity of a charging cylinder for 13.6 kg (30 lb), m3 (common practice, some 13.4 L).
pub const CHARGING_VOLUME: f64 = 13.4e-3;
/// Its empty weight, kg (from memory, 2.6-3.2 kg).
pub const CHARGING_TARE: f64 = 2.8;
/// Most it holds, kg: 30 lb.
pub const CHARGING_MOST: f64 = 13.608;
/// Heat capacity of its steel, J/K.
pub const CHARGING_METAL: f64 = 1340.0;
/// Conductance from its shell to boiling content, W/K (wetted part, about 0.2 m2 at 300 W/(m2 K)).
pub const INSIDE: f64 = 60.0;
/// Conductance from still air to its shell, W/K (about 0.4 m2 at 10 W/(m2 K)).
pub const OUTSIDE: f64 = 4.0;

/// Water capacity of the recovery cylinder, m3: 11.9 kg of water, the common refillable cylinder for 30 lb.
pub const RECOVERY_VOLUME: f64 = 11.9e-3;
/// Its empty weight, kg (from memory, 6-8 kg).
pub const RECOVERY_TARE: f64 = 7.3;
/// Heat capacity of its steel, J/K.
pub const RECOVERY_METAL: f64 = 3500.0;
/// Share of the water capacity that liquid may fill at [`LIMIT_T`].
pub const LIMIT: f64 = 0.8;
/// Temperature at which the filling limit is counted, K: 54 degC (130 degF), the hottest a cylinder is transported at.
pub const LIMIT_T: f64 = 327.15;

/// Most refrigerant a recovery cylinder may hold, kg: 80 % of it full of liquid at 54 degC.
pub fn limit(table: &Table) -> f64 {
    LIMIT * RECOVERY_VOLUME * table.sat(LIMIT_T).rho_l
}

/// The charging cylinder on the service hose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Cylinder {
    /// Which of its two ways the hose is on: upright gives vapour, inverted (or its liquid valve) liquid.
    pub stance: Stance,
    /// Its valve is open.
    pub open: bool,
    /// The valve shuts by itself when the cylinder holds no more than this, kg.
    pub shuts_at: Option<f64>,
}

/// A vessel put aside: what it holds and how warm that is.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
pub struct Stored {
    /// What it holds, kg.
    pub content: Content,
    /// How much of its refrigerant is R-12, kg.
    pub r12: f64,
    /// Temperature, K.
    pub t: f64,
}
