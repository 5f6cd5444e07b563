//! The languages, and the one in use.
use core::cell::Cell;

/// A language of the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Language {
    /// English (United States).
    #[default]
    English,
    /// Spanish (Latin America and United States).
    Spanish,
    /// For tests: every text twice.
    Doubled,
    /// For tests: half as long again, with accents, so that what is not translated and what does not fit can be seen.
    Long,
    /// For tests: read from right to left.
    Mirrored,
}

impl Language {
    /// The languages offered to people.
    pub const OFFERED: [Self; 2] = [Self::English, Self::Spanish];

    /// Its tag after BCP 47, for the page's `lang`; those for tests carry private ones.
    pub const fn tag(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::Spanish => "es",
            Self::Doubled => "en-x-doubled",
            Self::Long => "en-x-long",
            Self::Mirrored => "en-x-mirrored",
        }
    }

    /// What it calls itself; those for tests are English.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Spanish => "Español",
            _ => "English",
        }
    }

    /// Direction of writing, for the page's `dir`.
    pub const fn direction(self) -> &'static str {
        match self {
            Self::Mirrored => "rtl",
            _ => "ltr",
        }
    }

    /// The language a tag asks for: `es-MX` is Spanish. None if there is none like it.
    pub fn from_tag(tag: &str) -> Option<Self> {
        let all = [
            Self::Doubled,
            Self::Long,
            Self::Mirrored,
            Self::English,
            Self::Spanish,
        ];
        let tag = tag.to_ascii_lowercase();
        all.into_iter().find(|l| {
            tag.strip_prefix(l.tag())
                .is_some_and(|rest| rest.is_empty() || rest.starts_with('-'))
        })
    }
}

/// Every message of one language, in the order of the messages.
pub type Texts = [&'static str];

thread_local! {
    static CURRENT: Cell<(Language, Option<&'static Texts>)> = const { Cell::new((Language::English, None)) };
}

/// The language in use.
pub fn current() -> Language {
    CURRENT.get().0
}

/// Its messages; none if it is English, or made of it.
pub(crate) fn texts() -> Option<&'static Texts> {
    CURRENT.get().1
}

/// Uses another language from now on. Its messages are handed over, as [`crate::ES`], so that a host can fetch them; English needs none, nor do
/// the made-up languages.
pub fn set(language: Language, texts: Option<&'static Texts>) {
    CURRENT.set((language, texts));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags() {
        assert_eq!(Language::from_tag("es-MX"), Some(Language::Spanish));
        assert_eq!(Language::from_tag("es-419"), Some(Language::Spanish));
        assert_eq!(Language::from_tag("EN-gb"), Some(Language::English));
        assert_eq!(Language::from_tag("en-x-long"), Some(Language::Long));
        assert_eq!(Language::from_tag("est"), None, "Estonian is not Spanish");
        assert_eq!(Language::from_tag(""), None);
    }
}
