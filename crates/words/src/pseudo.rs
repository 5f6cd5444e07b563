//! Languages made up for tests, from the English text.
use crate::Language;

/// A stretch of text in a made-up language; real ones are left as they are.
pub(crate) fn disguise(language: Language, text: &str, out: &mut String) {
    match language {
        Language::Doubled => {
            let said = text.trim_end();
            out.push_str(said);
            if said.bytes().any(|c| c.is_ascii_alphabetic()) {
                out.push(' ');
                out.push_str(said.trim_start());
            }
            out.push_str(&text[said.len()..]);
        }
        Language::Long => {
            for c in text.chars() {
                match c {
                    'a' => out.push_str("\u{e5}\u{e1}"),
                    'e' => out.push_str("\u{e9}\u{ea}"),
                    'i' => out.push('\u{ef}'),
                    'o' => out.push_str("\u{f4}\u{f6}"),
                    'u' => out.push_str("\u{fb}\u{fc}"),
                    c => out.push(c),
                }
            }
        }
        _ => out.push_str(text),
    }
}

/// The whole message: a mirrored one is kept from right to left, whatever stands around it.
pub(crate) fn finish(language: Language, text: String) -> String {
    match language {
        Language::Mirrored => format!("\u{2067}\u{202e}{text}\u{202c}\u{2069}"),
        _ => text,
    }
}
