//! Limits of what comes from outside, told in the unit people use.

use std::fmt::Display;

use lowside_units::{Quantity, UnitError, in_range};

/// Passes `value` if it lies in `lo..=hi`; the message speaks in `unit`.
///
/// # Errors
/// [`UnitError::OutOfRange`] with `field`, the value and the limits, also for NaN.
pub(crate) fn within<Q: Quantity>(
    unit: &str,
    field: &str,
    value: Q,
    lo: Q,
    hi: Q,
) -> Result<Q, UnitError> {
    if in_range(field, value, lo, hi).is_ok() {
        return Ok(value);
    }
    let unit = Q::UNITS
        .iter()
        .find(|u| u.names.contains(&unit))
        .unwrap_or(&Q::UNITS[0]);
    // three decimals: enough for a person, and hides the last bit of a conversion
    let say = |q: Q| {
        let number = (unit.of_si(q.si()) * 1e3).round() / 1e3;
        format!("{number} {}", unit.names[0])
    };
    Err(UnitError::OutOfRange {
        field: field.into(),
        value: say(value),
        lo: say(lo),
        hi: say(hi),
    })
}

/// A number of bytes as people say it: `8.4 MB`.
pub fn size(bytes: usize) -> String {
    let (unit, name) = if bytes < 1_000_000 {
        (1e3, "kB")
    } else {
        (1e6, "MB")
    };
    let number = bytes as f64 / unit;
    let digits = usize::from(number < 99.5);
    format!("{number:.digits$} {name}")
}

/// Names in back quotes, with commas.
pub(crate) fn quoted(names: impl Iterator<Item = impl Display>) -> String {
    names
        .map(|n| format!("`{n}`"))
        .collect::<Vec<_>>()
        .join(", ")
}

#[cfg(test)]
mod tests {
    use super::size;

    #[test]
    fn bytes_are_told_in_kilobytes_and_megabytes() {
        for (bytes, told) in [
            (1_500, "1.5 kB"),
            (256 * 1024, "262 kB"),
            (8 * 1024 * 1024, "8.4 MB"),
            (100_000_000, "100 MB"),
        ] {
            assert_eq!(size(bytes), told);
        }
    }
}
