//! `lowside replay`: plays a take again and checks that it ends where it says.

use crate::{
    beside::{ActsOf, Beside},
    clock::Clock,
    closed,
    failure::Failure,
    files, foreign, report,
};
use lowside_lessons::{PerformanceTest, Shown};
use lowside_session::{Bay, Sight, Take, TakeError, checkpoint, summary::Window, take::LARGEST};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Play a take again, check its hash and print the summary.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// A take as `lowside run --take` writes it.
    take: PathBuf,
    /// The state it ended in, as `lowside run --checkpoint` writes it: if the replay ends elsewhere, what differs is named.
    #[arg(long, value_name = "FILE.json")]
    checkpoint: Option<PathBuf>,
    /// Replay it with changes beside it and print both and the difference, as `lowside run --beside` does.
    #[arg(long, value_name = "CHANGES")]
    beside: Vec<String>,
    /// How much of the bay is told, as of `lowside run --sight`; left out, as much as was seen by who recorded the take.
    #[arg(long, value_name = "SIGHT", value_parser = closed::sight)]
    sight: Option<Sight>,
    /// Print one JSON object instead of the table.
    #[arg(long)]
    json: bool,
}

/// Replays the take and prints the summary.
///
/// # Errors
/// [`Failure::Asked`] naming file and field, or that the replay ended elsewhere; [`Failure::Halted`] when the bay
/// ends halted; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let wrong = |e: TakeError| Failure::Asked(format!("{}: {e}", args.take.display()));
    let text = files::read(&args.take, LARGEST, "a take")?;
    let take = Take::parse(&text).map_err(wrong)?;
    let sight = args.sight.unwrap_or(take.sitting.now());
    let tells = [
        ("--beside", !args.beside.is_empty()),
        ("--checkpoint", args.checkpoint.is_some()),
    ];
    closed::refuse(sight, &tells)?;
    let mut replay = take.replay();
    let mut test = PerformanceTest::default();
    let acts = take.log.iter().filter(|(_, act)| !act.is_entry()).count();
    let mut twins = args
        .beside
        .iter()
        .map(|text| Beside::open(replay.bay(), text, ActsOf::Log(acts)))
        .collect::<Result<Vec<_>, _>>()?;
    let clock = Clock::start();
    let mut window = Window::default();
    let mut seen = replay.bay().tick();
    loop {
        let done = replay
            .run_observed(1, &mut |bay| test.look(bay))
            .map_err(wrong)?;
        if replay.bay().tick() > seen {
            seen = replay.bay().tick();
            window.take(replay.bay());
        }
        for twin in &mut twins {
            twin.follow(replay.bay());
        }
        if done {
            break;
        }
    }
    let speed = clock.real_time_factor(replay.bay());
    foreign::tell(&args.take, &take, &replay);
    let bay = match &args.checkpoint {
        Some(path) => like(&take, replay.end().0, path)?,
        None => replay.finish().map_err(wrong)?,
    };
    if let Some(why) = bay.halt() {
        return Err(Failure::halted(&bay, &why));
    }
    if sight.closed() {
        let about = (bay.scenario().name.as_str(), bay.seconds());
        return closed::print(about, &Shown::of(&bay), args.json, out);
    }
    report::print(&bay, &window, &twins, speed, args.json, out)
}

/// Differences that are told.
const TOLD: usize = 5;

/// The bay, if it stands where the checkpoint of the take's end does.
fn like(take: &Take, bay: Bay, path: &Path) -> Result<Bay, Failure> {
    let name = path.display();
    let text = files::read(path, checkpoint::LARGEST, "a checkpoint")?;
    let kept = Bay::load(&take.scenario, &take.log, &text)
        .map_err(|e| Failure::Asked(format!("{name}: {e}")))?;
    let differs = bay.differences(&kept);
    if differs.is_empty() {
        return Ok(bay);
    }
    let first: Vec<String> = differs.iter().take(TOLD).map(ToString::to_string).collect();
    Err(Failure::Asked(format!(
        "{name}: the replay ends in another state; {} values differ (replay and checkpoint): {}",
        differs.len(),
        first.join("; ")
    )))
}
