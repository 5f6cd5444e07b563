//! How a command fails: one line on stderr and an exit code.

use lowside_session::{Bay, Halt};
use std::io;
use std::process::ExitCode;

/// Why a command gave no answer.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// What was asked is not possible; the text names the file or field and what is allowed. Exit code 2.
    #[error("{0}")]
    Asked(String),
    /// The engine could not go on; the text says when, where and why. Exit code 1.
    #[error("{0}")]
    Halted(String),
    /// The answer could not be written. Exit code 1.
    #[error("cannot write the answer: {0}")]
    Output(#[from] io::Error),
}

impl Failure {
    /// The bay stands still for good.
    pub(crate) fn halted(bay: &Bay, why: &Halt) -> Self {
        Self::Halted(format!("the bay halted at {:.2} s: {why}", bay.seconds()))
    }

    /// Did the reader of the answer close its end?
    pub(crate) fn is_closed_pipe(&self) -> bool {
        matches!(self, Self::Output(e) if e.kind() == io::ErrorKind::BrokenPipe)
    }

    /// The exit code, in the manner of command-line tools: 2 for a wrong request, 1 for trouble on the way.
    pub(crate) fn code(&self) -> ExitCode {
        match self {
            Self::Asked(_) => ExitCode::from(2),
            Self::Halted(_) | Self::Output(_) => ExitCode::from(1),
        }
    }
}

impl From<&clap::Error> for Failure {
    /// The first paragraph of clap's message on one line.
    fn from(error: &clap::Error) -> Self {
        if error.kind() == clap::error::ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand {
            return Self::Asked("a subcommand is needed; see lowside --help".into());
        }
        let text = error.to_string();
        let first = text.split("\n\n").next().unwrap_or_default();
        let words: Vec<&str> = first.split_whitespace().collect();
        let line = words.join(" ");
        Self::Asked(format!(
            "{}; see lowside --help",
            line.trim_start_matches("error: ")
        ))
    }
}
