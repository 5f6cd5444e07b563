//! A scenario: vehicle, day, start, settings and a script of acts, read from TOML with units.

use lowside_plant::{
    charge::Start,
    plant::{Condition, Day, Plant},
    vehicle::Vehicle,
};
use lowside_units::{
    AbsolutePressure, Duration, Mass, Quantity, Ratio, RotationSpeed, Speed, Temperature,
    UnitError, in_range,
};
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::{library, script::Act};

/// Most bytes a scenario may have.
pub const LARGEST: usize = 256 * 1024;
/// Most acts a script may have.
const MOST_ACTS: usize = 2000;

/// A scenario as its file gives it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Scenario {
    /// Version of the format: 1.
    pub format: u32,
    /// What it is called.
    pub name: String,
    /// How long a run lasts when nothing else is said.
    #[serde(default = "ten_minutes")]
    pub until: Duration,
    /// The vehicle.
    pub vehicle: Vehicle,
    /// The day.
    #[serde(default)]
    pub day: DaySpec,
    /// The loop and cabin at the start.
    #[serde(default)]
    pub start: StartSpec,
    /// Engine at the start.
    #[serde(default)]
    pub engine: EngineSpec,
    /// The driver's controls at the start.
    #[serde(default)]
    pub controls: ControlSpec,
    /// Condition of the parts.
    #[serde(default)]
    pub condition: ConditionSpec,
    /// Acts, in order.
    #[serde(default)]
    pub act: Vec<Act>,
}

fn ten_minutes() -> Duration {
    Duration::from_si(600.0)
}

/// The day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct DaySpec {
    /// Outside temperature.
    pub ambient: Temperature,
    /// Relative humidity.
    pub humidity: Ratio,
    /// Atmospheric pressure.
    pub pressure: AbsolutePressure,
    /// Sun on the vehicle: 0 in the shade.
    pub sun: Ratio,
}

impl Default for DaySpec {
    fn default() -> Self {
        Self {
            ambient: Temperature::from_k(308.15),
            humidity: Ratio::from_si(0.4),
            pressure: AbsolutePressure::from_si(101_325.0),
            sun: Ratio::from_si(0.0),
        }
    }
}

/// What the loop holds at the start.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct StartSpec {
    /// Refrigerant; the label's charge when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub charge: Option<Mass>,
    /// Air left in the loop.
    pub air: Mass,
    /// Water in the loop.
    pub water: Mass,
    /// Oil; the vehicle's when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub oil: Option<Mass>,
    /// Cabin temperature; the day's when left out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cabin: Option<Temperature>,
}

/// Engine.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct EngineSpec {
    /// Runs.
    pub on: bool,
    /// Speed.
    pub speed: RotationSpeed,
}

impl Default for EngineSpec {
    fn default() -> Self {
        Self {
            on: false,
            speed: RotationSpeed::from_rpm(800.0),
        }
    }
}

/// The driver's controls.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ControlSpec {
    /// A/C button.
    pub ac: bool,
    /// Blower step, 0 = off.
    pub blower: u8,
    /// Recirculation door shut to the outside.
    pub recirculation: bool,
    /// Road speed.
    pub road_speed: Speed,
}

impl Default for ControlSpec {
    fn default() -> Self {
        Self {
            ac: false,
            blower: 0,
            recirculation: true,
            road_speed: Speed::from_si(0.0),
        }
    }
}

/// Condition of the parts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct ConditionSpec {
    /// Wear of the compressor.
    pub compressor_wear: Ratio,
    /// Open share of the orifice.
    pub orifice_open: Ratio,
    /// Share of the air that gets through the condenser.
    pub condenser_air: Ratio,
    /// Share of the blower's air that gets through the evaporator.
    pub evaporator_air: Ratio,
}

impl Default for ConditionSpec {
    fn default() -> Self {
        let whole = Ratio::from_si(1.0);
        Self {
            compressor_wear: Ratio::from_si(0.0),
            orifice_open: whole,
            condenser_air: whole,
            evaporator_air: whole,
        }
    }
}

