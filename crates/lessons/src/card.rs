//! A job card as its file gives it.

use lowside_session::{Scenario, predicate::Predicate};
#[cfg(feature = "text")]
use lowside_session::{
    ScenarioError,
    scenario::{Mistake, list, misread, table},
};
use lowside_units::{Duration, UnitError, count_in_range, in_range, plain_text};
#[cfg(feature = "text")]
use serde::de::IgnoredAny;
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::toll::Severity;

/// Version of the format.
pub const FORMAT: u32 = 1;
/// Most bytes a card may have.
pub const LARGEST: usize = lowside_session::scenario::LARGEST;
/// Most steps, and most harms, of a card.
pub(crate) const MOST: usize = 40;
/// Most conditions of one goal or harm.
pub(crate) const MOST_CONDITIONS: usize = 12;
/// Most minutes a card may say it takes: a day.
pub(crate) const MOST_MINUTES: u32 = 1440;
/// Last rung of the ladder that a card may say it stands on.
pub(crate) const MOST_RUNGS: u32 = 99;
/// Most characters of one text.
pub(crate) const LONGEST: usize = 600;

/// A sentence in every language the page speaks.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Text {
    /// English.
    pub en: String,
    /// Spanish.
    pub es: String,
}

/// What kind of card it is. Other kinds share the format: they will be variants here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A job, to be done by steps that are shown.
    #[default]
    Job,
}

/// A job: what stands in the bay, what is asked, what must not happen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JobCard {
    /// Version of the format: 1.
    pub format: u32,
    /// What kind of card it is.
    #[serde(default)]
    pub kind: Kind,
    /// What the job is called.
    pub title: Text,
    /// What the customer says, or why the job is done.
    pub complaint: Text,
    /// Its place on the ladder of shipped cards, easiest first; 0 where it has none.
    #[serde(default)]
    pub rung: u32,
    /// The mistaken belief that the job corrects, for whoever teaches.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub misconception: Option<Text>,
    /// About how long it takes who knows how, minutes of bay time; 0 where the card does not say.
    #[serde(default)]
    pub minutes: u32,
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
    pub goal: Vec<Predicate>,
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
    pub when: Vec<Predicate>,
    /// For so long without a break.
    #[serde(default)]
    pub hold: Duration,
    /// How bad it is; a grave one fails the job, whatever else is right.
    #[serde(default = "serious")]
    pub severity: Severity,
}

fn serious() -> Severity {
    Severity::Serious
}

/// Why a card could not be read.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum CardError {
    /// Too large, no TOML, or a key that is unknown or of the wrong kind.
    #[cfg(feature = "text")]
    #[error(transparent)]
    Text(#[from] ScenarioError),
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
        count_in_range("rung", self.rung as usize, 0, MOST_RUNGS as usize)?;
        if let Some(text) = &self.misconception {
            text.check("misconception")?;
        }
        count_in_range("minutes", self.minutes as usize, 0, MOST_MINUTES as usize)?;
        self.scenario.check().map_err(|e| e.inside("scenario"))?;
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
            conditions(&format!("step[{}]", i + 1), "goal", &step.goal, step.hold)?;
            if let Some(&after) = step.after.iter().find(|&&n| n == 0 || n > i) {
                let (step, most) = (i + 1, i);
                return Err(CardError::After { step, after, most });
            }
        }
        for (i, harm) in self.harm.iter().enumerate() {
            harm.title.check(&format!("harm[{}].title", i + 1))?;
            conditions(&format!("harm[{}]", i + 1), "when", &harm.when, harm.hold)?;
        }
        Ok(())
    }

    /// Reads a card from TOML; its scenario may name a shipped vehicle.
    ///
    /// # Errors
    /// [`CardError`], naming the field and what is allowed.
    #[cfg(feature = "text")]
    pub fn parse(text: &str) -> Result<Self, CardError> {
        let mut table = table(text, "")?;
        let step = list(&mut table, "step", |n| format!("step[{n}]"))?;
        let harm = list(&mut table, "harm", |n| format!("harm[{n}]"))?;
        let scenario = match table.remove("scenario") {
            Some(toml::Value::Table(scenario)) => {
                Scenario::from_table(scenario).map_err(|e| e.inside("scenario"))?
            }
            Some(_) => return Err(ScenarioError::form("scenario", "is no table").into()),
            None => return Err(ScenarioError::form("", "missing field `scenario`").into()),
        };
        let head: Head = table.try_into().map_err(|e| misread(&e, ""))?;
        let card = Self {
            format: head.format,
            kind: head.kind,
            title: head.title,
            complaint: head.complaint,
            rung: head.rung,
            misconception: head.misconception,
            minutes: head.minutes,
            scenario,
            step,
            harm,
        };
        card.check()?;
        Ok(card)
    }

    /// What is wrong with the text of a card, and where; nothing where it reads.
    #[cfg(feature = "text")]
    pub fn mistake(text: &str) -> Option<Mistake> {
        match Self::parse(text).err()? {
            CardError::Text(e) => Some(Mistake::of(text, &e)),
            e => Some(Mistake::at(text, &e.field(), e.to_string())),
        }
    }
}

/// What a card says of itself. Its lists and its scenario are read apart, so that a message can say where in them it is; their keys stand
/// here so that a message about an unknown key names them too.
#[cfg(feature = "text")]
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Head {
    format: u32,
    #[serde(default)]
    kind: Kind,
    title: Text,
    complaint: Text,
    #[serde(default)]
    rung: u32,
    misconception: Option<Text>,
    #[serde(default)]
    minutes: u32,
    #[serde(rename = "scenario")]
    _scenario: Option<IgnoredAny>,
    #[serde(rename = "step")]
    _step: Option<IgnoredAny>,
    #[serde(rename = "harm")]
    _harm: Option<IgnoredAny>,
}

impl CardError {
    /// The field it is about; nothing where it is about the whole.
    pub fn field(&self) -> String {
        match self {
            #[cfg(feature = "text")]
            Self::Text(e) => e.field().to_owned(),
            Self::Value(e) => e.field().to_owned(),
            Self::After { step, .. } => format!("step[{step}].after"),
        }
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

fn conditions(place: &str, key: &str, all: &[Predicate], hold: Duration) -> Result<(), UnitError> {
    count_in_range(
        &format!("{place}.{key} (number of conditions)"),
        all.len(),
        1,
        MOST_CONDITIONS,
    )?;
    let (least, most) = (Duration::from_s(0.0), Duration::from_h(24.0));
    in_range(&format!("{place}.hold"), hold, least, most).map(|_| ())
}

#[cfg(all(test, feature = "text"))]
pub(crate) mod tests;
