//! What belongs to the sitting in which a take was recorded, and not to the bay: the same acts give the same bay under each.

use serde::{Deserialize, Serialize};

use crate::{
    bay::{Entered, Tick},
    sight::Sight,
};

/// Most characters of a learner's code, and of a card's name.
pub const LONGEST_NAME: usize = 40;
/// Most hints of a take.
pub const MOST_HINTS: usize = 1000;
/// Most lines of undone acts; the oldest go first.
pub const MOST_LINES: usize = 200;

/// A sitting.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sitting {
    /// What was asked for; none in a bay that nobody asked anything of.
    pub card: Option<Card>,
    /// How much of the bay was seen when it was opened.
    pub sight: Sight,
    /// An exam was handed in at this tick.
    pub handed_in: Option<Tick>,
    /// The inside was opened at this tick, and everything was seen from then on.
    pub opened: Option<Tick>,
    /// A code for who worked, given out by whoever teaches. No name: a take may travel.
    pub learner: Option<String>,
    /// What chance had in it; 0 where nothing was drawn.
    pub seed: u64,
    /// Hints that were asked for, in order.
    pub hints: Vec<Hint>,
    /// Acts that were undone, in the order of the undoing.
    pub lines: Vec<Undone>,
    /// Parts of it were done under another physics than the take's: its mark is not comparable.
    pub mixed: bool,
}

/// A card that a take is an answer to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Card {
    /// A shipped one, by its name.
    Job(String),
    /// The whole text of another.
    Own(String),
}

/// A hint that was asked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hint {
    /// When.
    pub tick: Tick,
    /// For which step of the card, from 1.
    pub step: u8,
    /// Which of the step's hints, from 1.
    pub hint: u8,
}

/// Acts that were undone.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Undone {
    /// The tick that was gone back to.
    pub tick: Tick,
    /// What had been done after it.
    pub acts: Vec<Entered>,
}

impl Undone {
    /// Returns what is left behind by going from one log to another that parts from it; none if nothing is.
    pub fn between(left: &[Entered], to: &[Entered]) -> Option<Self> {
        let shared = left.iter().zip(to).take_while(|(a, b)| a == b).count();
        let acts = left[shared..].to_vec();
        let (tick, _) = acts.first()?;
        Some(Self { tick: *tick, acts })
    }
}

impl Sitting {
    /// Returns what is seen now.
    pub fn now(&self) -> Sight {
        if self.opened.is_some() {
            Sight::Open
        } else {
            self.sight
        }
    }

    /// Opens the inside at a tick: at any time where one works by hand, in an exam once it is handed in.
    pub fn open(&mut self, tick: Tick) {
        let may = self.sight == Sight::Hands || self.handed_in.is_some();
        if self.now().closed() && may {
            self.opened = Some(tick);
        }
    }

    /// Hands an exam in at a tick.
    pub fn hand_in(&mut self, tick: Tick) {
        if self.sight == Sight::Exam {
            self.handed_in.get_or_insert(tick);
        }
    }

    /// Is what the scenario hides from a technician hidden in the text?
    pub fn hides(&self) -> bool {
        self.sight.closed() || self.card.is_some()
    }

    /// Returns the name of a file for its take: who, and what was worked on.
    pub fn file_name(&self) -> String {
        let who = self.learner.as_deref().unwrap_or("lowside");
        match (self.job(), self.seed) {
            (Some(job), _) => format!("{who}-{job}.json"),
            (None, 0) => format!("{who}-take.json"),
            (None, number) => format!("{who}-vehicle-{number}.json"),
        }
    }

    /// Returns the name of the shipped card, if it is one.
    pub fn job(&self) -> Option<&str> {
        match self.card.as_ref()? {
            Card::Job(name) => Some(name),
            Card::Own(_) => None,
        }
    }
}

/// Is a text a code: letters without accents, digits, `-`, `_` and `.`, 1 to [`LONGEST_NAME`] of them?
pub fn is_code(text: &str) -> bool {
    let known = |b: u8| b.is_ascii_alphanumeric() || b"-_.".contains(&b);
    (1..=LONGEST_NAME).contains(&text.len()) && text.bytes().all(known)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_after_who_and_what() {
        let mut sitting = Sitting::default();
        assert_eq!(sitting.file_name(), "lowside-take.json");
        sitting.learner = Some("ann-b".to_owned());
        sitting.seed = 4;
        assert_eq!(sitting.file_name(), "ann-b-vehicle-4.json");
        sitting.card = Some(Card::Job("2-low-charge".to_owned()));
        assert_eq!(sitting.file_name(), "ann-b-2-low-charge.json");
    }
}
