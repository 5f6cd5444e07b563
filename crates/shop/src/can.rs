//! Small cans of refrigerant: what they hold, how they warm, when they burst.

use lowside_plant::species::Content;
use serde::{Deserialize, Serialize};

/// Net content of a small can, kg (12 oz; common practice).
pub const NET: f64 = 0.340_194;
/// Inside volume, m3: liquid fills about three quarters at room temperature (common practice, no source).
pub const VOLUME: f64 = 0.385e-3;
/// Empty weight with its valve, kg (from memory, 80-110 g).
pub const TARE: f64 = 0.095;
/// Heat capacity of the shell, J/K (tin plate, about 85 g at 480 J/(kg K)).
pub const METAL: f64 = 41.0;
/// Conductance between shell and content, W/K (wetted by boiling liquid).
pub const INSIDE: f64 = 15.0;
/// Conductance from still air to the shell with the dew that forms on it, W/K (0.035 m2 at about 15 W/(m2 K)).
pub const IN_AIR: f64 = 0.55;
/// Conductance from a water bath to the shell, W/K (0.035 m2 at about 300 W/(m2 K)).
pub const IN_WATER: f64 = 10.0;
/// Hottest bath anyone may use, K: 52 degC (125 degF), the limit printed on small cans (common practice).
pub const BATH_LIMIT: f64 = 325.15;
/// Gauge pressure at which a small can bursts, Pa: 270 psi, the least that its transport rating asks (49 CFR 178.33a,
/// specification 2Q; from memory).
pub const BURST: f64 = 1.862e6;

/// How a can stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum Stance {
    /// Valve up: vapour leaves.
    #[default]
    Upright,
    /// Valve down: liquid leaves.
    Inverted,
}

/// The can on the hose.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Can {
    /// Which can of the job, from 1.
    pub number: u32,
    /// How it stands.
    pub stance: Stance,
    /// Its tap is open.
    pub open: bool,
    /// Temperature of the water it stands in, K, if any.
    pub bath: Option<f64>,
    /// It has burst.
    pub burst: bool,
}

/// What a full can holds.
pub fn full() -> Content {
    Content::refrigerant(NET)
}
