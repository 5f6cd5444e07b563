//! `lowside drill`: hands out unknown vehicles.

use crate::{failure::Failure, files, text::quoted};
use lowside_lessons::drill::{Deck, Drill};
use lowside_session::{Bay, Scenario, Sight, Sitting, Take, library};
use lowside_shop::fault::{self, Severity};
use std::io::Write;
use std::path::PathBuf;

/// Hand out an unknown vehicle: a take without acts, whose fault is scrambled in it, to be opened on the page.
///
/// The same seed gives the same vehicle. What is hidden is kept from the eye in passing and from nobody else.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// Which vehicle: any whole number.
    seed: u64,
    /// Of these faults only, parted by commas, as `lowside faults` has them in its files; `nothing` for a sound vehicle.
    #[arg(long, value_name = "FAULTS", value_delimiter = ',')]
    of: Vec<String>,
    /// The least that is wrong.
    #[arg(long, value_name = "SEVERITY", default_value = "moderate", value_parser = severity)]
    least: Severity,
    /// As an exam: no rewind, no hints.
    #[arg(long)]
    exam: bool,
    /// A code for who works on it, in place of a name.
    #[arg(long, value_name = "CODE")]
    learner: Option<String>,
    /// Write the take here.
    #[arg(short, long, value_name = "FILE.json")]
    output: Option<PathBuf>,
    /// Say what is wrong: for who hands it out.
    #[arg(long)]
    key: bool,
}

fn severity(text: &str) -> Result<Severity, String> {
    Severity::ALL
        .into_iter()
        .find(|s| s.name() == text)
        .ok_or_else(|| {
            let names = Severity::ALL.map(Severity::name).join(", ");
            format!("known are {names}")
        })
}

/// Draws one, writes it and says what it is.
///
/// # Errors
/// [`Failure::Asked`] naming a fault that is not known, or the file; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let mut deck = Deck {
        severities: [args.least, Severity::Extreme],
        ..Deck::default()
    };
    if !args.of.is_empty() {
        let faults = args.of.iter().filter(|id| *id != "nothing");
        deck.faults = faults.map(|id| known(id)).collect::<Result<_, _>>()?;
        let sound = args.of.len() - deck.faults.len();
        deck.nothing = sound as f64 / args.of.len() as f64;
    }
    if let Some(code) = args
        .learner
        .as_ref()
        .filter(|c| !lowside_session::take::is_code(c))
    {
        return Err(Failure::Asked(format!(
            "--learner: {} is not 1 to 40 letters without accents, digits, -, _ or .",
            quoted(code)
        )));
    }
    let kind = library::scenario("healthy").unwrap_or_default();
    let kind = Scenario::parse(kind, &[]).map_err(|e| Failure::Asked(format!("healthy: {e}")))?;
    let drill = Drill::drawn(args.seed, &deck, &kind);
    if args.key {
        let (fault, severity) = (drill.fault.map_or("nothing", |f| f.id), drill.severity);
        let much = severity.map_or(String::new(), |s| format!(", {}", s.name()));
        writeln!(out, "vehicle {}: {fault}{much}", args.seed)?;
    }
    if let Some(path) = &args.output {
        let sitting = Sitting {
            sight: if args.exam { Sight::Exam } else { Sight::Hands },
            learner: args.learner.clone(),
            seed: args.seed,
            ..Sitting::default()
        };
        let take = Take::in_sitting(&Bay::new(&drill.scenario), sitting);
        files::write(path, &take.to_text())?;
    }
    Ok(())
}

fn known(id: &str) -> Result<&'static fault::Fault, Failure> {
    fault::named(id).ok_or_else(|| {
        let all: Vec<&str> = fault::all().map(|f| f.id).collect();
        Failure::Asked(format!(
            "--of: fault {} is not known; known are: nothing, {}",
            quoted(id),
            all.join(", ")
        ))
    })
}
