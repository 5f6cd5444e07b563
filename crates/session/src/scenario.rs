//! A scenario: vehicle, day, start, settings and a script of acts, read from TOML with units.

use lowside_plant::{
    charge::Start,
    plant::{Day, Plant},
    vehicle::Vehicle,
};
use lowside_shop::fault::{self, Table};
use lowside_units::{
    AbsolutePressure, Duration, Quantity, Ratio, RotationSpeed, Speed, Temperature, UnitError,
    count_in_range, in_range, plain_text,
};
use serde::{Deserialize, Deserializer, Serialize, de};
use serde_json::{Map, Value};
use std::sync::Arc;
use thiserror::Error;

use crate::{
    limits::{size, within},
    script::Act,
};

mod altered;
mod condition;
#[cfg(feature = "text")]
mod mistake;
mod planted;
#[cfg(feature = "text")]
mod read;
mod scatter;
mod start;
mod values;
pub use altered::{Alteration, Altered};
pub use condition::{ConditionSpec, JointSpec, LeakSpec, RestrictionSpec};
#[cfg(feature = "text")]
pub use mistake::Mistake;
#[cfg(feature = "text")]
pub use read::{list, misread, script, table};
pub use scatter::{InstrumentSpec, SPREADS, ScatterSpec, Spread};
pub use start::StartSpec;
pub use values::setting;

/// Most bytes a scenario may have.
pub const LARGEST: usize = 256 * 1024;
/// Most marks that open a table or a list, or name a place in a table: ten for each act. A table costs two kilobytes of memory.
const MOST_MARKS: usize = 20_000;
/// Most acts a script may have.
const MOST_ACTS: usize = 2000;
/// Most characters a name may have.
const LONGEST_NAME: usize = 200;

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
    pub vehicle: Arc<Vehicle>,
    /// What was altered in its data sheet. It is read apart, as the acts are.
    #[serde(skip_deserializing, skip_serializing_if = "Option::is_none")]
    pub altered: Option<Altered>,
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
    /// How it differs from its kind without a fault.
    #[serde(default, skip_serializing_if = "ScatterSpec::is_none")]
    pub scatter: ScatterSpec,
    /// How far the shop's instruments are from the truth.
    #[serde(default, skip_serializing_if = "InstrumentSpec::is_none")]
    pub instruments: InstrumentSpec,
    /// Acts, in order. They are read apart: see [`Scenario::with_acts`].
    #[serde(default, deserialize_with = "acts_apart")]
    pub act: Vec<Act>,
}

impl Scenario {
    /// Reads a scenario with its acts and what was altered in its data sheet; `Scenario` by itself knows neither. The page opens with a scenario and needs no reader of acts until
    /// later, and that reader is as large as the rest of a scenario's together.
    ///
    /// # Errors
    /// Those of the deserializer: an unknown field, a value of the wrong kind.
    pub fn with_acts<'de, D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let mut fields = Map::deserialize(d)?;
        let act = fields.remove("act").map(serde_json::from_value).transpose();
        let before = altered::take(&mut fields)
            .map_err(|e| de::Error::custom(format_args!("{}: {e}", altered::KEY)))?;
        let mut scenario: Self =
            serde_json::from_value(Value::Object(fields)).map_err(de::Error::custom)?;
        scenario.act = act.map_err(de::Error::custom)?.unwrap_or_default();
        scenario.altered = before.and_then(|v| Altered::between(v, &scenario.vehicle));
        Ok(scenario)
    }

    /// Gives a field of the start or of the condition a value, SI, as its fault's row reads it; false if there is none such. It is checked
    /// where a scenario is read, not here.
    pub fn set(&mut self, table: Table, key: &str, si: f64) -> bool {
        let values = match table {
            Table::Start => &mut self.start.values,
            Table::Condition => &mut self.condition.values,
            _ => return false,
        };
        let field = fault::field(table, key);
        if let Some(field) = field {
            values.set(field, si);
        }
        field.is_some()
    }

    /// The vehicle as its data sheet stood before anything in it was altered: what a sound one of its kind has.
    pub fn sound_vehicle(&self) -> &Arc<Vehicle> {
        self.altered
            .as_ref()
            .map_or(&self.vehicle, |altered| altered.before())
    }
}

/// A reader that took acts for nothing would lose them in silence.
fn acts_apart<'de, D: Deserializer<'de>>(_: D) -> Result<Vec<Act>, D::Error> {
    Err(de::Error::custom("acts are read by Scenario::with_acts"))
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
    /// Windows and doors open.
    pub windows_open: bool,
}

impl Default for ControlSpec {
    fn default() -> Self {
        Self {
            ac: false,
            blower: 0,
            recirculation: true,
            road_speed: Speed::from_si(0.0),
            windows_open: false,
        }
    }
}

/// A share from `lo` to all.
fn share(field: &str, r: Ratio, lo: f64) -> Result<(), UnitError> {
    in_range(field, r, Ratio::from_si(lo), Ratio::from_si(1.0)).map(|_| ())
}

