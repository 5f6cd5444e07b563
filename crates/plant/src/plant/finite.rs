//! Whether the vehicle around the network still holds numbers.

use super::Plant;
use crate::halt::{Halt, first_not_finite};

impl Plant {
    /// The walls, the air and the machinery around the network hold numbers. One sum tells: it is finite only if every part is.
    pub(super) fn finite(&self) -> Result<(), Halt> {
        let (cabin, coil, hot) = (&self.cabin, &self.evaporator, &self.condenser);
        let sum = |all: &[f64]| all.iter().sum::<f64>();
        let named = [
            (
                "temperature of the condenser's walls",
                sum(&hot.wall) + hot.duty,
            ),
            (
                "temperature of the evaporator's walls",
                sum(&coil.wall) + sum(&coil.frost) + coil.held + coil.duty,
            ),
            (
                "temperature of the metal around volumes",
                self.shells.iter().map(|s| s.t).sum(),
            ),
            (
                "air of cabin and vent",
                cabin.air.t + cabin.air.w + cabin.interior + cabin.vent.t + cabin.vent.w,
            ),
            ("air under the hood", self.hood_t + self.condenser_air.1),
            (
                "temperature of clutch and coolant",
                self.clutch.facing + self.clutch.coil + self.engine.coolant,
            ),
            ("wear of the compressor", self.wear()),
        ];
        if named.iter().map(|(_, x)| x).sum::<f64>().is_finite() {
            return Ok(());
        }
        first_not_finite("vehicle", &named).map_or(Ok(()), Err)
    }
}
