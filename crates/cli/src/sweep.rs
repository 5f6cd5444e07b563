//! `lowside sweep`: runs a scenario over values of its fields, on all cores, a share of it if asked, and goes on where it was stopped.

use crate::{failure::Failure, files, open, text::quoted, time};
use lowside_lessons::draw::Draw;
use lowside_session::{Bay, Scenario, script::Player, summary::Window};
use std::{
    collections::BTreeMap,
    fs,
    io::{IsTerminal, Write, stderr},
    path::PathBuf,
    sync::{
        Mutex, PoisonError,
        atomic::{AtomicUsize, Ordering},
    },
    thread,
};

/// Most runs of a sweep.
const MOST: usize = 1_000_000;
/// Largest table that is gone on with.
const LARGEST: usize = 512 * 1024 * 1024;

/// Run a scenario over values of its fields and write a table, comma-separated, a row a run.
///
/// Several --vary are combined, each value of one with each of the others. The rows are the same on however many machines they are
/// made: --shard 2/8 makes every eighth from the second on, and the shards' rows put together by their first column are the whole.
#[derive(Debug, clap::Args)]
pub(crate) struct Args {
    /// Name of a shipped scenario or path of a TOML file.
    scenario: PathBuf,
    /// Values of a field: KEY=a,b,c, or KEY=from..to:step with a unit, e.g. day.ambient=20..40:5degC. May be repeated.
    #[arg(long, value_name = "KEY=VALUES")]
    vary: Vec<String>,
    /// Set a field for all runs. May be repeated.
    #[arg(long, value_name = "PATH=VALUE")]
    set: Vec<String>,
    /// Repeat each with so many vehicles of its kind, drawn by seeds from 1.
    #[arg(long, value_name = "N", default_value_t = 0)]
    seeds: u64,
    /// How long each runs; the scenario's own `until` when left out.
    #[arg(long, value_name = "TIME")]
    until: Option<String>,
    /// Which share of the runs, from 1, of how many.
    #[arg(long, value_name = "I/N", default_value = "1/1", value_parser = shard)]
    shard: (usize, usize),
    /// The table. If it holds rows of the same sweep, they are kept and the rest is run.
    #[arg(short, long, value_name = "FILE.csv")]
    output: PathBuf,
}

fn shard(text: &str) -> Result<(usize, usize), String> {
    let parts = text
        .split_once('/')
        .and_then(|(i, n)| Some((i.parse().ok()?, n.parse().ok()?)));
    parts
        .filter(|(i, n)| (1..=*n).contains(i))
        .ok_or_else(|| "it is a share of a number of shares, such as 2/8".to_owned())
}

/// One field and its values, as overrides have them.
struct Axis {
    key: String,
    values: Vec<String>,
}

/// Runs what is missing of the share and writes it in order.
///
/// # Errors
/// [`Failure::Asked`] naming the option, the field and what is allowed; [`Failure::Output`].
pub(crate) fn run(args: &Args, out: &mut impl Write) -> Result<(), Failure> {
    let axes = args
        .vary
        .iter()
        .map(|text| axis(text))
        .collect::<Result<Vec<_>, _>>()?;
    let seeds = usize::try_from(args.seeds.max(1)).unwrap_or(MOST);
    let all = axes
        .iter()
        .map(|a| a.values.len())
        .try_fold(seeds, usize::checked_mul);
    let all = all.filter(|n| *n <= MOST).ok_or_else(|| {
        Failure::Asked(format!(
            "--vary: more than {MOST} runs, the most a sweep may have"
        ))
    })?;
    let (share, of) = args.shard;
    let mine: Vec<usize> = (share - 1..all).step_by(of).collect();
    // A value that is refused is told before anything is run.
    for &n in &mine {
        scenario(args, &axes, seeds, n)?;
    }
    let head = head(&axes);
    let kept = kept(args, &head, &mine)?;
    let mut file = files::create(&args.output)?;
    let unwritable = |e| files::unwritable(&args.output, &e);
    writeln!(file, "{head}").map_err(unwritable)?;
    for row in &kept {
        writeln!(file, "{row}").map_err(unwritable)?;
    }
    let left = &mine[kept.len()..];
    let written = rows(args, &axes, seeds, left, mine.len(), &mut |row| {
        writeln!(file, "{row}").and_then(|()| file.flush())
    });
    written.map_err(unwritable)?;
    writeln!(out, "{} runs, {} of them kept", mine.len(), kept.len())?;
    Ok(())
}

