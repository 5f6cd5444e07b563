//! Where in a file a mistake stands.

use core::fmt;

use toml::{
    Spanned,
    de::{DeTable, DeValue},
};

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
        // Of a count, a field says in brackets what was counted.
        let field = field.split(" (").next().unwrap_or(field);
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
    let root = Spanned::new(root.span(), DeValue::Table(root.into_inner()));
    let (mut place, mut found) = (&root, None);
    for part in field
        .split(['.', '[', ']', ' ', ':'])
        .filter(|p| !p.is_empty())
    {
        let Some((at, value)) = inside(place.get_ref(), part) else {
            break;
        };
        (place, found) = (value, Some(at));
    }
    found
}

/// What stands in a table under a key, or in a list at a number from 1, and the byte at which it does.
fn inside<'v, 't>(value: &'v DeValue<'t>, part: &str) -> Option<(usize, &'v Spanned<DeValue<'t>>)> {
    match value {
        DeValue::Table(table) => {
            let (key, value) = table.iter().find(|(key, _)| key.get_ref() == part)?;
            Some((key.span().start, value))
        }
        DeValue::Array(list) => {
            let value = list.get(part.parse::<usize>().ok()?.checked_sub(1)?)?;
            Some((value.span().start, value))
        }
        _ => None,
    }
}
