//! The key of a packet: what stays with whoever hands it out, and what attempts are marked on.

use crate::{failure::Failure, files};
use lowside_session::{Take, take::LARGEST};
use serde::{Deserialize, Serialize};
use serde_json::{Value, value::RawValue};
use std::path::Path;

/// Version of the format that is written and read.
const FORMAT: u32 = 1;
/// Most bytes of a key: two hundred vehicles, each with its data sheet.
const MOST: usize = LARGEST;

/// A key as its file has it.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Key {
    format: u32,
    /// The packet's seed.
    pub(crate) packet: u64,
    /// Least number of readings that leaves one suspect, of each vehicle.
    pub(crate) readings: usize,
    pub(crate) vehicles: Vec<Vehicle>,
}

/// A vehicle of the packet.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Vehicle {
    pub(crate) number: u64,
    pub(crate) learner: String,
    pub(crate) fault: String,
    pub(crate) severity: String,
    /// What was handed out: a take without acts.
    take: Box<RawValue>,
}

impl Vehicle {
    pub(crate) fn new(take: &Take, fault: &str, severity: &str) -> Self {
        Self {
            number: take.sitting.seed,
            learner: take.sitting.learner.clone().unwrap_or_default(),
            fault: fault.to_owned(),
            severity: severity.to_owned(),
            take: RawValue::from_string(take.to_text()).unwrap_or_default(),
        }
    }
}

impl Key {
    pub(crate) fn new(packet: u64, readings: usize, vehicles: Vec<Vehicle>) -> Self {
        Self {
            format: FORMAT,
            packet,
            readings,
            vehicles,
        }
    }

    pub(crate) fn to_text(&self) -> String {
        serde_json::to_string_pretty(self).unwrap_or_default()
    }

    /// Reads a key and every vehicle in it.
    ///
    /// # Errors
    /// [`Failure::Asked`] naming the file, and the vehicle.
    pub(crate) fn read(path: &Path) -> Result<Vec<Take>, Failure> {
        let name = path.display();
        let text = files::read(path, MOST, "a key")?;
        let wrong = |why: String| Failure::Asked(format!("{name}: not a key: {why}"));
        let head: Value = serde_json::from_str(&text).map_err(|e| wrong(e.to_string()))?;
        let format = head.get("format").and_then(Value::as_u64);
        if format != Some(FORMAT.into()) {
            return Err(wrong(format!("format is not {FORMAT}")));
        }
        let key: Self = serde_json::from_str(&text).map_err(|e| wrong(e.to_string()))?;
        let take = |vehicle: &Vehicle| {
            let take = Take::parse(vehicle.take.get());
            take.map_err(|e| wrong(format!("vehicle {}: {e}", vehicle.number)))
        };
        key.vehicles.iter().map(take).collect()
    }
}