/// Why a scenario could not be read.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ScenarioError {
    /// Too large.
    #[error("it is larger than {}, the most it may be", size(LARGEST))]
    TooLarge,
    /// More tables, lists and dots than its acts can need.
    #[error("{marks} of the marks {{, [ and . are more than {MOST_MARKS}, the most it may have")]
    TooMany {
        /// How many.
        marks: usize,
    },
    /// Not TOML, or a key that is unknown or of the wrong kind.
    #[error("{}{what}", head(field, *at))]
    Form {
        /// The field, if it has one.
        field: String,
        /// Line and column, from 1, where the text itself is no TOML.
        at: Option<(usize, usize)>,
        /// What is wrong.
        what: String,
    },
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
    /// Checks every number against what it can be.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] naming the field, its value and limits.
    pub fn check(&self) -> Result<(), UnitError> {
        count_in_range("format", self.format as usize, 1, 1)?;
        count_in_range("act (number of acts)", self.act.len(), 0, MOST_ACTS)?;
        for (field, name) in [("name", &self.name), ("vehicle.name", &self.vehicle.name)] {
            count_in_range(
                &format!("{field} (number of characters)"),
                name.chars().count(),
                1,
                LONGEST_NAME,
            )?;
            plain_text(field, name)?;
        }
        let shortest = Duration::from_s(0.0);
        within("h", "until", self.until, shortest, Duration::from_h(24.0))?;
        self.vehicle.check().map_err(|e| e.inside("vehicle"))?;
        if let Some(altered) = &self.altered {
            let before = altered.before();
            let whole = before.check();
            whole
                .and_then(|()| StartSpec::default().check(before))
                .map_err(|e| e.inside(altered::KEY))?;
        }
        let celsius = Temperature::from_deg_c;
        let day = &self.day;
        within(
            "degC",
            "day.ambient",
            day.ambient,
            celsius(-10.0),
            celsius(50.0),
        )?;
        share("day.humidity", day.humidity, 0.05)?;
        share("day.sun", day.sun, 0.0)?;
        let (thin, dense) = (
            AbsolutePressure::from_kpa(60.0),
            AbsolutePressure::from_kpa(110.0),
        );
        within("kPa", "day.pressure", day.pressure, thin, dense)?;
        self.start.check(&self.vehicle)?;
        // a little wider than what is said, so that a whole number of rpm is never refused for its last bit
        let (idle, top) = (
            RotationSpeed::from_rpm(499.9),
            RotationSpeed::from_rpm(5000.1),
        );
        within("rpm", "engine.speed", self.engine.speed, idle, top)?;
        let controls = &self.controls;
        count_in_range(
            "controls.blower",
            usize::from(controls.blower),
            0,
            self.vehicle.cabin.blower.len(),
        )?;
        let (rest, fastest) = (Speed::from_m_s(0.0), Speed::from_m_s(40.0));
        within(
            "km/h",
            "controls.road_speed",
            controls.road_speed,
            rest,
            fastest,
        )?;
        self.condition.check(&self.vehicle)?;
        self.scatter.check()?;
        self.instruments.check()?;
        for (i, act) in self.act.iter().enumerate() {
            act.check()
                .map_err(|e| e.inside(&format!("act {}", i + 1)))?;
        }
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
        let mut start = Start {
            cabin_t: self.start.cabin.unwrap_or(self.day.ambient).si(),
            ..Start::default()
        };
        self.start
            .values
            .fill(Table::Start, &mut start, &self.vehicle);
        self.condition
            .values
            .fill(Table::Condition, &mut start, &self.vehicle);
        self.scatter.fill(&mut start);
        let vehicle = if self.scatter.is_none() {
            Arc::clone(&self.vehicle)
        } else {
            Arc::new(self.scatter.of(&self.vehicle))
        };
        let mut plant = Plant::new(&vehicle, day, &start);
        self.condition.plant(&mut plant);
        let s = &mut plant.settings;
        s.engine_on = self.engine.on;
        s.engine_rpm = self.engine.speed.rpm();
        s.ac_on = self.controls.ac;
        s.blower = usize::from(self.controls.blower);
        s.recirculate = self.controls.recirculation;
        s.road_speed = self.controls.road_speed.si();
        s.windows_open = self.controls.windows_open;
        plant
    }
}

/// What a message begins with: the field, and where the text is no TOML the place.
fn head(field: &str, at: Option<(usize, usize)>) -> String {
    let place = at.map(|(line, column)| format!("line {line}, column {column}: "));
    let field = if field.is_empty() {
        String::new()
    } else {
        format!("{field}: ")
    };
    field + &place.unwrap_or_default()
}

/// A field below a place, where either may be nothing.
fn below(place: &str, field: &str) -> String {
    match (place, field) {
        ("", one) | (one, "") => one.to_owned(),
        _ => format!("{place}.{field}"),
    }
}

impl ScenarioError {
    /// A form that is wrong at a field.
    pub fn form(field: &str, what: impl Into<String>) -> Self {
        let (field, what, at) = (field.to_owned(), what.into(), None);
        Self::Form { field, at, what }
    }

    /// The field it is about; nothing where it is about the whole.
    pub fn field(&self) -> &str {
        match self {
            Self::Form { field, .. } => field,
            Self::Value(e) => e.field(),
            Self::Vehicle { .. } => "vehicle",
            Self::TooLarge | Self::TooMany { .. } | Self::Override { .. } => "",
        }
    }

    /// The same error of a scenario that stands at a place in another file.
    #[must_use]
    pub fn inside(self, place: &str) -> Self {
        match self {
            Self::Form { field, at, what } => Self::Form {
                field: below(place, &field),
                at,
                what,
            },
            Self::Value(e) => Self::Value(e.inside(place)),
            Self::Vehicle { name, known } => Self::form(
                &below(place, "vehicle"),
                format!("\"{name}\" is not known; known are: {known}"),
            ),
            other => other,
        }
    }
}
