//! `lowside`, headless: one subcommand a file.

mod beside;
mod check;
mod clock;
mod closed;
mod cores;
mod drill;
mod failure;
mod faults;
mod figure;
mod files;
mod foreign;
mod handout;
mod job;
mod link;
mod mark;
mod open;
mod packet_key;
mod props;
mod replay;
mod report;
mod run;
mod scenarios;
mod sweep;
mod text;
mod time;
mod trace;

use clap::{Parser, Subcommand};
use failure::Failure;
use std::io::{Write, stderr, stdout};
use std::process::ExitCode;

/// A service bay without the page: properties, runs, replays, marks.
#[derive(Debug, Parser)]
#[command(name = "lowside", version, about, arg_required_else_help = true)]
struct Cli {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
enum Command {
    Run(run::Args),
    Job(job::Args),
    Check(check::Args),
    Drill(drill::Args),
    Link(link::Args),
    Handout(handout::Args),
    Mark(mark::Args),
    Replay(replay::Args),
    Scenarios(scenarios::Args),
    Faults(faults::Args),
    Props(props::Args),
    Sweep(sweep::Args),
}

fn main() -> ExitCode {
    let result = match Cli::try_parse() {
        Ok(cli) => answer(&cli),
        // help and version are answers, not failures: let clap print them
        Err(e) if !e.use_stderr() => {
            let _ = e.print();
            Ok(())
        }
        Err(e) => Err(Failure::from(&e)),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        // whoever read the answer has gone: there is nobody to tell
        Err(failure) if failure.is_closed_pipe() => failure.code(),
        Err(failure) => {
            // a closed stderr leaves only the exit code to speak
            let _ = writeln!(
                stderr().lock(),
                "lowside: {}",
                text::one_line(&failure.to_string())
            );
            failure.code()
        }
    }
}

fn answer(cli: &Cli) -> Result<(), Failure> {
    let mut out = stdout().lock();
    match &cli.command {
        Command::Run(args) => run::run(args, &mut out),
        Command::Job(args) => job::run(args, &mut out),
        Command::Check(args) => check::run(args, &mut out),
        Command::Drill(args) => drill::run(args, &mut out),
        Command::Link(args) => link::run(args, &mut out),
        Command::Handout(args) => handout::run(args, &mut out),
        Command::Mark(args) => mark::run(args, &mut out),
        Command::Replay(args) => replay::run(args, &mut out),
        Command::Scenarios(args) => scenarios::run(args, &mut out),
        Command::Faults(args) => faults::run(args, &mut out),
        Command::Props(args) => props::run(args, &mut out),
        Command::Sweep(args) => sweep::run(args, &mut out),
    }
}
