//! Says a message: fills in variables and chooses forms. The encoding is described in `build/compile.rs`.
use core::{cell::RefCell, fmt::Display};
use std::{iter::Peekable, str::Chars};

use crate::{Language, current, language::texts, plural, pseudo};

/// A message: its place in the tables of other languages, and its English text.
#[derive(Debug)]
pub(crate) struct Message {
    pub(crate) index: usize,
    pub(crate) reference: &'static str,
}

impl Message {
    /// Its text in the language in use, as it is encoded.
    fn pattern(&self) -> &'static str {
        texts().map_or(self.reference, |texts| texts[self.index])
    }
}

/// A message without variables.
pub(crate) fn text(message: &Message) -> &'static str {
    thread_local! {
        /// Texts in made-up languages, made once each.
        static MADE: RefCell<Vec<((Language, usize), &'static str)>> = const { RefCell::new(Vec::new()) };
    }
    let language = current();
    if Language::OFFERED.contains(&language) {
        return message.pattern();
    }
    MADE.with_borrow_mut(|made| {
        let key = (language, message.index);
        let known = made.iter().find(|(k, _)| *k == key).map(|(_, text)| *text);
        known.unwrap_or_else(|| {
            let text: &'static str = Box::leak(say(message, &[]).into_boxed_str());
            made.push((key, text));
            text
        })
    })
}

/// A message with its variables, in the order of the English text.
pub(crate) fn say(message: &Message, variables: &[&dyn Display]) -> String {
    let language = current();
    let variables: Vec<String> = variables.iter().map(ToString::to_string).collect();
    pseudo::finish(language, fill(language, message.pattern(), &variables))
}

/// Fills an encoded pattern.
pub(crate) fn fill(language: Language, pattern: &str, variables: &[String]) -> String {
    let mut reader = Reader {
        language,
        variables,
        rest: pattern.chars().peekable(),
    };
    let mut out = String::with_capacity(pattern.len() + 16);
    reader.pattern(Some(&mut out));
    out
}

struct Reader<'a> {
    language: Language,
    variables: &'a [String],
    rest: Peekable<Chars<'a>>,
}

impl<'a> Reader<'a> {
    fn variable(&mut self) -> &'a str {
        let k = self.rest.next().and_then(|c| c.to_digit(10)).unwrap_or(0);
        self.variables.get(k as usize).map_or("", String::as_str)
    }

    /// Reads up to the end of a variant or of the message; into `out`, if it is wanted.
    fn pattern(&mut self, mut out: Option<&mut String>) {
        let mut plain = String::new();
        loop {
            let next = self.rest.peek().copied();
            if next.is_none_or(|c| c < '\u{6}') {
                if let Some(out) = &mut out {
                    pseudo::disguise(self.language, &plain, out);
                }
                plain.clear();
            }
            match next {
                None | Some('\u{3}' | '\u{5}') => return,
                Some('\u{1}') => {
                    self.rest.next();
                    let value = self.variable();
                    if let Some(out) = &mut out {
                        out.push_str(value);
                    }
                }
                Some('\u{2}') => {
                    self.rest.next();
                    self.choice(out.as_deref_mut());
                }
                Some(c) => {
                    self.rest.next();
                    plain.push(c);
                }
            }
        }
    }

    /// Reads a choice; the variant of that very value goes before the one of its plural form, and that before the default.
    fn choice(&mut self, out: Option<&mut String>) {
        let value = self.variable();
        let form = plural::category(self.language, value);
        let mut best: Option<(u8, String)> = None;
        while self.rest.next_if_eq(&'\u{3}').is_some() {
            let mut key = String::new();
            while let Some(c) = self.rest.next()
                && c != '\u{4}'
            {
                key.push(c);
            }
            let name = key.trim_start_matches('*');
            let rank = if name == value {
                3
            } else if name == form {
                2
            } else {
                u8::from(key.starts_with('*'))
            };
            if best.as_ref().map_or(0, |(r, _)| *r) < rank {
                let mut text = String::new();
                self.pattern(Some(&mut text));
                best = Some((rank, text));
            } else {
                self.pattern(None);
            }
        }
        self.rest.next_if_eq(&'\u{5}');
        if let (Some(out), Some((_, text))) = (out, best) {
            out.push_str(&text);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(language: Language, pattern: &str, variables: &[&str]) -> String {
        let variables: Vec<String> = variables.iter().map(ToString::to_string).collect();
        fill(language, pattern, &variables)
    }

    #[test]
    fn variables_and_choices() {
        let cans = "\u{1}0 \u{2}0\u{3}one\u{4}can\u{3}*other\u{4}cans of \u{1}1\u{5} left";
        assert_eq!(said(Language::English, cans, &["1", "gas"]), "1 can left");
        assert_eq!(
            said(Language::English, cans, &["3", "gas"]),
            "3 cans of gas left"
        );
        assert_eq!(said(Language::Spanish, cans, &["1.0", "x"]), "1.0 can left");
        let exact = "\u{2}0\u{3}0\u{4}none\u{3}*other\u{4}some\u{5}";
        assert_eq!(said(Language::English, exact, &["0"]), "none");
        assert_eq!(said(Language::English, exact, &["7"]), "some");
        let nested = "\u{2}0\u{3}in\u{4}a\u{2}1\u{3}*other\u{4}b\u{5}c\u{3}*out\u{4}d\u{5}e";
        assert_eq!(said(Language::English, nested, &["in", "1"]), "abce");
        assert_eq!(said(Language::English, nested, &["?", "1"]), "de");
    }

    #[test]
    fn made_up_languages() {
        assert_eq!(
            said(Language::Doubled, "Can \u{1}0", &["2"]),
            "Can Can 2",
            "what is filled in stays as it is"
        );
        assert!(said(Language::Long, "Open the tap", &[]).chars().count() >= 15);
        assert!(pseudo::finish(Language::Mirrored, "ab".into()).contains('\u{202e}'));
    }
}
