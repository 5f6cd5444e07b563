//! `lowside run`: plays a scenario and says where the bay ended.

use crate::{
    beside::{self, Beside},
    clock::Clock,
    closed,
    failure::Failure,
    files, open, report, time,
    trace::Trace,
};
use lowside_lessons::{PerformanceTest, Shown};
use lowside_session::{Bay, Sight, Sitting, Take, script::Player, summary::Window};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Play a scenario: a shipped one by name, or a file (scenarios/README.md has the format).
///
/// Prints a short table, or one JSON object with --json. Means and cycles are over the last 120 s.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// Name of a shipped scenario (see `lowside scenarios`) or path of a TOML file.
    scenario: PathBuf,
    /// How long to run, e.g. 15min; the scenario's own `until` when left out.
    #[arg(long, value_name = "TIME")]
    until: Option<String>,
    /// Print one JSON object instead of the table.
    #[arg(long)]
    json: bool,
    /// Write a table of the run here, comma-separated.
    #[arg(long, value_name = "FILE.csv")]
    trace: Option<PathBuf>,
    /// Time from one row of the trace to the next, 20ms to 24h, in whole ticks of 20 ms.
    #[arg(long, value_name = "TIME", default_value = "1s", requires = "trace")]
    every: String,
    /// Set a field of the scenario, e.g. day.ambient=38degC or vehicle.orifice.bore=1.5mm. May be repeated.
    #[arg(long, value_name = "PATH=VALUE")]
    set: Vec<String>,
    /// Run the same bay with changes beside this one and print both and the difference, e.g. condition.condenser_air=40%. Changes
    /// that go together are parted by commas; without=2 leaves out the second act. May be repeated, for a bay each.
    #[arg(long, value_name = "CHANGES")]
    beside: Vec<String>,
    /// How much of the bay is told: open, all of it; hands or exam, what instruments, eyes, ears, nose and hands tell there. A trace then
    /// has the instruments alone, and what tells more is refused.
    #[arg(long, value_name = "SIGHT", default_value = "open", value_parser = closed::sight)]
    sight: Sight,
    /// Write the take (scenario, acts, length, hash) here, for `lowside replay`.
    #[arg(long, value_name = "FILE.json")]
    take: Option<PathBuf>,
    /// Write the state at the end here, beside the take: `lowside replay --checkpoint` names what differs from it.
    #[arg(long, value_name = "FILE.json", requires = "take")]
    checkpoint: Option<PathBuf>,
}

/// Plays the scenario and prints the summary.
///
/// # Errors
/// [`Failure::Asked`] naming file, field and what is allowed, or the act that was refused; [`Failure::Halted`] when the engine could
/// not go on, trace and take being written up to there; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let tells = [
        ("--beside", !args.beside.is_empty()),
        ("--checkpoint", args.checkpoint.is_some()),
    ];
    closed::refuse(args.sight, &tells)?;
    let every = time::ticks_of("--every", &args.every)?;
    let mut overrides = args.set.clone();
    overrides.extend(args.until.iter().map(|t| format!("until={t}")));
    let scenario = open::scenario(&args.scenario, &overrides)?;
    keep_apart(args)?;
    for path in args.take.iter().chain(&args.checkpoint) {
        files::probe(path)?;
    }
    let mut trace = match &args.trace {
        Some(path) => Some(Trace::create(path, every, args.sight)?),
        None => None,
    };

    let mut bay = Bay::new(&scenario);
    let mut twins = args
        .beside
        .iter()
        .map(|text| Beside::open(&bay, text, beside::ActsOf::Script(&scenario.act)))
        .collect::<Result<Vec<_>, _>>()?;
    let clock = Clock::start();
    let end = time::ticks(scenario.until);
    let mut player = Player::new(&scenario.act);
    let mut test = PerformanceTest::default();
    let mut window = Window::default();
    let mut halted = None;
    if let Some(trace) = &mut trace {
        trace.look(&bay)?;
    }
    let mut play = |bay: &mut Bay| {
        player.play(bay).map_err(|(index, why)| {
            Failure::Asked(format!(
                "{}: act {} at {:.2} s: {why}",
                args.scenario.display(),
                index + 1,
                bay.seconds()
            ))
        })
    };
    if bay.tick() < end {
        play(&mut bay)?;
    }
    while bay.tick() < end {
        if let Err(why) = bay.step_observed(&mut |bay| test.look(bay)) {
            halted = Some(why);
            break;
        }
        if let Some(trace) = &mut trace {
            trace.look(&bay)?;
        }
        // What is sampled stands after the acts of its tick, as in a replay.
        if bay.tick() < end {
            play(&mut bay)?;
        }
        window.take(&bay);
        for twin in &mut twins {
            twin.follow(&bay);
        }
    }
    let speed = clock.real_time_factor(&bay);

    if let Some(trace) = trace {
        trace.finish()?;
    }
    if let Some(path) = &args.take {
        let sitting = Sitting {
            sight: args.sight,
            ..Sitting::default()
        };
        files::write(path, &Take::in_sitting(&bay, sitting).to_text())?;
    }
    if let Some(path) = &args.checkpoint {
        let text = bay.save();
        let text = text.map_err(|e| Failure::Asked(format!("{}: {e}", path.display())))?;
        files::write(path, &text)?;
    }
    if let Some(why) = halted {
        return Err(Failure::halted(&bay, &why));
    }
    if args.sight.closed() {
        let about = (bay.scenario().name.as_str(), bay.seconds());
        return closed::print(about, &Shown::of(&bay), args.json, out);
    }
    report::print(&bay, &window, &twins, speed, args.json, out)
}

/// No file that is written may be one that is read or also written.
fn keep_apart(args: &Args) -> Result<(), Failure> {
    let clash =
        |a: &str, path: &Option<PathBuf>, b: &str, other: &Option<PathBuf>| match (path, other) {
            (Some(p), Some(o)) if files::same(p, o) => Err(Failure::Asked(format!(
                "{a} {}: is also the file of {b}; name another",
                Path::display(p)
            ))),
            _ => Ok(()),
        };
    let read = Some(args.scenario.clone());
    clash("--trace", &args.trace, "the scenario", &read)?;
    clash("--take", &args.take, "the scenario", &read)?;
    clash("--take", &args.take, "--trace", &args.trace)?;
    clash("--checkpoint", &args.checkpoint, "the scenario", &read)?;
    clash("--checkpoint", &args.checkpoint, "--trace", &args.trace)?;
    clash("--checkpoint", &args.checkpoint, "--take", &args.take)
}
