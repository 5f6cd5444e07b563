//! What the learner states about the job, in the units of the page, and the record as a file.

use lowside_session::Bay;
use lowside_shop::record::{Prices, Record, Statement, mismatches};
use lowside_units::{
    Mass, Quantity, Volume,
    display::{self, UnitSystem},
};
use serde_json::{Map, Value, json};

use crate::{bench::Part, tools::Spot};

pub use lowside_shop::{hold::Outcome, record::Mismatch};

/// Lines of the statement that are numbers, in the order of [`Said::numbers`].
pub const NUMBERS: usize = 4;

/// What was put into the form.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Said {
    /// Refrigerant recovered and charged, oil out and in, as typed; empty is not stated.
    pub numbers: [String; NUMBERS],
    /// New parts.
    pub parts: Vec<Part>,
    /// Where leaks were found.
    pub leaks: Vec<Spot>,
    /// How the hold came out.
    pub hold: Option<Outcome>,
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

impl Said {
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
            leaks: Some(self.leaks.clone()),
            nothing_vented: Some(self.nothing_vented),
            caps_on: Some(self.caps_on),
        }
    }
}

/// A statement that was signed, and what of it is not so.
#[derive(Debug, Clone, PartialEq)]
pub struct Signed {
    /// What was stated.
    pub stated: Statement,
    /// Lines that do not match.
    pub wrong: Vec<Mismatch>,
}

/// Holds what is stated against what the bay recorded.
pub fn sign(bay: &Bay, said: &Said, units: UnitSystem) -> Signed {
    let stated = said.statement(units);
    Signed {
        wrong: mismatches(&bay.record(&Prices::default()), &stated),
        stated,
    }
}

/// The units of everything in the files.
const FILE_UNITS: &str = "SI: kg, m3, Pa, K, s, 1/min";

fn value(record: &Record, signed: Option<&Signed>) -> Value {
    let of = |v: Result<Value, serde_json::Error>| v.unwrap_or_default();
    json!({
        "units": FILE_UNITS,
        "record": of(serde_json::to_value(record)),
        "stated": signed.map(|s| of(serde_json::to_value(&s.stated))),
        "mismatches": signed.map(|s| of(serde_json::to_value(&s.wrong))),
    })
}

/// The record with what was stated, as JSON.
pub fn json(bay: &Bay, signed: Option<&Signed>) -> String {
    value(&bay.record(&Prices::default()), signed).to_string()
}

/// The same as CSV: each value in a line after its path.
pub fn csv(bay: &Bay, signed: Option<&Signed>) -> String {
    let mut text = String::from("line,value\n");
    rows(
        "",
        &value(&bay.record(&Prices::default()), signed),
        &mut text,
    );
    text
}

fn rows(path: &str, value: &Value, text: &mut String) {
    let mut deeper = |key: &str, inner: &Value| {
        let dot = if path.is_empty() { "" } else { "." };
        rows(&format!("{path}{dot}{key}"), inner, text);
    };
    match value {
        Value::Object(fields) => each(fields, deeper),
        Value::Array(all) => {
            for (i, inner) in all.iter().enumerate() {
                deeper(&(i + 1).to_string(), inner);
            }
        }
        Value::Null => {}
        // A JSON string is a CSV string but for its quotes; none of ours holds any.
        other => text.extend([path, ",", &other.to_string(), "\n"]),
    }
}

fn each(fields: &Map<String, Value>, mut deeper: impl FnMut(&str, &Value)) {
    for (key, inner) in fields {
        deeper(key, inner);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::readout::tests::bay;

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
        let signed = sign(&bay("healthy"), &said, UnitSystem::SI);
        let wrong = [Mismatch::Charged, Mismatch::Parts, Mismatch::Hold];
        assert_eq!(signed.wrong, wrong);
    }

    #[test]
    fn the_files_hold_record_and_statement() {
        let bay = bay("healthy");
        let signed = sign(&bay, &Said::default(), UnitSystem::SI);
        let read: Value = serde_json::from_str(&json(&bay, Some(&signed))).expect("JSON");
        let label = bay.plant().vehicle.label_charge.si();
        let written = read["record"]["label_charge"].as_f64().expect("a number");
        assert!((written - label).abs() < 1e-9, "{written}");
        assert!(read["mismatches"].is_array());
        let csv = csv(&bay, Some(&signed));
        assert!(csv.contains(&format!("record.label_charge,{label}\n")));
        assert!(csv.contains("stated.caps_on,false\n"), "{csv}");
        assert!(csv.lines().all(|l| l.contains(',')));
    }
}
