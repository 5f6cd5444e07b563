//! What an instructor does to a vehicle while somebody works at it: plants a fault, takes it away.
//!
//! No hand of the shop does it, so a job, a mark and a vehicle that stands beside for comparison take no part in it.

use lowside_plant::plant::Plant;
use lowside_shop::{Shop, fault::Severity};
use lowside_units::{Duration, Quantity, count_in_range};
use serde::{Deserialize, Serialize};

use super::{FaultId, Refused};
use crate::limits::within;

/// Most leaks that can be planted in a bay, one after the other.
const MOST_LEAKS: usize = 32;
/// Longest time until a fault is there, h, and longest in which it grows.
const LONGEST: f64 = 4.0;

/// An act of whoever teaches.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum InstructorAct {
    /// Plant a fault.
    PlantFault {
        /// Which; none of what the loop holds or how a joint is made up.
        fault: FaultId,
        /// How severe it becomes.
        severity: Severity,
        /// When it begins, 0 to 4 h from now.
        #[serde(default, skip_serializing_if = "is_none")]
        after: Duration,
        /// In what time it grows, 0 to 4 h; what cannot be there by halves comes at once.
        #[serde(default, skip_serializing_if = "is_none")]
        over: Duration,
        /// Nothing is told of it.
        #[serde(default, skip_serializing_if = "is_false")]
        secret: bool,
    },
    /// Take a fault away.
    ClearFault {
        /// Which.
        fault: FaultId,
        /// Nothing is told of it.
        #[serde(default, skip_serializing_if = "is_false")]
        secret: bool,
    },
}

#[allow(
    clippy::trivially_copy_pass_by_ref,
    reason = "as the serializer asks; on 32 bits it is none"
)]
fn is_none(time: &Duration) -> bool {
    time.si() == 0.0
}

#[allow(
    clippy::trivially_copy_pass_by_ref,
    reason = "as the serializer asks; on 32 bits it is none"
)]
fn is_false(on: &bool) -> bool {
    !on
}

impl InstructorAct {
    /// Is nothing told of it?
    pub fn secret(self) -> bool {
        match self {
            Self::PlantFault { secret, .. } | Self::ClearFault { secret, .. } => secret,
        }
    }

    /// Does the act, or refuses and changes nothing.
    pub(super) fn apply(self, plant: &mut Plant, shop: &mut Shop) -> Result<(), Refused> {
        let (Self::PlantFault { fault: id, .. } | Self::ClearFault { fault: id, .. }) = self;
        let fault = id.fault().filter(|fault| fault.comes_about());
        let fault = fault.ok_or(Refused::ByHand(id))?;
        match self {
            Self::PlantFault {
                severity,
                after,
                over,
                ..
            } => {
                let (none, most) = (Duration::from_s(0.0), Duration::from_h(LONGEST));
                within("h", "after", after, none, most)?;
                let most = if fault.grows() { most } else { none };
                within("h", "over", over, none, most)?;
                count_in_range("leaks planted so far", plant.leaks_made(), 0, MOST_LEAKS)?;
                let times = [after.si(), over.si()];
                shop.plant_fault(plant, fault, fault.at(severity, &plant.vehicle), times);
            }
            Self::ClearFault { .. } => shop.clear_fault(plant, fault),
        }
        Ok(())
    }
}