/// Why a scenario could not be read.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ScenarioError {
    /// Too large.
    #[error("{bytes} bytes are more than {LARGEST}, the most a scenario may have")]
    TooLarge {
        /// Its size.
        bytes: usize,
    },
    /// Not TOML, or a key that is unknown or of the wrong kind.
    #[error("{0}")]
    Text(String),
    /// A value outside its range.
    #[error(transparent)]
    Value(#[from] UnitError),
    /// A vehicle nobody knows.
    #[error("vehicle \"{name}\" is not known; known are: {known}")]
    Vehicle {
        /// What was asked for.
        name: String,
        /// What there is.
        known: String,
    },
    /// An override that names no place.
    #[error("override \"{text}\": {why}")]
    Override {
        /// As given.
        text: String,
        /// What is wrong.
        why: String,
    },
}

impl Scenario {
    /// Reads a scenario, after setting each override `path=value` (`day.ambient=38degC`).
    ///
    /// `vehicle` is the name of a shipped vehicle or a whole table.
    ///
    /// # Errors
    /// [`ScenarioError`], naming the field and what is allowed.
    pub fn parse(text: &str, overrides: &[String]) -> Result<Self, ScenarioError> {
        if text.len() > LARGEST {
            return Err(ScenarioError::TooLarge { bytes: text.len() });
        }
        let mut table: toml::Table = toml::from_str(text).map_err(|e| one_line(&e))?;
        if let Some(toml::Value::String(name)) = table.get("vehicle") {
            let known = library::vehicle(name).ok_or_else(|| ScenarioError::Vehicle {
                name: name.clone(),
                known: library::vehicle_names(),
            })?;
            let vehicle: toml::Table = toml::from_str(known).map_err(|e| one_line(&e))?;
            table.insert("vehicle".into(), toml::Value::Table(vehicle));
        }
        for text in overrides {
            set(&mut table, text)?;
        }
        let scenario: Self = table.try_into().map_err(|e| one_line(&e))?;
        scenario.check()?;
        Ok(scenario)
    }

    /// Checks every number against what it can be.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] naming the field, its value and limits.
    pub fn check(&self) -> Result<(), UnitError> {
        let count = |field: &str, value: usize, lo: usize, hi: usize| {
            if value >= lo && value <= hi {
                return Ok(());
            }
            Err(UnitError::OutOfRange {
                field: field.into(),
                value: value.to_string(),
                lo: lo.to_string(),
                hi: hi.to_string(),
            })
        };
        count("format", self.format as usize, 1, 1)?;
        count("act (number of acts)", self.act.len(), 0, MOST_ACTS)?;
        in_range(
            "until",
            self.until,
            Duration::from_si(0.0),
            Duration::from_si(24.0 * 3600.0),
        )?;
        self.vehicle.check()?;
        let celsius = Temperature::from_deg_c;
        let share = |field: &str, r: Ratio, lo: f64| {
            in_range(field, r, Ratio::from_si(lo), Ratio::from_si(1.0))
        };
        in_range(
            "day.ambient",
            self.day.ambient,
            celsius(-10.0),
            celsius(50.0),
        )?;
        share("day.humidity", self.day.humidity, 0.05)?;
        share("day.sun", self.day.sun, 0.0)?;
        in_range(
            "day.pressure",
            self.day.pressure,
            AbsolutePressure::from_kpa(60.0),
            AbsolutePressure::from_kpa(110.0),
        )?;
        if let Some(m) = self.start.charge {
            in_range(
                "start.charge",
                m,
                Mass::from_kg(0.0),
                self.vehicle.most_charge(),
            )?;
        }
        in_range(
            "start.air",
            self.start.air,
            Mass::from_kg(0.0),
            Mass::from_g(20.0),
        )?;
        in_range(
            "start.water",
            self.start.water,
            Mass::from_kg(0.0),
            Mass::from_g(50.0),
        )?;
        if let Some(m) = self.start.oil {
            in_range("start.oil", m, Mass::from_kg(0.0), Mass::from_g(600.0))?;
        }
        if let Some(t) = self.start.cabin {
            in_range("start.cabin", t, celsius(-10.0), celsius(85.0))?;
        }
        in_range(
            "engine.speed",
            self.engine.speed,
            RotationSpeed::from_rpm(499.9),
            RotationSpeed::from_rpm(5000.1),
        )?;
        count(
            "controls.blower",
            usize::from(self.controls.blower),
            0,
            self.vehicle.cabin.blower.len(),
        )?;
        in_range(
            "controls.road_speed",
            self.controls.road_speed,
            Speed::from_si(0.0),
            Speed::from_si(40.0),
        )?;
        share(
            "condition.compressor_wear",
            self.condition.compressor_wear,
            0.0,
        )?;
        share("condition.orifice_open", self.condition.orifice_open, 0.0)?;
        share("condition.condenser_air", self.condition.condenser_air, 0.0)?;
        share(
            "condition.evaporator_air",
            self.condition.evaporator_air,
            0.05,
        )?;
        Ok(())
    }

