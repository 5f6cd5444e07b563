//! Which plural form a number takes. Rules: Unicode CLDR, "Language Plural Rules", cardinals of `en` and `es`, without the
//! form `many` that Spanish takes from a million on, which nothing here reaches.
use crate::Language;

/// `one` or `other` for a number as it is written: signs and grouping do not matter, shown decimals do.
pub(crate) fn category(language: Language, number: &str) -> &'static str {
    let size: String = number
        .chars()
        .filter(|c| c.is_ascii_digit() || *c == '.')
        .collect();
    let one = match language {
        // One without visible decimals: "1 degree", "1.0 degrees".
        Language::English | Language::Doubled | Language::Long | Language::Mirrored => size == "1",
        // One, however written: "1.0 grado". Compared as text: the reader of numbers has a table of 10 kB.
        Language::Spanish => {
            let (whole, decimals) = size.split_once('.').unwrap_or((&size, ""));
            whole.trim_start_matches('0') == "1" && decimals.bytes().all(|d| d == b'0')
        }
    };
    if one { "one" } else { "other" }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Examples from the CLDR chart for the two languages.
    #[test]
    fn as_the_chart_says() {
        for (number, en, es) in [
            ("1", "one", "one"),
            ("0", "other", "other"),
            ("1.0", "other", "one"),
            ("1.00", "other", "one"),
            ("1.01", "other", "other"),
            ("1.5", "other", "other"),
            ("0.1", "other", "other"),
            ("10", "other", "other"),
            ("2", "other", "other"),
            ("\u{2212}1", "one", "one"),
            ("11", "other", "other"),
        ] {
            assert_eq!(category(Language::English, number), en, "{number}");
            assert_eq!(category(Language::Spanish, number), es, "{number}");
        }
    }
}
