//! How likely each suspect is after each reading.

use lowside_shop::fault::{Fault, Severity};

use super::{Case, Read, Run, Trace, root::Root};

/// A suspect.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Standing {
    /// The fault; none where nothing is wrong.
    pub fault: Option<&'static Fault>,
    /// The severity that fits best.
    pub severity: Option<Severity>,
    /// How likely it is, 0 to 1.
    pub likely: f64,
}

/// How likely each suspect is, after each reading.
#[derive(Debug, Clone, PartialEq)]
pub struct Odds {
    /// Before any reading, then after each: the suspects, the likeliest first.
    pub after: Vec<Vec<Standing>>,
}

/// Degrees of freedom of the likelihood: its tails are those of Student's distribution, so that no single reading settles a case (own figure,
/// not tuned).
const FREEDOM: f64 = 5.0;
/// Places between two severities at which a fault is looked at.
const STEPS: usize = 4;
/// Share of the difference between two severities by which what lies between them may be off the straight line (own figure).
const BEND: f64 = 0.15;
/// How likely it is before any reading that nothing is wrong, against one fault (own figure).
const NOTHING: f64 = 2.0;
/// Share of the sample's covariance of scattered vehicles that is kept off its diagonal: a dozen vehicles make correlations that are not there
/// (own figure).
const SHRINK: f64 = 0.8;
/// Rise of the variances of scattered vehicles for the few that were drawn (own figure).
const FEW: f64 = 1.3;

/// One place on a suspect's path.
struct Place {
    severity: Option<Severity>,
    values: Vec<Option<f64>>,
    /// From one severity to the next, whose bend adds to the doubt.
    bend: Vec<f64>,
}

