//! `lowside job`: plays a script or a take on a job card and says how far it comes.

use crate::{failure::Failure, files, foreign, time};
use lowside_lessons::{
    Cost, JobCard, PerformanceTest, Progress, Severity, Truth, card::LARGEST, library,
    progress::Standing, toll,
};
use lowside_session::{
    Bay, Sitting, TICKS_PER_SECOND, Take, TakeError, Tick, scenario,
    script::Player,
    take::{self, Card},
};
use serde::Serialize;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Work a job card: one that is shipped by name, or a file (scenarios/lessons/README.md has the format).
///
/// Without --acts and --take it prints the card. With --acts it plays the script in the card's bay, with --take it replays what
/// was done there; then it prints which steps were reached and what harm was done. A take of a job carries its card, so that the card
/// can be left out.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// Name of a shipped card, or path of a TOML file; left out, the shipped cards are listed.
    card: Option<PathBuf>,
    /// A script: a TOML file of `[[act]]`.
    #[arg(
        long,
        value_name = "FILE.toml",
        conflicts_with = "take",
        requires = "card"
    )]
    acts: Option<PathBuf>,
    /// A take of this job.
    #[arg(long, value_name = "FILE.json")]
    take: Option<PathBuf>,
    /// Write what the script did as a take here, with its card: what the card's bay hides is scrambled in it, which keeps it from the eye
    /// in passing and from nobody else.
    #[arg(long, value_name = "FILE.json", requires = "acts")]
    record: Option<PathBuf>,
    /// How long to go on after the last act of a script, e.g. 2min.
    #[arg(long, value_name = "TIME", default_value = "1min", requires = "acts")]
    then: String,
    /// Print one JSON object.
    #[arg(long)]
    json: bool,
}

/// How a job ended.
#[derive(Debug, Serialize)]
struct Marked {
    /// The card.
    job: String,
    /// Bay time, s.
    t_s: f64,
    /// Every step done, nothing that fails the job.
    passed: bool,
    /// All of it was done under this physics, so that the mark can be held against others.
    comparable: bool,
    /// Steps in the card's order.
    steps: Vec<Line>,
    /// Harms in the card's order.
    harms: Vec<Line>,
    /// What it cost, in SI, the worst first.
    toll: Vec<(Severity, Cost)>,
}

/// A step or harm.
#[derive(Debug, Serialize)]
struct Line {
    title: String,
    /// `done`, `open` or `lost`; of a harm `happened` or `none`.
    standing: &'static str,
    /// When, s.
    t_s: Option<f64>,
}

/// Does what was asked.
///
/// # Errors
/// [`Failure::Asked`] naming file and field, or the act that was refused; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let take = args.take.as_deref().map(read).transpose()?;
    let (card, sort) = match (&args.card, &take) {
        (Some(asked), _) => open(asked)?,
        (None, Some((path, take))) => of_take(path, take)?,
        (None, None) => return list(out),
    };
    let (bay, progress) = match (&args.acts, &take) {
        (Some(acts), _) => play(&card, acts, &args.then)?,
        (None, Some((path, take))) => replay(&card, path, take)?,
        (None, None) => return tell(&card, out),
    };
    if let Some(path) = &args.record {
        let sitting = Sitting {
            card: Some(sort),
            ..Sitting::default()
        };
        files::write(path, &Take::in_sitting(&bay, sitting).to_text())?;
    }
    let comparable = take
        .as_ref()
        .is_none_or(|(_, take)| take.has_comparable_mark());
    let marked = mark(&card, &bay, &progress, comparable);
    if args.json {
        let line = serde_json::to_string(&marked).map_err(std::io::Error::from)?;
        writeln!(out, "{line}")?;
        return Ok(());
    }
    for line in marked.steps.iter().chain(&marked.harms) {
        let when = line.t_s.map_or(String::new(), |t| format!("{t:.0} s"));
        writeln!(out, "{:<9} {when:>7}  {}", line.standing, line.title)?;
    }
    for (severity, cost) in &marked.toll {
        let severity = match severity {
            Severity::Slight => "slight",
            Severity::Serious => "serious",
            Severity::Grave => "grave",
        };
        writeln!(out, "{severity:<17}  {}", figures(*cost))?;
    }
    let word = if marked.passed {
        "passed"
    } else {
        "not passed"
    };
    let apart = if marked.comparable {
        ""
    } else {
        "; not comparable: some of it was done under another physics"
    };
    writeln!(out, "{word}{apart}")?;
    Ok(())
}

fn list(out: &mut impl Write) -> Result<(), Failure> {
    for name in library::names() {
        let card =
            library::card(name).ok_or_else(|| Failure::Asked(format!("{name}: does not read")))?;
        writeln!(out, "{name:<28} {}", card.title.en)?;
    }
    Ok(())
}

/// Reads a take.
fn read(path: &Path) -> Result<(&Path, Take), Failure> {
    let text = files::read(path, take::LARGEST, "a take")?;
    let take =
        Take::parse(&text).map_err(|e| Failure::Asked(format!("{}: {e}", path.display())))?;
    Ok((path, take))
}

/// The card that a take carries.
fn of_take(path: &Path, take: &Take) -> Result<(JobCard, Card), Failure> {
    let wrong = |why: &str| Failure::Asked(format!("{}: card: {why}", path.display()));
    let sort = take.sitting.card.clone();
    let sort = sort.ok_or_else(|| wrong("the take carries none: name one"))?;
    let card = match &sort {
        Card::Job(name) => library::card(name)
            .ok_or_else(|| wrong(&format!("there is no shipped job card {name}")))?,
        Card::Own(text) => JobCard::parse(text).map_err(|e| wrong(&e.to_string()))?,
    };
    Ok((card, sort))
}

