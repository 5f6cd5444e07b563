//! Marks of an unknown vehicle: a rubric that one can read, out of what was done and read. The same take gets the same marks, always.
//!
//! A mark may know what was hidden; it is given when the work is over.

use lowside_session::{
    Action, Bay, BenchAct, LearnerAct, TICKS_PER_SECOND, Take, TakeError, Tick, action::FaultId,
};
use lowside_shop::fault::{Cure, Fault, Severity};
use lowside_units::Quantity;

use crate::{
    Truth,
    rivals::{Case, Run, Trace, told_apart, twins},
    toll::{self, toll},
};

/// A line of the rubric.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Line {
    /// The fault, or one that the same readings would fit as well.
    Found,
    /// What puts it right.
    Cure,
    /// The readings named show it: each look-alike is ruled out by one of them.
    Evidence,
    /// Among all that was read, something tells it from each look-alike.
    Telling,
    /// How sure one was: sure and right pays, sure and wrong costs.
    Certainty,
    /// Nobody hurt, nothing spoilt, nothing let out; protection on where it belongs.
    Safety,
    /// Nothing was renewed, let in or taken out before the fault was named.
    Order,
    /// Time taken.
    Time,
}

impl Line {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Found,
        Self::Cure,
        Self::Evidence,
        Self::Telling,
        Self::Certainty,
        Self::Safety,
        Self::Order,
        Self::Time,
    ];

    /// Its name in files.
    pub fn key(self) -> &'static str {
        match self {
            Self::Found => "found",
            Self::Cure => "cure",
            Self::Evidence => "evidence",
            Self::Telling => "telling",
            Self::Certainty => "certainty",
            Self::Safety => "safety",
            Self::Order => "order",
            Self::Time => "time",
        }
    }

    /// The most it gives (own figures; together 100).
    pub fn most(self) -> f64 {
        match self {
            Self::Found => 35.0,
            Self::Telling | Self::Certainty | Self::Evidence => 10.0,
            Self::Safety => 20.0,
            Self::Cure | Self::Order | Self::Time => 5.0,
        }
    }
}

/// The marks of an attempt.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// What was wrong; none where nothing was.
    pub truth: Option<&'static Fault>,
    /// What was said at last; none where nothing was said at all.
    pub said: Option<FaultId>,
    /// When, s.
    pub said_at: Option<f64>,
    /// How sure.
    pub certainty: f64,
    /// What each line gives, in the order of [`Line::ALL`].
    pub lines: [f64; 8],
    /// What was spoilt.
    pub costs: Vec<(toll::Severity, toll::Cost)>,
    /// Refrigerant let out, kg.
    pub vented: f64,
    /// Parts renewed.
    pub parts: usize,
    /// Look-alikes that nothing that was read rules out.
    pub open: Vec<Option<&'static Fault>>,
}

/// How sure somebody is who has not said it.
const UNSAID: f64 = 0.5;
/// What is left of the line of safety by the worst that was done: nothing, slight, serious, grave. Grave costs more than the line gives, so
/// that who is right and reckless fails (own figures).
const SAFE: [f64; 4] = [1.0, 0.8, 0.3, -2.0];
/// What each act costs that was undone and could not have been on a real vehicle (own figure).
const UNDONE: f64 = 0.2;
/// Time that costs nothing and time at which nothing is left of the line, s (common practice: half an hour is paid for a diagnosis).
const TIME: (f64, f64) = (30.0 * 60.0, 60.0 * 60.0);

impl Mark {
    /// Returns all of it.
    pub fn total(&self) -> f64 {
        self.lines.iter().sum::<f64>().max(0.0)
    }

    /// Replays a take and marks it.
    ///
    /// # Errors
    /// [`TakeError`] where it cannot be replayed or ends elsewhere.
    pub fn of(take: &Take) -> Result<Self, TakeError> {
        let bay = take.resume()?;
        let undone = take.sitting.lines.iter().flat_map(|line| &line.acts);
        let case = Case::of(&bay);
        Ok(Self::judged(
            &bay,
            undone.map(|(_, act)| *act),
            &case,
            |run| case.run(run),
        ))
    }

