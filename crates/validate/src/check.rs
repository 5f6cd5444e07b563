//! What a check says: what is asked, by whom, what was found, and the verdict.

use crate::plot::Plot;

/// How a figure stands against what is asked of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// The figure is what is asked.
    Pass,
    /// It cannot be run, because the model lacks something that is named.
    NotYet,
    /// It stands beside a printed figure of another loop, or of one that does not tell enough: no verdict is right.
    Unjudged,
    /// It is not what is asked.
    Miss,
}

/// One figure against one demand.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// What was looked at.
    pub what: String,
    /// The figure found, with its unit.
    pub got: String,
    /// What it ought to be.
    pub asked: String,
    /// How it stands.
    pub verdict: Verdict,
    /// What was asked first, where that was wrong.
    pub restated: Option<Restated>,
}

/// What was asked of a figure before, and why it no longer is.
#[derive(Debug, Clone, PartialEq)]
pub struct Restated {
    /// What was asked first.
    pub first: String,
    /// What was wrong with that.
    pub why: String,
}

impl Finding {
    /// A figure that ought to lie in `lo..=hi`; shown with so many decimals. Not a number is a miss.
    pub fn within(
        what: impl Into<String>,
        got: f64,
        lo: f64,
        hi: f64,
        unit: &str,
        decimals: usize,
    ) -> Self {
        Self::holds(
            what,
            format!("{got:.decimals$} {unit}"),
            format!("{lo:.decimals$} to {hi:.decimals$} {unit}"),
            got >= lo && got <= hi,
        )
    }

    /// An error that ought to stay at or below `most`, shown in powers of ten.
    pub fn error(what: impl Into<String>, got: f64, most: f64, unit: &str) -> Self {
        Self::holds(
            what,
            format!("{got:.1e} {unit}"),
            format!("at most {most:.1e} {unit}"),
            got <= most,
        )
    }

    /// A statement that ought to hold, with the figures that show it.
    pub fn holds(
        what: impl Into<String>,
        got: impl Into<String>,
        asked: impl Into<String>,
        holds: bool,
    ) -> Self {
        Self {
            what: what.into(),
            got: got.into(),
            asked: asked.into(),
            verdict: if holds { Verdict::Pass } else { Verdict::Miss },
            restated: None,
        }
    }

    /// A figure beside a printed one that it cannot be held against, as it was at first, and why not.
    pub fn beside(
        what: impl Into<String>,
        got: impl Into<String>,
        printed: impl Into<String>,
        why: &str,
    ) -> Self {
        let printed = printed.into();
        Self {
            what: what.into(),
            got: got.into(),
            asked: format!("no verdict; printed: {printed}"),
            verdict: Verdict::Unjudged,
            restated: None,
        }
        .instead_of(printed, why)
    }

    /// The same, of which something else was asked first; says why that was wrong.
    #[must_use]
    pub fn instead_of(mut self, first: impl Into<String>, why: &str) -> Self {
        self.restated = Some(Restated {
            first: first.into(),
            why: why.into(),
        });
        self
    }

    /// What the model cannot show yet, and what it needs for that.
    pub fn not_yet(what: impl Into<String>, needs: &str) -> Self {
        Self {
            what: what.into(),
            got: "not yet".into(),
            asked: format!("needs {needs}"),
            verdict: Verdict::NotYet,
            restated: None,
        }
    }
}

/// A check with its figures and pictures.
#[derive(Debug, Clone, Default)]
pub struct Check {
    /// Its name.
    pub title: String,
    /// What is asked and how it was run.
    pub asked: String,
    /// Who says so.
    pub source: String,
    /// Which parameters were tuned so that this comes out; empty when none was.
    pub tuned: String,
    /// Why figures miss, as we believe; empty where none does.
    pub why: String,
    /// Figures with verdicts.
    pub findings: Vec<Finding>,
    /// Pictures, with their numbers.
    pub plots: Vec<Plot>,
}

impl Check {
    /// A check without figures yet.
    pub fn new(
        title: impl Into<String>,
        asked: impl Into<String>,
        source: impl Into<String>,
    ) -> Self {
        Self {
            title: title.into(),
            asked: asked.into(),
            source: source.into(),
            ..Self::default()
        }
    }

    /// Adds a figure.
    pub fn find(&mut self, finding: Finding) {
        self.findings.push(finding);
    }

    /// The whole: a miss if any figure misses, a pass if any figure passes and none misses, else not yet if any is, else without verdict.
    pub fn verdict(&self) -> Verdict {
        let has = |v| self.findings.iter().any(|f| f.verdict == v);
        if has(Verdict::Miss) {
            Verdict::Miss
        } else if has(Verdict::Pass) {
            Verdict::Pass
        } else if has(Verdict::NotYet) {
            Verdict::NotYet
        } else {
            Verdict::Unjudged
        }
    }
}

/// Checks of one kind.
#[derive(Debug, Clone)]
pub struct Section {
    /// Its heading.
    pub title: &'static str,
    /// The checks, in order.
    pub checks: Vec<Check>,
}

/// How many of each verdict.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Counts {
    /// Passes.
    pub pass: usize,
    /// Misses.
    pub miss: usize,
    /// Not yet.
    pub not_yet: usize,
    /// Without verdict.
    pub unjudged: usize,
}

impl Counts {
    /// Counts verdicts.
    pub fn of(verdicts: impl Iterator<Item = Verdict>) -> Self {
        let mut counts = Self::default();
        for v in verdicts {
            match v {
                Verdict::Pass => counts.pass += 1,
                Verdict::Miss => counts.miss += 1,
                Verdict::NotYet => counts.not_yet += 1,
                Verdict::Unjudged => counts.unjudged += 1,
            }
        }
        counts
    }

    /// Counts the figures of checks.
    pub fn of_findings<'a>(checks: impl Iterator<Item = &'a Check>) -> Self {
        Self::of(checks.flat_map(|c| c.findings.iter().map(|f| f.verdict)))
    }
}
