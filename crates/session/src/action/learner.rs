//! What a person does beside the work: reads an instrument, suspects, commits to a diagnosis, puts protection on.
//!
//! A reading stands in the log as what was read and where, without a value: [`crate::reading`] derives that from the bay.

use lowside_fluids::Refrigerant;
use lowside_shop::{
    Shop,
    detect::Spot,
    fault::{self, Cure, Fault, Severity},
    meters::Point,
    protection::Protection,
    senses::Surface,
    vacuum::GaugePlace,
};
use lowside_units::{Quantity, Ratio};
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

use super::Refused;
use crate::limits::{quoted, within};

/// Most readings that a commitment is founded on.
pub const MOST_EVIDENCE: usize = 12;

/// An act beside the work.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum LearnerAct {
    /// Read an instrument.
    Read {
        /// Which, and where.
        instrument: Meter,
    },
    /// Suspect a fault.
    Suspect {
        /// Which.
        fault: FaultId,
        /// How sure one is, 0 to 100 %.
        certainty: Ratio,
    },
    /// Commit to a diagnosis.
    Commit {
        /// Which fault it is.
        fault: FaultId,
        /// How severe it is.
        severity: Severity,
        /// The readings that show it, each by its number among those taken, from 1.
        evidence: Evidence,
        /// What is to be done about it.
        repair: Cure,
    },
    /// Put protection on, or take it off.
    Wear {
        /// What.
        what: Protection,
        /// True to put it on.
        on: bool,
    },
}

/// What is read, and where if that is not always the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Meter {
    /// Compound gauge; its coupler has to be on.
    LowGauge,
    /// High-pressure gauge; likewise.
    HighGauge,
    /// Electronic vacuum gauge; it has to be there.
    VacuumGauge(GaugePlace),
    /// Thermometer in the centre vent.
    VentThermometer,
    /// Thermometer in the cabin.
    CabinThermometer,
    /// Thermometer in the bay.
    Thermometer,
    /// Hygrometer in the bay.
    Hygrometer,
    /// Clamp thermometer; it has to be there.
    Clamp(Point),
    /// Anemometer at the centre vent.
    Anemometer,
    /// Optical tachometer at the compressor.
    Tachometer(Wheel),
    /// Meter at the clutch's plug; it has to be connected.
    ClutchMeter,
    /// Scale.
    Scale,
    /// Stopwatch.
    Stopwatch,
    /// Refrigerant identifier: the share of a gas in the refrigerant; it needs a result.
    Identifier(Refrigerant),
    /// Refrigerant identifier: air in the sample; likewise.
    IdentifierAir,
    /// What the last search for a leak at a place showed; there has to be one.
    Search(Spot),
    /// Hand and eye at a surface: how it feels and what clings to it.
    Surface(Surface),
}

/// A wheel of the compressor's clutch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Wheel {
    /// The hub: turns with the compressor.
    Hub,
    /// The pulley: turns with the engine.
    Pulley,
}

/// A fault by the key of its row, or that nothing is wrong.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct FaultId(&'static str);

impl FaultId {
    /// Nothing is wrong.
    pub const NOTHING: Self = Self("nothing");

    /// Finds a fault by its key.
    pub fn find(key: &str) -> Option<Self> {
        if key == Self::NOTHING.0 {
            return Some(Self::NOTHING);
        }
        fault::all()
            .find(|fault| fault.id == key)
            .map(|fault| Self(fault.id))
    }

    /// Its key.
    pub fn key(self) -> &'static str {
        self.0
    }

    /// Its row; none where nothing is wrong.
    pub fn fault(self) -> Option<&'static Fault> {
        fault::named(self.0)
    }
}

impl From<&'static Fault> for FaultId {
    fn from(fault: &'static Fault) -> Self {
        Self(fault.id)
    }
}

impl Serialize for FaultId {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.serialize_str(self.0)
    }
}

impl<'de> Deserialize<'de> for FaultId {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let key = String::deserialize(d)?;
        Self::find(&key).ok_or_else(|| {
            let known = quoted(fault::all().map(|fault| fault.id).chain([Self::NOTHING.0]));
            de::Error::custom(format_args!(
                "unknown variant `{key}`, expected one of {known}"
            ))
        })
    }
}

/// Numbers of readings, from 1, as many as [`MOST_EVIDENCE`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Evidence([u32; MOST_EVIDENCE]);

impl Evidence {
    /// Makes one of numbers; none if there are too many or one is 0.
    pub fn of(numbers: &[u32]) -> Option<Self> {
        let mut all = Self::default();
        all.0.get_mut(..numbers.len())?.copy_from_slice(numbers);
        (!numbers.contains(&0)).then_some(all)
    }

