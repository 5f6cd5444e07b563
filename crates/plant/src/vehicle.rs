//! A vehicle as its data sheet gives it: sizes, areas, switch settings. Read from a file in `scenarios/vehicles`.

use lowside_fluids::{Refrigerant, oil::Oil};
use lowside_units::{
    Area, Conductance, Duration, GaugePressure, HeatCapacity, Length, Mass, MassFlow, Power, Ratio,
    Speed, Temperature, TemperatureDifference, Volume,
};
use serde::{Deserialize, Deserializer, Serialize};

mod check;
mod core;

pub use self::core::{FinsSpec, TubesSpec};

/// A whole vehicle.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vehicle {
    /// What it is called in the bay.
    pub name: String,
    /// Refrigerant the loop is made or converted for.
    pub refrigerant: Refrigerant,
    /// Charge on the label.
    pub label_charge: Mass,
    /// Oil in the whole loop.
    pub oil: Mass,
    /// Which oil.
    #[serde(default)]
    pub oil_kind: Oil,
    /// Compressor and its drive.
    pub compressor: CompressorSpec,
    /// Gas line from compressor to condenser.
    #[serde(deserialize_with = "line::<_, 10>")]
    pub discharge_line: LineSpec,
    /// Condenser.
    pub condenser: CondenserSpec,
    /// Air over the condenser.
    pub fan: FanSpec,
    /// Liquid line from condenser to orifice.
    #[serde(deserialize_with = "line::<_, 7>")]
    pub liquid_line: LineSpec,
    /// Orifice tube.
    pub orifice: OrificeSpec,
    /// Evaporator.
    pub evaporator: EvaporatorSpec,
    /// Accumulator.
    pub accumulator: AccumulatorSpec,
    /// Gas line from accumulator to compressor, with the suction chamber of the compressor.
    #[serde(deserialize_with = "line::<_, 14>")]
    pub suction_line: LineSpec,
    /// The suction line has a low-side port of its own, at the compressor, besides that at the accumulator.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub compressor_port: bool,
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

/// A line: volume, metal, loss and bore.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LineSpec {
    /// Inside volume.
    pub volume: Volume,
    /// Heat passage to the air under the hood.
    pub hood_conductance: Conductance,
    /// Pressure lost at the rated flow of 50 g/s.
    pub pressure_loss: TextPressure,
    /// Inside diameter.
    pub bore: Length,
    /// Volume of a muffler or an in-line filter at its inlet; left out where there is none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub muffler: Option<Volume>,
}

/// A line as it is written: data sheets from before the bore was asked for have none.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LineText {
    volume: Volume,
    hood_conductance: Conductance,
    pressure_loss: TextPressure,
    bore: Option<Length>,
    muffler: Option<Volume>,
}

/// Reads a line, of a bore of so many millimetres where none is written.
fn line<'de, D: Deserializer<'de>, const BORE: u8>(text: D) -> Result<LineSpec, D::Error> {
    let text = LineText::deserialize(text)?;
    Ok(LineSpec {
        volume: text.volume,
        hood_conductance: text.hood_conductance,
        pressure_loss: text.pressure_loss,
        bore: text.bore.unwrap_or(Length::from_mm(BORE.into())),
        muffler: text.muffler,
    })
}

/// Condenser: parallel tubes and fins.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CondenserSpec {
    /// Inside volume.
    pub volume: Volume,
    /// Heat capacity of tubes and fins.
    pub metal: HeatCapacity,
    /// Tubes.
    pub tubes: TubesSpec,
    /// Fins between them.
    pub fins: FinsSpec,
    /// Pressure lost at the rated flow of 50 g/s.
    pub pressure_loss: TextPressure,
}

/// Engine fan and ram air.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FanSpec {
    /// Air flow with the engine idling at 800 rpm; grows with speed to the power 0.8.
    pub idle_flow: MassFlow,
    /// Air flow the fan cannot pass with its clutch (or its stages) all in.
    pub top_flow: MassFlow,
    /// Air flow it cannot pass with the clutch slipping cold (or on its low stage).
    pub cool_flow: MassFlow,
    /// Air temperature behind the condenser up to which the clutch slips.
    pub slips_to: Temperature,
    /// Air temperature behind the condenser from which it drives all in.
    pub drives_from: Temperature,
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
    /// Plates, counted as tubes.
    pub tubes: TubesSpec,
    /// Fins between them.
    pub fins: FinsSpec,
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
    /// Desiccant in its bag, dry.
    pub desiccant: Mass,
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
    /// High-pressure cut-out opens at; left out with `high_closes` where the vehicle was built without one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high_opens: Option<GaugePressure>,
    /// High-pressure cut-out closes at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high_closes: Option<GaugePressure>,
    /// Coolant at which the engine's control lets the clutch go; left out where there is no such control.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub coolant_opens: Option<Temperature>,
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
    /// Outside air exchanged on top of that with windows and doors open.
    pub window_exchange: MassFlow,
    /// Share of outside air that enters with the door on recirculation.
    pub recirculation_leak: Ratio,
    /// Air flow of the blower in its steps, lowest first.
    pub blower: Vec<MassFlow>,
    /// Power of the blower on its highest step; all of it warms the air.
    pub blower_power: Power,
    /// Heat passage of the ducts from the warm space behind the dash, taken at the outside temperature, on the highest step.
    pub duct_conductance: Conductance,
}

/// A pressure difference written as a pressure: `30 kPa`.
pub type TextPressure = lowside_units::AbsolutePressure;

/// Flow at which pressure losses are rated, kg/s.
pub const RATED_FLOW: f64 = 0.05;

impl Vehicle {
    /// Most refrigerant the loop can be started with: 850 g for each litre, which leaves gas space at any temperature the
    /// day can have.
    pub fn most_charge(&self) -> Mass {
        let volumes = [
            self.discharge_line.volume,
            self.condenser.volume,
            self.liquid_line.volume,
            self.evaporator.volume,
            self.accumulator.volume,
            self.suction_line.volume,
        ];
        let lines = [&self.discharge_line, &self.liquid_line, &self.suction_line];
        let mufflers = lines.into_iter().filter_map(|line| line.muffler);
        let litres: f64 = volumes.into_iter().chain(mufflers).map(Volume::l).sum();
        Mass::from_kg(0.85 * litres)
    }
}

/// Road speed at which [`FanSpec::ram_flow`] is rated.
pub fn ram_speed() -> Speed {
    Speed::from_km_h(50.0)
}