    /// Puts the vehicle into a bay as the scenario says.
    pub(crate) fn build(&self) -> Plant {
        let day = Day {
            t: self.day.ambient.si(),
            humidity: self.day.humidity.si(),
            p: self.day.pressure.si(),
            sun: self.day.sun.si(),
        };
        let start = Start {
            charge: self.start.charge.unwrap_or(self.vehicle.label_charge).si(),
            air: self.start.air.si(),
            water: self.start.water.si(),
            oil: self.start.oil.unwrap_or(self.vehicle.oil).si(),
            cabin_t: self.start.cabin.unwrap_or(self.day.ambient).si(),
        };
        let mut plant = Plant::new(&self.vehicle, day, &start);
        let c = &self.condition;
        plant.condition = Condition {
            compressor_wear: c.compressor_wear.si(),
            orifice_open: c.orifice_open.si(),
            condenser_air: c.condenser_air.si(),
            evaporator_air: c.evaporator_air.si(),
        };
        let s = &mut plant.settings;
        s.engine_on = self.engine.on;
        s.engine_rpm = self.engine.speed.rpm();
        s.ac_on = self.controls.ac;
        s.blower = usize::from(self.controls.blower);
        s.recirculate = self.controls.recirculation;
        s.road_speed = self.controls.road_speed.si();
        plant
    }
}

/// Puts `path=value` into a table; the value is TOML (`true`, `4`) or else text.
fn set(table: &mut toml::Table, text: &str) -> Result<(), ScenarioError> {
    let wrong = |why: &str| ScenarioError::Override {
        text: text.chars().take(80).collect(),
        why: why.into(),
    };
    let (path, value) = text
        .split_once('=')
        .ok_or_else(|| wrong("needs the form PATH=VALUE"))?;
    let value = value.trim();
    let value = match value.parse::<toml::Value>() {
        Ok(v @ (toml::Value::Boolean(_) | toml::Value::Integer(_) | toml::Value::Array(_))) => v,
        _ => toml::Value::String(value.trim_matches('"').into()),
    };
    let mut keys: Vec<&str> = path.trim().split('.').collect();
    let last = keys
        .pop()
        .filter(|k| !k.is_empty())
        .ok_or_else(|| wrong("names no field"))?;
    let mut place = table;
    for key in keys {
        place = place
            .entry(key)
            .or_insert_with(|| toml::Value::Table(toml::Table::new()))
            .as_table_mut()
            .ok_or_else(|| wrong("goes through a field that holds no others"))?;
    }
    place.insert(last.into(), value);
    Ok(())
}

/// A reader's message in one line.
fn one_line(e: &toml::de::Error) -> ScenarioError {
    let text = e.to_string();
    let place = text
        .lines()
        .next()
        .filter(|l| l.contains("at line"))
        .map(str::trim);
    let what = e.message().split_whitespace().collect::<Vec<_>>().join(" ");
    ScenarioError::Text(match place {
        Some(place) => format!("{place}: {what}"),
        None => match text.lines().find(|l| l.trim_start().starts_with("in `")) {
            Some(field) => format!("{}: {what}", field.trim()),
            None => what,
        },
    })
}