    /// Returns the numbers.
    pub fn numbers(&self) -> impl Iterator<Item = u32> {
        self.0.into_iter().take_while(|number| *number > 0)
    }
}

impl Serialize for Evidence {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_seq(self.numbers())
    }
}

impl<'de> Deserialize<'de> for Evidence {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        Self::of(&Vec::deserialize(d)?).ok_or_else(|| {
            de::Error::custom(format_args!(
                "evidence is a list of at most {MOST_EVIDENCE} numbers of readings, from 1"
            ))
        })
    }
}

impl LearnerAct {
    /// Does the act, or refuses and changes nothing; `readings` have been taken so far.
    pub(crate) fn apply(self, shop: &mut Shop, readings: usize) -> Result<(), Refused> {
        match self {
            Self::Read { instrument } => {
                if !instrument.shows(shop) {
                    return Err(Refused::NotConnected(instrument));
                }
            }
            Self::Suspect { certainty, .. } => {
                let (none, all) = (Ratio::from_si(0.0), Ratio::from_si(1.0));
                within("%", "certainty", certainty, none, all)?;
            }
            Self::Commit { evidence, .. } => {
                let taken = u32::try_from(readings).unwrap_or(u32::MAX);
                if let Some(asked) = evidence.numbers().find(|number| *number > taken) {
                    return Err(Refused::NoReading { asked, taken });
                }
            }
            Self::Wear { what, on } => shop.worn.put(what, on),
        }
        Ok(())
    }
}

impl Meter {
    /// Its name in the text of an act.
    pub fn name(self) -> &'static str {
        match self {
            Self::LowGauge => "low-gauge",
            Self::HighGauge => "high-gauge",
            Self::VacuumGauge(_) => "vacuum-gauge",
            Self::VentThermometer => "vent-thermometer",
            Self::CabinThermometer => "cabin-thermometer",
            Self::Thermometer => "thermometer",
            Self::Hygrometer => "hygrometer",
            Self::Clamp(_) => "clamp",
            Self::Anemometer => "anemometer",
            Self::Tachometer(_) => "tachometer",
            Self::ClutchMeter => "clutch-meter",
            Self::Scale => "scale",
            Self::Stopwatch => "stopwatch",
            Self::Identifier(_) => "identifier",
            Self::IdentifierAir => "identifier-air",
            Self::Search(_) => "search",
            Self::Surface(_) => "surface",
        }
    }

    /// Is there something to read on it: is it connected, is it there, has it a result?
    fn shows(self, shop: &Shop) -> bool {
        let hands = &shop.hands;
        match self {
            Self::LowGauge => hands.low_coupled,
            Self::HighGauge => hands.high_coupled,
            Self::VacuumGauge(at) => hands.vacuum_gauge == at,
            Self::Clamp(at) => hands.clamp == Some(at),
            Self::ClutchMeter => hands.clutch_meter,
            Self::Identifier(_) | Self::IdentifierAir => shop.identifier.result().is_some(),
            Self::Search(at) => shop.search[at.index()].is_some(),
            Self::VentThermometer
            | Self::CabinThermometer
            | Self::Thermometer
            | Self::Hygrometer
            | Self::Anemometer
            | Self::Tachometer(_)
            | Self::Scale
            | Self::Stopwatch
            | Self::Surface(_) => true,
        }
    }

    /// How long reading it takes, s (own figures): a look, and longer where one waits for a steady figure.
    fn takes(self) -> f64 {
        match self {
            Self::LowGauge
            | Self::HighGauge
            | Self::Scale
            | Self::Stopwatch
            | Self::Thermometer
            | Self::Hygrometer
            | Self::Identifier(_)
            | Self::IdentifierAir
            | Self::Search(_) => 2.0,
            Self::VacuumGauge(_)
            | Self::ClutchMeter
            | Self::Tachometer(_)
            | Self::Anemometer
            | Self::Surface(_) => 3.0,
            Self::VentThermometer | Self::CabinThermometer | Self::Clamp(_) => 4.0,
        }
    }
}

/// How long an act keeps who does it, s; 0 for one of a moment. The one table of durations: reading alone takes time now. Joints, parts,
/// coils that are flushed and searches for leaks come next.
pub(crate) fn takes(act: super::Action) -> f64 {
    match act {
        super::Action::Learner(LearnerAct::Read { instrument }) => instrument.takes(),
        super::Action::Learner(_)
        | super::Action::Instructor(_)
        | super::Action::Vehicle(_)
        | super::Action::Hose(_)
        | super::Action::Vessel(_)
        | super::Action::Machine(_)
        | super::Action::Bench(_)
        | super::Action::Instrument(_)
        | super::Action::Fixing(_)
        | super::Action::Record(_) => 0.0,
    }
}
