//! What the law asks of a conversion to another refrigerant, and what one still lacks.

use lowside_fluids::Refrigerant;
use serde::{Deserialize, Serialize};

use crate::{identifier::PURE, label::Line, record::Record};

/// A condition of a lawful conversion that is not met (US: 40 CFR 82 subpart G, appendix B lists R-134a on condition of fittings, label
/// and all R-12 taken out, appendix D has what is on the label and, from memory, the cut-out; local rules may ask more).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Breach {
    /// Old gas is left in the loop: more than the 2 % that an identifier takes for pure.
    OldGas,
    /// A port does not carry the new gas's own fitting.
    Fittings,
    /// There is no label with the new gas and its amount as charged.
    Label,
    /// A line of that label is empty or wrong.
    LabelLine(Line),
    /// There is a relief valve and no switch that stops the compressor before it opens.
    CutOut,
}

/// A label's charge may differ from what is in the loop by this, kg: two ounces (own figure).
pub const LABEL: f64 = 0.0567;

/// The gas that the vehicle is being converted to: that of its fittings or of its loop, where it was built for another.
pub fn converted_to(record: &Record) -> Option<Refrigerant> {
    let gases = record.fittings.into_iter().chain([record.gas]);
    gases.into_iter().find(|gas| *gas != record.built_for)
}

/// What a conversion still lacks; nothing where there is none.
pub fn breaches(record: &Record) -> Vec<Breach> {
    let Some(new) = converted_to(record) else {
        return Vec::new();
    };
    let label = record
        .new_label
        .filter(|l| l.gas == new && (l.charge - record.in_loop).abs() <= LABEL);
    let lines = label
        .iter()
        .flat_map(|l| l.lacks(record.oil_in))
        .map(Breach::LabelLine);
    let stops = record.cut_out.is_some_and(|p| p < record.relief);
    let all = [
        (
            record.gas != new || record.other_gas > 1.0 - PURE,
            Breach::OldGas,
        ),
        (record.fittings.iter().any(|f| *f != new), Breach::Fittings),
        (label.is_none(), Breach::Label),
        (!stops, Breach::CutOut),
    ];
    all.into_iter()
        .filter(|(lacks, _)| *lacks)
        .map(|(_, b)| b)
        .chain(lines)
        .collect()
}

/// What of that is for the label to say.
pub fn label_lacks(record: &Record) -> Vec<Breach> {
    let mut lacks = breaches(record);
    lacks.retain(|b| matches!(b, Breach::Label | Breach::LabelLine(_)));
    lacks
}
