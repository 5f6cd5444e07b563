//! Links: how a bay leaves the page in an address and comes back.
//!
//! What a bay begins with has a short link: `#s=healthy`, or `#c=1-first-charge` for a card, with `w=exam` for how it is worked in. A bay in
//! which something was done goes packed, `#k=...` (`packed.rs`), by the browser's own packer. The units go with it
//! (`u=psi.f.oz.us`), so that others read the figures that are spoken of. What stands behind a `#` no server ever sees. Links of before,
//! with the acts in `l=`, are still read.
use lowside_lessons::link::{LONGEST, LinkError};
use lowside_session::{
    Bay, Sight, Sitting, Take, TakeError,
    take::{Card, Part},
};
use lowside_units::display::UnitSystem;

use crate::{
    host,
    later::{self, Part as Later},
    share::{self, field},
    stage, units,
};

pub(crate) mod packed;

/// What an address asks for.
pub(crate) enum Asked {
    /// A scenario from its beginning.
    Start(String, Sight),
    /// A job card from its beginning.
    Job(&'static str, Sight),
    /// A take to be replayed.
    Take(Box<Take>),
}

/// Why there is no link.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum NoLink {
    /// It would have so many characters.
    TooLong(usize),
    /// The browser cannot pack it.
    NoPacker,
}

/// The units that a link shows.
fn shown(units: UnitSystem) -> String {
    format!("u={}", units::write(units).replace(' ', "."))
}

/// The part of an address behind `#` for a bay in which nothing was done; none if something was, or if it is not shipped.
pub(crate) fn begun(bay: &Bay, sitting: &Sitting, units: UnitSystem) -> Option<String> {
    let known = Sitting {
        card: sitting.card.clone(),
        sight: sitting.sight,
        ..Sitting::default()
    };
    if bay.tick() > 0 || !bay.log().is_empty() || *sitting != known {
        return None;
    }
    let of_card =
        |name: &&str| later::job(name).is_some_and(|j| j.bay().scenario() == bay.scenario());
    let begun = match sitting.job() {
        Some(name) => format!("c={}", Some(name).filter(of_card)?),
        None => format!("s={}", stage::shipped(bay)?),
    };
    let way = match sitting.sight {
        Sight::Open => "",
        Sight::Hands => "&w=hands",
        Sight::Exam => "&w=exam",
    };
    Some(format!("{begun}&{}{way}", shown(units)))
}

/// Does the part of an address behind `#` ask for a bay? Anything else there is a place on the page.
pub(crate) fn asks(fragment: &str) -> bool {
    ["k", "c", "s"]
        .iter()
        .any(|name| field(fragment, name).is_some())
}

/// The part of an address behind `#` for a take.
///
/// # Errors
/// [`NoLink`], saying why there is none.
pub(crate) async fn of(take: Take, units: UnitSystem) -> Result<String, NoLink> {
    later::fetch(Later::Links).await;
    match later::links() {
        Some(links) => (links.of)(take, units).await,
        None => Err(NoLink::NoPacker),
    }
}

/// Reads the part of an address behind `#`; none if it asks for no bay.
///
/// # Errors
/// [`LinkError`], saying what is wrong.
pub(crate) async fn read(fragment: String) -> Result<Option<Asked>, LinkError> {
    if field(&fragment, "k").is_some() {
        later::fetch(Later::Links).await;
        if let Some(links) = later::links() {
            let take = (links.read)(fragment).await?;
            return Ok(Some(Asked::Take(Box::new(take))));
        }
    }
    if share::names_card(&fragment) {
        later::fetch(Later::Jobs).await;
    }
    plain(&fragment)
}

/// Reads what is not packed.
fn plain(fragment: &str) -> Result<Option<Asked>, LinkError> {
    let field = |name| field(fragment, name);
    let Some(name) = field("c").or_else(|| field("s")) else {
        return Ok(None);
    };
    let unknown = || LinkError::unknown(name);
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
        return Err(LinkError::TooLong(log.len()));
    }
    let log = decode(log).ok_or(bad(Part::Log))?;
    let ticks = field("t").and_then(|t| t.parse().ok());
    let ticks = ticks.ok_or(bad(Part::Ticks))?;
    let bay = job
        .as_ref()
        .map_or_else(|| stage::open(name), lowside_lessons::Job::bay);
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

fn decode(text: &str) -> Option<String> {
    host::window()
        .atob(&text.replace('-', "+").replace('_', "/"))
        .ok()
}
