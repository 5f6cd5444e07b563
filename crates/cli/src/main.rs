//! `lowside`, headless: one subcommand a file.

mod failure;
mod props;

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
    Props(props::Args),
}

fn main() -> ExitCode {
    let result = match Cli::try_parse() {
        Ok(cli) => run(&cli),
        // help and version are answers, not failures: let clap print them
        Err(e) if !e.use_stderr() => {
            let _ = e.print();
            Ok(())
        }
        Err(e) => Err(Failure::from(&e)),
    };
    match result {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            // a closed stderr leaves only the exit code to speak
            let _ = writeln!(stderr().lock(), "lowside: {failure}");
            failure.code()
        }
    }
}

fn run(cli: &Cli) -> Result<(), Failure> {
    let mut out = stdout().lock();
    match &cli.command {
        Command::Props(args) => props::run(args, &mut out),
    }
}
