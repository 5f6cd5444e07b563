//! `lowside-validate [--out FOLDER] [--only HEADING]`: runs every outside check, or those of the sections whose heading contains a
//! text, writes the report, fails on any miss.
#![expect(
    clippy::print_stdout,
    reason = "a command line tool reports on standard output"
)]

use std::{
    fs,
    path::{Path, PathBuf},
    process::ExitCode,
    time::Instant,
};

use lowside_validate::{
    check::{Check, Counts, Section, Verdict},
    error::Error,
    report,
};

const USAGE: &str = "lowside-validate [--out FOLDER] [--only HEADING]   writes report.html there (target/validation); \
     only the sections whose heading contains a text";

fn main() -> ExitCode {
    let mut args = std::env::args().skip(1);
    let mut out = PathBuf::from("target/validation");
    let mut only = String::new();
    while let Some(arg) = args.next() {
        match (arg.as_str(), args.next()) {
            ("--out", Some(folder)) => out = folder.into(),
            ("--only", Some(heading)) => only = heading,
            _ => {
                eprintln!("{USAGE}");
                return ExitCode::FAILURE;
            }
        }
    }
    match make(&out, &only) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("lowside-validate: {error}");
            ExitCode::FAILURE
        }
    }
}

/// Makes the report; true when nothing misses.
fn make(out: &Path, only: &str) -> Result<bool, Error> {
    let started = Instant::now();
    let sections = lowside_validate::all(only)?;
    let page = report::html(&sections)?;
    let file = out.join("report.html");
    let failed = |why| Error::File {
        path: file.display().to_string(),
        why,
    };
    fs::create_dir_all(out).map_err(failed)?;
    fs::write(&file, page).map_err(failed)?;
    for section in &sections {
        print_misses(section);
    }
    let all = || sections.iter().flat_map(|s| &s.checks);
    let (checks, figures) = (
        Counts::of(all().map(Check::verdict)),
        Counts::of_findings(all()),
    );
    for (name, c) in [("checks", checks), ("figures", figures)] {
        println!(
            "{name}: {} pass, {} miss, {} not yet, {} without verdict",
            c.pass, c.miss, c.not_yet, c.unjudged
        );
    }
    let restated = all()
        .flat_map(|c| &c.findings)
        .filter(|f| f.restated.is_some());
    println!(
        "restated, those without verdict among them: {}",
        restated.count()
    );
    println!(
        "{}  ({:.0} s)",
        file.display(),
        started.elapsed().as_secs_f64()
    );
    Ok(figures.miss == 0)
}

fn print_misses(section: &Section) {
    for check in &section.checks {
        for f in check.findings.iter().filter(|f| f.verdict == Verdict::Miss) {
            println!(
                "miss: {}: {}: {} (asked: {})",
                check.title, f.what, f.got, f.asked
            );
        }
    }
}
