//! What hangs on the service hose: one thing at a time.

use serde::{Deserialize, Serialize};

use crate::{
    can::Can, cylinder::Cylinder, nitrogen::Nitrogen, recovery::RecoveryMachine, vacuum::VacuumPump,
};

/// What hangs on the service hose.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Attached {
    /// Nothing: the hose's end is open to the room.
    #[default]
    Nothing,
    /// A small can.
    Can(Can),
    /// A charging cylinder.
    Cylinder(Cylinder),
    /// The recovery machine with its cylinder.
    Machine(RecoveryMachine),
    /// Dry nitrogen with its regulator.
    Nitrogen(Nitrogen),
    /// The vacuum pump.
    Pump(VacuumPump),
}

impl Attached {
    /// The can, if it is one.
    pub fn can(&self) -> Option<Can> {
        match self {
            Self::Can(c) => Some(*c),
            _ => None,
        }
    }

    /// It stands on the scale.
    pub fn weighed(&self) -> bool {
        matches!(self, Self::Can(_) | Self::Cylinder(_) | Self::Machine(_))
    }

    /// The charging cylinder, if it is one.
    pub fn cylinder(&self) -> Option<Cylinder> {
        match self {
            Self::Cylinder(c) => Some(*c),
            _ => None,
        }
    }

    /// The recovery machine, if it is one.
    pub fn machine(&self) -> Option<RecoveryMachine> {
        match self {
            Self::Machine(m) => Some(*m),
            _ => None,
        }
    }

    /// The vacuum pump, if it is one.
    pub fn pump(&self) -> Option<VacuumPump> {
        match self {
            Self::Pump(p) => Some(*p),
            _ => None,
        }
    }
}
