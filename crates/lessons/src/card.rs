//! A job card as its file gives it.

use lowside_session::{Scenario, condition::Condition};
#[cfg(feature = "text")]
use lowside_session::{ScenarioError, library, scenario::table};
use lowside_units::{Duration, UnitError, count_in_range, in_range, plain_text};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Version of the format.
pub const FORMAT: u32 = 1;
/// Most bytes a card may have.
pub const LARGEST: usize = lowside_session::scenario::LARGEST;
/// Most steps, and most harms, of a card.
const MOST: usize = 40;
/// Most conditions of one goal or harm.
const MOST_CONDITIONS: usize = 12;
/// Most characters of one text.
const LONGEST: usize = 600;

/// A sentence in every language the page speaks.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Text {
    /// English.
    pub en: String,
    /// Spanish.
    pub es: String,
}

/// A job: what stands in the bay, what is asked, what must not happen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JobCard {
    /// Version of the format: 1.
    pub format: u32,
    /// What the job is called.
    pub title: Text,
    /// What the customer says, or why the job is done.
    pub complaint: Text,
    /// What stands in the bay.
    #[serde(deserialize_with = "Scenario::with_acts")]
    pub scenario: Scenario,
    /// The steps, in the order in which they are usually done.
    pub step: Vec<Step>,
    /// What must not happen.
    #[serde(default)]
    pub harm: Vec<Harm>,
}

/// A step: a goal on the bay's state.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    /// What is to be reached.
    pub title: Text,
    /// Why.
    pub reason: Text,
    /// How one sees that it is reached: the value to read.
    pub accept: Text,
    /// Two hints: what to look at, then what to do.
    pub hints: [Text; 2],
    /// All of these at once.
    pub goal: Vec<Condition>,
    /// For so long without a break.
    #[serde(default)]
    pub hold: Duration,
    /// It must still be so when the job is signed off; else it counts once reached.
    #[serde(default)]
    pub to_the_end: bool,
    /// Only counts after these steps (numbers from 1): some things can be read only then.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after: Vec<usize>,
}

/// Something that must not happen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Harm {
    /// What it is and what it does.
    pub title: Text,
    /// It has happened when all of these hold at once.
    pub when: Vec<Condition>,
    /// For so long without a break.
    #[serde(default)]
    pub hold: Duration,
    /// Whoever lets it happen has failed the job, whatever else is right.
    #[serde(default)]
    pub fails: bool,
}

/// Why a card could not be read.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CardError {
    /// Too large, or no TOML.
    #[cfg(feature = "text")]
    #[error(transparent)]
    Text(#[from] ScenarioError),
    /// Not of the form, or a key that is unknown or of the wrong kind.
    #[error("{0}")]
    Form(String),
    /// A value outside its range.
    #[error(transparent)]
    Value(#[from] UnitError),
    /// A step that waits for itself or for one that is not there.
    #[error("step[{step}].after = {after} is not a step before it: use 1 to {most}")]
    After {
        /// Which step, from 1.
        step: usize,
        /// What it waits for.
        after: usize,
        /// The last step before it.
        most: usize,
    },
}

impl JobCard {
    /// Checks every count, length and number.
    ///
    /// # Errors
    /// [`CardError`], naming the field and what is allowed.
    pub fn check(&self) -> Result<(), CardError> {
        count_in_range("format", self.format as usize, 1, FORMAT as usize)?;
        count_in_range("step (number of steps)", self.step.len(), 1, MOST)?;
        count_in_range("harm (number of harms)", self.harm.len(), 0, MOST)?;
        self.title.check("title")?;
        self.complaint.check("complaint")?;
        self.scenario.check()?;
        for (i, step) in self.step.iter().enumerate() {
            let place = |field: &str| format!("step[{}].{field}", i + 1);
            let [look, act] = &step.hints;
            for (field, text) in [
                ("title", &step.title),
                ("reason", &step.reason),
                ("accept", &step.accept),
                ("hints[1]", look),
                ("hints[2]", act),
            ] {
                text.check(&place(field))?;
            }
            conditions(&place("goal"), &step.goal, step.hold)?;
            if let Some(&after) = step.after.iter().find(|&&n| n == 0 || n > i) {
                let (step, most) = (i + 1, i);
                return Err(CardError::After { step, after, most });
            }
        }
        for (i, harm) in self.harm.iter().enumerate() {
            harm.title.check(&format!("harm[{}].title", i + 1))?;
            conditions(&format!("harm[{}].when", i + 1), &harm.when, harm.hold)?;
        }
        Ok(())
    }

    /// Reads a card from TOML; its scenario may name a shipped vehicle.
    ///
    /// # Errors
    /// [`CardError`], naming the place and what is allowed.
    #[cfg(feature = "text")]
    pub fn parse(text: &str) -> Result<Self, CardError> {
        let form = |e: &dyn std::fmt::Display| {
            let lines: Vec<String> = e.to_string().lines().map(|l| l.trim().to_owned()).collect();
            CardError::Form(lines.join(" "))
        };
        let mut table = table(text, "")?;
        let scenario = table.get_mut("scenario").and_then(|s| s.as_table_mut());
        if let Some(scenario) = scenario
            && let Some(toml::Value::String(name)) = scenario.get("vehicle")
        {
            let vehicle = library::vehicle(name).ok_or_else(|| {
                let known = library::vehicle_names();
                CardError::Form(format!(
                    "scenario.vehicle: \"{name}\" is not known; known are: {known}"
                ))
            })?;
            scenario.insert(
                "vehicle".into(),
                self::table(vehicle, "scenario.vehicle")?.into(),
            );
        }
        let card: Self = table.try_into().map_err(|e| form(&e))?;
        card.check()?;
        Ok(card)
    }
}

impl Text {
    fn check(&self, field: &str) -> Result<(), UnitError> {
        for (language, text) in [("en", &self.en), ("es", &self.es)] {
            let what = format!("{field}.{language} (number of characters)");
            count_in_range(&what, text.trim().chars().count(), 1, LONGEST)?;
            plain_text(&format!("{field}.{language}"), text)?;
        }
        Ok(())
    }
}

fn conditions(field: &str, all: &[Condition], hold: Duration) -> Result<(), UnitError> {
    count_in_range(
        &format!("{field} (number of conditions)"),
        all.len(),
        1,
        MOST_CONDITIONS,
    )?;
    let (least, most) = (Duration::from_s(0.0), Duration::from_h(24.0));
    in_range(&format!("{field}: hold"), hold, least, most).map(|_| ())
}