/// The rows that a table of the same sweep has already, up to the first that is missing or cut short.
fn kept(args: &Args, head: &str, mine: &[usize]) -> Result<Vec<String>, Failure> {
    if !fs::exists(&args.output).unwrap_or(false) {
        return Ok(Vec::new());
    }
    let text = files::read(&args.output, LARGEST, "a table")?;
    let mut lines = text.split_inclusive('\n');
    if lines.next().map(str::trim_end) != Some(head) {
        return Err(Failure::Asked(format!(
            "{}: is not a table of this sweep; name another, or remove it",
            args.output.display()
        )));
    }
    let whole =
        |(line, n): &(&str, &usize)| line.ends_with('\n') && line.starts_with(&format!("{n},"));
    let rows = lines.zip(mine).take_while(whole);
    Ok(rows.map(|(line, _)| line.trim_end().to_owned()).collect())
}

/// Runs on all cores and hands the rows over in their order.
fn rows(
    args: &Args,
    axes: &[Axis],
    seeds: usize,
    left: &[usize],
    of: usize,
    write: &mut (impl FnMut(&str) -> std::io::Result<()> + Send),
) -> std::io::Result<()> {
    let next = AtomicUsize::new(0);
    let done = Mutex::new((0, BTreeMap::new(), Ok(()), write));
    let cores = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        for _ in 0..cores.min(left.len()) {
            scope.spawn(|| {
                loop {
                    let k = next.fetch_add(1, Ordering::Relaxed);
                    let Some(&n) = left.get(k) else { return };
                    let row = one(args, axes, seeds, n);
                    let mut done = done.lock().unwrap_or_else(PoisonError::into_inner);
                    let (first, waiting, outcome, write) = &mut *done;
                    waiting.insert(k, row);
                    while let Some(row) = waiting.remove(first) {
                        if outcome.is_ok() {
                            *outcome = write(&row);
                        }
                        *first += 1;
                    }
                    if outcome.is_err() {
                        return;
                    }
                    progress(of - left.len() + *first, of);
                }
            });
        }
    });
    done.into_inner().unwrap_or_else(PoisonError::into_inner).2
}

fn progress(done: usize, of: usize) {
    if stderr().is_terminal() {
        let end = if done == of { "\n" } else { "" };
        drop(write!(stderr().lock(), "\r{done} of {of} runs{end}"));
    }
}

/// The scenario of a run: the last axis changes fastest, then the seed.
fn scenario(args: &Args, axes: &[Axis], seeds: usize, n: usize) -> Result<Scenario, Failure> {
    let mut overrides = args.set.clone();
    overrides.extend(args.until.iter().map(|t| format!("until={t}")));
    overrides.extend(
        axes.iter()
            .zip(values(axes, n / seeds))
            .map(|(axis, value)| format!("{}={value}", axis.key)),
    );
    let mut scenario = open::scenario(&args.scenario, &overrides)?;
    if args.seeds > 0 {
        let mut draw = Draw::new((n % seeds) as u64 + 1);
        scenario.scatter = draw.scatter(1.0);
    }
    Ok(scenario)
}

fn values(axes: &[Axis], mut n: usize) -> Vec<&str> {
    let mut chosen: Vec<&str> = Vec::with_capacity(axes.len());
    for axis in axes.iter().rev() {
        chosen.push(&axis.values[n % axis.values.len()]);
        n /= axis.values.len();
    }
    chosen.reverse();
    chosen
}

fn head(axes: &[Axis]) -> String {
    let names = [
        "seconds",
        "low_kPa_abs",
        "high_kPa_abs",
        "vent_degC",
        "clutch_duty",
        "clutch_cycles",
        "superheat_K",
        "subcooling_K",
        "discharge_degC",
        "capacity_W",
        "shaft_W",
        "accumulator_level",
        "suction_liquid",
        "refrigerant_kg",
        "state_hash",
        "ended",
    ];
    let keys = axes.iter().map(|axis| axis.key.as_str());
    let all: Vec<&str> = ["run", "seed"]
        .into_iter()
        .chain(keys)
        .chain(names)
        .collect();
    all.join(",")
}

