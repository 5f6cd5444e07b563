//! `lowside mark`: marks attempts at unknown vehicles.

use crate::{cores, failure::Failure, files, link, packet_key::Key, text};
use lowside_lessons::{
    mark::{Line, Mark},
    rivals::{Case, Inquiry},
};
use lowside_session::{Sight, Take, take::LARGEST};
use std::{
    collections::BTreeMap,
    fs,
    io::Write,
    path::{Path, PathBuf},
};

/// Mark attempts at unknown vehicles: takes, texts with links, or folders of them.
///
/// Each is replayed and marked by the rubric; one that cannot be marked is named with its reason. With the key of a packet it is replayed on
/// the key's vehicle, never on the file's own. The same take gets the same marks.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// Takes (*.json), texts with a link a line (*.txt), or folders of them.
    #[arg(required = true)]
    takes: Vec<PathBuf>,
    /// Mark on this key, as `lowside handout` writes it.
    #[arg(long, value_name = "KEY.json")]
    key: Option<PathBuf>,
    /// Say how likely each suspect was after each reading: some hundred bays are run for it.
    #[arg(long)]
    odds: bool,
    /// Write the table here, with commas.
    #[arg(short, long, value_name = "FILE.csv")]
    output: Option<PathBuf>,
}

/// An attempt and its marks, or why it has none.
#[derive(Debug)]
struct Row {
    name: String,
    marked: Result<(Take, Mark), String>,
}

/// What was handed in: a file, or a line of one.
#[derive(Debug)]
enum HandedIn {
    File(PathBuf),
    Line(PathBuf, usize, String),
}

/// Most bytes of a text with links: some thousand of them.
const LARGEST_TEXT: usize = 2 * 1024 * 1024;

/// Marks them on all cores, in the order of the names, and prints a table.
///
/// # Errors
/// [`Failure::Asked`] naming a file that cannot be read at all, or that nothing could be marked; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let key = args.key.as_deref().map(Key::read).transpose()?;
    let all = all(&args.takes)?;
    let rows = cores::each(&all, "marked", |handed_in| Row {
        name: handed_in.name(),
        marked: one(handed_in, key.as_deref()),
    });
    if let Some(path) = &args.output {
        files::write(path, &table(&rows))?;
    }
    print(&rows, out)?;
    confusions(&rows, out)?;
    if args.odds {
        for row in &rows {
            if let Ok((take, _)) = &row.marked {
                odds(&row.name, take, out)?;
            }
        }
    }
    if rows.iter().all(|row| row.marked.is_err()) {
        return Err(Failure::Asked("nothing could be marked".into()));
    }
    Ok(())
}

/// What was handed in: of a folder its files that end in `.json` and `.txt`, by name; of a text its lines that are not empty.
fn all(named: &[PathBuf]) -> Result<Vec<HandedIn>, Failure> {
    let ends = |path: &Path, end: &str| path.extension().is_some_and(|e| e == end);
    let mut paths = Vec::new();
    for path in named {
        if !path.is_dir() {
            paths.push(path.clone());
            continue;
        }
        let entries = fs::read_dir(path)
            .map_err(|e| Failure::Asked(format!("{}: cannot be read: {e}", path.display())))?;
        let mut inside: Vec<PathBuf> = entries
            .filter_map(|entry| Some(entry.ok()?.path()))
            .filter(|p| ends(p, "json") || ends(p, "txt"))
            .collect();
        inside.sort();
        paths.append(&mut inside);
    }
    let mut all = Vec::new();
    for path in paths {
        if !ends(&path, "txt") {
            all.push(HandedIn::File(path));
            continue;
        }
        let text = files::read(&path, LARGEST_TEXT, "a text with links")?;
        let lines = (1..).zip(text.lines().map(str::trim));
        let lines = lines.filter(|(_, line)| !line.is_empty());
        all.extend(lines.map(|(n, line)| HandedIn::Line(path.clone(), n, line.to_owned())));
    }
    if all.is_empty() {
        return Err(Failure::Asked(
            "there is no take (*.json) and no link (*.txt) to mark".into(),
        ));
    }
    Ok(all)
}

impl HandedIn {
    fn name(&self) -> String {
        match self {
            Self::File(path) => path.display().to_string(),
            Self::Line(path, n, _) => format!("{}:{n}", path.display()),
        }
    }

    fn take(&self) -> Result<Take, String> {
        match self {
            Self::File(path) => {
                let text = files::read(path, LARGEST, "a take").map_err(|e| e.to_string())?;
                Take::parse(&text).map_err(|e| e.to_string())
            }
            Self::Line(_, _, line) => {
                let (_, fragment) = line.split_once('#').ok_or("not a link")?;
                link::open(fragment).map_err(|e| e.to_string())
            }
        }
    }
}

fn one(handed_in: &HandedIn, key: Option<&[Take]>) -> Result<(Take, Mark), String> {
    let mut take = handed_in.take()?;
    if let Some(key) = key {
        take = on_key(take, key)?;
    }
    if !take.has_comparable_mark() {
        return Err("it was done under another physics, so its mark is not comparable".into());
    }
    if take.log.iter().any(|(_, act)| act.is_instructors()) {
        return Err("impossible: an act of an instructor stands in it".into());
    }
    if take.sitting.sight == Sight::Exam && !take.sitting.lines.is_empty() {
        return Err("impossible: acts were undone in it, and an exam has no undo".into());
    }
    let mark = Mark::of(&take).map_err(|e| e.to_string())?;
    Ok((take, mark))
}

