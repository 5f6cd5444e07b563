//! `lowside handout`: a packet of unknown vehicles for a class, and its key.

use crate::{cores, failure::Failure, files, link, packet_key, text::quoted};
use lowside_lessons::{
    drill::{Complaint, Deck},
    packet::{self, Tests},
};
use lowside_present::qr::Qr;
use lowside_session::{Bay, Scenario, Sight, Sitting, Take, library, take};
use lowside_shop::fault::Severity;
use lowside_words as words;
use std::{
    fmt::Write as _,
    fs,
    io::Write,
    path::{Path, PathBuf},
};

/// Vehicles drawn at a time, for each that is wanted.
const AT_A_TIME: usize = 4;

/// Hand out a packet of unknown vehicles, equally difficult: so many readings at least leave one suspect.
///
/// Each learner gets a take, and a slip with its link and code. What is wrong is scrambled in them, which keeps it from the eye in passing and
/// from nobody else. The key says it, and marks are given on it: keep it to yourself.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// How many vehicles, 1 to 200.
    count: usize,
    /// Which packet: any whole number. The same number gives the same packet.
    #[arg(long, value_name = "NUMBER")]
    seed: u64,
    /// Write takes and slips into this folder.
    #[arg(short, long, value_name = "DIR")]
    output: PathBuf,
    /// Write the key here.
    #[arg(long, value_name = "KEY.json")]
    key: PathBuf,
    /// Codes of the learners, one a line; left out, they are numbered.
    #[arg(long, value_name = "FILE")]
    learners: Option<PathBuf>,
    /// As difficult as this: the least number of readings that leaves one suspect. Left out, as most vehicles that are drawn.
    #[arg(long, value_name = "NUMBER")]
    readings: Option<usize>,
    /// As an exam: no rewind, no hints.
    #[arg(long)]
    exam: bool,
    /// Where the page stands, for the links on the slips.
    #[arg(long, value_name = "ADDRESS", default_value = "")]
    page: String,
    /// The slips in Spanish.
    #[arg(long)]
    spanish: bool,
}

/// Draws a packet, writes it and its key, and says how difficult it is.
///
/// # Errors
/// [`Failure::Asked`] naming the option, its value and what is allowed, or the file; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    if !(1..=packet::MOST).contains(&args.count) {
        let most = packet::MOST;
        let count = args.count;
        return Err(Failure::Asked(format!(
            "{count} vehicles are outside 1 to {most}"
        )));
    }
    let codes = codes(args)?;
    let inside = fs::canonicalize(&args.output)
        .ok()
        .zip(args.key.parent().and_then(|p| {
            let here = if p.as_os_str().is_empty() {
                Path::new(".")
            } else {
                p
            };
            fs::canonicalize(here).ok()
        }));
    if inside.is_some_and(|(folder, key)| key.starts_with(folder)) {
        return Err(Failure::Asked(format!(
            "--key: {} lies in the folder that is handed out; the key stays with you",
            args.key.display()
        )));
    }
    let deck = Deck {
        nothing: 0.0,
        ..Deck::default()
    };
    let kind = library::shipped("healthy");
    let kind = kind.ok_or_else(|| Failure::Asked("healthy is not shipped".into()))?;
    let kind = packet::kind(args.seed, &deck, &kind);
    let chosen = drawn(args, &deck, &kind)?;
    let sitting = |n: usize| Sitting {
        sight: if args.exam { Sight::Exam } else { Sight::Hands },
        learner: codes.get(n).cloned(),
        seed: n as u64 + 1,
        ..Sitting::default()
    };
    let takes: Vec<Take> = (0..chosen.len())
        .map(|n| {
            let mut scenario = chosen[n].drill.scenario.clone();
            scenario.name = format!("Unknown vehicle {}", n + 1);
            Take::in_sitting(&Bay::new(&scenario), sitting(n))
        })
        .collect();
    fs::create_dir_all(&args.output)
        .map_err(|e| Failure::Asked(format!("{}: cannot be made: {e}", args.output.display())))?;
    let complaints = cores::each(&chosen, "complaints heard", |v| {
        Complaint::of(&v.drill.scenario)
    });
    let mut slips = String::new();
    let mut vehicles = Vec::new();
    if args.spanish {
        words::set(words::Language::Spanish, Some(&words::ES));
    }
    for ((take, vehicle), complaint) in takes.iter().zip(&chosen).zip(complaints) {
        files::write(&args.output.join(take.sitting.file_name()), &take.to_text())?;
        slip(&mut slips, args, take, complaint);
        let severity = vehicle.drill.severity.map_or("", Severity::name);
        let fault = vehicle.drill.fault.map_or("nothing", |f| f.id);
        vehicles.push(packet_key::Vehicle::new(take, fault, severity));
    }
    files::write(&args.output.join("slips.html"), &page(args, &slips))?;
    let readings = chosen.first().map_or(0, |v| v.readings);
    let key = packet_key::Key::new(args.seed, readings, vehicles);
    files::write(&args.key, &key.to_text())?;
    let day = &kind.day;
    writeln!(
        out,
        "{} vehicles in {}; {readings} readings at least leave one suspect of each; the day is {:.0} \u{b0}C, {:.0} % humid",
        takes.len(),
        args.output.display(),
        day.ambient.deg_c(),
        day.humidity.percent()
    )?;
    Ok(())
}

