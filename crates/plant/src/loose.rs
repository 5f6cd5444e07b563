//! What hands have taken off the compressor's drive and its wiring, and not put back. All of it is on in a vehicle that comes in.

use serde::{Deserialize, Serialize};

/// A plug of the compressor's circuit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lead {
    /// At the clutch's coil.
    Clutch,
    /// At the low-pressure switch on the accumulator.
    LowSwitch,
    /// At the high-pressure cut-out in the discharge line.
    CutOut,
}

/// How many plugs there are.
const LEADS: usize = 3;

impl Lead {
    /// All of them, in the order of the current's way back from the coil.
    pub const ALL: [Self; LEADS] = [Self::Clutch, Self::LowSwitch, Self::CutOut];

    /// Its name as written in files.
    pub fn key(self) -> &'static str {
        match self {
            Self::Clutch => "clutch",
            Self::LowSwitch => "low-switch",
            Self::CutOut => "cut-out",
        }
    }

    /// Its name in messages.
    pub fn name(self) -> &'static str {
        match self {
            Self::Clutch => "clutch",
            Self::LowSwitch => "low-pressure switch",
            Self::CutOut => "high-pressure cut-out",
        }
    }
}

/// How a plug is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Plug {
    /// Pushed on.
    #[default]
    On,
    /// Pulled: its circuit is open.
    Off,
    /// Pulled, with a wire across its terminals: its circuit is closed, whatever the switch feels.
    Bridged,
}

impl Plug {
    /// Returns whether current passes, where the switch itself is `closed` or not.
    pub fn passes(self, closed: bool) -> bool {
        match self {
            Self::On => closed,
            Self::Off => false,
            Self::Bridged => true,
        }
    }
}

/// What is off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub struct Loose {
    /// The battery's earth lead is off its post.
    pub battery: bool,
    /// The drive belt is off the compressor's pulley.
    pub belt: bool,
    plugs: [Plug; LEADS],
}

impl Loose {
    /// How a plug is.
    pub fn plug(&self, lead: Lead) -> Plug {
        self.plugs[lead as usize]
    }

    /// Returns whether it alone keeps the compressor from turning: the belt is off, or the clutch's circuit is open by hand.
    pub fn stops_compressor(&self) -> bool {
        self.belt || self.battery || self.plugs.contains(&Plug::Off)
    }

    /// Pulls a plug, bridges it or pushes it on.
    pub fn set_plug(&mut self, lead: Lead, plug: Plug) {
        self.plugs[lead as usize] = plug;
    }
}
