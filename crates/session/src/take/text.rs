//! A take as text: one JSON object of parts. A part at its default is left out.
//!
//! What comes from outside is taken apart first and built part by part, so that a part can be refused for its size.

use serde::{
    Deserialize, Deserializer, Serialize,
    de::{self, DeserializeOwned, DeserializeSeed},
};
use serde_json::{Map, Value, value::RawValue};

use super::{
    Card, LARGEST, LARGEST_ACT, LARGEST_SCENARIO, LONGEST_DETAIL, MOST_ACTS, MOST_HINTS,
    MOST_LINES, Part, Sitting, Take, TakeError, Undone, hex, in_range, is_code,
};
use crate::{
    bay::{Entered, Tick},
    scenario::Scenario,
    scramble::{scramble, unscramble},
    state::hash_of_text,
};

/// What is hidden of a scenario: what is wrong with vehicle and instruments, what the loop holds, and a script.
const HIDDEN: [&str; 5] = ["condition", "start", "scatter", "instruments", "act"];

/// Most bytes of scrambled text: it is twice as long.
const LARGEST_HIDDEN: usize = 2 * LARGEST_SCENARIO + 64;

/// A take's text taken apart.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Parts<'a> {
    #[serde(borrow)]
    format: &'a RawValue,
    #[serde(default)]
    physics: Option<&'a RawValue>,
    scenario: &'a RawValue,
    #[serde(default)]
    hidden: Option<&'a RawValue>,
    #[serde(default)]
    card: Option<&'a RawValue>,
    #[serde(default)]
    sight: Option<&'a RawValue>,
    #[serde(default)]
    handed_in: Option<&'a RawValue>,
    #[serde(default)]
    opened: Option<&'a RawValue>,
    #[serde(default)]
    learner: Option<&'a RawValue>,
    #[serde(default)]
    seed: Option<&'a RawValue>,
    #[serde(default)]
    hints: Option<&'a RawValue>,
    #[serde(default)]
    lines: Option<&'a RawValue>,
    #[serde(default)]
    mixed: Option<&'a RawValue>,
    log: &'a RawValue,
    ticks: &'a RawValue,
    hash: &'a RawValue,
    #[serde(default)]
    seal: Option<&'a RawValue>,
}

impl<'a> Parts<'a> {
    /// Every part that is there, but the seal, in the order in which they are written and sealed.
    fn sealed(&self) -> impl Iterator<Item = (Part, &'a str)> {
        let all = [
            (Part::Format, Some(self.format)),
            (Part::Physics, self.physics),
            (Part::Scenario, Some(self.scenario)),
            (Part::Hidden, self.hidden),
            (Part::Card, self.card),
            (Part::Sight, self.sight),
            (Part::HandedIn, self.handed_in),
            (Part::Opened, self.opened),
            (Part::Learner, self.learner),
            (Part::Seed, self.seed),
            (Part::Hints, self.hints),
            (Part::Lines, self.lines),
            (Part::Mixed, self.mixed),
            (Part::Log, Some(self.log)),
            (Part::Ticks, Some(self.ticks)),
            (Part::Hash, Some(self.hash)),
        ];
        all.into_iter()
            .filter_map(|(part, raw)| Some((part, raw?.get())))
    }

    /// What stands in the parts that are no part of the bay.
    fn sitting(&self) -> Result<Sitting, TakeError> {
        Ok(Sitting {
            card: self.card.map(card).transpose()?,
            sight: or_default(Part::Sight, self.sight)?,
            handed_in: or_default(Part::HandedIn, self.handed_in)?,
            opened: or_default(Part::Opened, self.opened)?,
            learner: self.learner.map(learner).transpose()?,
            seed: or_default(Part::Seed, self.seed)?,
            hints: self.hints.map_or(Ok(Vec::new()), hints)?,
            lines: self.lines.map_or(Ok(Vec::new()), lines)?,
            mixed: or_default(Part::Mixed, self.mixed)?,
        })
    }
}

