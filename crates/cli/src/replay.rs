//! `lowside replay`: plays a take again and checks that it ends where it says.

use crate::{clock::Clock, failure::Failure, files, report};
use lowside_session::{Take, TakeError, summary::Window, take::LARGEST};
use std::io::Write;
use std::path::PathBuf;

/// Play a take again, check its hash and print the summary.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// A take as `lowside run --take` writes it.
    take: PathBuf,
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
    let clock = Clock::start();
    let mut replay = take.replay();
    let mut window = Window::default();
    let mut seen = replay.bay().tick();
    loop {
        let done = replay.run(1).map_err(wrong)?;
        if replay.bay().tick() > seen {
            seen = replay.bay().tick();
            window.take(replay.bay());
        }
        if done {
            break;
        }
    }
    let speed = clock.real_time_factor(replay.bay());
    let bay = replay.finish().map_err(wrong)?;
    if let Some(why) = bay.halt() {
        return Err(Failure::halted(&bay, why));
    }
    report::print(&bay, &window, speed, args.json, out)
}
