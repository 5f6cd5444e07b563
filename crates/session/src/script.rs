//! A script of acts, each at a time or on a condition, done in order.

use lowside_plant::plant::TICK;
use lowside_units::{
    Duration, GaugePressure, Mass, Quantity, Ratio, Temperature, UnitError, in_range,
};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use thiserror::Error;

use crate::{
    action::{Action, Refused},
    bay::Bay,
};

/// One act of a script: waits `after` the one before it, then for `when`, then is done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Act {
    /// Wait at least this long after the act before.
    #[serde(default)]
    pub after: Duration,
    /// Then wait until this holds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<Condition>,
    /// Stop waiting for `when` after this long and go on all the same.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_most: Option<Duration>,
    /// What to do; left out, the script only waits here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub act: Option<Action>,
}

/// What a script can wait on: what instruments show, and the can.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reading {
    /// Compound gauge.
    Low,
    /// High-pressure gauge.
    High,
    /// Vent thermometer.
    Vent,
    /// Cabin thermometer.
    Cabin,
    /// Liquid left in the can.
    CanLiquid,
    /// Refrigerant in the loop.
    Charge,
    /// Largest share of one gas that the refrigerant identifier shows; nothing until it has a result.
    Purity,
}

/// Names of the readings.
const READINGS: &[(&str, Reading)] = &[
    ("low", Reading::Low),
    ("high", Reading::High),
    ("vent", Reading::Vent),
    ("cabin", Reading::Cabin),
    ("can_liquid", Reading::CanLiquid),
    ("charge", Reading::Charge),
    ("purity", Reading::Purity),
];

/// Names of the readings, for a message.
fn names() -> String {
    READINGS
        .iter()
        .map(|(n, _)| *n)
        .collect::<Vec<_>>()
        .join(", ")
}

/// A reading below or above a value, as in `vent < 10 degC`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Condition {
    /// What is read.
    pub reading: Reading,
    /// Must it be below the value (else above)?
    pub below: bool,
    /// The value, SI.
    pub value: f64,
}

/// Why a condition could not be read.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ConditionError {
    /// Not of the form.
    #[error(
        "\"{0}\" is not a condition: write READING < VALUE or READING > VALUE, as in \"vent < 10 degC\""
    )]
    Form(String),
    /// An unknown reading.
    #[error("\"{0}\" is not a reading; use one of {known}", known = names())]
    Reading(String),
    /// A value that is no such quantity.
    #[error(transparent)]
    Value(#[from] UnitError),
}

impl Act {
    /// Checks the times.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] naming the field, its value and limits.
    pub(crate) fn check(&self) -> Result<(), UnitError> {
        let (least, most) = (Duration::from_s(0.0), Duration::from_h(24.0));
        in_range("after", self.after, least, most)?;
        if let Some(t) = self.at_most {
            in_range("at_most", t, least, most)?;
        }
        Ok(())
    }
}

impl core::str::FromStr for Condition {
    type Err = ConditionError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let short: String = text.chars().take(60).collect();
        let at = text.find(['<', '>']).ok_or(ConditionError::Form(short))?;
        let (name, rest) = text.split_at(at);
        let below = rest.starts_with('<');
        let value = rest[1..].trim();
        let name = name.trim();
        let reading = READINGS
            .iter()
            .find(|(n, _)| *n == name)
            .map(|(_, r)| *r)
            .ok_or_else(|| ConditionError::Reading(name.chars().take(40).collect()))?;
        let value = match reading {
            Reading::Low | Reading::High => GaugePressure::parse(value)?.si(),
            Reading::Vent | Reading::Cabin => Temperature::parse(value)?.si(),
            Reading::CanLiquid | Reading::Charge => Mass::parse(value)?.si(),
            Reading::Purity => Ratio::parse(value)?.si(),
        };
        Ok(Self {
            reading,
            below,
            value,
        })
    }
}

impl core::fmt::Display for Condition {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let name = READINGS
            .iter()
            .find(|(_, r)| *r == self.reading)
            .map_or("", |(n, _)| n);
        let sign = if self.below { '<' } else { '>' };
        match self.reading {
            Reading::Low | Reading::High => {
                write!(f, "{name} {sign} {}", GaugePressure::from_si(self.value))
            }
            Reading::Vent | Reading::Cabin => {
                write!(f, "{name} {sign} {}", Temperature::from_si(self.value))
            }
            Reading::CanLiquid | Reading::Charge => {
                write!(f, "{name} {sign} {}", Mass::from_si(self.value))
            }
            Reading::Purity => write!(f, "{name} {sign} {}", Ratio::from_si(self.value)),
        }
    }
}

impl Serialize for Condition {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Condition {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        String::deserialize(d)?
            .parse()
            .map_err(serde::de::Error::custom)
    }
}

impl Condition {
    /// Does it hold in a bay?
    pub fn holds(&self, bay: &Bay) -> bool {
        let i = &bay.shop().instruments;
        let value = match self.reading {
            Reading::Low => i.low.pointer(),
            Reading::High => i.high.pointer(),
            Reading::Vent => i.vent.pointer(),
            Reading::Cabin => i.cabin.pointer(),
            Reading::CanLiquid => bay.plant().network.node(bay.shop().places.can).state.m_liq,
            Reading::Charge => bay.charge(),
            // Neither below nor above anything while there is no result.
            Reading::Purity => bay
                .shop()
                .identifier
                .result()
                .map_or(f64::NAN, |shares| shares.purity()),
        };
        if self.below {
            value < self.value
        } else {
            value > self.value
        }
    }
}

/// Plays a script into a bay, tick by tick.
#[derive(Debug, Clone)]
pub struct Player {
    acts: Vec<Act>,
    next: usize,
    waited: f64,
    past_delay: f64,
}

impl Player {
    /// A player at the start of a script.
    pub fn new(acts: &[Act]) -> Self {
        Self {
            acts: acts.to_vec(),
            next: 0,
            waited: 0.0,
            past_delay: 0.0,
        }
    }

    /// All acts are done.
    pub fn done(&self) -> bool {
        self.next >= self.acts.len()
    }

    /// Does the acts that are due; call once before every step of the bay.
    ///
    /// # Errors
    /// The index of an act that the bay refused, and why.
    pub fn play(&mut self, bay: &mut Bay) -> Result<(), (usize, Refused)> {
        while let Some(act) = self.acts.get(self.next) {
            if self.waited < act.after.si() - 1e-9 {
                break;
            }
            if let Some(when) = &act.when
                && !when.holds(bay)
                && act.at_most.is_none_or(|most| self.past_delay < most.si())
            {
                self.past_delay += TICK;
                break;
            }
            if let Some(action) = act.act {
                bay.apply(action).map_err(|e| (self.next, e))?;
            }
            self.next += 1;
            self.waited = 0.0;
            self.past_delay = 0.0;
        }
        self.waited += TICK;
        Ok(())
    }
}
