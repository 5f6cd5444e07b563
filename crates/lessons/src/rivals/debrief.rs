//! What a case teaches: which reading decided, which one would have told the rivals apart, and what a look-alike would have shown.

use lowside_shop::fault::{Fault, Severity};

use super::{Case, Channel, Inquiry, Odds, Read, Run, Standing, Trace};

/// What is said after a case.
#[derive(Debug, Clone, PartialEq)]
pub struct Debrief {
    /// How likely each suspect was, before any reading and after each.
    pub odds: Odds,
    /// The reading, from 0, after which what came first in the end stayed ahead; none where nothing did.
    pub decided: Option<usize>,
    /// The rival that was compared: the likeliest but the truth.
    pub rival: Option<Standing>,
    /// What each reading would have shown with the rival, as far as it can be told apart from what was read: the reading, what was read, what
    /// the rival would have shown.
    pub beside: Vec<Beside>,
    /// What would have told truth and rival apart best at the end.
    pub telling: Option<Telling>,
}

/// A reading beside that of a rival.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// Which reading, from 0, and which of its numbers.
    pub read: Read,
    /// What the rival would have shown, in the same unit.
    pub rival: f64,
    /// How many times its doubt they are apart.
    pub apart: f64,
}

/// A reading that would have told two suspects apart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Telling {
    /// What to read.
    pub channel: Channel,
    /// What the truth shows there, and the rival, in the channel's unit.
    pub shows: [f64; 2],
    /// How many times its doubt they are apart.
    pub apart: f64,
}

/// How likely the first has to be to be ahead.
const AHEAD: f64 = 0.7;
/// From how many times the doubt on two readings are told apart.
const TOLD_APART: f64 = 2.0;

impl Debrief {
    /// Debriefs a case whose truth is known: the fault, none where nothing was wrong. The rival is what the learner has said instead, or else
    /// the likeliest other suspect.
    pub fn of(
        inquiry: &Inquiry,
        truth: Option<&'static Fault>,
        said: Option<Option<&'static Fault>>,
    ) -> Self {
        let odds = inquiry.odds();
        let said = said.filter(|said| *said != truth);
        let rival = odds
            .last()
            .iter()
            .find(|s| said.map_or(s.fault != truth, |said| s.fault == said))
            .copied();
        let own = inquiry.case().evidence();
        let trace = |of: Standing| best(inquiry, of);
        let theirs = rival.and_then(trace);
        let beside = theirs.map_or(Vec::new(), |theirs| beside(own, theirs));
        let telling = theirs.and_then(|theirs| telling(own, theirs));
        Self {
            decided: decided(&odds),
            rival,
            beside,
            telling,
            odds,
        }
    }
}

/// The bay of a suspect at the severity that fits best, or the nearest that was run.
fn best(inquiry: &Inquiry, of: Standing) -> Option<&Trace> {
    let away = |severity: Severity| {
        let wanted = of.severity.map_or(0, |s| s as usize);
        wanted.abs_diff(severity as usize)
    };
    let runs = inquiry.runs().iter();
    let fits = runs.filter_map(|(run, trace)| match (run, of.fault) {
        (Run::Sound, None) => Some((0, trace)),
        (Run::Faulty(fault, severity), Some(wanted)) if *fault == wanted => {
            Some((away(*severity), trace))
        }
        _ => None,
    });
    fits.min_by_key(|(away, _)| *away).map(|(_, trace)| trace)
}

/// The reading after which the first in the end stayed ahead.
fn decided(odds: &Odds) -> Option<usize> {
    let first = odds.last().first()?;
    let ahead = |standings: &Vec<Standing>| {
        standings
            .first()
            .is_some_and(|s| s.fault == first.fault && s.likely >= AHEAD)
    };
    let behind = odds.after.iter().rposition(|standings| !ahead(standings))?;
    (behind + 1 < odds.after.len()).then_some(behind)
}

fn apart(channel: Channel, a: f64, b: f64) -> f64 {
    let doubt = channel.doubt();
    (a - b).abs() / libm::hypot(doubt.own, doubt.shared)
}

/// The reading, from 0, that tells a bay best from what was read, of those that `counts`; none where none does.
pub fn told_apart(own: &Trace, theirs: &Trace, counts: impl Fn(usize) -> bool) -> Option<usize> {
    beside(own, theirs)
        .into_iter()
        .filter(|beside| counts(beside.read.reading))
        .max_by(|a, b| a.apart.total_cmp(&b.apart))
        .map(|beside| beside.read.reading)
}

fn beside(own: &Trace, theirs: &Trace) -> Vec<Beside> {
    let pairs = own.read.iter().zip(&theirs.read);
    pairs
        .filter_map(|(own, theirs)| {
            let apart = apart(own.channel, own.value?, theirs.value?);
            let rival = theirs.value?;
            (apart > TOLD_APART).then_some(Beside {
                read: *own,
                rival,
                apart,
            })
        })
        .collect()
}

fn telling(own: &Trace, theirs: &Trace) -> Option<Telling> {
    let pairs = own.menu.iter().zip(&theirs.menu);
    let all = pairs.filter_map(|(own, theirs)| {
        let shows = [own.value?, theirs.value?];
        Some(Telling {
            channel: own.channel,
            apart: apart(own.channel, shows[0], shows[1]),
            shows,
        })
    });
    all.filter(|telling| telling.apart > TOLD_APART)
        .max_by(|a, b| a.apart.total_cmp(&b.apart))
}

impl Case {
    /// How far a bay's readings are from those that were taken: the mean square of how many times the doubt.
    pub fn away(&self, theirs: &Trace) -> f64 {
        let pairs = self.evidence().read.iter().zip(&theirs.read);
        let squares = pairs.filter_map(|(own, theirs)| {
            let apart = apart(own.channel, own.value?, theirs.value?);
            Some((apart * apart).min(100.0))
        });
        squares.sum()
    }

    /// What was read as a reading's numbers, from 0.
    pub fn numbers(&self, reading: usize) -> impl Iterator<Item = &Read> {
        let of = move |read: &&Read| read.reading == reading;
        self.evidence().read.iter().filter(of)
    }
}
