//! Lines put aside in an earlier visit: kept as takes, each replayed only when somebody goes back to it.
use lowside_present::history::History;
use lowside_session::{
    Bay, Take, Tick, Timeline,
    timeline::{LineInfo, MOST_LINES},
};

use crate::{bays::KeptBay, stage::Stage, store};

/// A line put aside.
#[derive(Debug, Clone)]
struct Aside {
    info: LineInfo,
    /// Its take as text.
    take: String,
}

/// The lines of earlier visits, and the numbers with which this one goes on.
#[derive(Debug, Clone)]
pub(crate) struct KeptLines {
    lines: Vec<Aside>,
    /// Id of the line the bay stands on, and where it parted.
    current: (u32, Tick),
    next: u32,
    /// Line and next number when it was written last; none if it was not.
    written: Option<(u32, u32)>,
}

impl Default for KeptLines {
    fn default() -> Self {
        Self {
            lines: Vec::new(),
            current: (1, 0),
            next: 2,
            written: None,
        }
    }
}

/// Where a line is kept; the first holds the numbers of the line the bay stands on.
fn place(k: usize) -> String {
    format!("{}.{k}", store::LINES)
}

fn numbers(text: &str) -> Option<(u32, Tick, u32)> {
    let mut all = text.split(' ');
    let (id, from) = (all.next()?.parse().ok()?, all.next()?.parse().ok()?);
    Some((id, from, all.next()?.parse().ok()?))
}

fn line(text: &str) -> Option<Aside> {
    let (head, take) = text.split_once('\n')?;
    let (id, from, _) = numbers(head)?;
    let read = Take::parse(take).ok()?;
    Some(Aside {
        info: LineInfo {
            id,
            from,
            end: read.ticks,
            acts: read.log.len(),
            current: false,
        },
        take: take.to_owned(),
    })
}

impl KeptLines {
    /// The lines of a kept bay; one that cannot be read is left out.
    pub(crate) fn of(bay: &KeptBay) -> Self {
        let Some((id, from, next)) = bay.text(&place(0)).and_then(numbers) else {
            return Self::default();
        };
        let lines = (1..MOST_LINES).filter_map(|k| line(bay.text(&place(k))?));
        Self {
            lines: lines.collect(),
            current: (id, from),
            next,
            written: None,
        }
    }

    /// Lines to choose from.
    pub(crate) fn infos(&self) -> impl Iterator<Item = LineInfo> + '_ {
        self.lines.iter().map(|l| l.info)
    }

    /// Numbers a past that was just replayed.
    pub(crate) fn number(&self, past: &mut Timeline) {
        past.number(self.current.0, self.current.1, self.next);
    }

    /// Takes a line off the shelf, and puts every line of `past`, the current one with its end `stage.bay` too, onto it.
    pub(crate) fn exchange(&self, id: u32, stage: &Stage) -> Option<(Self, Take)> {
        let at = self.lines.iter().position(|l| l.info.id == id)?;
        let (past, sitting) = (&stage.past, stage.sitting_now());
        let write = |bay: &Bay| crate::share::text(bay, &sitting);
        let mut lines = self.lines.clone();
        let wanted = lines.remove(at);
        let take = Take::parse(&wanted.take).ok()?;
        lines.extend(past.aside().map(|line| Aside::of(line, write)));
        lines.push(Aside::of(
            (past.line(), past.from(), past.head(&stage.bay)),
            write,
        ));
        let next = Self {
            lines,
            current: (id, wanted.info.from),
            next: past.next_id(),
            written: None,
        };
        Some((next, take))
    }

    /// Keeps all lines but the one the bay stands on, if any has changed since; `write` makes a take's text of a bay.
    pub(crate) fn save(&mut self, past: &Timeline, write: impl Fn(&Bay) -> String) {
        // A line put aside stands still until somebody goes back to it; a new one gets a new number.
        let now = (past.line(), past.next_id());
        if self.written == Some(now) {
            return;
        }
        self.written = Some(now);
        // As many as a past keeps, the oldest going first.
        let most = MOST_LINES.saturating_sub(past.aside().count() + 1);
        self.lines.drain(..self.lines.len().saturating_sub(most));
        let texts = self.texts(past, write);
        for k in 0..MOST_LINES {
            match texts.get(k) {
                Some((name, text)) => drop(store::keep(name, text)),
                None => store::forget(&place(k)),
            }
        }
    }

    /// All lines but the one the bay stands on, as they are kept.
    pub(crate) fn texts(
        &self,
        past: &Timeline,
        write: impl Fn(&Bay) -> String,
    ) -> Vec<(String, String)> {
        let first = format!("{} {} {}", past.line(), past.from(), past.next_id());
        let lines = past.aside().map(|line| Aside::of(line, &write));
        let lines = lines.chain(self.lines.iter().cloned());
        let text = |l: Aside| format!("{} {} 0\n{}", l.info.id, l.info.from, l.take);
        let texts = std::iter::once(first).chain(lines.map(text));
        texts
            .enumerate()
            .map(|(k, text)| (place(k), text))
            .collect()
    }
}

impl Aside {
    fn of((id, from, bay): (u32, Tick, &Bay), write: impl Fn(&Bay) -> String) -> Self {
        Self {
            info: LineInfo {
                id,
                from,
                end: bay.tick(),
                acts: bay.log().len(),
                current: false,
            },
            take: write(bay),
        }
    }
}

impl Stage {
    /// Puts a replayed bay on stage, with the lines of `shelf` beside it.
    pub(crate) fn taken_up(found: crate::resume::Resumed, kept_lines: KeptLines) -> Self {
        let mut stage = Self::new(found.bay, History::default());
        stage.sitting = found.sitting;
        stage.history = found.history;
        stage.past = found.past;
        kept_lines.number(&mut stage.past);
        stage.kept_lines = kept_lines;
        stage.job = found.job;
        stage.paused = true;
        stage.retell();
        stage
    }
}