    /// Marks a bay with acts that were undone in it. `run` gives what each bay of [`Mark::runs`] shows.
    pub fn judged(
        bay: &Bay,
        undone: impl Iterator<Item = Action>,
        case: &Case,
        run: impl FnMut(Run) -> Trace,
    ) -> Self {
        let truth = fault_of(bay);
        let commit = bay.log().iter().rev().find_map(|(tick, act)| match act {
            Action::Learner(LearnerAct::Commit {
                fault,
                evidence,
                repair,
                ..
            }) => Some((*tick, *fault, *evidence, *repair)),
            _ => None,
        });
        // What a faulty vehicle does to itself while it is looked at is nobody's doing.
        let own =
            |cost: &toll::Cost| matches!(cost, toll::Cost::Liquid { .. } | toll::Cost::Wear(_));
        let costs: Vec<_> = toll(&Truth::of(bay))
            .into_iter()
            .filter(|(_, cost)| !own(cost))
            .collect();
        let mut mark = Self {
            truth,
            said: commit.map(|(_, fault, ..)| fault),
            said_at: commit.map(|(tick, ..)| tick as f64 / TICKS_PER_SECOND as f64),
            certainty: UNSAID,
            lines: [0.0; 8],
            costs,
            vented: bay.vented(),
            parts: renewed(bay),
            open: Vec::new(),
        };
        let rivals = rivals(case, truth, run);
        let alike = |said: Option<&'static Fault>| {
            let trace = rivals.iter().find(|(fault, _)| *fault == said);
            trace.is_some_and(|(_, trace)| told_apart(case.evidence(), trace, |_| true).is_none())
        };
        let twin =
            |said: Option<&Fault>| matches!((said, truth), (Some(a), Some(b)) if twins(a, b));
        if let Some((tick, said, evidence, repair)) = commit {
            let said = said.fault();
            let right = said == truth || twin(said) || alike(said) && names(said, truth);
            mark.certainty = certainty(bay, tick, said);
            let named: Vec<usize> = evidence.numbers().map(|n| n as usize - 1).collect();
            mark.give(Line::Found, f64::from(u8::from(right)));
            mark.give(Line::Cure, f64::from(u8::from(cures(repair, truth, said))));
            // Nobody can rule a twin out.
            let others: Vec<_> = rivals.iter().filter(|(fault, _)| !twin(*fault)).collect();
            let ruled_out = |by: &dyn Fn(usize) -> bool| {
                let out = others
                    .iter()
                    .filter(|(_, trace)| told_apart(case.evidence(), trace, by).is_some());
                out.count() as f64 / others.len().max(1) as f64
            };
            if right {
                mark.give(Line::Evidence, ruled_out(&|n| named.contains(&n)));
                mark.give(Line::Telling, ruled_out(&|_| true));
            }
            let c = mark.certainty;
            mark.give(
                Line::Certainty,
                if right {
                    1.0 - (1.0 - c) * (1.0 - c)
                } else {
                    -c * c
                },
            );
            mark.give(Line::Order, f64::from(u8::from(!meddled(bay, tick))));
            let (free, spent) = TIME;
            let late = (tick as f64 / TICKS_PER_SECOND as f64 - free) / (spent - free);
            mark.give(Line::Time, 1.0 - late.clamp(0.0, 1.0));
        }
        let undone = undone.filter(|act| spoils(*act)).count();
        let worst = mark.costs.iter().map(|(severity, _)| *severity).max();
        let [none, slight, serious, grave] = SAFE;
        let safe = match worst {
            None => none,
            Some(toll::Severity::Slight) => slight,
            Some(toll::Severity::Serious) => serious,
            Some(toll::Severity::Grave) => grave,
        };
        // Who did nothing did nothing wrong, and has shown nothing.
        if commit.is_some() {
            mark.give(Line::Safety, safe - UNDONE * undone as f64);
        }
        mark.open = rivals
            .iter()
            .filter(|(_, trace)| told_apart(case.evidence(), trace, |_| true).is_none())
            .map(|(fault, _)| *fault)
            .collect();
        mark
    }

    fn give(&mut self, line: Line, share: f64) {
        self.lines[line as usize] = line.most() * share;
    }
}

