//! The scenario of a sound vehicle of a bay's kind.

use std::sync::Arc;

use lowside_shop::fault::Table;
use lowside_units::Quantity;

use crate::scenario::{ConditionSpec, InstrumentSpec, ScatterSpec, Scenario, StartSpec};

impl Scenario {
    /// Returns what everybody knows of a vehicle that is brought in: its kind, the day, how it is set, how warm its cabin is. Nothing is wrong
    /// with it, and it is as its kind is.
    #[must_use]
    pub fn as_known(&self) -> Self {
        let mut known = scenario(self, false);
        known.start.cabin = self.start.cabin;
        known.scatter = ScatterSpec::default();
        known.instruments = InstrumentSpec::default();
        known
    }
}

/// Returns the scenario of a vehicle of this kind without any fault, its data sheet unaltered, and with the label's charge, or what the
/// trade charges of it in a vehicle that was `converted` from R-12.
pub(super) fn scenario(of: &Scenario, converted: bool) -> Scenario {
    let mut sound = Scenario {
        act: Vec::new(),
        vehicle: Arc::clone(of.sound_vehicle()),
        altered: None,
        condition: ConditionSpec::default(),
        start: StartSpec::default(),
        ..of.clone()
    };
    let retrofit = sound.vehicle.refrigerant.data().retrofit;
    if let Some(retrofit) = retrofit.filter(|_| converted) {
        // The oil goes with the refrigerant.
        let charge = retrofit.middle() * sound.vehicle.label_charge.si();
        sound.set(Table::Start, "charge", charge);
        let vehicle = Arc::make_mut(&mut sound.vehicle);
        vehicle.refrigerant = retrofit.to;
        vehicle.oil_kind = retrofit.to.data().oil;
    }
    sound
}
