//! A vehicle as its data sheet gives it: sizes, areas, switch settings. Read from a file in `scenarios/vehicles`.

use lowside_fluids::Gas;
use lowside_units::{
    Area, Conductance, Duration, GaugePressure, HeatCapacity, Length, Mass, MassFlow, Power,
    Quantity, Ratio, Speed, TemperatureDifference, UnitError, Volume, in_range,
};
use serde::{Deserialize, Serialize};

/// A whole vehicle.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vehicle {
    /// What it is called in the bay.
    pub name: String,
    /// Refrigerant the loop is made or converted for.
    pub refrigerant: Gas,
    /// Charge on the label.
    pub label_charge: Mass,
    /// Oil in the whole loop.
    pub oil: Mass,
    /// Compressor and its drive.
    pub compressor: CompressorSpec,
    /// Gas line from compressor to condenser.
    pub discharge_line: LineSpec,
    /// Condenser.
    pub condenser: CondenserSpec,
    /// Air over the condenser.
    pub fan: FanSpec,
    /// Liquid line from condenser to orifice.
    pub liquid_line: LineSpec,
    /// Orifice tube.
    pub orifice: OrificeSpec,
    /// Evaporator.
    pub evaporator: EvaporatorSpec,
    /// Accumulator.
    pub accumulator: AccumulatorSpec,
    /// Gas line from accumulator to compressor, with the suction chamber of the compressor.
    pub suction_line: LineSpec,
    /// Pressure switches and relief valve.
    pub switches: SwitchSpec,
    /// Blower, ducts and cabin.
    pub cabin: CabinSpec,
}

/// Compressor: sweep and drive.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompressorSpec {
    /// Swept volume per turn.
    pub displacement: Volume,
    /// Compressor turns per engine turn.
    pub pulley_ratio: Ratio,
    /// Heat capacity of body and pistons.
    pub metal: HeatCapacity,
    /// Heat passage between the body and the discharge gas.
    pub gas_conductance: Conductance,
    /// Heat passage from the body to the air under the hood.
    pub hood_conductance: Conductance,
}

/// A line: volume, metal and loss.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LineSpec {
    /// Inside volume.
    pub volume: Volume,
    /// Heat passage to the air under the hood.
    pub hood_conductance: Conductance,
    /// Pressure lost at the rated flow of 50 g/s.
    pub pressure_loss: TextPressure,
}

/// Condenser: parallel tubes and fins.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CondenserSpec {
    /// Inside volume.
    pub volume: Volume,
    /// Heat capacity of tubes and fins.
    pub metal: HeatCapacity,
    /// Air-side conductance at the rated air flow; grows with its square root.
    pub air_conductance: Conductance,
    /// Rated air flow.
    pub air_flow: MassFlow,
    /// Conductance to condensing refrigerant at 50 g/s.
    pub refrigerant_conductance: Conductance,
    /// Pressure lost at the rated flow of 50 g/s.
    pub pressure_loss: TextPressure,
}

/// Engine fan and ram air.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FanSpec {
    /// Air flow with the engine idling at 800 rpm; grows with speed to the power 0.8.
    pub idle_flow: MassFlow,
    /// Air flow the fan cannot pass.
    pub top_flow: MassFlow,
    /// Air flow that a road speed of 50 km/h adds as ram air.
    pub ram_flow: MassFlow,
    /// Warmth of the air that finds its way round to the condenser face again while standing at idle.
    pub idle_recirculation: TemperatureDifference,
}

/// Orifice tube.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OrificeSpec {
    /// Bore.
    pub bore: Length,
    /// Length.
    pub length: Length,
}

/// Evaporator: plates and fins.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct EvaporatorSpec {
    /// Inside volume.
    pub volume: Volume,
    /// Heat capacity of metal and the water that clings to it.
    pub metal: HeatCapacity,
    /// Air-side conductance at the rated air flow; grows with its square root.
    pub air_conductance: Conductance,
    /// Rated air flow.
    pub air_flow: MassFlow,
    /// Conductance to boiling refrigerant at 50 g/s.
    pub refrigerant_conductance: Conductance,
    /// Pressure lost at the rated flow of 50 g/s.
    pub pressure_loss: TextPressure,
    /// Condensate the fins hold before it drips off.
    pub held_water: Mass,
}

/// Accumulator.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct AccumulatorSpec {
    /// Inside volume.
    pub volume: Volume,
    /// Share of the volume above which liquid spills into the pick-up tube.
    pub floods_above: Ratio,
    /// Area of the oil bleed hole.
    pub bleed_hole: Area,
    /// Heat passage from the air under the hood.
    pub hood_conductance: Conductance,
    /// Pressure lost in the pick-up tube at the rated flow of 50 g/s.
    pub pressure_loss: TextPressure,
}

