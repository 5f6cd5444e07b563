//! Foreign text inside a message: one line, no control characters, bounded.

use lowside_units::shows;

/// Longest word repeated whole, characters.
const WORD: usize = 100;
/// Longest message, characters.
const MESSAGE: usize = 600;

/// Foreign text quoted: 40 characters at most.
pub(crate) fn quoted(text: &str) -> String {
    let short: String = text.chars().take(40).collect();
    let dots = if short.len() < text.len() { "..." } else { "" };
    format!("{:?}", format!("{short}{dots}"))
}

/// A whole message on one line: white space runs become one space, what would not show as itself goes, long words and long
/// messages are cut.
pub(crate) fn one_line(text: &str) -> String {
    let words: Vec<String> = text.split_whitespace().map(word).collect();
    let line = words.join(" ");
    match line.char_indices().nth(MESSAGE) {
        Some((end, _)) => format!("{}...", &line[..end]),
        None => line,
    }
}

fn word(text: &str) -> String {
    let plain = text.chars().map(|c| if shows(c) { c } else { '\u{fffd}' });
    let mut word: String = plain.take(WORD).collect();
    if text.chars().nth(WORD).is_some() {
        word.push_str("...");
    }
    word
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_message_stays_on_one_line_and_bounded() {
        assert_eq!(one_line("a\n  b\tc"), "a b c");
        assert_eq!(one_line("a\u{1b}[2Jb"), "a\u{fffd}[2Jb");
        assert_eq!(one_line("a\u{202e}b"), "a\u{fffd}b");
        assert_eq!(one_line(&"z".repeat(5000)).chars().count(), WORD + 3);
        assert_eq!(one_line(&"z ".repeat(5000)).chars().count(), MESSAGE + 3);
        assert_eq!(
            quoted(&"z".repeat(50)),
            format!("\"{}...\"", "z".repeat(40))
        );
    }
}
