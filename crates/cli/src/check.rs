//! `lowside check`: says where in a card, a scenario or a script a mistake stands.

use crate::{failure::Failure, files, open};
use lowside_lessons::{JobCard, schema};
use lowside_session::{
    Scenario,
    scenario::{self, LARGEST, Mistake},
};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Check files: job cards, scenarios and scripts (scenarios/README.md and scenarios/lessons/README.md have the formats).
///
/// A mistake is told as FILE:LINE:COLUMN: FIELD: what is wrong, and the exit code is then 2.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// TOML files.
    #[arg(value_name = "FILE.toml", required_unless_present = "schema")]
    files: Vec<PathBuf>,
    /// Print the JSON Schema of a card, by which an editor checks one while it is written.
    #[arg(long, conflicts_with = "files")]
    schema: bool,
}

/// Does what was asked.
///
/// # Errors
/// [`Failure::Asked`] where a file cannot be read or has a mistake; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    if args.schema {
        let text = serde_json::to_string_pretty(&schema::card()).map_err(std::io::Error::from)?;
        writeln!(out, "{text}")?;
        return Ok(());
    }
    let mut wrong = 0;
    for file in &args.files {
        let text = files::read(file, LARGEST, "a card, a scenario or a script")?;
        let folder = file.parent().unwrap_or(Path::new(""));
        let name = file.display();
        match look(&text, folder) {
            Ok(what) => writeln!(out, "{name}: {what}, no mistake")?,
            Err(mistake) => {
                wrong += 1;
                writeln!(out, "{name}:{mistake}")?;
            }
        }
    }
    match wrong {
        0 => Ok(()),
        _ => Err(Failure::Asked(format!(
            "{wrong} of {} files have a mistake",
            args.files.len()
        ))),
    }
}

/// What a text is, by its keys, if nothing is wrong with it.
fn look(text: &str, folder: &Path) -> Result<&'static str, Mistake> {
    let table = scenario::table(text, "").map_err(|e| Mistake::of(text, &e))?;
    if ["kind", "scenario", "step"]
        .iter()
        .any(|k| table.contains_key(*k))
    {
        return JobCard::mistake(text).map_or(Ok("a job card"), Err);
    }
    let (what, read) = if table.keys().eq(["act"]) {
        ("a script", scenario::script(text).map(drop))
    } else {
        let read = Scenario::parse_with(text, &[], |name| open::vehicle(name, folder).ok()?);
        ("a scenario", read.map(drop))
    };
    read.map(|()| what).map_err(|e| Mistake::of(text, &e))
}
