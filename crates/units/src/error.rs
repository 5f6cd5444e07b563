//! What can be wrong with a quantity that comes from outside.

use crate::Quantity;

/// How much of a refused text is repeated in the message, characters.
const SHOWN_CHARS: usize = 40;

/// A text or number that is not an acceptable quantity.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum UnitError {
    /// The text does not begin with a finite number.
    #[error("\"{text}\" is not a {quantity}: it needs a number and a unit, one of {allowed}")]
    NotANumber {
        /// The refused text, shortened.
        text: String,
        /// What was expected, e.g. "mass".
        quantity: &'static str,
        /// Units that would be understood.
        allowed: String,
    },
    /// A number without a unit where a unit is needed.
    #[error("\"{text}\" has no unit: a {quantity} needs one of {allowed}")]
    NoUnit {
        /// The refused text, shortened.
        text: String,
        /// What was expected.
        quantity: &'static str,
        /// Units that would be understood.
        allowed: String,
    },
    /// A unit that does not belong to the quantity.
    #[error("\"{text}\": \"{unit}\" is not a unit of {quantity}, use one of {allowed}")]
    UnknownUnit {
        /// The refused text, shortened.
        text: String,
        /// The unit found in it.
        unit: String,
        /// What was expected.
        quantity: &'static str,
        /// Units that would be understood.
        allowed: String,
    },
    /// Below what can exist (0 K, zero absolute pressure).
    #[error("\"{text}\" is below {lowest}, the least {quantity} there is")]
    BelowLeast {
        /// The refused text, shortened.
        text: String,
        /// What was expected.
        quantity: &'static str,
        /// The least value, with its unit.
        lowest: String,
    },
    /// A character in a text that cannot be shown as it stands there.
    #[error(
        "{field}: the character {found} is not allowed; letters, digits, signs and spaces are, control characters and marks of the \
         direction of writing are not"
    )]
    Character {
        /// Which field was read.
        field: String,
        /// The character by its number, as in `U+202E`.
        found: String,
    },
    /// Outside the limits of a field.
    #[error("{field}: {value} is outside {lo} to {hi}")]
    OutOfRange {
        /// Which field was read.
        field: String,
        /// The value found, with its unit.
        value: String,
        /// Least value allowed, with its unit.
        lo: String,
        /// Greatest value allowed, with its unit.
        hi: String,
    },
}

impl UnitError {
    /// The field it is about; nothing where it knows of none.
    pub fn field(&self) -> &str {
        match self {
            Self::OutOfRange { field, .. } | Self::Character { field, .. } => field,
            Self::NotANumber { .. }
            | Self::NoUnit { .. }
            | Self::UnknownUnit { .. }
            | Self::BelowLeast { .. } => "",
        }
    }

    /// The same error with the place its field is in.
    #[must_use]
    pub fn inside(mut self, place: &str) -> Self {
        if let Self::OutOfRange { field, .. } | Self::Character { field, .. } = &mut self {
            *field = format!("{place}.{field}");
        }
        self
    }
}

/// The text as an error repeats it: without line ends, at most [`SHOWN_CHARS`] characters.
pub(crate) fn shortened(text: &str) -> String {
    let text = text.trim();
    let mut out: String = text
        .chars()
        .take(SHOWN_CHARS)
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    if text.chars().nth(SHOWN_CHARS).is_some() {
        out.push_str("...");
    }
    out
}

/// Passes `value` if it lies in `lo..=hi`.
///
/// # Errors
/// [`UnitError::OutOfRange`] with `field`, the value and the limits; also for NaN.
pub fn in_range<Q: Quantity>(field: &str, value: Q, lo: Q, hi: Q) -> Result<Q, UnitError> {
    if value.si() >= lo.si() && value.si() <= hi.si() {
        return Ok(value);
    }
    Err(UnitError::OutOfRange {
        field: shortened(field),
        value: value.to_string(),
        lo: lo.to_string(),
        hi: hi.to_string(),
    })
}

/// A character that shows as itself: no control, no end of a line or paragraph, nothing that turns the direction of writing.
#[must_use]
pub fn shows(c: char) -> bool {
    !c.is_control()
        && !matches!(
            c,
            '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}'
        )
}

/// Passes a text whose characters all show as themselves.
///
/// # Errors
/// [`UnitError::Character`] with `field` and the first that does not.
pub fn plain_text(field: &str, text: &str) -> Result<(), UnitError> {
    match text.chars().find(|c| !shows(*c)) {
        None => Ok(()),
        Some(c) => Err(UnitError::Character {
            field: shortened(field),
            found: format!("U+{:04X}", u32::from(c)),
        }),
    }
}

/// Passes a number of things if it lies in `lo..=hi`.
///
/// # Errors
/// [`UnitError::OutOfRange`] with `field`, the number and the limits.
pub fn count_in_range(field: &str, value: usize, lo: usize, hi: usize) -> Result<(), UnitError> {
    if (lo..=hi).contains(&value) {
        return Ok(());
    }
    Err(UnitError::OutOfRange {
        field: shortened(field),
        value: value.to_string(),
        lo: lo.to_string(),
        hi: hi.to_string(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Mass;

    /// Unicode Standard Annex 9, table of the explicit directional formatting characters.
    #[test]
    fn a_text_that_would_not_show_as_written_is_refused_by_field_and_character() {
        assert_eq!(plain_text("name", "Furgón nº 7, 35 °C - 人"), Ok(()));
        for c in
            "\0\n\u{1b}\u{7f}\u{85}\u{61c}\u{200e}\u{200f}\u{2029}\u{202a}\u{202e}\u{2066}\u{2069}"
                .chars()
        {
            let said = plain_text("name", &format!("van{c}"))
                .unwrap_err()
                .to_string();
            let number = format!("U+{:04X}", u32::from(c));
            assert!(
                said.starts_with("name: ") && said.contains(&number),
                "{said}"
            );
            assert!(said.chars().all(shows), "{said}");
        }
    }

    #[test]
    fn a_count_names_field_number_and_limits() {
        assert!(count_in_range("leaks", 8, 0, 8).is_ok());
        let said = count_in_range("leaks", 9, 0, 8).unwrap_err().to_string();
        assert!(
            said.contains("leaks") && said.contains('9') && said.contains('8'),
            "{said}"
        );
    }

    #[test]
    fn a_range_error_names_field_value_and_limits() {
        let e = in_range(
            "charge",
            Mass::from_g(5000.0),
            Mass::from_g(100.0),
            Mass::from_g(2000.0),
        )
        .unwrap_err();
        assert_eq!(e.to_string(), "charge: 5 kg is outside 0.1 kg to 2 kg");
        assert!(
            in_range(
                "charge",
                Mass::from_kg(f64::NAN),
                Mass::from_kg(0.0),
                Mass::from_kg(1.0)
            )
            .is_err()
        );
        assert_eq!(
            in_range(
                "charge",
                Mass::from_kg(1.0),
                Mass::from_kg(0.0),
                Mass::from_kg(1.0)
            ),
            Ok(Mass::from_kg(1.0))
        );
    }

    #[test]
    fn a_refused_text_is_repeated_only_in_part() {
        let long = "x".repeat(100_000);
        let e = Mass::parse(&long).unwrap_err().to_string();
        assert!(e.len() < 200, "{e}");
        assert!(!Mass::parse("a\nb").unwrap_err().to_string().contains('\n'));
    }
}
