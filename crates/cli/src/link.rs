//! `lowside link`: a take as a link, and a link as a take.

use crate::{failure::Failure, files, text::one_line};
use flate2::{Compression, read::DeflateDecoder, write::DeflateEncoder};
use lowside_lessons::{
    Job,
    link::{self, LinkError},
};
use lowside_session::{Take, take::LARGEST};
use std::{
    io::{Read, Write},
    path::{Path, PathBuf},
};

/// Make a link of a take, or a take of a link: the page and this command read the same ones.
///
/// A link holds all of a take behind the # of an address, which no server sees. It has at most 1500 characters; a take with more in it goes
/// as its file.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// A take's file; or a link, whole or from its # on, in quotation marks.
    what: String,
    /// Where the page stands: written before the #.
    #[arg(long, value_name = "ADDRESS", default_value = "")]
    page: String,
    /// Write it here.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
}

/// Turns one into the other and writes it.
///
/// # Errors
/// [`Failure::Asked`] naming the file or what is wrong with the link; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let made = if let Some((_, fragment)) = args.what.split_once('#') {
        let take = open(fragment).map_err(|e| Failure::Asked(format!("the link: {e}")))?;
        take.to_text()
    } else {
        of_file(Path::new(&args.what), &args.page)?
    };
    match &args.output {
        Some(path) => files::write(path, &(made + "\n")),
        None => Ok(writeln!(out, "{made}")?),
    }
}

/// The link of the take in a file.
fn of_file(path: &Path, page: &str) -> Result<String, Failure> {
    let wrong = |why: String| Failure::Asked(format!("{}: {why}", path.display()));
    let text = files::read(path, LARGEST, "a take")?;
    let take = Take::parse(&text).map_err(|e| wrong(e.to_string()))?;
    let fragment = of(&take).map_err(|length| {
        let most = link::LONGEST;
        wrong(format!(
            "its link would have {length} characters, and {most} is the most; hand on the file"
        ))
    })?;
    Ok(format!("{page}#{fragment}"))
}

/// Returns what stands behind the `#` of a take's link.
///
/// # Errors
/// Its length in characters, where that is too much for a link.
pub(crate) fn of(take: &Take) -> Result<String, usize> {
    let mut packed = DeflateEncoder::new(Vec::new(), Compression::best());
    // Writing into memory does not fail.
    drop(packed.write_all(link::text(take, &Job::scenario_of).as_bytes()));
    link::fragment("", &packed.finish().unwrap_or_default())
}

/// Opens what stands behind the `#` of a link.
///
/// # Errors
/// [`LinkError`], saying what is wrong.
pub(crate) fn open(fragment: &str) -> Result<Take, LinkError> {
    let packed = link::packed(fragment)?;
    let packed = packed.ok_or_else(|| LinkError::unknown(&one_line(fragment)))?;
    let mut text = Vec::new();
    let most = link::LARGEST as u64 + 1;
    let read = DeflateDecoder::new(&packed[..])
        .take(most)
        .read_to_end(&mut text);
    if text.len() > link::LARGEST {
        return Err(LinkError::TooLarge);
    }
    let whole = read.ok().and_then(|_| String::from_utf8(text).ok());
    link::take(&whole.ok_or(LinkError::Damaged)?, &Job::scenario_of)
}
