//! The number at the front of a quantity's text.

/// Splits `36oz` into the number and the rest. The number is the longest prefix of the form
/// sign, digits, point, digits, exponent; the typographic minus is understood.
pub(crate) fn split_number(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let (negative, body) = match text.strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    };
    let bytes = body.as_bytes();
    let digits_from = |from: usize| {
        bytes[from..]
            .iter()
            .take_while(|b| b.is_ascii_digit())
            .count()
    };
    let mut end = digits_from(0);
    let mut digits = end;
    if bytes.get(end) == Some(&b'.') {
        let fraction = digits_from(end + 1);
        digits += fraction;
        end += 1 + fraction;
    }
    if digits == 0 {
        return None;
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let from = end + 1 + sign;
        let exponent = if from <= bytes.len() {
            digits_from(from)
        } else {
            0
        };
        if exponent > 0 {
            end = from + exponent;
        }
    }
    let number: f64 = body[..end].parse().ok()?;
    let rest = body[end..].trim();
    number
        .is_finite()
        .then_some((if negative { -number } else { number }, rest))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_split_from_units() {
        for (text, number, unit) in [
            ("36 oz", 36.0, "oz"),
            ("36oz", 36.0, "oz"),
            (" -1.5e3Pa ", -1500.0, "Pa"),
            ("\u{2212}5 degC", -5.0, "degC"),
            (".5 kg", 0.5, "kg"),
            ("5.", 5.0, ""),
            ("1e5", 1e5, ""),
            ("3 e", 3.0, "e"),
            ("3e", 3.0, "e"),
            ("3e+", 3.0, "e+"),
        ] {
            assert_eq!(split_number(text), Some((number, unit)), "{text}");
        }
        for text in [
            "", " ", "oz", "-", "+", ".", "--3", "e5", "nan kg", "inf kg", "1e999 kg", "\u{2212}",
        ] {
            assert_eq!(split_number(text), None, "{text:?}");
        }
    }
}