/// A scenario read with its acts.
#[derive(Deserialize)]
struct WithActs(#[serde(deserialize_with = "Scenario::with_acts")] Scenario);

/// Reads a part of at most `most` bytes. By way of a value, as everything that the page reads: straight from text, all the reading code
/// would be there twice.
fn part<T: DeserializeOwned>(part: Part, raw: &RawValue, most: usize) -> Result<T, TakeError> {
    if raw.get().len() > most {
        return Err(TakeError::TooLarge { part, most });
    }
    let read = serde_json::from_str::<Value>(raw.get()).and_then(serde_json::from_value);
    read.map_err(|e| form(part, &e))
}

fn or_default<T: DeserializeOwned + Default>(
    of: Part,
    raw: Option<&RawValue>,
) -> Result<T, TakeError> {
    raw.map_or_else(|| Ok(T::default()), |raw| part(of, raw, LARGEST_ACT))
}

/// What a reader says, short: it may repeat the whole text.
fn form(part: Part, e: &serde_json::Error) -> TakeError {
    if e.is_eof() {
        return TakeError::CutShort;
    }
    wrong(part, &e.to_string())
}

fn wrong(part: Part, what: &str) -> TakeError {
    let detail = what.chars().take(LONGEST_DETAIL).collect();
    TakeError::Form { part, detail }
}

/// Shows the elements of a list one by one: a list too long or an element too large is never built.
struct Each<F>(F);

impl<'de, F: FnMut(&'de RawValue)> DeserializeSeed<'de> for Each<F> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, d: D) -> Result<(), D::Error> {
        d.deserialize_seq(self)
    }
}

impl<'de, F: FnMut(&'de RawValue)> de::Visitor<'de> for Each<F> {
    type Value = ();

    fn expecting(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("a list")
    }

    fn visit_seq<A: de::SeqAccess<'de>>(mut self, mut seq: A) -> Result<(), A::Error> {
        while let Some(raw) = seq.next_element()? {
            (self.0)(raw);
        }
        Ok(())
    }
}

/// Reads a list of at most `most` elements.
fn list<T>(
    of: Part,
    text: &str,
    most: usize,
    mut read: impl FnMut(usize, &RawValue) -> Result<T, TakeError>,
) -> Result<Vec<T>, TakeError> {
    let (mut found, mut count) = (Ok(Vec::new()), 0);
    let mut reader = serde_json::Deserializer::from_str(text);
    Each(|raw: &RawValue| {
        if count < most
            && let Ok(so_far) = &mut found
        {
            match read(count, raw) {
                Ok(element) => so_far.push(element),
                Err(e) => found = Err(e),
            }
        }
        count += 1;
    })
    .deserialize(&mut reader)
    .and_then(|()| reader.end())
    .map_err(|e| form(of, &e))?;
    in_range(of, count as u64, most as u64).and(found)
}

fn log(text: &str) -> Result<Vec<Entered>, TakeError> {
    list(Part::Log, text, MOST_ACTS, |index, raw| {
        part(Part::Act(index), raw, LARGEST_ACT)
    })
}

fn hints(raw: &RawValue) -> Result<Vec<super::Hint>, TakeError> {
    list(Part::Hints, raw.get(), MOST_HINTS, |_, raw| {
        part(Part::Hints, raw, LARGEST_ACT)
    })
}

/// A line of undone acts taken apart.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LineParts<'a> {
    tick: Tick,
    #[serde(borrow)]
    acts: &'a RawValue,
}

fn lines(raw: &RawValue) -> Result<Vec<Undone>, TakeError> {
    let of = Part::Lines;
    let mut room = MOST_ACTS;
    list(of, raw.get(), MOST_LINES, |_, raw| {
        let line: LineParts<'_> = serde_json::from_str(raw.get()).map_err(|e| form(of, &e))?;
        let acts: Vec<Entered> = list(of, line.acts.get(), room, |_, raw| {
            part(of, raw, LARGEST_ACT)
        })?;
        room -= acts.len();
        let tick = line.tick;
        Ok(Undone { tick, acts })
    })
}