/// What was planted: of several, the one whose cure takes longest stands for them.
fn fault_of(bay: &Bay) -> Option<&'static Fault> {
    bay.scenario()
        .faults()
        .max_by(|a, b| a.hours.total_cmp(&b.hours))
}

impl Mark {
    /// The bays that a mark is held against: of the truth's look-alikes at each severity, and a sound one. Of a sound vehicle, those of every fault
    /// that shows in pressures and vent where it is severe.
    pub fn runs(bay: &Bay) -> Vec<Run> {
        runs(fault_of(bay)).collect()
    }
}

fn runs(truth: Option<&'static Fault>) -> Box<dyn Iterator<Item = Run>> {
    let Some(truth) = truth else {
        let showing = Case::suspects().filter(|fault| fault.shown_at.contains(&Severity::Severe));
        return Box::new(showing.map(|fault| Run::Faulty(fault, Severity::Severe)));
    };
    let suspected = |fault: &&'static Fault| Case::suspects().any(|s| s == *fault);
    let alike = truth.look_alikes().filter(suspected);
    let each = |fault| Case::severities(fault).map(move |s| Run::Faulty(fault, s));
    Box::new(alike.flat_map(each).chain([Run::Sound]))
}

/// What each rival shows: of its severities the one that is closest to what was read.
fn rivals(
    case: &Case,
    truth: Option<&'static Fault>,
    mut run: impl FnMut(Run) -> Trace,
) -> Vec<(Option<&'static Fault>, Trace)> {
    let mut all: Vec<(Option<&'static Fault>, Trace)> = Vec::new();
    for wanted in runs(truth) {
        let fault = match wanted {
            Run::Faulty(fault, _) => Some(fault),
            Run::Sound | Run::Scattered(_) => None,
        };
        let trace = run(wanted);
        match all.iter_mut().find(|(known, _)| *known == fault) {
            Some((_, closest)) if case.away(&trace) < case.away(closest) => *closest = trace,
            Some(_) => {}
            None => all.push((fault, trace)),
        }
    }
    all
}

/// Are both about the same: a look-alike of the truth, or one that the same cure puts right?
fn names(said: Option<&'static Fault>, truth: Option<&'static Fault>) -> bool {
    match (said, truth) {
        (Some(said), Some(truth)) => {
            said.cure == truth.cure || truth.look_alikes().any(|fault| fault == said)
        }
        _ => false,
    }
}

/// Does it put right what is wrong? Where nothing is, there is nothing to put right.
fn cures(repair: Cure, truth: Option<&'static Fault>, said: Option<&'static Fault>) -> bool {
    truth.map_or(said.is_none(), |fault| fault.cure == repair)
}

/// How sure somebody said to be of a fault, at last before a tick.
fn certainty(bay: &Bay, before: Tick, said: Option<&'static Fault>) -> f64 {
    let log = bay.log().iter().filter(|(tick, _)| *tick <= before);
    let said = log.rev().find_map(|(_, act)| match act {
        Action::Learner(LearnerAct::Suspect { fault, certainty }) if fault.fault() == said => {
            Some(certainty.si())
        }
        _ => None,
    });
    said.unwrap_or(UNSAID)
}

/// Was a part renewed or something let in or out before a tick?
fn meddled(bay: &Bay, before: Tick) -> bool {
    let log = bay.log().iter().filter(|(tick, _)| *tick < before);
    log.into_iter().any(|(_, act)| {
        matches!(
            act,
            Action::Bench(
                BenchAct::NewPart { .. }
                    | BenchAct::FitOrifice { .. }
                    | BenchAct::PourOil { .. }
                    | BenchAct::InjectOil { .. }
            )
        )
    })
}

/// Parts that were renewed.
fn renewed(bay: &Bay) -> usize {
    let parts = bay.log().iter().filter(|(_, act)| {
        matches!(
            act,
            Action::Bench(BenchAct::NewPart { .. } | BenchAct::FitOrifice { .. })
        )
    });
    parts.count()
}

/// Acts that cannot be undone on a real vehicle.
fn spoils(act: Action) -> bool {
    matches!(
        act,
        Action::Bench(BenchAct::OpenJoint { .. } | BenchAct::RemovePart { .. })
    )
}
