//! Links: a take short enough to stand in an address.
//!
//! The text of a link is a JSON list: version of the link, format of the take, what it begins with, physics, ticks, hash, acts, and what
//! else a take has. What it begins with is a card (`c:1-first-charge`) or a shipped scenario (`s:healthy`); a scenario that differs from
//! it stands among the rest as a merge patch (RFC 7396). Acts stand in one list, each as the ticks since the one before, its name and its fields. The text is
//! packed with raw deflate (RFC 1951), which every browser can do by itself, and written in the base64 of addresses (RFC 4648, 5). Whoever
//! calls this packs and unpacks.
//!
//! Nothing is believed of what comes in: length, letters, inflated length ([`LARGEST`]) and form are bounded here, all else is refused by
//! the one reader of takes.

use std::collections::BTreeMap;

use base64::{Engine, engine::general_purpose::URL_SAFE_NO_PAD};
use lowside_session::{
    Entered, Scenario, Sight, Sitting, Take, TakeError, Tick, library, size,
    take::{self, Part},
};
use serde::Deserialize;
use serde_json::{Map, Value, value::RawValue};
use thiserror::Error;

/// Version of links that is written and read.
const VERSION: u32 = 1;
/// Longest part of an address behind its `#`, characters: longer addresses break in mail and chat.
pub const LONGEST: usize = 1_500;
/// Most bytes of a link's text once it is unpacked.
pub const LARGEST: usize = 64 * 1024;
/// Most characters of a name that is repeated.
const LONGEST_NAME: usize = 40;
/// The key of an act's name.
const NAME: &str = "do";
/// The field of an address that a packed take stands in.
const FIELD: &str = "k";

/// Why a link could not be opened.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum LinkError {
    /// Longer than any link.
    #[error(
        "it has {0} characters, and a link has at most {LONGEST}: it was changed, or two were put together"
    )]
    TooLong(usize),
    /// Letters that no link has, or not packed as a link is.
    #[error("it is damaged or cut short: copy it whole")]
    Damaged,
    /// Unpacked, it is larger than any link.
    #[error(
        "unpacked it is larger than {}, the most a link may hold",
        size(LARGEST)
    )]
    TooLarge,
    /// Of another version.
    #[error("its version is {0}, and this program reads version {VERSION}")]
    Version(u32),
    /// It begins with what is not there.
    #[error("there is no bay called \"{0}\" here")]
    Unknown(String),
    /// What it holds is no take.
    #[error(transparent)]
    Take(#[from] TakeError),
}

impl LinkError {
    /// A name that is not there, short enough to be repeated.
    pub fn unknown(name: &str) -> Self {
        Self::Unknown(name.chars().take(LONGEST_NAME).collect())
    }
}

/// Returns a field of the part of an address behind its `#`.
pub fn field<'a>(fragment: &'a str, name: &str) -> Option<&'a str> {
    let mut parts = fragment.trim_start_matches('#').split('&');
    parts.find_map(|part| part.strip_prefix(name)?.strip_prefix('='))
}

/// Returns the part of an address behind its `#` for a packed text, with `more` fields before it.
///
/// # Errors
/// Its length in characters, if that is more than [`LONGEST`].
pub fn fragment(more: &str, packed: &[u8]) -> Result<String, usize> {
    let between = if more.is_empty() { "" } else { "&" };
    let whole = format!("{more}{between}{FIELD}={}", URL_SAFE_NO_PAD.encode(packed));
    match whole.len() {
        0..=LONGEST => Ok(whole),
        length => Err(length),
    }
}

/// Returns the packed text of the part of an address behind its `#`; none if it has no packed take.
///
/// # Errors
/// [`LinkError::TooLong`] and [`LinkError::Damaged`].
pub fn packed(fragment: &str) -> Result<Option<Vec<u8>>, LinkError> {
    let Some(letters) = field(fragment, FIELD) else {
        return Ok(None);
    };
    if fragment.len() > LONGEST + 1 {
        return Err(LinkError::TooLong(fragment.chars().count()));
    }
    let bytes = URL_SAFE_NO_PAD.decode(letters);
    bytes.map(Some).map_err(|_| LinkError::Damaged)
}

/// What a link begins with, as its text has it.
fn begins() -> impl Iterator<Item = String> {
    library::scenario_names().map(|name| format!("s:{name}"))
}

/// Finds the scenario of a card by its name: whoever has the cards does.
pub type Cards<'a> = &'a dyn Fn(&str) -> Option<Scenario>;

/// The scenario of what a link begins with.
fn begun(name: &str, cards: Cards<'_>) -> Option<Scenario> {
    match name.split_once(':')? {
        ("c", card) => cards(card),
        ("s", scenario) => library::shipped(scenario),
        _ => None,
    }
}

