//! Why a report could not be made. A miss is no error.

use lowside_session::{Halt, Refused, scenario::ScenarioError};
use thiserror::Error;

/// Why a report could not be made.
#[derive(Debug, Error)]
pub enum Error {
    /// A scenario of a check cannot be read.
    #[error("scenario with {overrides:?}: {why}")]
    Scenario {
        /// The overrides that were set.
        overrides: Vec<String>,
        /// What is wrong with them.
        why: Box<ScenarioError>,
    },
    /// A check asks for a scenario that is not shipped.
    #[error("there is no shipped scenario \"{0}\"")]
    NoScenario(String),
    /// The bay refused an act of a check.
    #[error("the bay refused {act}: {why}")]
    Refused {
        /// The act.
        act: String,
        /// The bay's reason.
        why: Box<Refused>,
    },
    /// The engine could not go on.
    #[error("the bay halted: {0}")]
    Halted(#[from] Halt),
    /// A reference table does not read as one.
    #[error("reference table {table}, line {line}: {why}")]
    Table {
        /// Its name.
        table: &'static str,
        /// Line of the file.
        line: usize,
        /// What is wrong.
        why: String,
    },
    /// A picture could not be drawn.
    #[error("drawing {0}")]
    Drawing(String),
    /// A file could not be written.
    #[error("{path}: {why}")]
    File {
        /// The file.
        path: String,
        /// The system's reason.
        why: std::io::Error,
    },
    /// A check stopped half way, which is a fault of the program.
    #[error("the check \"{0}\" did not come to its end")]
    Stopped(&'static str),
}
