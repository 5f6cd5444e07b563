//! Where in a file a mistake stands.

use core::fmt;

use toml::de::{DeTable, DeValue};

use super::{ScenarioError, below};

/// A mistake in a TOML file: where it stands, in which field, and what is wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mistake {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1, in characters.
    pub column: usize,
    /// The field, as a path; nothing where it is the whole text.
    pub field: String,
    /// What is wrong, with the field.
    pub message: String,
}

impl fmt::Display for Mistake {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}: {}", self.line, self.column, self.message)
    }
}

impl Mistake {
    /// Finds where a field stands in a text: the deepest part of its path that is there.
    pub fn at(text: &str, field: &str, message: String) -> Self {
        let field = match named(&message) {
            Some(key) => below(field, key),
            None => field.to_owned(),
        };
        let before = &text[..offset(text, &field).unwrap_or(0)];
        let line = before.rsplit('\n').next().unwrap_or_default();
        Self {
            line: before.matches('\n').count() + 1,
            column: line.chars().count() + 1,
            field,
            message,
        }
    }

    /// Of a scenario's text.
    pub fn of(text: &str, error: &ScenarioError) -> Self {
        match error {
            // The text is no TOML; a vehicle's own text has its lines in another file.
            ScenarioError::Form {
                field,
                at: Some((line, column)),
                what,
            } if field.is_empty() => Self {
                line: *line,
                column: *column,
                field: String::new(),
                message: what.clone(),
            },
            _ => Self::at(text, error.field(), error.to_string()),
        }
    }
}

/// The key that a reader's message calls unknown.
fn named(message: &str) -> Option<&str> {
    let (_, rest) = message.split_once("unknown field `")?;
    rest.split('`').next()
}

/// Byte at which the deepest part of a path stands that is in the text.
fn offset(text: &str, field: &str) -> Option<usize> {
    let root = DeTable::parse(text).ok()?;
    let mut found = None;
    let mut table = Some(root.get_ref());
    let mut list = None;
    for part in field
        .split(['.', '[', ']', ' ', ':'])
        .filter(|p| !p.is_empty())
    {
        let (at, value) = if let Some(table) = table {
            let (key, value) = table.iter().find(|(key, _)| key.get_ref() == part)?;
            (key.span().start, value)
        } else {
            let items: &toml::de::DeArray<'_> = list?;
            let value = items.get(part.parse::<usize>().ok()?.checked_sub(1)?)?;
            (value.span().start, value)
        };
        found = Some(at);
        (table, list) = match value.get_ref() {
            DeValue::Table(t) => (Some(t), None),
            DeValue::Array(a) => (None, Some(a)),
            _ => (None, None),
        };
    }
    found
}
