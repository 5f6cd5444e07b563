//! What the learner states about the job, in the units of the page.

use lowside_fluids::Gas;
use lowside_session::Bay;
use lowside_shop::record::{Prices, Statement, converted_to, mismatches};
use lowside_units::{
    Mass, Quantity, Volume,
    display::{self, UnitSystem},
};

use serde::{Deserialize, Serialize};

use crate::{bench::Part, tools::Spot};

pub use lowside_shop::{hold::Outcome, record::Mismatch};

/// Lines of the statement that are numbers, in the order of [`Said::numbers`].
pub const NUMBERS: usize = 4;

/// What was put into the form. In text JSON, so that a draft outlives a visit.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Said {
    /// Refrigerant recovered and charged, oil out and in, as typed; empty is not stated.
    pub numbers: [String; NUMBERS],
    /// New parts.
    pub parts: Vec<Part>,
    /// Where leaks were found.
    pub leaks: Vec<Spot>,
    /// How the hold came out.
    pub hold: Option<Outcome>,
    /// Which gas is in the loop now.
    pub gas: Option<Gas>,
    /// A conversion meets its conditions; looked at where there is one.
    pub in_order: bool,
    /// Nothing went into the room.
    pub nothing_vented: bool,
    /// Both caps are on.
    pub caps_on: bool,
}

/// The units that the numbers are asked in.
pub fn units(units: UnitSystem) -> [&'static str; NUMBERS] {
    let mass = display::mass(Mass::from_kg(0.0), units).unit;
    let oil = display::volume(Volume::from_si(0.0), units).unit;
    [mass, mass, oil, oil]
}

/// Longest text of a draft that is read, bytes; one with every box ticked takes less than a tenth.
const LONGEST: usize = 16_384;

impl Said {
    /// As text.
    pub fn to_text(&self) -> String {
        serde_json::to_string(self).unwrap_or_default()
    }

    /// Reads what [`Self::to_text`] wrote; none if it is longer than a statement can be, or none.
    pub fn parse(text: &str) -> Option<Self> {
        (text.len() <= LONGEST)
            .then(|| serde_json::from_str(text).ok())
            .flatten()
    }

    /// In SI; what is no number is kept as one that matches nothing.
    pub fn statement(&self, system: UnitSystem) -> Statement {
        let units = units(system);
        let read = |i: usize, parse: fn(&str) -> Option<f64>| {
            let typed = self.numbers[i].trim().replace(',', ".");
            (!typed.is_empty()).then(|| parse(&format!("{typed} {}", units[i])).unwrap_or(f64::NAN))
        };
        let mass = |i| read(i, |t| Mass::parse(t).ok().map(Quantity::si));
        let oil = |i| read(i, |t| Volume::parse(t).ok().map(Quantity::si));
        Statement {
            recovered: mass(0),
            charged: mass(1),
            oil_out: oil(2),
            oil_in: oil(3),
            parts: Some(self.parts.clone()),
            hold: self.hold,
            gas: self.gas,
            leaks: Some(self.leaks.clone()),
            nothing_vented: Some(self.nothing_vented),
            caps_on: Some(self.caps_on),
            ..Statement::default()
        }
    }
}

/// A statement that was signed, and what of it is not so.
#[derive(Debug, Clone, PartialEq)]
pub struct Signed {
    /// What was stated.
    pub said: Said,
    /// Lines that do not match.
    pub wrong: Vec<Mismatch>,
}

/// Holds what is stated against what the bay recorded.
pub fn sign(bay: &Bay, said: Said, units: UnitSystem) -> Signed {
    let record = bay.record(&Prices::default());
    let stated = Statement {
        conversion_in_order: converted_to(&record).map(|_| said.in_order),
        ..said.statement(units)
    };
    Signed {
        wrong: mismatches(&record, &stated),
        said,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;

    #[test]
    fn a_draft_comes_back_from_its_text_and_nothing_else_does() {
        let said = Said {
            numbers: ["12".into(), "4,2 \"".into(), String::new(), "x".into()],
            parts: Part::ALL.to_vec(),
            leaks: Spot::all().collect(),
            hold: Some(Outcome::NotDone),
            gas: Some(Gas::R1234yf),
            in_order: true,
            nothing_vented: false,
            caps_on: true,
        };
        for draft in [said, Said::default()] {
            let text = draft.to_text();
            assert!(text.len() < LONGEST / 10, "{} bytes", text.len());
            assert_eq!(Said::parse(&text), Some(draft));
        }
        let long = format!(
            "{{\"numbers\":[\"{}\",\"\",\"\",\"\"]}}",
            "1".repeat(LONGEST)
        );
        for text in [
            "",
            "[1]",
            "{\"numbers\":[\"1\"]}",
            "{\"hold\":\"perhaps\"}",
            "{\"more\":1}",
            &long,
        ] {
            assert_eq!(Said::parse(text), None, "{text:.40}");
        }
    }

    #[test]
    fn what_is_typed_is_read_in_the_units_of_the_page() {
        for (system, typed, kg) in [
            (UnitSystem::SI, "120", 0.120),
            (UnitSystem::US, "4,2", 0.119),
        ] {
            let mut said = Said::default();
            said.numbers[0] = typed.into();
            said.numbers[2] = "2".into();
            let stated = said.statement(system);
            let got = stated.recovered.expect("stated");
            assert!((got - kg).abs() < 1e-3, "{got}");
            assert!(stated.oil_out.is_some_and(|v| v > 1e-6), "{stated:?}");
            assert_eq!(stated.charged, None);
        }
        let mut said = Said {
            nothing_vented: true,
            ..Said::default()
        };
        said.numbers[1] = "much".into();
        said.parts.push(Part::Compressor);
        said.hold = Some(Outcome::Held);
        said.gas = Some(Gas::R12);
        // Nothing was converted, so that this is not asked.
        said.in_order = true;
        let signed = sign(&bay("healthy"), said, UnitSystem::SI);
        let wrong = [
            Mismatch::Charged,
            Mismatch::Parts,
            Mismatch::Hold,
            Mismatch::Gas,
        ];
        assert_eq!(signed.wrong, wrong);
    }
}
