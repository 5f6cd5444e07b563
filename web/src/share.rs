//! Links and files: how a bay leaves the page and comes back.
//!
//! A link carries the scenario's name, and the acts if they are short, behind the `#` of the address, which no server ever sees:
//! `#s=healthy&u=psi.f.oz.us&v=2&t=3000&h=...&l=...`, the log as JSON in base64 for addresses. The units go with it, so that others read
//! the figures that are spoken of. What comes in is checked as a take is.
use lowside_session::{
    Bay, Take, TakeError, library,
    take::{self, Part},
};

use lowside_units::display::UnitSystem;

use crate::{host, stage, units};

/// Longest log in a link, characters: longer addresses break in mail and chat.
const LONGEST: usize = 1_500;

/// Longest name of a bay that is repeated, characters.
const LONGEST_NAME: usize = 40;

/// Why a link could not be opened.
#[derive(Debug)]
pub(crate) enum LinkError {
    /// It asks for a bay that is not there.
    Unknown(String),
    /// Its acts are no good.
    Take(TakeError),
}

impl From<TakeError> for LinkError {
    fn from(why: TakeError) -> Self {
        Self::Take(why)
    }
}

/// What an address asks for.
pub(crate) enum Asked {
    /// A scenario from its beginning.
    Start(String),
    /// A take to be replayed.
    Take(Box<Take>),
}

/// The part of the address behind `#` for a bay; none if it is not a shipped scenario or its acts are too many.
pub(crate) fn fragment(bay: &Bay, shown: UnitSystem) -> Option<String> {
    let name = stage::shipped(bay)?;
    let u = units::write(shown).replace(' ', ".");
    if bay.log().is_empty() {
        return Some(format!("s={name}&u={u}"));
    }
    let log = encode(&Take::log_text(bay.log()))?;
    (log.len() <= LONGEST).then(|| {
        let (ticks, hash) = (bay.tick(), take::fingerprint(bay));
        let v = take::FORMAT;
        format!("s={name}&u={u}&v={v}&t={ticks}&h={hash}&l={log}")
    })
}

fn field<'a>(fragment: &'a str, name: &str) -> Option<&'a str> {
    let mut parts = fragment.trim_start_matches('#').split('&');
    parts.find_map(|part| part.strip_prefix(name)?.strip_prefix('='))
}

/// The units that a link shows.
pub(crate) fn units(fragment: &str) -> Option<UnitSystem> {
    units::read(&field(fragment, "u")?.replace('.', " "))
}

/// Reads the part of an address behind `#`; none if it asks for no bay.
///
/// # Errors
/// [`LinkError`] when the bay is unknown, or there is a log and it is no good.
pub(crate) fn read(fragment: &str) -> Result<Option<Asked>, LinkError> {
    let field = |name| field(fragment, name);
    let Some(name) = field("s") else {
        return Ok(None);
    };
    let unknown = || LinkError::Unknown(name.chars().take(LONGEST_NAME).collect());
    if !stage::STARTS.contains(&name) {
        return Err(unknown());
    }
    let Some(log) = field("l") else {
        return Ok(Some(Asked::Start(name.to_owned())));
    };
    if log.len() > LONGEST {
        let (part, most) = (Part::Whole, LONGEST);
        return Err(TakeError::TooLarge { part, most }.into());
    }
    let bad = |part| TakeError::Form {
        part,
        detail: String::new(),
    };
    let log = decode(log).ok_or(bad(Part::Log))?;
    let ticks = field("t").and_then(|t| t.parse().ok());
    let ticks = ticks.ok_or(bad(Part::Ticks))?;
    let scenario = library::shipped(name).ok_or_else(unknown)?;
    let hash = field("h").unwrap_or_default().to_owned();
    // Links of the first version say none.
    let format = field("v").map_or(Some(1), |v| v.parse().ok());
    let format = format.ok_or(bad(Part::Format))?;
    let take = Take::assemble(format, scenario, &log, ticks, hash)?;
    Ok(Some(Asked::Take(Box::new(take))))
}

/// Saves a take's text as a file of the person's.
pub(crate) fn save(text: &str) {
    host::save_text("lowside-take.json", "application/json", text);
}

/// The acts so far as text.
pub(crate) fn text(bay: &Bay) -> String {
    Take::of(bay).to_text()
}

/// The hash of the bay's state at the end of the take `text`; a take that cannot be replayed gives its error instead. The hash is the one
/// reached, whatever the take itself claims.
pub(crate) fn hash(text: &str) -> String {
    let reached = || {
        let take = Take::parse(text)?;
        let mut replay = take.replay();
        while !replay.run(u64::MAX)? {}
        Ok::<_, TakeError>(take::fingerprint(replay.bay()))
    };
    reached().unwrap_or_else(|error| error.to_string())
}

fn encode(text: &str) -> Option<String> {
    let packed = host::window().btoa(text).ok()?;
    Some(packed.replace('+', "-").replace('/', "_").replace('=', ""))
}

fn decode(text: &str) -> Option<String> {
    host::window()
        .atob(&text.replace('-', "+").replace('_', "/"))
        .ok()
}