/// The parts of a take's text.
type Parts = BTreeMap<String, Box<RawValue>>;

fn parts(take: &Take) -> Parts {
    serde_json::from_str(&take.to_text()).unwrap_or_default()
}

/// The parts of a take that begins with a scenario in a sitting, before anything was done.
fn fresh(scenario: Scenario, sitting: &Sitting) -> Parts {
    parts(&Take {
        format: take::FORMAT,
        physics: None,
        scenario,
        sitting: sitting.clone(),
        log: Vec::new(),
        ticks: 0,
        hash: String::new(),
    })
}

fn value(raw: &RawValue) -> Value {
    serde_json::from_str(raw.get()).unwrap_or_default()
}

/// What changes one value into another, as a merge patch; none where they are the same.
fn patch(from: &Value, to: &Value) -> Option<Value> {
    match (from, to) {
        _ if from == to => None,
        (Value::Object(from), Value::Object(to)) => {
            let gone = from.keys().filter(|key| !to.contains_key(*key));
            let mut all: Map<String, Value> = gone.map(|key| (key.clone(), Value::Null)).collect();
            for (key, to) in to {
                let from = from.get(key).unwrap_or(&Value::Null);
                all.extend(patch(from, to).map(|changed| (key.clone(), changed)));
            }
            Some(Value::Object(all))
        }
        _ => Some(to.clone()),
    }
}

/// Changes a value by a merge patch.
fn merge(into: &mut Value, patch: Value) {
    let Value::Object(patch) = patch else {
        *into = patch;
        return;
    };
    if !into.is_object() {
        *into = Value::Object(Map::new());
    }
    let Some(fields) = into.as_object_mut() else {
        return;
    };
    for (key, change) in patch {
        if change.is_null() {
            fields.remove(&key);
        } else {
            merge(fields.entry(key).or_insert(Value::Null), change);
        }
    }
}

/// The acts in one list: the ticks since the act before, its name, its fields or nothing.
fn short(log: &[Entered]) -> String {
    let mut last = 0;
    let each = log.iter().map(|(tick, act)| {
        let since = tick - last;
        last = *tick;
        let mut fields = match serde_json::to_value(act) {
            Ok(Value::Object(fields)) => fields,
            _ => Map::new(),
        };
        let name = fields.remove(NAME).unwrap_or_default();
        let fields = if fields.is_empty() {
            Value::from(0)
        } else {
            Value::Object(fields)
        };
        format!("{since},{name},{fields}")
    });
    format!("[{}]", each.collect::<Vec<_>>().join(","))
}

/// The acts as a take has them.
fn long(log: &RawValue) -> Result<String, LinkError> {
    let flat = list(log.get())?;
    let (acts, rest) = flat.as_chunks::<3>();
    if !rest.is_empty() {
        return Err(form(Part::Log, "an act without its time, name or fields"));
    }
    let mut tick: Tick = 0;
    let mut each = Vec::with_capacity(acts.len());
    for [since, name, fields] in acts {
        let since: Tick = read(Part::Log, since)?;
        tick = tick.saturating_add(since);
        let fields = fields.get().trim_start_matches('{').trim();
        let fields = match fields {
            "0" | "}" => "}".to_owned(),
            fields => format!(",{fields}"),
        };
        each.push(format!("[{tick},{{\"{NAME}\":{name}{fields}]"));
    }
    Ok(format!("[{}]", each.join(",")))
}

fn form(part: Part, what: &str) -> LinkError {
    let detail = what.to_owned();
    TakeError::Form { part, detail }.into()
}

fn list(text: &str) -> Result<Vec<&RawValue>, LinkError> {
    serde_json::from_str(text).map_err(|_| LinkError::Damaged)
}

fn read<'a, T: Deserialize<'a>>(part: Part, raw: &'a RawValue) -> Result<T, LinkError> {
    serde_json::from_str(raw.get()).map_err(|e| form(part, &e.to_string()))
}

/// Returns the text of a take's link, to be packed.
pub fn text(take: &Take, cards: Cards<'_>) -> String {
    let card = take.sitting.job().map(|name| format!("c:{name}"));
    let all = card.into_iter().chain(begins());
    let texts = all.filter_map(|name| Some(from(take, &name, begun(&name, cards)?)));
    let back = |text: &String| self::take(text, cards).is_ok_and(|back| back == *take);
    let shortest = texts.min_by_key(String::len).filter(back);
    // What does not come back exactly as a change of something shipped is written whole.
    shortest.unwrap_or_else(|| {
        let mut all = parts(take);
        all.remove(Part::Seal.key());
        line(take, "", &all)
    })
}