/// Switch settings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SwitchSpec {
    /// Low-side cycling switch opens at.
    pub low_opens: GaugePressure,
    /// Low-side cycling switch closes at.
    pub low_closes: GaugePressure,
    /// High-pressure cut-out opens at.
    pub high_opens: GaugePressure,
    /// High-pressure cut-out closes at.
    pub high_closes: GaugePressure,
    /// Relief valve opens at.
    pub relief_opens: GaugePressure,
    /// Lag of a pressure switch with its relay and clutch.
    pub lag: Duration,
}

/// Cabin and blower.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CabinSpec {
    /// Air volume.
    pub volume: Volume,
    /// Heat capacity of seats, trim and inner skin.
    pub interior: HeatCapacity,
    /// Heat passage between air and interior.
    pub interior_conductance: Conductance,
    /// Heat passage through the body to the outside.
    pub body_conductance: Conductance,
    /// Sun on glass and roof that reaches the interior at full sun.
    pub full_sun: Power,
    /// Outside air that leaks in with the windows shut.
    pub leakage: MassFlow,
    /// Share of outside air that enters with the door on recirculation.
    pub recirculation_leak: Ratio,
    /// Air flow of the blower in its steps, lowest first.
    pub blower: Vec<MassFlow>,
    /// Power of the blower on its highest step; all of it warms the air.
    pub blower_power: Power,
    /// Heat passage of the ducts from the warm space behind the dash, taken at the outside temperature.
    pub duct_conductance: Conductance,
}

/// A pressure difference written as a pressure: `30 kPa`.
pub type TextPressure = lowside_units::AbsolutePressure;

/// Flow at which pressure losses and refrigerant-side conductances are rated, kg/s.
pub const RATED_FLOW: f64 = 0.05;

impl Vehicle {
    /// Checks every number against what such a vehicle can have.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] naming the field, the value and the limits.
    pub fn check(&self) -> Result<(), UnitError> {
        let c = &self.cabin;
        within(
            "label_charge",
            self.label_charge,
            Mass::from_g(200.0),
            Mass::from_g(3000.0),
        )?;
        within("oil", self.oil, Mass::from_g(0.0), Mass::from_g(600.0))?;
        let k = &self.compressor;
        within(
            "compressor.displacement",
            k.displacement,
            Volume::from_cm3(50.0),
            Volume::from_cm3(300.0),
        )?;
        within(
            "compressor.pulley_ratio",
            k.pulley_ratio,
            Ratio::from_si(0.5),
            Ratio::from_si(2.5),
        )?;
        within(
            "compressor.metal",
            k.metal,
            HeatCapacity::from_j_k(500.0),
            HeatCapacity::from_j_k(20e3),
        )?;
        conductance("compressor.gas_conductance", k.gas_conductance)?;
        conductance("compressor.hood_conductance", k.hood_conductance)?;
        for (name, line) in [
            ("discharge_line", &self.discharge_line),
            ("liquid_line", &self.liquid_line),
            ("suction_line", &self.suction_line),
        ] {
            within(
                &format!("{name}.volume"),
                line.volume,
                Volume::from_cm3(20.0),
                Volume::from_l(2.0),
            )?;
            conductance(&format!("{name}.hood_conductance"), line.hood_conductance)?;
            loss(&format!("{name}.pressure_loss"), line.pressure_loss)?;
        }
        let d = &self.condenser;
        coil(
            "condenser",
            d.volume,
            d.metal,
            d.air_conductance,
            d.air_flow,
            d.refrigerant_conductance,
            d.pressure_loss,
        )?;
        let f = &self.fan;
        air("fan.idle_flow", f.idle_flow)?;
        air("fan.top_flow", f.top_flow)?;
        air("fan.ram_flow", f.ram_flow)?;
        within(
            "fan.idle_recirculation",
            f.idle_recirculation,
            TemperatureDifference::from_si(0.0),
            TemperatureDifference::from_si(20.0),
        )?;
        within(
            "orifice.bore",
            self.orifice.bore,
            Length::from_mm(0.8),
            Length::from_mm(3.0),
        )?;
        within(
            "orifice.length",
            self.orifice.length,
            Length::from_mm(10.0),
            Length::from_mm(80.0),
        )?;
        let e = &self.evaporator;
        coil(
            "evaporator",
            e.volume,
            e.metal,
            e.air_conductance,
            e.air_flow,
            e.refrigerant_conductance,
            e.pressure_loss,
        )?;
        within(
            "evaporator.held_water",
            e.held_water,
            Mass::from_g(1.0),
            Mass::from_kg(1.0),
        )?;
        let a = &self.accumulator;
        within(
            "accumulator.volume",
            a.volume,
            Volume::from_l(0.1),
            Volume::from_l(3.0),
        )?;
        within(
            "accumulator.floods_above",
            a.floods_above,
            Ratio::from_si(0.2),
            Ratio::from_si(0.98),
        )?;
        within(
            "accumulator.bleed_hole",
            a.bleed_hole,
            Area::from_mm2(0.05),
            Area::from_mm2(5.0),
        )?;
        conductance("accumulator.hood_conductance", a.hood_conductance)?;
        loss("accumulator.pressure_loss", a.pressure_loss)?;
        self.switches.check()?;
        within(
            "cabin.volume",
            c.volume,
            Volume::from_m3(0.5),
            Volume::from_m3(40.0),
        )?;
        within(
            "cabin.interior",
            c.interior,
            HeatCapacity::from_j_k(1e3),
            HeatCapacity::from_j_k(2e6),
        )?;
        conductance("cabin.interior_conductance", c.interior_conductance)?;
        conductance("cabin.body_conductance", c.body_conductance)?;
        within(
            "cabin.full_sun",
            c.full_sun,
            Power::from_w(0.0),
            Power::from_w(5000.0),
        )?;
        within(
            "cabin.leakage",
            c.leakage,
            MassFlow::from_si(0.0),
            MassFlow::from_si(0.2),
        )?;
        within(
            "cabin.recirculation_leak",
            c.recirculation_leak,
            Ratio::from_si(0.0),
            Ratio::from_si(0.5),
        )?;
        if c.blower.is_empty() || c.blower.len() > 8 {
            return Err(UnitError::OutOfRange {
                field: "cabin.blower (number of steps)".into(),
                value: c.blower.len().to_string(),
                lo: "1".into(),
                hi: "8".into(),
            });
        }
        for step in &c.blower {
            within(
                "cabin.blower",
                *step,
                MassFlow::from_si(0.005),
                MassFlow::from_si(0.6),
            )?;
        }
        within(
            "cabin.blower_power",
            c.blower_power,
            Power::from_w(0.0),
            Power::from_w(800.0),
        )?;
        conductance("cabin.duct_conductance", c.duct_conductance)
    }
}