fn learner(raw: &RawValue) -> Result<String, TakeError> {
    code(Part::Learner, part(Part::Learner, raw, LARGEST_ACT)?)
}

fn code(of: Part, text: String) -> Result<String, TakeError> {
    if is_code(&text) {
        Ok(text)
    } else {
        let what = "not 1 to 40 letters without accents, digits, -, _ or .";
        Err(wrong(of, what))
    }
}

fn card(raw: &RawValue) -> Result<Card, TakeError> {
    match part(Part::Card, raw, LARGEST_HIDDEN)? {
        Card::Job(name) => code(Part::Card, name).map(Card::Job),
        Card::Own(text) => {
            let text = unscramble(&text).ok_or_else(|| wrong(Part::Card, "not as it was written"));
            text.map(Card::Own)
        }
    }
}

/// Reads a scenario and puts what was hidden of it back in.
fn scenario(raw: &RawValue, hidden: Option<&RawValue>) -> Result<Scenario, TakeError> {
    let Some(hidden) = hidden else {
        return part(Part::Scenario, raw, LARGEST_SCENARIO).map(|WithActs(s)| s);
    };
    let of = Part::Hidden;
    let text: String = part(of, hidden, LARGEST_HIDDEN)?;
    let text = unscramble(&text).ok_or_else(|| wrong(of, "not as it was written"))?;
    let mut most = LARGEST_SCENARIO;
    let mut fields: Map<String, Value> = part(Part::Scenario, raw, most)?;
    most = most.saturating_sub(raw.get().len());
    if text.len() > most {
        return Err(TakeError::TooLarge { part: of, most });
    }
    let back: Map<String, Value> = serde_json::from_str(&text).map_err(|e| form(of, &e))?;
    for (key, value) in back {
        if !HIDDEN.contains(&key.as_str()) || fields.insert(key, value).is_some() {
            return Err(wrong(of, "not what is hidden of a scenario"));
        }
    }
    let read = serde_json::from_value(Value::Object(fields));
    read.map(|WithActs(s)| s)
        .map_err(|e| form(Part::Scenario, &e))
}

/// Takes out of a scenario's text what is hidden, and returns it scrambled.
fn hide(fields: &mut Map<String, Value>) -> String {
    let taken = |key: &str| Some((key.to_owned(), fields.remove(key)?));
    let hidden: Map<String, Value> = HIDDEN.into_iter().filter_map(taken).collect();
    scramble(&Value::Object(hidden).to_string())
}

/// The seal of a text: a hash over its parts by name, without the spaces between. It finds careless edits and proves nothing: whoever changes
/// the text can write the seal anew.
fn seal<'a>(parts: impl Iterator<Item = (Part, &'a str)>) -> String {
    let mut text = String::new();
    for (part, raw) in parts {
        text.push_str(part.key());
        text.push(':');
        let (mut quoted, mut escaped) = (false, false);
        for c in raw.chars() {
            quoted ^= c == '"' && !escaped;
            escaped = c == '\\' && !escaped;
            if quoted || !c.is_ascii_whitespace() {
                text.push(c);
            }
        }
        text.push('\n');
    }
    hex(hash_of_text(&text))
}

fn json(value: &impl Serialize) -> String {
    serde_json::to_string(value).unwrap_or_default()
}

impl Take {
    /// A log as text.
    pub fn log_text(log: &[Entered]) -> String {
        json(&log)
    }

    /// Puts a take together from parts that come from outside, checked as [`Take::parse`] checks; of this physics, in a sitting that saw
    /// everything.
    ///
    /// # Errors
    /// [`TakeError`], naming the part.
    pub fn assemble(
        format: u32,
        scenario: Scenario,
        acts: &str,
        ticks: Tick,
        hash: String,
    ) -> Result<Self, TakeError> {
        Self {
            format,
            physics: None,
            scenario,
            sitting: Sitting::default(),
            log: log(acts)?,
            ticks,
            hash,
        }
        .checked()
    }

