//! A run in numbers: where the bay stands and what it did over the last two minutes. SI inside, named units outside.

use std::collections::VecDeque;

use lowside_plant::{network::NodeId, plant::TICK};
use serde::Serialize;

use crate::{bay::Bay, take::fingerprint};

/// Window over which means and cycles are taken, s.
pub const WINDOW: f64 = 120.0;

/// One tick's worth of what the window keeps.
#[derive(Debug, Clone, Copy)]
struct Sample {
    low: f64,
    high: f64,
    vent: f64,
    engaged: bool,
    pulled_in: bool,
    capacity: f64,
    shaft: f64,
}

/// Collects a run, tick by tick.
#[derive(Debug, Clone, Default)]
pub struct Window {
    samples: VecDeque<Sample>,
    was_engaged: bool,
    worst_mass: f64,
    worst_energy: f64,
}

/// The numbers of a run. `_kPa_abs` are absolute pressures; means and cycles are over the last 120 s.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[expect(
    non_snake_case,
    reason = "the field names are the printed contract and carry their units"
)]
pub struct Summary {
    /// Bay time, s.
    pub t_s: f64,
    /// True pressure at the accumulator.
    pub low_kPa_abs: f64,
    /// True pressure in the discharge line.
    pub high_kPa_abs: f64,
    /// Mean of the low side while the clutch is in; null when it was not.
    pub low_kPa_abs_clutch_on_mean: Option<f64>,
    /// Mean of the high side while the clutch is in; null when it was not.
    pub high_kPa_abs_clutch_on_mean: Option<f64>,
    /// Mean of the centre vent's air.
    pub vent_degC_mean: f64,
    /// Air at the centre vent.
    pub vent_degC: f64,
    /// Cabin air.
    pub cabin_degC: f64,
    /// Superheat at the evaporator's outlet (0 when wet).
    pub superheat_K: f64,
    /// Subcooling ahead of the orifice (0 when vapour is there).
    pub subcooling_K: f64,
    /// Temperature of the discharge line.
    pub discharge_degC: f64,
    /// The clutch is in.
    pub clutch_on: bool,
    /// Times the clutch pulled in.
    pub clutch_cycles: u32,
    /// Share of the time the clutch was in.
    pub clutch_duty: f64,
    /// Refrigerant in the loop.
    pub refrigerant_kg: f64,
    /// Air in the loop.
    pub air_kg: f64,
    /// Liquid share of what the compressor draws.
    pub suction_liquid: f64,
    /// Mean heat taken from the air by the evaporator.
    pub capacity_W: f64,
    /// Mean shaft power.
    pub shaft_W: f64,
    /// Wear of the compressor, 0 (new) to 1: what it came with and what use has added.
    pub compressor_wear: f64,
    /// Liquid level in the accumulator, share of its volume.
    pub accumulator_level: f64,
    /// Worst gap in the books of any species so far.
    pub max_mass_error_rel: f64,
    /// Worst gap in the books of energy so far.
    pub max_energy_error_rel: f64,
    /// Fingerprint of the state.
    pub state_hash: String,
}

impl Window {
    /// Takes in the bay as it stands after a step.
    pub fn take(&mut self, bay: &Bay) {
        let plant = bay.plant();
        let c = &plant.circuit;
        let engaged = plant.drive.engaged;
        if self.samples.len() as f64 * TICK >= WINDOW {
            self.samples.pop_front();
        }
        self.samples.push_back(Sample {
            low: plant.network.node(c.low_side()).state.p,
            high: plant.network.node(c.high_side()).state.p,
            vent: plant.cabin.vent.t,
            engaged,
            pulled_in: engaged && !self.was_engaged,
            capacity: plant.evaporator.duty,
            shaft: plant.shaft_power(),
        });
        self.was_engaged = engaged;
        // The books change slowly; once a second is enough to catch the worst.
        if bay.tick().is_multiple_of(crate::TICKS_PER_SECOND) {
            self.worst_mass = self.worst_mass.max(bay.mass_error());
            self.worst_energy = self.worst_energy.max(bay.energy_error());
        }
    }

    /// The numbers now. Before the first tick the means are of what stands there.
    pub fn summary(&self, bay: &Bay) -> Summary {
        if self.samples.is_empty() {
            let mut now = Self::default();
            now.take(bay);
            return now.summary(bay);
        }
        let plant = bay.plant();
        let c = &plant.circuit;
        let table = plant.network.table();
        let node = |i: NodeId| &plant.network.node(i).state;
        let n = self.samples.len().max(1) as f64;
        let mean = |f: fn(&Sample) -> f64| self.samples.iter().map(f).sum::<f64>() / n;
        let on: Vec<&Sample> = self.samples.iter().filter(|s| s.engaged).collect();
        let on_mean = |f: fn(&Sample) -> f64| {
            (!on.is_empty()).then(|| on.iter().map(|s| f(s)).sum::<f64>() / on.len() as f64 / 1e3)
        };
        let outlet = node(c.evaporator.outlet());
        let liquid = node(c.liquid_line.outlet());
        let accumulator = node(c.low_side());
        let air = plant.held(lowside_plant::species::AIR);
        Summary {
            t_s: bay.seconds(),
            low_kPa_abs: accumulator.p / 1e3,
            high_kPa_abs: node(c.high_side()).p / 1e3,
            low_kPa_abs_clutch_on_mean: on_mean(|s| s.low),
            high_kPa_abs_clutch_on_mean: on_mean(|s| s.high),
            vent_degC_mean: mean(|s| s.vent) - 273.15,
            vent_degC: plant.cabin.vent.t - 273.15,
            cabin_degC: plant.cabin.air.t - 273.15,
            superheat_K: (outlet.t - table.t_sat(outlet.p)).max(0.0),
            subcooling_K: (table.t_sat(liquid.p) - liquid.t).max(0.0),
            discharge_degC: node(c.high_side()).t - 273.15,
            clutch_on: plant.drive.engaged,
            clutch_cycles: self.samples.iter().map(|s| u32::from(s.pulled_in)).sum(),
            clutch_duty: on.len() as f64 / n,
            refrigerant_kg: bay.charge(),
            air_kg: air,
            suction_liquid: plant.suction_liquid(),
            capacity_W: mean(|s| s.capacity),
            shaft_W: mean(|s| s.shaft),
            compressor_wear: plant.wear(),
            accumulator_level: accumulator.v_liq
                / (accumulator.v_liq + accumulator.v_gas).max(1e-12),
            max_mass_error_rel: self.worst_mass.max(bay.mass_error()),
            max_energy_error_rel: self.worst_energy.max(bay.energy_error()),
            state_hash: fingerprint(bay),
        }
    }
}
