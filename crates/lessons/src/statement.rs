//! What a learner states about a job and signs, held against what the bay recorded.

use lowside_fluids::Refrigerant;
use lowside_session::Bay;
use lowside_shop::{
    conversion::{breaches, converted_to},
    detect::Spot,
    parts::Part,
    record::{Prices, Record},
};
use serde::{Deserialize, Serialize};

use crate::{hold::Outcome, shown::Shown};

/// What the learner writes down. SI units; what is left out is not checked.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Statement {
    /// Refrigerant recovered, kg.
    pub recovered: Option<f64>,
    /// Refrigerant charged, kg.
    pub charged: Option<f64>,
    /// Oil measured out, m3.
    pub oil_out: Option<f64>,
    /// Oil put in, m3.
    pub oil_in: Option<f64>,
    /// New parts, each once.
    pub parts: Option<Vec<Part>>,
    /// How the hold under vacuum came out.
    pub hold: Option<Outcome>,
    /// Where a leak was found.
    pub leaks: Option<Vec<Spot>>,
    /// Nothing was vented.
    pub nothing_vented: Option<bool>,
    /// Both caps are on.
    pub caps_on: Option<bool>,
    /// Gas that is in the loop now.
    pub gas: Option<Refrigerant>,
    /// A conversion meets its conditions ([`Breach`](lowside_shop::conversion::Breach)).
    pub conversion_in_order: Option<bool>,
}

/// A line of the statement that does not match.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mismatch {
    /// Mass recovered.
    Recovered,
    /// Mass charged.
    Charged,
    /// Oil out.
    OilOut,
    /// Oil in.
    OilIn,
    /// Parts.
    Parts,
    /// Hold under vacuum.
    Hold,
    /// Leaks found.
    Leaks,
    /// Vented.
    Vented,
    /// Caps.
    Caps,
    /// Gas.
    Gas,
    /// Conditions of a conversion.
    Conversion,
}

/// Masses may differ by this, kg: half an ounce, what a charging machine is allowed (SAE J2788; from memory).
const MASS: f64 = 0.015;
/// Volumes of oil may differ by this, m3: 5 mL, a line of the cup (own figure).
const OIL: f64 = 5e-6;
/// Less vented than this counts as none, kg: what couplers and purging cost (own figure).
const NONE: f64 = 5e-3;

/// Where a statement does not match what happened.
pub fn mismatches(record: &Record, stated: &Statement) -> Vec<Mismatch> {
    let off = |said: Option<f64>, truth: f64, by: f64| {
        said.is_some_and(|s| s.is_nan() || (s - truth).abs() > by)
    };
    let sorted = |parts: &[Part]| {
        let mut p = parts.to_vec();
        p.sort_unstable();
        p.dedup();
        p
    };
    let wrong_parts = |p: &Vec<Part>| sorted(p) != sorted(&record.parts);
    let found: Vec<Spot> = record
        .searched
        .iter()
        .filter(|(_, f)| f.found)
        .map(|(s, _)| *s)
        .collect();
    let wrong_leaks = |l: &Vec<Spot>| {
        l.iter().any(|s| !found.contains(s)) || found.iter().any(|s| !l.contains(s))
    };
    let lines = [
        (
            off(stated.recovered, record.recovered, MASS),
            Mismatch::Recovered,
        ),
        (off(stated.charged, record.charged, MASS), Mismatch::Charged),
        (off(stated.oil_out, record.oil_out, OIL), Mismatch::OilOut),
        (off(stated.oil_in, record.oil_in, OIL), Mismatch::OilIn),
        (
            stated.parts.as_ref().is_some_and(wrong_parts),
            Mismatch::Parts,
        ),
        (
            stated.hold.is_some_and(|h| !h.fits(record.hold.as_ref())),
            Mismatch::Hold,
        ),
        (
            stated.leaks.as_ref().is_some_and(wrong_leaks),
            Mismatch::Leaks,
        ),
        (
            stated
                .nothing_vented
                .is_some_and(|n| n != (record.vented < NONE)),
            Mismatch::Vented,
        ),
        (
            stated.caps_on.is_some_and(|c| c != record.caps_on),
            Mismatch::Caps,
        ),
        (stated.gas.is_some_and(|g| g != record.gas), Mismatch::Gas),
        (
            stated
                .conversion_in_order
                .is_some_and(|ok| ok != breaches(record).is_empty()),
            Mismatch::Conversion,
        ),
    ];
    lines
        .into_iter()
        .filter(|(wrong, _)| *wrong)
        .map(|(_, line)| line)
        .collect()
}

/// What of a signed statement is not so, and what it leaves out.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// Lines that do not match.
    pub wrong: Vec<Mismatch>,
    /// Lines that say nothing.
    pub unsaid: Vec<Mismatch>,
}

/// Holds what is stated against what the bay recorded. A conversion's line counts where there is one, leaks where they were searched for.
pub fn sign(bay: &Bay, mut stated: Statement) -> Verdict {
    let record = bay.record(&Prices::default());
    let converted = converted_to(&record).is_some();
    if !converted {
        stated.conversion_in_order = None;
    }
    Verdict {
        wrong: mismatches(&record, &stated),
        unsaid: unsaid(&stated, converted, !record.searched.is_empty()),
    }
}

/// What a statement leaves out, by what is shown. Whether what it says is so, nobody in the bay is told.
pub fn left_out(shown: &Shown<'_>, stated: &Statement) -> Vec<Mismatch> {
    let searched = shown.searched.iter().any(Option::is_some);
    unsaid(stated, shown.converted_to().is_some(), searched)
}

/// The lines that say nothing, of those that count.
fn unsaid(stated: &Statement, converted: bool, searched: bool) -> Vec<Mismatch> {
    let lines = [
        (stated.gas.is_none(), Mismatch::Gas),
        (stated.recovered.is_none(), Mismatch::Recovered),
        (stated.charged.is_none(), Mismatch::Charged),
        (stated.oil_out.is_none(), Mismatch::OilOut),
        (stated.oil_in.is_none(), Mismatch::OilIn),
        (stated.parts.is_none(), Mismatch::Parts),
        (searched && stated.leaks.is_none(), Mismatch::Leaks),
        (stated.hold.is_none(), Mismatch::Hold),
        (stated.nothing_vented.is_none(), Mismatch::Vented),
        (stated.caps_on.is_none(), Mismatch::Caps),
        (
            converted && stated.conversion_in_order.is_none(),
            Mismatch::Conversion,
        ),
    ];
    let unsaid = lines.into_iter().filter(|(unsaid, _)| *unsaid);
    unsaid.map(|(_, line)| line).collect()
}
