//! The theme: as the system wants it, or as the person chose. The sheet has the colours (`static/lowside.css`); what is drawn takes them
//! from `present`.
use std::cell::Cell;

use lowside_present::palette::{DARK, LIGHT, Theme};
use lowside_words as say;

use crate::{host, store};

/// What a person chose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Choice {
    /// Whatever the system wants.
    System,
    /// Light.
    Light,
    /// Dark.
    Dark,
}

impl Choice {
    /// All, as they are listed.
    pub(crate) const ALL: [Self; 3] = [Self::System, Self::Light, Self::Dark];

    /// Its id in the list and in the store; `static/language.js` reads it there before anything is painted.
    pub(crate) fn id(self) -> &'static str {
        match self {
            Self::System => "system",
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }

    /// The choice of that id.
    pub(crate) fn of(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|c| c.id() == id)
    }

    /// As it is listed.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::System => say::theme_system(),
            Self::Light => say::theme_light(),
            Self::Dark => say::theme_dark(),
        }
    }

    /// As it was chosen last.
    fn kept() -> Self {
        store::get(store::THEME)
            .and_then(|id| Self::of(&id))
            .unwrap_or(Self::System)
    }

    /// Takes it for the page, and keeps it.
    pub(crate) fn choose(self) {
        let _ = store::set(store::THEME, self.id());
        CHOSEN.set(self);
        apply();
    }
}

thread_local! {
    static CHOSEN: Cell<Choice> = Cell::new(Choice::kept());
}

/// What the person chose.
pub(crate) fn chosen() -> Choice {
    CHOSEN.get()
}

/// Is the page dark? A projector always gets a light one.
pub(crate) fn dark() -> bool {
    match chosen() {
        _ if host::projector() => false,
        Choice::System => host::prefers_dark(),
        Choice::Light => false,
        Choice::Dark => true,
    }
}

/// The colours of what is drawn.
pub(crate) fn current() -> &'static Theme {
    if dark() { &DARK } else { &LIGHT }
}

/// Tells the sheet.
pub(crate) fn apply() {
    let Some(root) = host::document().document_element() else {
        return;
    };
    // Paper is white: the sheet turns a dark drawing over for it.
    drop(root.toggle_attribute_with_force("data-dark", dark()));
    let theme = if host::projector() {
        Choice::Light
    } else {
        chosen()
    };
    drop(root.set_attribute("data-theme", theme.id()));
}