    /// As text, sealed. Where the sitting hides it, what is wrong with the vehicle is scrambled.
    pub fn to_text(&self) -> String {
        let s = &self.sitting;
        let (mut scenario, mut hidden) = (json(&self.scenario), None);
        if s.hides()
            && let Ok(Value::Object(mut fields)) = serde_json::to_value(&self.scenario)
        {
            hidden = Some(hide(&mut fields));
            scenario = Value::Object(fields).to_string();
        }
        let card = s.card.as_ref().map(|card| match card {
            Card::Job(_) => json(card),
            Card::Own(text) => json(&Card::Own(scramble(text))),
        });
        let parts = [
            (Part::Format, Some(json(&self.format))),
            (Part::Physics, self.physics.as_ref().map(json)),
            (Part::Scenario, Some(scenario)),
            (Part::Hidden, hidden.as_ref().map(json)),
            (Part::Card, card),
            (Part::Sight, s.sight.closed().then(|| json(&s.sight))),
            (Part::HandedIn, s.handed_in.as_ref().map(json)),
            (Part::Opened, s.opened.as_ref().map(json)),
            (Part::Learner, s.learner.as_ref().map(json)),
            (Part::Seed, (s.seed != 0).then(|| json(&s.seed))),
            (Part::Hints, (!s.hints.is_empty()).then(|| json(&s.hints))),
            (Part::Lines, (!s.lines.is_empty()).then(|| json(&s.lines))),
            (Part::Mixed, s.mixed.then(|| json(&true))),
            (Part::Log, Some(json(&self.log))),
            (Part::Ticks, Some(json(&self.ticks))),
            (Part::Hash, Some(json(&self.hash))),
        ];
        let there = parts.iter();
        let there = there.filter_map(|(part, text)| Some((*part, text.as_deref()?)));
        let mut written: Vec<(Part, &str)> = there.collect();
        let seal = json(&seal(written.iter().copied()));
        written.push((Part::Seal, &seal));
        let all: Vec<String> = written
            .iter()
            .map(|(part, text)| format!("\"{}\":{text}", part.key()))
            .collect();
        format!("{{{}}}", all.join(","))
    }

    /// Reads a take and checks every bound, without replaying it. Takes memory for what a take may hold, whatever the text.
    ///
    /// # Errors
    /// [`TakeError`], naming the part.
    pub fn parse(text: &str) -> Result<Self, TakeError> {
        if text.len() > LARGEST {
            let part = Part::Whole;
            return Err(TakeError::TooLarge {
                part,
                most: LARGEST,
            });
        }
        if text.trim_start().is_empty() {
            return Err(TakeError::Empty);
        }
        if !text.trim_start().starts_with('{') {
            return Err(wrong(Part::Whole, "begins with no {"));
        }
        let parts: Parts<'_> = serde_json::from_str(text).map_err(|e| form(Part::Whole, &e))?;
        let physics = parts
            .physics
            .map(|raw| part(Part::Physics, raw, LARGEST_ACT));
        let take = Self {
            format: part(Part::Format, parts.format, LARGEST_ACT)?,
            physics: physics.transpose()?,
            scenario: scenario(parts.scenario, parts.hidden)?,
            sitting: parts.sitting()?,
            log: log(parts.log.get())?,
            ticks: part(Part::Ticks, parts.ticks, LARGEST_ACT)?,
            hash: part(Part::Hash, parts.hash, LARGEST_ACT)?,
        }
        .checked()?;
        let said: Option<String> = parts
            .seal
            .map(|raw| part(Part::Seal, raw, LARGEST_ACT))
            .transpose()?;
        let got = seal(parts.sealed());
        match said {
            Some(said) if said != got => Err(TakeError::Seal { got, said }),
            _ => Ok(take),
        }
    }
}
