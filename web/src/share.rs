//! Links and files: how a bay leaves the page and comes back.
//!
//! A link carries the scenario's name, and the acts if they are short, behind the `#` of the address, which no server ever sees:
//! `#s=healthy&u=psi.f.oz.us&v=2&t=3000&h=...&l=...`, the log as JSON in base64 for addresses. The units go with it, so that others read
//! the figures that are spoken of. A job has its card's name in place of the scenario's: `c=1-first-charge`. How the bay is worked in goes with
//! it, and when that ended: `w=exam&e=2000&i=2500`. What comes in is checked as a take is.
use lowside_lessons::Job;
use lowside_session::{
    Bay, Sight, Sitting, Take, TakeError,
    take::{self, Card, Part},
};

use lowside_units::display::UnitSystem;
use yew::Callback;

use crate::{host, later, stage, units};

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
    Start(String, Sight),
    /// A job card from its beginning.
    Job(&'static str, Sight),
    /// A take to be replayed.
    Take(Box<Take>),
}

/// The part of the address behind `#` for a bay; none if it is not a shipped scenario or its acts are too many.
pub(crate) fn fragment(bay: &Bay, sitting: &Sitting, shown: UnitSystem) -> Option<String> {
    let of_card =
        |name: &&str| later::job(name).is_some_and(|j| j.bay().scenario() == bay.scenario());
    let begun = match sitting.job().filter(of_card) {
        Some(name) => format!("c={name}"),
        None => format!("s={}", stage::shipped(bay)?),
    };
    let u = units::write(shown).replace(' ', ".");
    let ends = [("e", sitting.handed_in), ("i", sitting.opened)];
    let ends = ends
        .iter()
        .filter_map(|(key, tick)| Some(format!("&{key}={}", (*tick)?)));
    let begun = format!(
        "{begun}&u={u}{}{}",
        way(sitting.sight),
        ends.collect::<String>()
    );
    if bay.log().is_empty() {
        return Some(begun);
    }
    let log = encode(&Take::log_text(bay.log()))?;
    (log.len() <= LONGEST).then(|| {
        let (ticks, hash) = (bay.tick(), take::fingerprint(bay));
        let v = take::FORMAT;
        format!("{begun}&v={v}&t={ticks}&h={hash}&l={log}")
    })
}

/// How a bay is worked in, as a link has it.
fn way(sight: Sight) -> &'static str {
    match sight {
        Sight::Open => "",
        Sight::Hands => "&w=hands",
        Sight::Exam => "&w=exam",
    }
}

fn field<'a>(fragment: &'a str, name: &str) -> Option<&'a str> {
    let mut parts = fragment.trim_start_matches('#').split('&');
    parts.find_map(|part| part.strip_prefix(name)?.strip_prefix('='))
}

/// The units that a link shows.
pub(crate) fn units(fragment: &str) -> Option<UnitSystem> {
    units::read(&field(fragment, "u")?.replace('.', " "))
}

/// Does an address ask for a card? The part that has them must be here before it is read.
pub(crate) fn names_card(fragment: &str) -> bool {
    field(fragment, "c").is_some()
}

/// Reads a file that was chosen or dropped, and gives its text, or why there is none.
pub(crate) fn read_file(file: web_sys::File, open: Callback<Result<String, TakeError>>) {
    wasm_bindgen_futures::spawn_local(async move {
        // A file larger than any take is not read at all.
        let part = Part::Whole;
        open.emit(if file.size() > take::LARGEST as f64 {
            Err(TakeError::TooLarge {
                part,
                most: take::LARGEST,
            })
        } else {
            let text = wasm_bindgen_futures::JsFuture::from(file.text()).await;
            let unread = || TakeError::Form {
                part,
                detail: String::new(),
            };
            text.ok().and_then(|t| t.as_string()).ok_or_else(unread)
        });
    });
}

/// Reads the part of an address behind `#`; none if it asks for no bay.
///
/// # Errors
/// [`LinkError`] when the bay is unknown, or there is a log and it is no good.
pub(crate) fn read(fragment: &str) -> Result<Option<Asked>, LinkError> {
    let field = |name| field(fragment, name);
    let Some(name) = field("c").or_else(|| field("s")) else {
        return Ok(None);
    };
    let unknown = || LinkError::Unknown(name.chars().take(LONGEST_NAME).collect());
    let job = field("c").map(|name| later::job(name).ok_or_else(unknown));
    let job = job.transpose()?;
    if job.is_none() && !stage::STARTS.contains(&name) {
        return Err(unknown());
    }
    let bad = |part| TakeError::Form {
        part,
        detail: String::new(),
    };
    let sight = match field("w") {
        None => Sight::Open,
        Some("hands") => Sight::Hands,
        Some("exam") => Sight::Exam,
        Some(_) => return Err(bad(Part::Sight).into()),
    };
    let Some(log) = field("l") else {
        return Ok(Some(match job {
            Some(job) => Asked::Job(job.name, sight),
            None => Asked::Start(name.to_owned(), sight),
        }));
    };
    if log.len() > LONGEST {
        let (part, most) = (Part::Whole, LONGEST);
        return Err(TakeError::TooLarge { part, most }.into());
    }
    let log = decode(log).ok_or(bad(Part::Log))?;
    let ticks = field("t").and_then(|t| t.parse().ok());
    let ticks = ticks.ok_or(bad(Part::Ticks))?;
    let bay = job.as_ref().map_or_else(|| stage::open(name), Job::bay);
    let hash = field("h").unwrap_or_default().to_owned();
    // Links of the first version say none.
    let format = field("v").map_or(Some(1), |v| v.parse().ok());
    let format = format.ok_or(bad(Part::Format))?;
    let mut take = Take::assemble(format, bay.scenario().clone(), &log, ticks, hash)?;
    let tick = |name, part| {
        let tick = field(name).map(|tick| tick.parse().map_err(|_| bad(part)));
        tick.transpose()
    };
    take.sitting = Sitting {
        card: job.map(|job| Card::Job(job.name.to_owned())),
        sight,
        handed_in: tick("e", Part::HandedIn)?,
        opened: tick("i", Part::Opened)?,
        ..Sitting::default()
    };
    Ok(Some(Asked::Take(Box::new(take))))
}

/// Saves a take's text as a file of the person's.
pub(crate) fn save(text: &str) {
    host::save_text("lowside-take.json", "application/json", text);
}

/// The acts so far as text, in their sitting.
pub(crate) fn text(bay: &Bay, sitting: &Sitting) -> String {
    Take::in_sitting(bay, sitting.clone()).to_text()
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
