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
/// Conductance from moved air and two hands to the shell of a can that is rocked, W/K (0.035 m2 at about 30 W/(m2 K) in moved air, and a
/// palm's 0.01 m2 at about 100 more).
pub const IN_HAND: f64 = 2.0;
/// Share of its volume above which liquid reaches the valve of a can rocked down to its side: the valve is in its axis.
pub const ON_ITS_SIDE: f64 = 0.5;
/// Conductance from a water bath to the shell, W/K (0.035 m2 at about 300 W/(m2 K)).
pub const IN_WATER: f64 = 10.0;
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
#[expect(clippy::struct_excessive_bools, reason = "each is a thing of its own")]
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Can {
    /// Which can of the job, from 1.
    pub number: u32,
    /// How it stands.
    pub stance: Stance,
    /// Has a valve of its own that shuts when the tap's needle leaves it.
    pub self_sealing: bool,
    /// The tap's needle has been screwed in: the can is pierced, or its own valve pushed open.
    pub pierced: bool,
    /// How far the needle is backed out, 0 (screwed in, nothing flows) to 1 (all the way).
    pub back: f64,
    /// Temperature of the water it stands in, K, if any.
    pub bath: Option<f64>,
    /// It has burst.
    pub burst: bool,
    /// Hands rock it between upright and lying.
    #[serde(default)]
    pub rocked: bool,
}

/// Share of the needle's travel from which the passage is fully open (own figure).
const FULL_FROM: f64 = 0.3;
/// Share of the needle's travel from which a self-sealing can's valve is let go and shuts (own figure).
const LETS_GO: f64 = 0.9;
/// Where the one movement "open the tap" leaves the needle.
pub const OPENED: f64 = 0.5;

impl Can {
    /// A new can, the tap on it but not yet screwed in.
    pub fn new(number: u32, self_sealing: bool) -> Self {
        Self {
            number,
            stance: Stance::Upright,
            self_sealing,
            pierced: false,
            back: 1.0,
            bath: None,
            burst: false,
            rocked: false,
        }
    }

    /// Open share of the tap's passage, 0 to 1.
    pub fn opening(&self) -> f64 {
        if !self.pierced || (self.self_sealing && self.back > LETS_GO) {
            0.0
        } else {
            (self.back / FULL_FROM).min(1.0)
        }
    }

    /// Something can flow.
    pub fn open(&self) -> bool {
        self.opening() > 0.0
    }

    /// Screws the needle to a place; all the way in pierces the can.
    pub fn screw(&mut self, back: f64) {
        self.pierced |= back <= 0.0;
        self.back = back;
    }

    /// Opens or shuts the tap in one movement: screwed in and backed out, or screwed in. A tap that never was screwed in is
    /// shut already.
    pub fn tap(&mut self, open: bool) {
        if open {
            self.screw(0.0);
            self.screw(OPENED);
        } else if self.pierced {
            self.screw(0.0);
        }
    }
}

/// What a full can holds.
pub fn full() -> Content {
    Content::refrigerant(NET)
}
