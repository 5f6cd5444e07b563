//! `lowside mark`: marks attempts at unknown vehicles.

use crate::{failure::Failure, files, text};
use lowside_lessons::{
    mark::{Line, Mark},
    rivals::{Case, Inquiry},
};
use lowside_session::{Take, take::LARGEST};
use std::{
    fs,
    io::{IsTerminal, Write, stderr},
    path::{Path, PathBuf},
    sync::{
        Mutex,
        atomic::{AtomicUsize, Ordering},
    },
    thread,
};

/// Mark attempts at unknown vehicles: takes, or folders of them.
///
/// Each is replayed on its own scenario and marked by the rubric; one that cannot be marked is named with its reason. The same take
/// gets the same marks.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// Takes, or folders of them.
    #[arg(required = true)]
    takes: Vec<PathBuf>,
    /// Say how likely each suspect was after each reading: some hundred bays are run for it.
    #[arg(long)]
    odds: bool,
    /// Write the table here, with commas.
    #[arg(short, long, value_name = "FILE.csv")]
    output: Option<PathBuf>,
}

/// A take and its marks, or why it has none.
#[derive(Debug)]
struct Row<'a> {
    n: usize,
    path: &'a Path,
    marked: Result<(Take, Mark), String>,
}

/// Marks them on all cores, in the order of the names, and prints a table.
///
/// # Errors
/// [`Failure::Asked`] naming a file that cannot be read at all, or that nothing could be marked; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let paths = all(&args.takes)?;
    let (next, found) = (AtomicUsize::new(0), Mutex::new(Vec::new()));
    let cores = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        for _ in 0..cores.min(paths.len()) {
            scope.spawn(|| {
                loop {
                    let n = next.fetch_add(1, Ordering::Relaxed);
                    let Some(path) = paths.get(n) else { return };
                    let marked = one(path);
                    if let Ok(mut found) = found.lock() {
                        found.push(Row { n, path, marked });
                        progress(found.len(), paths.len());
                    }
                }
            });
        }
    });
    let mut rows: Vec<Row<'_>> = found.into_inner().unwrap_or_default();
    rows.sort_by_key(|row| row.n);
    if let Some(path) = &args.output {
        files::write(path, &table(&rows))?;
    }
    print(&rows, out)?;
    if args.odds {
        for row in &rows {
            if let Ok((take, _)) = &row.marked {
                odds(row.path, take, out)?;
            }
        }
    }
    if rows.iter().all(|row| row.marked.is_err()) {
        return Err(Failure::Asked("nothing could be marked".into()));
    }
    Ok(())
}

/// The takes that are meant: a folder's are its files that end in `.json`, by name.
fn all(named: &[PathBuf]) -> Result<Vec<PathBuf>, Failure> {
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
            .filter(|p| p.extension().is_some_and(|e| e == "json"))
            .collect();
        inside.sort();
        paths.append(&mut inside);
    }
    if paths.is_empty() {
        return Err(Failure::Asked("there is no take (*.json) to mark".into()));
    }
    Ok(paths)
}

fn progress(done: usize, of: usize) {
    if of > 1 && stderr().is_terminal() {
        let end = if done == of { "\n" } else { "" };
        drop(write!(stderr().lock(), "\r{done} of {of} marked{end}"));
    }
}

fn one(path: &Path) -> Result<(Take, Mark), String> {
    let text = files::read(path, LARGEST, "a take").map_err(|e| e.to_string())?;
    let take = Take::parse(&text).map_err(|e| e.to_string())?;
    if !take.has_comparable_mark() {
        return Err("it was done under another physics, so its mark is not comparable".into());
    }
    let mark = Mark::of(&take).map_err(|e| e.to_string())?;
    Ok((take, mark))
}

fn print(rows: &[Row<'_>], out: &mut impl Write) -> Result<(), Failure> {
    for row in rows {
        let name = row.path.display();
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

fn odds(path: &Path, take: &Take, out: &mut impl Write) -> Result<(), Failure> {
    let wrong = |e| Failure::Asked(format!("{}: {e}", path.display()));
    let bay = take.resume().map_err(wrong)?;
    let mut inquiry = Inquiry::new(Case::of(&bay));
    while !inquiry.advance(u64::MAX) {}
    let odds = inquiry.odds();
    writeln!(out, "{}: suspects after each reading", path.display())?;
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

fn table(rows: &[Row<'_>]) -> String {
    let head = [
        "file",
        "learner",
        "seed",
        "truth",
        "said",
        "certainty",
        "minutes",
        "total",
    ];
    let lines = Line::ALL.map(Line::key);
    let mut head: Vec<String> = head.into_iter().chain(lines).map(str::to_owned).collect();
    head.push("reason".to_owned());
    let mut text = head.join(",") + "\n";
    for row in rows {
        let mut cells = vec![field(&row.path.display().to_string())];
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
