//! What a closed bay's file says of its faults, made unreadable to the eye in passing.
//!
//! A deterrent and nothing more: method and key stand here for everybody, and no mark may rest on it. Whoever wants to know what is planted
//! finds it; nobody sees it by opening the file.

/// The key. It is published.
const KEY: &[u8] = b"This is a lid and no lock.";

/// Returns a text scrambled: each byte against the key and its place, in hexadecimal.
pub fn scramble(text: &str) -> String {
    let digit = |n: u8| char::from_digit(u32::from(n), 16).unwrap_or('0');
    keyed(text.bytes())
        .flat_map(|byte| [digit(byte >> 4), digit(byte & 15)])
        .collect()
}

/// Returns the text that was scrambled; none if this is no such text.
pub fn unscramble(text: &str) -> Option<String> {
    let digits: Option<Vec<u32>> = text.chars().map(|c| c.to_digit(16)).collect();
    let (pairs, rest) = digits.as_ref()?.as_chunks::<2>();
    let bytes = pairs
        .iter()
        .map(|[high, low]| u8::try_from(high << 4 | low).unwrap_or_default());
    rest.is_empty()
        .then(|| String::from_utf8(keyed(bytes).collect()).ok())?
}

/// Combines each byte with the key and its place; done twice, it is as it was.
fn keyed(bytes: impl Iterator<Item = u8>) -> impl Iterator<Item = u8> {
    let places = (0..=u8::MAX).cycle();
    bytes
        .zip(KEY.iter().cycle())
        .zip(places)
        .map(|((byte, key), place)| byte ^ key ^ place)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_scrambled_comes_back_and_is_not_readable() {
        let long = "condition {\"orifice_open\":\"20 %\"} ".repeat(40);
        for text in ["", "a", "Año: 20 °C, \u{1f527}", &long] {
            let scrambled = scramble(text);
            assert_eq!(unscramble(&scrambled).as_deref(), Some(text));
            assert!(scrambled.bytes().all(|b| b.is_ascii_hexdigit()));
        }
        let scrambled = scramble(&long);
        assert!(
            !scrambled.contains(&scrambled[..16].repeat(2)),
            "no pattern"
        );
        assert_ne!(scrambled[..32], scrambled[32..64]);
    }

    #[test]
    fn what_is_no_scrambled_text_is_none() {
        for text in ["0", "0g", "é0", "zz", "ff", "54 "] {
            assert_eq!(unscramble(text), None, "{text}");
        }
    }
}
