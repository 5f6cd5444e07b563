//! How one unit is shown: decimals and symbol.

/// A unit as shown, with its constant number of decimals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Style {
    decimals: u8,
    unit: &'static str,
}

/// A shown value: number and unit apart. How it is read aloud is a matter of language, and so not known here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// The number, e.g. "\u{2212}3.5"; an em dash if there is none.
    pub number: String,
    /// The unit symbol, e.g. "psig".
    pub unit: &'static str,
}

impl core::fmt::Display for Shown {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{} {}", self.number, self.unit)
    }
}

/// More decimals than this carry no information in an `f64` shown to a person.
const MOST_DECIMALS: u8 = 12;

impl Style {
    /// A style: decimals and symbol.
    #[must_use]
    pub const fn new(decimals: u8, unit: &'static str) -> Self {
        Self { decimals, unit }
    }

    /// The same unit with other decimals (an instrument's resolution); at most 12 are kept.
    #[must_use]
    pub const fn with_decimals(self, decimals: u8) -> Self {
        Self {
            decimals: if decimals > MOST_DECIMALS {
                MOST_DECIMALS
            } else {
                decimals
            },
            ..self
        }
    }

    /// Its decimals.
    #[must_use]
    pub const fn decimals(self) -> u8 {
        self.decimals
    }

    /// The unit symbol.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        self.unit
    }

    /// Shows a number that is already in this unit.
    #[must_use]
    pub fn show(self, number: f64) -> Shown {
        if !number.is_finite() {
            return Shown {
                number: "\u{2014}".into(),
                unit: self.unit,
            };
        }
        let size = format!("{:.*}", usize::from(self.decimals), number.abs());
        let zero = size.bytes().all(|b| b == b'0' || b == b'.');
        let sign = if number < 0.0 && !zero {
            "\u{2212}"
        } else {
            ""
        };
        Shown {
            number: format!("{sign}{size}"),
            unit: self.unit,
        }
    }

    /// Would `number` be shown as zero?
    #[must_use]
    pub(crate) fn shows_zero(self, number: f64) -> bool {
        self.show(number)
            .number
            .bytes()
            .all(|b| b == b'0' || b == b'.')
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const CELSIUS: Style = Style::new(1, "\u{b0}C");

    #[test]
    fn minus_zero_and_nothing() {
        assert_eq!(CELSIUS.show(-0.04).number, "0.0");
        assert_eq!(CELSIUS.show(-3.45).number, "\u{2212}3.5");
        assert_eq!(CELSIUS.show(-3.5).to_string(), "\u{2212}3.5 \u{b0}C");
        assert_eq!(CELSIUS.show(f64::NAN).number, "\u{2014}");
        assert_eq!(CELSIUS.with_decimals(0).show(21.4).number, "21");
        assert!(CELSIUS.with_decimals(255).show(1.0 / 3.0).number.len() < 20);
    }
}
