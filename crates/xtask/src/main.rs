//! `cargo xtask`: builds, serves and tests the page and everything under it, from a machine that has only rustup, node and apt.
#![expect(
    clippy::print_stdout,
    reason = "a command line tool reports on standard output"
)]

mod bench;
mod bits;
mod browser;
mod cut;
mod gate;
mod glue;
mod offline;
mod page;
mod place;
mod site;
mod tools;
mod validate;

use std::process::ExitCode;

use anyhow::{Context, Result, bail};

use crate::place::Place;

const USAGE: &str = "\
cargo xtask serve [--port N] [--dev]   build the page and serve it on 127.0.0.1 (8080, or the next free port)
cargo xtask build [--dev]              build the page into target/site and print its sizes
cargo xtask test [--fast]              every check: format, lints, docs, native tests, page, browser tests
                                       (--fast: format, native lints and native tests only)
cargo xtask deep                       the random runs that test leaves out: many bays, half an hour of keys
cargo xtask browser [--dev] [FILE...]  build the page and run the browser tests, all or those named
cargo xtask shots [--dev]              pictures of the page, desktop and phone, into target/shots
cargo xtask bench                      how fast tables and bays are, natively and in the browser
cargo xtask validate                   every outside check in one report in target/validation; fails on any miss
cargo xtask bits                       is a bay the same to the bit natively and in the browser?
cargo xtask physics                    names the physics anew, after the golden takes were made anew

--dev builds the page without optimising: quicker to build, slower to run.";

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    match run(&args) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("xtask: {error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run(args: &[String]) -> Result<()> {
    let Some((command, rest)) = args.split_first() else {
        println!("{USAGE}");
        return Ok(());
    };
    let mut options = Options::new(rest);
    match command.as_str() {
        "serve" => {
            let (dev, port) = (options.flag("--dev"), options.port()?);
            options.finish()?;
            serve(dev, port)
        }
        "build" => {
            let dev = options.flag("--dev");
            options.finish()?;
            page::build(&Place::find()?, dev).map(drop)
        }
        "test" => {
            let fast = options.flag("--fast");
            options.finish()?;
            gate::run_all(&Place::find()?, fast)
        }
        "deep" => {
            options.finish()?;
            gate::run_deep(&Place::find()?)
        }
        "browser" => {
            let dev = options.flag("--dev");
            let place = Place::find()?;
            let site = page::build(&place, dev)?;
            browser::test(&place, site, &options.rest)
        }
        "shots" => {
            let dev = options.flag("--dev");
            options.finish()?;
            let place = Place::find()?;
            let site = page::build(&place, dev)?;
            browser::shots(&place, site)
        }
        "bench" => {
            options.finish()?;
            bench::run_all(&Place::find()?)
        }
        "validate" => {
            options.finish()?;
            validate::run(&Place::find()?)
        }
        "bits" => {
            options.finish()?;
            let place = Place::find()?;
            let site = page::build(&place, false)?;
            browser::test(&place, site, &["bits.test.mjs".to_owned()])
        }
        "physics" => {
            options.finish()?;
            bits::write_physics(&Place::find()?)
        }
        "help" | "--help" | "-h" => {
            println!("{USAGE}");
            Ok(())
        }
        other => bail!("there is no command \"{other}\"\n\n{USAGE}"),
    }
}

fn serve(dev: bool, port: u16) -> Result<()> {
    let site = page::build(&Place::find()?, dev)?;
    let server = site::Server::start(site, port)?;
    println!("\nLowside is at {}  (Ctrl+C stops it)", server.address());
    server.wait();
    Ok(())
}

/// The words after the command, taken one by one; what nobody took is an error.
struct Options {
    rest: Vec<String>,
}

impl Options {
    fn new(rest: &[String]) -> Self {
        Self {
            rest: rest.to_vec(),
        }
    }

    fn flag(&mut self, name: &str) -> bool {
        let before = self.rest.len();
        self.rest.retain(|word| word != name);
        self.rest.len() != before
    }

    fn port(&mut self) -> Result<u16> {
        let Some(at) = self.rest.iter().position(|word| word == "--port") else {
            return Ok(8080);
        };
        let value = self
            .rest
            .get(at + 1)
            .cloned()
            .context("--port needs a number")?;
        self.rest.drain(at..=at + 1);
        match value.parse() {
            Ok(port) if port > 0 => Ok(port),
            _ => bail!("--port {value}: a port is a number from 1 to 65535"),
        }
    }

    fn finish(&self) -> Result<()> {
        match self.rest.first() {
            None => Ok(()),
            Some(word) => bail!("\"{word}\" is not understood here\n\n{USAGE}"),
        }
    }
}
