//! The bays of a case one after the other, in slices, for a host with one core to spare.

use lowside_session::Tick;
use lowside_shop::fault::{Fault, Severity};

use super::{Case, Odds, Run, SCATTERED, Trace, runner::Runner};

/// The severity that is looked at first.
const FIRST: Severity = Severity::Severe;
/// From how likely on the other severities of a suspect are looked at.
const WORTH: f64 = 0.003;

/// A case under way: sound vehicles and every suspect at one severity first, then the other severities of those that are not out of the
/// question.
#[derive(Debug)]
pub struct Inquiry {
    case: Case,
    runs: Vec<(Run, Trace)>,
    /// To come, the next one last.
    queue: Vec<Run>,
    current: Option<Runner>,
    /// Bays that somebody asked for besides.
    asked: Vec<Run>,
    /// The other severities are in the queue.
    second: bool,
    /// How many bays there will be, as far as one knows.
    total: usize,
}

impl Inquiry {
    /// Begins.
    pub fn new(case: Case) -> Self {
        let scattered = (0..SCATTERED).map(Run::Scattered);
        let faulty = Case::suspects().map(|fault| Run::Faulty(fault, first(fault)));
        let mut queue: Vec<Run> = core::iter::once(Run::Sound)
            .chain(scattered)
            .chain(faulty)
            .collect();
        queue.reverse();
        Self {
            case,
            runs: Vec::new(),
            total: queue.len(),
            queue,
            current: None,
            asked: Vec::new(),
            second: false,
        }
    }

    /// Lets at most so many ticks pass in the bay that is under way; true when there is none left.
    pub fn advance(&mut self, ticks: Tick) -> bool {
        let Some(run) = self.queue.last().copied() else {
            return true;
        };
        let Self { case, current, .. } = self;
        let runner = current.get_or_insert_with(|| Runner::new(&case.vehicle(run)));
        if runner.advance(case, ticks) {
            let trace = core::mem::take(&mut runner.trace);
            self.runs.push((run, trace));
            self.current = None;
            self.queue.pop();
            if self.queue.is_empty() && !self.second {
                self.second = true;
                self.queue = self.others();
                let known = |run: &Run| self.queue.contains(run) || self.trace(*run).is_some();
                let more: Vec<Run> = self.asked.iter().filter(|r| !known(r)).copied().collect();
                self.queue.splice(0..0, more);
                self.total += self.queue.len();
            }
        }
        self.queue.is_empty()
    }

    /// The other severities of what is not out of the question.
    fn others(&self) -> Vec<Run> {
        let odds = self.odds();
        let worth = odds.last().iter().filter(|s| s.likely > WORTH);
        worth
            .filter_map(|standing| standing.fault)
            .flat_map(|fault| {
                Case::severities(fault)
                    .filter(move |s| *s != first(fault))
                    .map(move |s| Run::Faulty(fault, s))
            })
            .collect()
    }

    /// Asks for more bays, to be run last.
    pub fn ask(&mut self, more: Vec<Run>) {
        self.asked.extend(more);
    }

    /// What a bay showed, if it has been run.
    pub fn trace(&self, run: Run) -> Option<&Trace> {
        let found = self.runs.iter().find(|(r, _)| *r == run);
        found.map(|(_, trace)| trace)
    }

    /// Share of the bays that have been run, 0 to 1.
    pub fn progress(&self) -> f64 {
        self.runs.len() as f64 / self.total.max(1) as f64
    }

    /// The case.
    pub fn case(&self) -> &Case {
        &self.case
    }

    /// The bays that have been run.
    pub fn runs(&self) -> &[(Run, Trace)] {
        &self.runs
    }

    /// How likely each suspect is by the bays that have been run.
    pub fn odds(&self) -> Odds {
        Odds::of(&self.case, &self.runs)
    }
}

/// The severity of a fault that is looked at first: a switch has but one.
fn first(fault: &'static Fault) -> Severity {
    Case::severities(fault)
        .filter(|s| *s <= FIRST)
        .last()
        .unwrap_or(Severity::Slight)
}