fn open(asked: &Path) -> Result<(JobCard, Card), Failure> {
    if let Some(name) = asked.to_str()
        && let Some(card) = library::card(name)
    {
        return Ok((card, Card::Job(name.to_owned())));
    }
    if !asked.exists() && asked.extension().is_none() {
        let names: Vec<&str> = library::names().collect();
        return Err(Failure::Asked(format!(
            "{}: there is no such file and no such shipped job card; shipped are {}",
            asked.display(),
            names.join(", ")
        )));
    }
    let text = files::read(asked, LARGEST, "a job card")?;
    let card = JobCard::parse(&text);
    let card = card.map_err(|e| Failure::Asked(format!("{}: {e}", asked.display())))?;
    Ok((card, Card::Own(text)))
}

fn play(card: &JobCard, acts: &Path, then: &str) -> Result<(Bay, Progress), Failure> {
    let name = acts.display();
    let text = files::read(acts, scenario::LARGEST, "a script")?;
    let script = scenario::script(&text).map_err(|e| Failure::Asked(format!("{name}: {e}")))?;
    let mut rest = time::ticks_of("--then", then)?;
    let mut bay = Bay::new(&card.scenario);
    let mut progress = Progress::new(card);
    let mut player = Player::new(&script);
    let mut test = PerformanceTest::default();
    while rest > 0 {
        player.play(&mut bay).map_err(|(index, why)| {
            let at = bay.seconds();
            Failure::Asked(format!("{name}: act {} at {at:.2} s: {why}", index + 1))
        })?;
        if player.done() {
            rest -= 1;
        } else if bay.tick() >= take::LONGEST {
            return Err(Failure::Asked(format!(
                "{name}: an act still waits after 24 h"
            )));
        }
        bay.step_observed(&mut |bay| test.look(bay))
            .map_err(|why| Failure::halted(&bay, &why))?;
        progress.look(card, &bay);
    }
    Ok((bay, progress))
}

fn replay(card: &JobCard, path: &Path, take: &Take) -> Result<(Bay, Progress), Failure> {
    let wrong = |e: TakeError| Failure::Asked(format!("{}: {e}", path.display()));
    if take.scenario != card.scenario {
        return Err(Failure::Asked(format!(
            "{}: is a take of another bay than the card's",
            path.display()
        )));
    }
    let mut replay = take.replay();
    let mut progress = Progress::new(card);
    let mut test = PerformanceTest::default();
    loop {
        let done = replay
            .run_observed(1, &mut |bay| test.look(bay))
            .map_err(wrong)?;
        progress.look(card, replay.bay());
        if done {
            break;
        }
    }
    foreign::tell(path, take, &replay);
    Ok((replay.finish().map_err(wrong)?, progress))
}

fn mark(card: &JobCard, bay: &Bay, progress: &Progress, comparable: bool) -> Marked {
    let seconds = |t: Tick| t as f64 / TICKS_PER_SECOND as f64;
    let step = |(step, standing): (&lowside_lessons::Step, Standing)| {
        let (standing, tick) = match standing {
            Standing::Open | Standing::Holding { .. } => ("open", None),
            Standing::Done { tick } => ("done", Some(tick)),
            Standing::Lost { tick } => ("lost", Some(tick)),
        };
        Line {
            title: step.title.en.clone(),
            standing,
            t_s: tick.map(seconds),
        }
    };
    let harm = |(harm, tick): (&lowside_lessons::Harm, Option<Tick>)| Line {
        title: harm.title.en.clone(),
        standing: if tick.is_some() { "happened" } else { "none" },
        t_s: tick.map(seconds),
    };
    Marked {
        job: card.title.en.clone(),
        t_s: bay.seconds(),
        passed: progress.passed(card),
        comparable,
        steps: card
            .step
            .iter()
            .zip(progress.steps(card))
            .map(step)
            .collect(),
        harms: card.harm.iter().zip(progress.harms()).map(harm).collect(),
        toll: toll(&Truth::of(bay)),
    }
}

fn figures(cost: Cost) -> String {
    match cost {
        Cost::Hurt { times } => format!("people hurt: {times}"),
        Cost::Burst { cans } => format!("cans burst: {cans}"),
        Cost::HoseBurst { seconds } => format!("discharge hose burst at {seconds:.0} s"),
        Cost::Seized {
            seconds,
            clutch_burnt,
        } => format!(
            "compressor seized at {seconds:.0} s{}",
            if clutch_burnt {
                " and burnt its clutch"
            } else {
                ""
            }
        ),
        Cost::Liquid {
            times,
            seconds,
            wear,
        } => format!(
            "liquid drawn by the compressor: {times} times, {seconds:.0} s in all, {:.2} % of its life",
            wear * 100.0
        ),
        Cost::Wear(share) => format!(
            "compressor worn by dryness, heat, pressure or grit: {:.2} % of its life",
            share * 100.0
        ),
        Cost::Air(kg) => format!("air let into the loop: {:.2} g", kg * 1e3),
        Cost::Water(kg) => format!("water let into the loop: {:.2} g", kg * 1e3),
        Cost::Vented(kg) => format!("refrigerant let into the room: {:.0} g", kg * 1e3),
    }
}

fn tell(card: &JobCard, out: &mut impl Write) -> Result<(), Failure> {
    writeln!(out, "{}\n{}", card.title.en, card.complaint.en)?;
    if let Some(text) = &card.misconception {
        writeln!(out, "For whoever teaches: {}", text.en)?;
    }
    for (i, step) in card.step.iter().enumerate() {
        writeln!(out, "{}. {} ({})", i + 1, step.title.en, step.accept.en)?;
    }
    Ok(())
}
