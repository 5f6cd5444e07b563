//! What the numbers of a vehicle may be. Limits in SI; the message shows them with their unit.

use lowside_units::{GaugePressure, Quantity, UnitError, count_in_range, in_range};

use super::{
    AccumulatorSpec, CabinSpec, CompressorSpec, CondenserSpec, EvaporatorSpec, FanSpec, LineSpec,
    OrificeSpec, SwitchSpec, Vehicle,
};

/// Most steps a blower may have.
const MOST_STEPS: usize = 8;

/// Passes a value between two limits in SI.
pub(super) fn within<Q: Quantity>(
    field: &str,
    value: Q,
    lo: f64,
    hi: f64,
) -> Result<(), UnitError> {
    in_range(field, value, Q::from_si(lo), Q::from_si(hi)).map(|_| ())
}

/// Passes a count.
pub(super) fn number(field: &str, value: u16, lo: u16, hi: u16) -> Result<(), UnitError> {
    count_in_range(field, value.into(), lo.into(), hi.into())
}

/// Passes a heat conductance, W/K.
fn conductance<Q: Quantity>(field: &str, value: Q) -> Result<(), UnitError> {
    within(field, value, 0.0, 20e3)
}

/// Passes a pressure loss at the rated flow, Pa.
fn loss<Q: Quantity>(field: &str, value: Q) -> Result<(), UnitError> {
    within(field, value, 50.0, 500e3)
}

/// Passes an air flow, kg/s.
fn air<Q: Quantity>(field: &str, value: Q) -> Result<(), UnitError> {
    within(field, value, 0.01, 5.0)
}

impl Vehicle {
    /// Checks every number against what such a vehicle can have.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] naming the field, the value and the limits.
    pub fn check(&self) -> Result<(), UnitError> {
        within("label_charge", self.label_charge, 0.2, 3.0)?;
        within("oil", self.oil, 0.0, 0.8)?;
        self.compressor.check()?;
        self.discharge_line.check("discharge_line", (4e-3, 25e-3))?;
        self.condenser.check()?;
        self.fan.check()?;
        self.liquid_line.check("liquid_line", (3e-3, 20e-3))?;
        self.orifice.check()?;
        self.evaporator.check()?;
        self.accumulator.check()?;
        self.suction_line.check("suction_line", (6e-3, 35e-3))?;
        self.switches.check()?;
        self.cabin.check()
    }
}

impl CompressorSpec {
    fn check(&self) -> Result<(), UnitError> {
        within("compressor.displacement", self.displacement, 50e-6, 300e-6)?;
        within("compressor.pulley_ratio", self.pulley_ratio, 0.5, 2.5)?;
        within("compressor.metal", self.metal, 500.0, 20e3)?;
        conductance("compressor.gas_conductance", self.gas_conductance)?;
        conductance("compressor.hood_conductance", self.hood_conductance)
    }
}

impl LineSpec {
    fn check(&self, name: &str, bores: (f64, f64)) -> Result<(), UnitError> {
        within(&format!("{name}.volume"), self.volume, 20e-6, 2e-3)?;
        conductance(&format!("{name}.hood_conductance"), self.hood_conductance)?;
        loss(&format!("{name}.pressure_loss"), self.pressure_loss)?;
        within(&format!("{name}.bore"), self.bore, bores.0, bores.1)?;
        if let Some(muffler) = self.muffler {
            within(&format!("{name}.muffler"), muffler, 20e-6, 1e-3)?;
        }
        Ok(())
    }
}

impl CondenserSpec {
    fn check(&self) -> Result<(), UnitError> {
        within("condenser.volume", self.volume, 0.1e-3, 5e-3)?;
        within("condenser.metal", self.metal, 200.0, 20e3)?;
        self.tubes.check("condenser.tubes")?;
        self.fins.check("condenser.fins")?;
        loss("condenser.pressure_loss", self.pressure_loss)
    }
}