/// The text of a take that begins with what is shipped under a name.
fn from(take: &Take, name: &str, scenario: Scenario) -> String {
    let fresh = fresh(scenario, &take.sitting);
    let mut all = parts(take);
    let same = |key: &str, all: &Parts| {
        let pair = (fresh.get(key), all.get(key));
        matches!(pair, (Some(a), Some(b)) if a.get() == b.get())
    };
    for part in [Part::Scenario, Part::Hidden] {
        if same(part.key(), &all) {
            all.remove(part.key());
        }
    }
    let key = Part::Scenario.key();
    if let (Some(to), Some(from)) = (all.get(key), fresh.get(key))
        && let Some(patch) = patch(&value(from), &value(to))
        && let Ok(raw) = RawValue::from_string(patch.to_string())
    {
        all.insert(key.to_owned(), raw);
    }
    line(take, name, &all)
}

/// A link's text of what it begins with and of the parts that go with it.
fn line(take: &Take, name: &str, all: &Parts) -> String {
    let apart = [
        Part::Format,
        Part::Physics,
        Part::Ticks,
        Part::Hash,
        Part::Log,
        Part::Seal,
    ];
    let rest = all
        .iter()
        .filter(|(key, _)| apart.iter().all(|part| part.key() != *key));
    let rest: Vec<String> = rest.map(|(key, raw)| format!("\"{key}\":{raw}")).collect();
    let quoted = |text: &str| Value::from(text).to_string();
    let physics = take.physics.as_deref().map_or("null".to_owned(), quoted);
    format!(
        "[{VERSION},{},{},{physics},{},{},{},{{{}}}]",
        take.format,
        quoted(name),
        take.ticks,
        quoted(&take.hash),
        short(&take.log),
        rest.join(",")
    )
}

/// Does the text of a link begin with a card?
pub fn begins_with_card(text: &str) -> bool {
    let name = list(text)
        .ok()
        .and_then(|all| all.get(2).map(|name| name.get().starts_with("\"c:")));
    name.unwrap_or(false)
}

/// Reads the text of a link, unpacked, and checks every bound, without replaying it.
///
/// # Errors
/// [`LinkError`], saying what is wrong.
pub fn take(text: &str, cards: Cards<'_>) -> Result<Take, LinkError> {
    if text.len() > LARGEST {
        return Err(LinkError::TooLarge);
    }
    let all = list(text)?;
    let version = all.first().ok_or(LinkError::Damaged)?;
    match serde_json::from_str(version.get()) {
        Ok(VERSION) => {}
        Ok(other) => return Err(LinkError::Version(other)),
        Err(_) => return Err(LinkError::Damaged),
    }
    let [_, format, name, physics, ticks, hash, log, rest] = all[..] else {
        return Err(LinkError::Damaged);
    };
    let mut parts: Parts = read(Part::Whole, rest)?;
    let name: String = read(Part::Scenario, name)?;
    if !name.is_empty() {
        begin(&name, &mut parts, cards)?;
    }
    let raw = |text: String| RawValue::from_string(text).map_err(|_| LinkError::Damaged);
    for (part, text) in [
        (Part::Format, format.get().to_owned()),
        (Part::Physics, physics.get().to_owned()),
        (Part::Ticks, ticks.get().to_owned()),
        (Part::Hash, hash.get().to_owned()),
        (Part::Log, long(log)?),
    ] {
        if text != "null" {
            parts.insert(part.key().to_owned(), raw(text)?);
        }
    }
    let whole: Vec<String> = parts
        .iter()
        .map(|(key, raw)| format!("{}:{raw}", Value::from(key.as_str())))
        .collect();
    Ok(Take::parse(&format!("{{{}}}", whole.join(",")))?)
}

/// Puts what a link begins with into the parts that it has.
fn begin(name: &str, parts: &mut Parts, cards: Cards<'_>) -> Result<(), LinkError> {
    let scenario = begun(name, cards).ok_or_else(|| LinkError::unknown(name))?;
    // As in the sitting of the take: it says what is hidden.
    let closed = parts.contains_key(Part::Sight.key()) || parts.contains_key(Part::Card.key());
    let sitting = Sitting {
        sight: if closed { Sight::Hands } else { Sight::Open },
        ..Sitting::default()
    };
    let mut fresh = fresh(scenario, &sitting);
    for part in [Part::Scenario, Part::Hidden] {
        let Some(begun) = fresh.remove(part.key()) else {
            continue;
        };
        match parts.get(part.key()) {
            None => {
                parts.insert(part.key().to_owned(), begun);
            }
            Some(raw) if part == Part::Scenario => {
                let mut whole = value(&begun);
                merge(&mut whole, read(part, raw)?);
                let whole = RawValue::from_string(whole.to_string());
                parts.insert(
                    part.key().to_owned(),
                    whole.map_err(|_| LinkError::Damaged)?,
                );
            }
            Some(_) => {}
        }
    }
    Ok(())
}