/// Plays one and says where it ended, in a row.
fn one(args: &Args, axes: &[Axis], seeds: usize, n: usize) -> String {
    let mut cells = vec![n.to_string()];
    cells.push(if args.seeds > 0 {
        (n % seeds + 1).to_string()
    } else {
        String::new()
    });
    cells.extend(values(axes, n / seeds).into_iter().map(str::to_owned));
    match scenario(args, axes, seeds, n) {
        Err(e) => {
            cells.resize(2 + axes.len() + 15, String::new());
            cells.push(format!("\"{}\"", e.to_string().replace('"', "'")));
        }
        Ok(scenario) => {
            let (bay, window, ended) = play(&scenario);
            let s = window.summary(&bay);
            let mean = |x: Option<f64>, now: f64| format!("{:.3}", x.unwrap_or(now));
            cells.push(format!("{:.2}", s.t_s));
            cells.push(mean(s.low_kPa_abs_clutch_on_mean, s.low_kPa_abs));
            cells.push(mean(s.high_kPa_abs_clutch_on_mean, s.high_kPa_abs));
            let numbers = [
                s.vent_degC_mean,
                s.clutch_duty,
                f64::from(s.clutch_cycles),
                s.superheat_K,
                s.subcooling_K,
                s.discharge_degC,
                s.capacity_W,
                s.shaft_W,
                s.accumulator_level,
                s.suction_liquid,
                s.refrigerant_kg,
            ];
            cells.extend(numbers.map(|x| format!("{x:.4}")));
            cells.push(s.state_hash);
            cells.push(ended);
        }
    }
    cells.join(",")
}

/// Plays a scenario to its end, or as far as it comes; what stopped it is told.
fn play(scenario: &Scenario) -> (Bay, Window, String) {
    let mut bay = Bay::new(scenario);
    let mut player = Player::new(&scenario.act);
    let mut window = Window::default();
    let end = time::ticks(scenario.until);
    let mut ended = "end".to_owned();
    while bay.tick() < end {
        if let Err((index, why)) = player.play(&mut bay) {
            ended = format!("\"act {}: {why}\"", index + 1).replace(['\n', '\r'], " ");
            break;
        }
        if let Err(why) = bay.step() {
            ended = format!("\"halted: {why}\"");
            break;
        }
        window.take(&bay);
    }
    (bay, window, ended)
}

/// Reads one --vary.
fn axis(text: &str) -> Result<Axis, Failure> {
    let wrong = |what: &str| Failure::Asked(format!("--vary: {}: {what}", quoted(text)));
    let (key, values) = text
        .split_once('=')
        .ok_or_else(|| wrong("it is KEY=a,b,c or KEY=from..to:step"))?;
    let values = match values.split_once("..") {
        None => values.split(',').map(|v| v.trim().to_owned()).collect(),
        Some((from, rest)) => range(from, rest).ok_or_else(|| {
            wrong("a range is from..to:step with a step above zero, such as 20..40:5degC")
        })?,
    };
    if values.iter().any(String::is_empty) {
        return Err(wrong("a value is missing"));
    }
    let key = key.trim().to_owned();
    Ok(Axis { key, values })
}

/// The values of a range; what follows the step's number is the unit of all.
fn range(from: &str, rest: &str) -> Option<Vec<String>> {
    let (to, step) = rest.split_once(':')?;
    let digits = step.find(|c: char| !(c.is_ascii_digit() || "+-.eE".contains(c)));
    let (step, unit) = step.split_at(digits.unwrap_or(step.len()));
    let number = |text: &str| text.trim().parse::<f64>().ok().filter(|x| x.is_finite());
    let (from, to, step) = (number(from)?, number(to)?, number(step)?);
    let count = ((to - from) / step + 1e-9).floor();
    if !(step > 0.0 && (0.0..MOST as f64).contains(&count)) {
        return None;
    }
    let mut values = Vec::new();
    let mut k = 0.0;
    while k <= count {
        // As many decimals as the step needs, so that 0.1 three times over is 0.3.
        values.push(format!("{}{unit}", ((from + k * step) * 1e9).round() / 1e9));
        k += 1.0;
    }
    Some(values)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_has_both_ends_and_its_unit() {
        let axis = axis("day.ambient=20..35:5degC").expect("a range");
        assert_eq!(axis.key, "day.ambient");
        assert_eq!(axis.values, ["20degC", "25degC", "30degC", "35degC"]);
        let shares = super::axis("condition.condenser_air=0.1..0.3:0.1").expect("a range");
        assert_eq!(shares.values, ["0.1", "0.2", "0.3"]);
        for wrong in ["a", "a=1..2", "a=2..1:1", "a=1..2:0", "a=1,,2", "a=1..2:-1"] {
            assert!(super::axis(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn each_run_has_its_values() {
        let axes = [
            axis("a=1,2").expect("values"),
            axis("b=x,y,z").expect("values"),
        ];
        let all: Vec<String> = (0..6).map(|n| values(&axes, n).join("")).collect();
        assert_eq!(all, ["1x", "1y", "1z", "2x", "2y", "2z"]);
    }
}