impl FanSpec {
    fn check(&self) -> Result<(), UnitError> {
        air("fan.idle_flow", self.idle_flow)?;
        air("fan.top_flow", self.top_flow)?;
        air("fan.cool_flow", self.cool_flow)?;
        within("fan.slips_to", self.slips_to, 250.0, 400.0)?;
        within(
            "fan.drives_from",
            self.drives_from,
            self.slips_to.si(),
            420.0,
        )?;
        air("fan.ram_flow", self.ram_flow)?;
        within("fan.idle_recirculation", self.idle_recirculation, 0.0, 20.0)
    }
}

impl OrificeSpec {
    fn check(&self) -> Result<(), UnitError> {
        within("orifice.bore", self.bore, 0.8e-3, 3e-3)?;
        within("orifice.length", self.length, 10e-3, 80e-3)
    }
}

impl EvaporatorSpec {
    fn check(&self) -> Result<(), UnitError> {
        within("evaporator.volume", self.volume, 0.1e-3, 5e-3)?;
        within("evaporator.metal", self.metal, 200.0, 20e3)?;
        self.tubes.check("evaporator.tubes")?;
        self.fins.check("evaporator.fins")?;
        loss("evaporator.pressure_loss", self.pressure_loss)?;
        within("evaporator.held_water", self.held_water, 1e-3, 1.0)
    }
}

impl AccumulatorSpec {
    fn check(&self) -> Result<(), UnitError> {
        within("accumulator.volume", self.volume, 0.1e-3, 3e-3)?;
        within("accumulator.floods_above", self.floods_above, 0.2, 0.98)?;
        within("accumulator.bleed_hole", self.bleed_hole, 0.05e-6, 5e-6)?;
        within("accumulator.desiccant", self.desiccant, 0.0, 0.2)?;
        conductance("accumulator.hood_conductance", self.hood_conductance)?;
        loss("accumulator.pressure_loss", self.pressure_loss)
    }
}

impl SwitchSpec {
    fn check(&self) -> Result<(), UnitError> {
        within("switches.low_opens", self.low_opens, 20e3, 400e3)?;
        within(
            "switches.low_closes",
            self.low_closes,
            self.low_opens.si(),
            600e3,
        )?;
        // One without the other would be a switch that never comes back, or never goes.
        if self.high_opens.is_some() || self.high_closes.is_some() {
            let none = GaugePressure::from_si(0.0);
            let opens = self.high_opens.unwrap_or(none);
            within("switches.high_opens", opens, 1e6, 3.3e6)?;
            let closes = self.high_closes.unwrap_or(none);
            within("switches.high_closes", closes, 0.5e6, opens.si())?;
        }
        if let Some(hot) = self.coolant_opens {
            within("switches.coolant_opens", hot, 373.15, 398.15)?;
        }
        within("switches.relief_opens", self.relief_opens, 2.5e6, 4.5e6)?;
        within("switches.lag", self.lag, 0.0, 10.0)
    }
}

impl CabinSpec {
    fn check(&self) -> Result<(), UnitError> {
        within("cabin.volume", self.volume, 0.5, 40.0)?;
        within("cabin.interior", self.interior, 1e3, 2e6)?;
        conductance("cabin.interior_conductance", self.interior_conductance)?;
        conductance("cabin.body_conductance", self.body_conductance)?;
        within("cabin.full_sun", self.full_sun, 0.0, 5e3)?;
        within("cabin.leakage", self.leakage, 0.0, 0.2)?;
        within("cabin.window_exchange", self.window_exchange, 0.0, 1.0)?;
        within(
            "cabin.recirculation_leak",
            self.recirculation_leak,
            0.0,
            0.5,
        )?;
        let steps = self.blower.len();
        count_in_range("cabin.blower (number of steps)", steps, 1, MOST_STEPS)?;
        for step in &self.blower {
            within("cabin.blower", *step, 0.005, 0.6)?;
        }
        within("cabin.blower_power", self.blower_power, 0.0, 800.0)?;
        conductance("cabin.duct_conductance", self.duct_conductance)
    }
}