impl Odds {
    /// Judges a case by the bays that were run for it. Suspects of which no bay was run are left out.
    pub fn of(case: &Case, runs: &[(Run, Trace)]) -> Self {
        let evidence = &case.evidence().read;
        let find = |wanted: Run| {
            let found = runs.iter().find(|(run, _)| *run == wanted);
            found.map(|(_, trace)| values(trace))
        };
        let sound = find(Run::Sound).unwrap_or_default();
        let scattered: Vec<Vec<Option<f64>>> = runs
            .iter()
            .filter(|(run, _)| matches!(run, Run::Scattered(_)))
            .map(|(_, trace)| values(trace))
            .collect();
        let base = covariance(evidence, &scattered);
        let mut suspects: Vec<(Option<&'static Fault>, f64, Vec<Place>)> = Vec::new();
        let none = Place {
            severity: None,
            bend: vec![0.0; evidence.len()],
            values: sound.clone(),
        };
        suspects.push((None, NOTHING, vec![none]));
        for fault in Case::suspects() {
            let traces: Vec<(Severity, Vec<Option<f64>>)> = Severity::ALL
                .into_iter()
                .filter_map(|s| Some((s, find(Run::Faulty(fault, s))?)))
                .collect();
            if !traces.is_empty() {
                let graded = Case::severities(fault).count() > 1;
                suspects.push((Some(fault), 1.0, path(&sound, &traces, graded)));
            }
        }
        let readings = evidence.last().map_or(0, |read| read.reading + 1);
        let mut logs: Vec<Vec<(f64, Option<Severity>)>> = Vec::new();
        for (_, prior, places) in &suspects {
            logs.push(likelihoods(evidence, &base, places, readings, *prior));
        }
        let after = (0..=readings).map(|n| {
            let most = logs
                .iter()
                .map(|l| l[n].0)
                .fold(f64::NEG_INFINITY, f64::max);
            let sum: f64 = logs.iter().map(|l| libm::exp(l[n].0 - most)).sum();
            let mut standings: Vec<Standing> = suspects
                .iter()
                .zip(&logs)
                .map(|((fault, _, _), log)| Standing {
                    fault: *fault,
                    severity: log[n].1,
                    likely: libm::exp(log[n].0 - most) / sum,
                })
                .collect();
            standings.sort_by(|a, b| b.likely.total_cmp(&a.likely));
            standings
        });
        Self {
            after: after.collect(),
        }
    }

    /// The suspects after all readings, the likeliest first.
    pub fn last(&self) -> &[Standing] {
        self.after.last().map_or(&[], Vec::as_slice)
    }
}

fn values(trace: &Trace) -> Vec<Option<f64>> {
    trace.read.iter().map(|read| read.value).collect()
}

/// The way from a sound vehicle by each severity to the next. What is less than half as wrong as slight is nobody's fault; beyond the last
/// severity that was run it goes on as it came, unless it is the last there is.
fn path(
    sound: &[Option<f64>],
    traces: &[(Severity, Vec<Option<f64>>)],
    graded: bool,
) -> Vec<Place> {
    let mut places = Vec::new();
    let mut from: &[Option<f64>] = sound;
    for (n, (severity, to)) in traces.iter().enumerate() {
        let first = match (graded, n) {
            (false, _) => STEPS,
            (true, 0) => STEPS / 2,
            (true, _) => 1,
        };
        let end = n + 1 == traces.len() && graded && *severity != Severity::Extreme;
        let last = if end { STEPS + STEPS / 2 } else { STEPS };
        places.extend((first..=last).map(|step| Place::between(from, to, step, *severity)));
        from = to;
    }
    places
}

impl Place {
    /// So many steps from one severity towards the next.
    fn between(from: &[Option<f64>], to: &[Option<f64>], step: usize, severity: Severity) -> Self {
        let t = step as f64 / STEPS as f64;
        let bend = if step == STEPS { 0.0 } else { BEND };
        let (values, bend) = from
            .iter()
            .zip(to)
            .map(|(a, b)| match (*a, *b) {
                (Some(a), Some(b)) => (Some(a + t * (b - a)), bend * (b - a)),
                (a, b) => (if t < 0.5 { a } else { b }, 0.0),
            })
            .unzip();
        Self {
            severity: Some(severity),
            values,
            bend,
        }
    }
}

/// What is uncertain of the readings whatever is wrong: instruments, and how sound vehicles differ. Lower triangle.
fn covariance(evidence: &[Read], scattered: &[Vec<Option<f64>>]) -> Vec<Vec<f64>> {
    let n = evidence.len();
    let column = |i: usize| -> Vec<Option<f64>> { scattered.iter().map(|t| t[i]).collect() };
    let columns: Vec<Vec<Option<f64>>> = (0..n).map(column).collect();
    let means: Vec<f64> = columns.iter().map(|c| mean(c)).collect();
    let mut rows = Vec::with_capacity(n);
    for i in 0..n {
        let doubt = evidence[i].channel.doubt();
        let mut row = Vec::with_capacity(i + 1);
        for j in 0..=i {
            let products = columns[i]
                .iter()
                .zip(&columns[j])
                .filter_map(|(a, b)| Some(((*a)? - means[i]) * ((*b)? - means[j])));
            let (sum, count) = products.fold((0.0, 0.0), |(s, c), x| (s + x, c + 1.0));
            let mut c = FEW * sum / f64::max(count - 1.0, 1.0);
            if j < i {
                c *= SHRINK;
            } else {
                c += doubt.own * doubt.own;
            }
            if evidence[i].channel.same_instrument(evidence[j].channel) {
                c += doubt.shared * doubt.shared;
            }
            row.push(c);
        }
        rows.push(row);
    }
    rows
}

fn mean(values: &[Option<f64>]) -> f64 {
    let given = values.iter().flatten();
    let (sum, count) = given.fold((0.0, 0.0), |(s, c), x| (s + x, c + 1.0));
    sum / f64::max(count, 1.0)
}

/// Logarithm of how likely a suspect is, before any reading and after each, not normalised, and the severity that fits best.
fn likelihoods(
    evidence: &[Read],
    base: &[Vec<f64>],
    places: &[Place],
    readings: usize,
    prior: f64,
) -> Vec<(f64, Option<Severity>)> {
    let each: Vec<Vec<f64>> = places
        .iter()
        .map(|place| at_place(evidence, base, place, readings))
        .collect();
    (0..=readings)
        .map(|n| {
            let best = each
                .iter()
                .zip(places)
                .max_by(|a, b| a.0[n].total_cmp(&b.0[n]));
            let most = best.map_or(0.0, |(log, _)| log[n]);
            let sum: f64 = each.iter().map(|log| libm::exp(log[n] - most)).sum();
            let log = most + libm::log(prior * sum / each.len() as f64);
            (log, best.and_then(|(_, place)| place.severity))
        })
        .collect()
}

/// Logarithm of Student's density of the readings at a place, before any and after each, as far as it differs between suspects.
fn at_place(evidence: &[Read], base: &[Vec<f64>], place: &Place, readings: usize) -> Vec<f64> {
    let mut rows = base.to_vec();
    let mut differences = Vec::with_capacity(evidence.len());
    for (i, read) in evidence.iter().enumerate() {
        let broad = read.channel.doubt().broad;
        let (difference, more) = match (read.value, place.values.get(i).copied().flatten()) {
            (Some(read), Some(said)) => (read - said, place.bend[i]),
            // Nothing could be read in one of them.
            (None, None) => (0.0, 0.0),
            _ => (2.0 * broad, broad),
        };
        rows[i][i] += more * more;
        differences.push(difference);
    }
    let distances = Root::of(rows).distances(&differences);
    let mut after = vec![0.0; readings + 1];
    for (read, (n, (square, log))) in evidence.iter().zip(distances.into_iter().enumerate()) {
        let numbers = (n + 1) as f64;
        after[read.reading + 1] = -log - 0.5 * (FREEDOM + numbers) * libm::log1p(square / FREEDOM);
    }
    after
}