/// An attempt on the vehicle that the key has for its learner.
fn on_key(take: Take, key: &[Take]) -> Result<Take, String> {
    let (learner, number) = (&take.sitting.learner, take.sitting.seed);
    let code = text::quoted(learner.as_deref().unwrap_or_default());
    let own = key.iter().find(|k| k.sitting.learner == *learner);
    let own = own.ok_or_else(|| format!("foreign: the key knows no learner {code}"))?;
    let sitting = &own.sitting;
    if number != sitting.seed {
        let theirs = sitting.seed;
        return Err(format!(
            "foreign: vehicle {number}, and {code} was given vehicle {theirs}"
        ));
    }
    if take.sitting.sight != sitting.sight {
        return Err("altered: it was not worked in as it was handed out".into());
    }
    if take.scenario != own.scenario {
        return Err("altered: the vehicle in it is not the one that was handed out".into());
    }
    let scenario = own.scenario.clone();
    Ok(Take { scenario, ..take })
}

/// What was taken for what, the most frequent first.
fn confusions(rows: &[Row], out: &mut impl Write) -> Result<(), Failure> {
    let mut counts: BTreeMap<(&str, &str), usize> = BTreeMap::new();
    for (_, mark) in rows.iter().filter_map(|row| row.marked.as_ref().ok()) {
        let truth = mark.truth.map_or("nothing", |f| f.id);
        let said = mark.said.map_or("nothing was said", |id| id.key());
        if truth != said {
            *counts.entry((truth, said)).or_default() += 1;
        }
    }
    let mut most: Vec<_> = counts.into_iter().collect();
    most.sort_by_key(|(_, n)| core::cmp::Reverse(*n));
    if rows.len() > 1 && !most.is_empty() {
        writeln!(out, "taken for something else, the most frequent first")?;
        for ((truth, said), n) in most {
            writeln!(out, "  {n:>3}  {truth}: {said}")?;
        }
    }
    Ok(())
}

fn print(rows: &[Row], out: &mut impl Write) -> Result<(), Failure> {
    for row in rows {
        let name = &row.name;
        match &row.marked {
            Err(why) => writeln!(out, "{name}: not marked: {}", text::one_line(why))?,
            Ok((_, mark)) => {
                writeln!(out, "{name}: {:.0} of 100", mark.total())?;
                writeln!(
                    out,
                    "  it was    {}",
                    mark.truth.map_or("nothing", |f| f.id)
                )?;
                let said = mark.said.map_or("nothing was said", |id| id.key());
                let sure = mark.certainty * 100.0;
                writeln!(out, "  said      {said}, {sure:.0} % sure")?;
                for (line, marks) in Line::ALL.into_iter().zip(mark.lines) {
                    let (key, most) = (line.key(), line.most());
                    writeln!(out, "  {key:<9} {marks:>5.1} of {most:>2.0}")?;
                }
                if !mark.open.is_empty() {
                    let open = mark.open.iter().map(|f| f.map_or("nothing", |f| f.id));
                    let open: Vec<&str> = open.collect();
                    writeln!(out, "  not ruled out: {}", open.join(", "))?;
                }
            }
        }
    }
    Ok(())
}

fn odds(name: &str, take: &Take, out: &mut impl Write) -> Result<(), Failure> {
    let wrong = |e| Failure::Asked(format!("{name}: {e}"));
    let bay = take.resume().map_err(wrong)?;
    let mut inquiry = Inquiry::new(Case::of(&bay));
    while !inquiry.advance(u64::MAX) {}
    let odds = inquiry.odds();
    writeln!(out, "{name}: suspects after each reading")?;
    for (n, standings) in odds.after.iter().enumerate() {
        let first = standings.iter().take(4).filter(|s| s.likely > 0.01);
        let first: Vec<String> = first
            .map(|s| {
                format!(
                    "{} {:.0} %",
                    s.fault.map_or("nothing", |f| f.id),
                    100.0 * s.likely
                )
            })
            .collect();
        writeln!(out, "  {n:>3}  {}", first.join(", "))?;
    }
    Ok(())
}

fn table(rows: &[Row]) -> String {
    let head = [
        "file",
        "learner",
        "seed",
        "truth",
        "said",
        "certainty",
        "minutes",
        "acts",
        "readings",
        "hints",
        "undone",
        "vented_g",
        "parts",
        "total",
    ];
    let lines = Line::ALL.map(Line::key);
    let mut head: Vec<String> = head.into_iter().chain(lines).map(str::to_owned).collect();
    head.push("reason".to_owned());
    let mut text = head.join(",") + "\n";
    for row in rows {
        let mut cells = vec![field(&row.name)];
        match &row.marked {
            Err(why) => {
                cells.resize(head.len() - 1, String::new());
                cells.push(field(why));
            }
            Ok((take, mark)) => {
                cells.push(take.sitting.learner.clone().unwrap_or_default());
                cells.push(take.sitting.seed.to_string());
                cells.push(mark.truth.map_or("nothing", |f| f.id).to_owned());
                cells.push(mark.said.map_or("", |id| id.key()).to_owned());
                cells.push(format!("{:.2}", mark.certainty));
                cells.push(
                    mark.said_at
                        .map_or(String::new(), |s| format!("{:.1}", s / 60.0)),
                );
                let s = &take.sitting;
                let readings = take.log.iter().filter(|(_, act)| act.reads()).count();
                let counts = [take.log.len(), readings, s.hints.len(), s.lines.len()];
                cells.extend(counts.map(|n| n.to_string()));
                cells.push(format!("{:.0}", mark.vented * 1e3));
                cells.push(mark.parts.to_string());
                cells.push(format!("{:.1}", mark.total()));
                cells.extend(mark.lines.map(|marks| format!("{marks:.1}")));
                cells.push(String::new());
            }
        }
        text += &cells.join(",");
        text.push('\n');
    }
    text
}

/// A field in the manner of RFC 4180.
fn field(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}
