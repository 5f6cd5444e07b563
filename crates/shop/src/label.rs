//! The label under the hood that a service leaves behind.
//!
//! A converted vehicle's names the technician and the shop with their address, the date, the refrigerant and its amount, kind, maker and
//! amount of the oil, and it covers what the vehicle says of the old refrigerant. R-134a is listed for conversions in 40 CFR 82 subpart
//! G, appendix B, on condition of such a label; what it holds stands in appendix D (61 FR 54030, 16 October 1996; the list by a workshop
//! manual's summary of it, the covering from memory). The engine has no calendar: the date is written by whoever signs.

use arrayvec::ArrayString;
use core::{fmt, str::FromStr};
use lowside_fluids::Refrigerant;
use lowside_units::{Quantity, Volume, shows};
use serde::{Deserialize, Serialize};
use thiserror::Error;

use crate::oil::OilKind;

/// A label. SI units.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Label {
    /// Charge, kg.
    pub charge: f64,
    /// Refrigerant.
    pub gas: Refrigerant,
    /// Oil, if it is named.
    pub oil: Option<OilKind>,
    /// What else a conversion's label says.
    pub particulars: Particulars,
    /// Bay time at which it was stuck on, s.
    pub at: f64,
}

/// What a conversion's label says beside refrigerant, amount and oil.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Particulars {
    /// Who did the work.
    pub technician: ArrayString<40>,
    /// For which shop, and where.
    pub shop: ArrayString<60>,
    /// When.
    pub date: Option<Date>,
    /// Who makes the oil.
    pub oil_maker: ArrayString<40>,
    /// How much of it was put in.
    pub oil_volume: Option<Volume>,
    /// What the vehicle says of the old refrigerant is covered.
    pub old_covered: bool,
}

/// A line that a conversion's label has to have.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Line {
    /// Who did the work.
    Technician,
    /// For which shop, and where.
    Shop,
    /// When.
    Date,
    /// Kind of oil.
    Oil,
    /// Who makes it.
    OilMaker,
    /// How much of it was put in.
    OilVolume,
    /// What the vehicle says of the old refrigerant is covered.
    OldCovered,
}

/// The oil on a label may differ from what was put in by this, m3: half a fluid ounce (own figure).
const OIL: f64 = 15e-6;

impl Particulars {
    /// Nothing is written.
    pub fn none(&self) -> bool {
        *self == Self::default()
    }
}

impl Label {
    /// The lines that are empty or wrong, if so much oil (m3) was put in.
    pub fn lacks(&self, oil_in: f64) -> impl Iterator<Item = Line> {
        let p = &self.particulars;
        let blank = |text: &str| text.trim().is_empty();
        let lines = [
            (blank(&p.technician), Line::Technician),
            (blank(&p.shop), Line::Shop),
            (p.date.is_none(), Line::Date),
            (self.oil.is_none(), Line::Oil),
            (blank(&p.oil_maker), Line::OilMaker),
            (
                p.oil_volume.is_none_or(|v| (v.si() - oil_in).abs() > OIL),
                Line::OilVolume,
            ),
            (!p.old_covered, Line::OldCovered),
        ];
        lines
            .into_iter()
            .filter_map(|(lacks, line)| lacks.then_some(line))
    }
}

/// As much of a text as a line of the label holds, of what shows as itself.
pub fn written<const N: usize>(text: &str) -> ArrayString<N> {
    let mut line = ArrayString::new();
    for c in text.chars().filter(|c| shows(*c)) {
        if line.try_push(c).is_err() {
            break;
        }
    }
    line
}

/// A day of the calendar. In text `2026-05-04`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "ArrayString<16>", into = "String")]
pub struct Date {
    year: u16,
    month: u8,
    day: u8,
}

/// What is written is no day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("a date is written as year-month-day, 1900-01-01 to 2999-12-31, as in 2026-05-04")]
pub struct NoDate;

impl FromStr for Date {
    type Err = NoDate;

    fn from_str(text: &str) -> Result<Self, NoDate> {
        let mut parts = text.trim().split('-');
        let mut next = |digits: usize| {
            let part = parts.next().filter(|p| p.len() == digits);
            part.filter(|p| p.bytes().all(|b| b.is_ascii_digit()))
                .and_then(|p| p.parse::<u16>().ok())
                .ok_or(NoDate)
        };
        let (year, month, day) = (next(4)?, next(2)?, next(2)?);
        let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
        let days = match month {
            2 => 28 + u16::from(leap),
            4 | 6 | 9 | 11 => 30,
            _ => 31,
        };
        let real = (1900..3000).contains(&year)
            && (1..=12).contains(&month)
            && (1..=days).contains(&day)
            && parts.next().is_none();
        match (u8::try_from(month), u8::try_from(day)) {
            (Ok(month), Ok(day)) if real => Ok(Self { year, month, day }),
            _ => Err(NoDate),
        }
    }
}

impl TryFrom<ArrayString<16>> for Date {
    type Error = NoDate;

    fn try_from(text: ArrayString<16>) -> Result<Self, NoDate> {
        text.parse()
    }
}

impl From<Date> for String {
    fn from(date: Date) -> Self {
        date.to_string()
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Leap days by the Gregorian rule: 2000 has one, 1900 and 2100 have none.
    #[test]
    fn only_days_of_the_calendar_are_dates() {
        for day in ["2026-05-04", "2000-02-29", "1999-12-31"] {
            assert_eq!(day.parse::<Date>().map(|d| d.to_string()), Ok(day.into()));
        }
        for wrong in [
            "",
            "soon",
            "2026-5-4",
            "2026-13-01",
            "2026-04-31",
            "1900-02-29",
            "2100-02-29",
            "2026-05-04-1",
            "+026-05-04",
        ] {
            assert_eq!(wrong.parse::<Date>(), Err(NoDate), "{wrong}");
        }
    }
}
