//! What the learner states about the job, in the units of the page.

use lowside_fluids::Refrigerant;
use lowside_lessons::statement::{self, Statement, Verdict};
use lowside_session::Bay;
use lowside_units::{
    Mass, Quantity, Volume,
    display::{self, Shown, UnitSystem},
};

use serde::{Deserialize, Serialize};

use crate::{bench::Part, tools::Spot};

pub use lowside_lessons::hold::Outcome;
pub use lowside_lessons::statement::Mismatch;

/// Lines of the statement that are numbers, in the order of [`Said::numbers`].
pub const NUMBERS: usize = 4;

/// What was put into the form; what is left as it comes is not stated. In text JSON, so that a draft outlives a visit.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Said {
    /// Refrigerant recovered and charged, oil out and in, as typed.
    pub numbers: [String; NUMBERS],
    /// New parts.
    pub parts: Vec<Part>,
    /// There are none.
    pub no_parts: bool,
    /// Where leaks were found.
    pub leaks: Vec<Spot>,
    /// None was found.
    pub no_leaks: bool,
    /// How the hold came out.
    pub hold: Option<Outcome>,
    /// Which gas is in the loop now.
    pub gas: Option<Refrigerant>,
    /// A conversion meets its conditions; looked at where there is one.
    #[serde(with = "answer")]
    pub in_order: Option<bool>,
    /// Nothing went into the room.
    #[serde(with = "answer")]
    pub nothing_vented: Option<bool>,
    /// Both caps are on.
    #[serde(with = "answer")]
    pub caps_on: Option<bool>,
}

/// An answer in text: `false` is none, as in drafts from when there was only a box to tick.
mod answer {
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};
    use serde_json::Value;

    const NO: &str = "no";

    #[expect(
        clippy::ref_option,
        clippy::trivially_copy_pass_by_ref,
        reason = "serde asks for it"
    )]
    pub(super) fn serialize<S: Serializer>(said: &Option<bool>, s: S) -> Result<S::Ok, S::Error> {
        match said {
            Some(false) => NO.serialize(s),
            other => other.is_some().serialize(s),
        }
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(d: D) -> Result<Option<bool>, D::Error> {
        match Value::deserialize(d)? {
            Value::Bool(said) => Ok(said.then_some(true)),
            Value::String(said) if said == NO => Ok(Some(false)),
            _ => Err(D::Error::unknown_variant("", &[NO])),
        }
    }
}

/// Most refrigerant that a line can state: more than cylinders of a job hold.
const MOST_MASS: Mass = Mass::from_kg(50.0);
/// Most oil.
const MOST_OIL: Volume = Volume::from_cm3(5000.0);

/// A number of the form that cannot be: it is none, or below nothing or above `most`.
#[derive(Debug, Clone, PartialEq)]
pub struct Impossible {
    /// Which, by its place in [`Said::numbers`].
    pub number: usize,
    /// The most that can be stated there.
    pub most: Shown,
}

/// Longest number that is read, bytes.
pub const LONGEST_NUMBER: usize = 16;

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

    /// A number of the form in SI; none where nothing is typed.
    fn number(&self, i: usize, system: UnitSystem) -> Option<Result<f64, Impossible>> {
        let typed = self.numbers[i].trim();
        if typed.is_empty() {
            return None;
        }
        let text = format!("{} {}", typed.replace(',', "."), units(system)[i]);
        let mass = i < NUMBERS / 2;
        let (most, shown) = if mass {
            (MOST_MASS.si(), display::mass(MOST_MASS, system))
        } else {
            (MOST_OIL.si(), display::volume(MOST_OIL, system))
        };
        let read = if mass {
            Mass::parse(&text).map(Quantity::si)
        } else {
            Volume::parse(&text).map(Quantity::si)
        };
        let possible = read
            .ok()
            .filter(|si| typed.len() <= LONGEST_NUMBER && (0.0..=most).contains(si));
        Some(possible.ok_or(Impossible {
            number: i,
            most: shown,
        }))
    }

    /// Numbers that cannot be.
    pub fn impossible(&self, system: UnitSystem) -> Vec<Impossible> {
        let all = (0..NUMBERS).filter_map(|i| self.number(i, system)?.err());
        all.collect()
    }

    /// In SI.
    ///
    /// # Errors
    /// The first number that cannot be.
    pub fn statement(&self, system: UnitSystem) -> Result<Statement, Impossible> {
        let number = |i| self.number(i, system).transpose();
        Ok(Statement {
            recovered: number(0)?,
            charged: number(1)?,
            oil_out: number(2)?,
            oil_in: number(3)?,
            parts: (self.no_parts || !self.parts.is_empty()).then(|| self.parts.clone()),
            hold: self.hold,
            gas: self.gas,
            leaks: (self.no_leaks || !self.leaks.is_empty()).then(|| self.leaks.clone()),
            nothing_vented: self.nothing_vented,
            caps_on: self.caps_on,
            conversion_in_order: self.in_order,
        })
    }
}

