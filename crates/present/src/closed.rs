//! Views of a closed bay that are not those of an open one: the drawing, the notes, what was weighed, the toll, the job and the statement.
//!
//! Each is made of what is shown and of nothing else. Views that both bays share stand where they always stood ([`crate::dial`],
//! [`crate::readout`], [`crate::controls`], [`crate::tools`], [`crate::bench`], [`crate::record`], [`crate::history`], [`crate::retrofit`]).

use lowside_lessons::{
    Severity, Shown as Known, seen_toll,
    statement::{self, Mismatch},
};
use lowside_units::display::UnitSystem;

use crate::{
    statement::{Impossible, Said},
    toll::{Told, texts},
};

pub mod drawing;
pub mod notes;
pub mod parts;
pub mod weighed;

/// What the job has cost, as far as anybody in the bay has noticed, the worst first.
pub fn toll(shown: &Known<'_>, units: UnitSystem) -> Vec<(Severity, Told)> {
    texts(seen_toll(shown), units)
}

/// What a statement leaves out. Whether it is right is not told in a closed bay.
///
/// # Errors
/// A number of the form that cannot be.
pub fn left_out(
    shown: &Known<'_>,
    said: &Said,
    units: UnitSystem,
) -> Result<Vec<Mismatch>, Impossible> {
    Ok(statement::left_out(shown, &said.statement(units)?))
}