/// The vehicles of the packet.
fn drawn(args: &Args, deck: &Deck, kind: &Scenario) -> Result<Vec<packet::Vehicle>, Failure> {
    let tests = Tests::new(kind, deck.severities[0]);
    let runs = tests.runs();
    let rivals = cores::each(&runs, "rivals run", |run| (*run, tests.run(*run)));
    let tests = tests.with(rivals);
    let mut draw = packet::drawn(args.seed, deck, kind);
    let (mut all, mut seen) = (Vec::new(), 0);
    while seen < packet::drawn_at_most(args.count) {
        let some: Vec<_> = draw.by_ref().take(AT_A_TIME * args.count).collect();
        seen += some.len();
        let found = cores::each(&some, "vehicles tested", |drill| tests.readings(drill));
        let found = some.into_iter().zip(found);
        all.extend(found.filter_map(|(drill, readings)| {
            Some(packet::Vehicle {
                drill,
                readings: readings?,
            })
        }));
        if let Some(chosen) = packet::choose(&all, args.count, args.readings) {
            return Ok(chosen);
        }
    }
    let mut counts: Vec<String> = Vec::new();
    for n in 1..20 {
        let of = all.iter().filter(|v| v.readings == n).count();
        if of > 0 {
            counts.push(format!("{of} take {n}"));
        }
    }
    Err(Failure::Asked(format!(
        "{seen} vehicles were drawn and too few are equally difficult: of those that can be told at all {}",
        counts.join(", ")
    )))
}

/// The learners' codes.
fn codes(args: &Args) -> Result<Vec<String>, Failure> {
    let Some(path) = &args.learners else {
        return Ok((1..=args.count).map(|n| format!("{n:03}")).collect());
    };
    let text = files::read(path, 64 * 1024, "a list of learners")?;
    let name = path.display();
    let codes: Vec<String> = text
        .lines()
        .map(|l| l.trim().to_owned())
        .filter(|l| !l.is_empty())
        .collect();
    for (n, code) in codes.iter().enumerate() {
        if !take::is_code(code) {
            return Err(Failure::Asked(format!(
                "{name}: {} is not 1 to 40 letters without accents, digits, -, _ or .",
                quoted(code)
            )));
        }
        if codes[..n].contains(code) {
            return Err(Failure::Asked(format!(
                "{name}: {} stands there twice",
                quoted(code)
            )));
        }
    }
    if codes.len() < args.count {
        let (has, wants) = (codes.len(), args.count);
        return Err(Failure::Asked(format!(
            "{name}: has {has} learners for {wants} vehicles"
        )));
    }
    Ok(codes)
}

/// A slip of paper: who, which vehicle, what its driver says, and the link.
fn slip(slips: &mut String, args: &Args, take: &Take, complaint: Complaint) {
    let learner = take.sitting.learner.as_deref().unwrap_or_default();
    let name = words::drill_vehicle(take.sitting.seed.to_string());
    let said = words::drill_quote(words::complaint(complaint.key()));
    let link = link::of(take)
        .ok()
        .map(|fragment| format!("{}#{fragment}", args.page));
    let code = link.as_deref().and_then(Qr::of).map_or(String::new(), |qr| {
        let side = qr.side;
        format!("<svg viewBox=\"0 0 {side} {side}\" shape-rendering=\"crispEdges\"><path d=\"{}\"/></svg>", qr.path)
    });
    let link = link.map_or(String::new(), |l| {
        format!("<a href=\"{l}\">{}</a>", words::slip_open())
    });
    // Writing into a string does not fail.
    let _ = writeln!(
        slips,
        "<article><h2>{learner}</h2><p>{name}</p><p>{said}</p>{code}<p>{link}</p></article>"
    );
}

fn page(args: &Args, slips: &str) -> String {
    let tag = words::current().tag();
    let (title, how) = (
        words::drill(),
        if args.exam {
            words::slip_exam()
        } else {
            words::slip_hands()
        },
    );
    format!(
        "<!doctype html><html lang=\"{tag}\"><meta charset=\"utf-8\"><title>{title}</title><style>\
         body{{font:12pt/1.4 system-ui,sans-serif;margin:0}}article{{break-inside:avoid;border:1px dashed #888;padding:8mm;margin:4mm}}\
         h2{{margin:0}}svg{{width:70mm;height:70mm;display:block}}a{{color:#000}}footer{{font-size:9pt;margin:4mm}}</style>\n{slips}\
         <footer>{how} {}</footer></html>\n",
        words::footer()
    )
}