/// A statement that was signed.
#[derive(Debug, Clone, PartialEq)]
pub struct Signed {
    /// What was stated, as typed.
    pub said: Said,
    /// What of it is not so or left out.
    pub verdict: Verdict,
}

/// Signs what was put into the form: it is held against what the bay recorded.
///
/// # Errors
/// A number of the form that cannot be: nothing is signed.
pub fn sign(bay: &Bay, said: Said, units: UnitSystem) -> Result<Signed, Impossible> {
    let verdict = statement::sign(bay, said.statement(units)?);
    Ok(Signed { said, verdict })
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
            no_parts: true,
            leaks: Spot::all().collect(),
            no_leaks: true,
            hold: Some(Outcome::NotDone),
            gas: Some(Refrigerant::R1234yf),
            in_order: Some(true),
            nothing_vented: Some(false),
            caps_on: None,
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
            "{\"caps_on\":\"perhaps\"}",
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
            let stated = said.statement(system).expect("numbers");
            let got = stated.recovered.expect("stated");
            assert!((got - kg).abs() < 1e-3, "{got}");
            assert!(stated.oil_out.is_some_and(|v| v > 1e-6), "{stated:?}");
            assert_eq!(stated.charged, None);
        }
        let mut said = Said {
            nothing_vented: Some(true),
            ..Said::default()
        };
        said.numbers[1] = "500".into();
        said.parts.push(Part::Compressor);
        said.hold = Some(Outcome::Held);
        said.gas = Some(Refrigerant::R12);
        // Nothing was converted, so that this is not asked.
        said.in_order = Some(true);
        let signed = sign(&bay("healthy"), said, UnitSystem::SI).expect("possible");
        let wrong = [
            Mismatch::Charged,
            Mismatch::Parts,
            Mismatch::Hold,
            Mismatch::Gas,
        ];
        assert_eq!(signed.verdict.wrong, wrong);
    }

    #[test]
    fn what_is_left_empty_accuses_nobody_and_counts_for_nothing() {
        // The couplers are on, and so the caps off: a truth that an empty form must not be held against.
        let bay = bay("healthy");
        let empty = sign(&bay, Said::default(), UnitSystem::US).expect("possible");
        assert_eq!(empty.verdict.wrong, []);
        let unsaid = [
            Mismatch::Gas,
            Mismatch::Recovered,
            Mismatch::Charged,
            Mismatch::OilOut,
            Mismatch::OilIn,
            Mismatch::Parts,
            Mismatch::Hold,
            Mismatch::Vented,
            Mismatch::Caps,
        ];
        assert_eq!(empty.verdict.unsaid, unsaid);
        // Said outright, each is held against the truth.
        let said = |caps_on| Said {
            caps_on: Some(caps_on),
            no_parts: true,
            ..Said::default()
        };
        for (caps_on, wrong) in [(true, vec![Mismatch::Caps]), (false, Vec::new())] {
            let signed = sign(&bay, said(caps_on), UnitSystem::US).expect("possible");
            assert_eq!(signed.verdict.wrong, wrong);
            assert!(
                !signed.verdict.unsaid.contains(&Mismatch::Caps)
                    && !signed.verdict.unsaid.contains(&Mismatch::Parts)
            );
        }
        // A draft of an earlier version: boxes that were not ticked.
        let old = "{\"numbers\":[\"\",\"\",\"\",\"\"],\"parts\":[],\"leaks\":[],\"hold\":null,\"gas\":null,\
                   \"in_order\":false,\"nothing_vented\":false,\"caps_on\":true}";
        let old = Said::parse(old).expect("an old draft");
        assert_eq!((old.nothing_vented, old.caps_on), (None, Some(true)));
    }

    #[test]
    fn a_number_that_cannot_be_is_named_with_the_most_there_is() {
        let bay = bay("healthy");
        let long = "1".repeat(17);
        for typed in ["much", "-1", "1e9", "nan", "inf", "1 2", &long, "5000 kg"] {
            for number in 0..NUMBERS {
                let mut said = Said::default();
                said.numbers[number] = typed.into();
                let [wrong] = &said.impossible(UnitSystem::SI)[..] else {
                    panic!("{typed} in line {number} is impossible");
                };
                let most = ["50000", "5000"][usize::from(number >= 2)];
                assert_eq!((wrong.number, wrong.most.number.as_str()), (number, most));
                assert_eq!(sign(&bay, said, UnitSystem::SI), Err(wrong.clone()));
            }
        }
    }
}