impl SwitchSpec {
    fn check(&self) -> Result<(), UnitError> {
        let kpag = GaugePressure::from_kpa;
        within(
            "switches.low_opens",
            self.low_opens,
            kpag(20.0),
            kpag(400.0),
        )?;
        within(
            "switches.low_closes",
            self.low_closes,
            self.low_opens,
            kpag(600.0),
        )?;
        within(
            "switches.high_opens",
            self.high_opens,
            kpag(1000.0),
            kpag(3300.0),
        )?;
        within(
            "switches.high_closes",
            self.high_closes,
            kpag(500.0),
            self.high_opens,
        )?;
        within(
            "switches.relief_opens",
            self.relief_opens,
            kpag(2500.0),
            kpag(4500.0),
        )?;
        within(
            "switches.lag",
            self.lag,
            Duration::from_si(0.0),
            Duration::from_si(10.0),
        )?;
        Ok(())
    }
}

fn within<Q: Quantity>(field: &str, value: Q, lo: Q, hi: Q) -> Result<(), UnitError> {
    in_range(field, value, lo, hi).map(|_| ())
}

fn conductance(field: &str, value: Conductance) -> Result<(), UnitError> {
    within(
        field,
        value,
        Conductance::from_w_k(0.0),
        Conductance::from_w_k(20e3),
    )
}

fn air(field: &str, value: MassFlow) -> Result<(), UnitError> {
    within(
        field,
        value,
        MassFlow::from_si(0.01),
        MassFlow::from_si(5.0),
    )
}

fn loss(field: &str, value: TextPressure) -> Result<(), UnitError> {
    within(
        field,
        value,
        TextPressure::from_si(50.0),
        TextPressure::from_si(500e3),
    )
}

#[expect(
    clippy::too_many_arguments,
    reason = "the seven numbers that two coils have in common"
)]
fn coil(
    name: &str,
    volume: Volume,
    metal: HeatCapacity,
    air_side: Conductance,
    flow: MassFlow,
    inside: Conductance,
    drop: TextPressure,
) -> Result<(), UnitError> {
    within(
        &format!("{name}.volume"),
        volume,
        Volume::from_l(0.1),
        Volume::from_l(5.0),
    )?;
    within(
        &format!("{name}.metal"),
        metal,
        HeatCapacity::from_j_k(200.0),
        HeatCapacity::from_j_k(20e3),
    )?;
    conductance(&format!("{name}.air_conductance"), air_side)?;
    air(&format!("{name}.air_flow"), flow)?;
    conductance(&format!("{name}.refrigerant_conductance"), inside)?;
    loss(&format!("{name}.pressure_loss"), drop)
}

/// Road speed at which [`FanSpec::ram_flow`] is rated.
pub fn ram_speed() -> Speed {
    Speed::from_km_h(50.0)
}
