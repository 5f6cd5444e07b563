//! What only the bay knows, and nobody in it can: charge, faults, pressures where no gauge is, damage.
//!
//! A lesson's mark may ask it beside what is [`Shown`](crate::Shown). A view in a closed bay must not.

use lowside_plant::{
    damage::Damage,
    species::{AIR, OIL},
};
use lowside_session::{Bay, Event, Tick, scenario::ConditionSpec};

/// What is hidden. SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Truth<'a> {
    /// Refrigerant in the loop, kg.
    pub charge: f64,
    /// Share of the other gas in it, 0 to 1.
    pub other_gas: f64,
    /// Air in the loop, kg.
    pub air: f64,
    /// Water in the loop, with that in its oil, that no desiccant, ice or rubber holds, kg.
    pub water: f64,
    /// Water that the desiccant holds, kg.
    pub desiccant_water: f64,
    /// Oil in the loop, kg.
    pub oil: f64,
    /// Air in the loop that was not there at the start, kg.
    pub air_let_in: f64,
    /// Water in the loop that was not there at the start, kg.
    pub water_let_in: f64,
    /// Refrigerant that went into the room, kg.
    pub vented: f64,
    /// Pressure of the low side at its port, Pa gauge.
    pub low: f64,
    /// Pressure of the high side at its port, Pa gauge.
    pub high: f64,
    /// Liquid share of what the compressor draws, 0 to 1.
    pub suction_liquid: f64,
    /// Wear that use has added to the compressor.
    pub damage: Damage,
    /// The faults it was opened with.
    pub faults: &'a ConditionSpec,
    /// What happened by itself, seen or unseen.
    pub events: &'a [(Tick, Event)],
    /// Bay time, ticks.
    pub tick: Tick,
}

impl<'a> Truth<'a> {
    /// Asks the bay.
    pub fn of(bay: &'a Bay) -> Self {
        let plant = bay.plant();
        let start = &bay.scenario().start;
        let gauge = |node| plant.network.node(node).state.p - plant.day().p;
        let (air, water) = (plant.held(AIR), plant.free_water());
        Self {
            charge: bay.charge(),
            other_gas: plant.other_share(),
            air,
            water,
            desiccant_water: plant.desiccant_water(),
            oil: plant.held(OIL),
            air_let_in: air - start.air(),
            water_let_in: water - start.water(),
            vented: bay.vented(),
            low: gauge(plant.circuit.low_side()),
            high: gauge(plant.circuit.high_side()),
            suction_liquid: plant.suction_liquid(),
            damage: plant.damage,
            faults: &bay.scenario().condition,
            events: bay.events(),
            tick: bay.tick(),
        }
    }
}
