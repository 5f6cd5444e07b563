//! What a job card says in either language is what its goals ask: every figure of a step's "done when" is a limit of its goal, and
//! every limit that a learner can read stands there.

use lowside_lessons::{JobCard, Step, library};
use lowside_session::predicate::{Predicate, Reading, STEP, Test};
use lowside_shop::{conversion::LABEL, detect::PROVING};
use lowside_units::{
    AbsolutePressure, Duration, GaugePressure, Mass, MassFlow, Quantity, Ratio, RotationSpeed,
    Temperature, TemperatureDifference, Volume,
};

/// A number as it is written, with what it counts; `years` for grams a year.
#[derive(Debug, Clone, PartialEq)]
struct Figure {
    number: f64,
    /// As far as it may be off: half of the last digit that is written, tens from a hundred on.
    off: f64,
    unit: &'static str,
}

/// Units as cards write them, longest first, and as text of a quantity.
const UNITS: [(&str, &str); 19] = [
    ("g a year", "g/yr"),
    ("g al año", "g/yr"),
    ("micrones", "micron"),
    ("micron", "micron"),
    ("minutes", "min"),
    ("minutos", "min"),
    ("minute", "min"),
    ("minuto", "min"),
    ("fl oz", "fl oz"),
    ("rpm", "rpm"),
    ("psi", "psig"),
    ("kPa", "kPag"),
    ("oz", "oz"),
    ("kg", "kg"),
    ("mg", "mg"),
    ("°C", "degC"),
    ("°F", "degF"),
    ("g", "g"),
    ("%", "%"),
];

const WORDS: [(&str, &str); 6] = [
    ("eight minutes", "8 minutes"),
    ("ocho minutos", "8 minutos"),
    ("three minutes", "3 minutes"),
    ("tres minutos", "3 minutos"),
    ("a minute", "1 minute"),
    ("un minuto", "1 minuto"),
];

fn plain(text: &str) -> String {
    let mut text = text.replace('\u{a0}', " ");
    for (word, number) in WORDS {
        text = text.replace(word, number);
    }
    // 1 020 is one number
    let chars: Vec<char> = text.chars().collect();
    let digit = |i: usize| chars.get(i).is_some_and(char::is_ascii_digit);
    let joins = |i: usize| {
        chars[i] == ' ' && i > 0 && digit(i - 1) && (1..=3).all(|n| digit(i + n)) && !digit(i + 4)
    };
    (0..chars.len())
        .filter(|i| !joins(*i))
        .map(|i| chars[i])
        .collect()
}

fn figures(text: &str) -> Vec<Figure> {
    let text = plain(text);
    let mut found = Vec::new();
    let mut rest = text.as_str();
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        // R-134a and R-12 are names
        let name = rest[..at].ends_with("R-");
        let end = rest[at..]
            .find(|c: char| !c.is_ascii_digit() && c != '.')
            .map_or(rest.len(), |n| at + n);
        let digits = rest[at..end].trim_end_matches('.');
        rest = &rest[end..];
        if name {
            continue;
        }
        let number: f64 = digits.parse().unwrap_or_else(|_| panic!("{digits}"));
        let decimals = digits.split_once('.').map_or(0, |(_, d)| d.len());
        let mut off = 0.5 * 0.1_f64.powi(i32::try_from(decimals).expect("few"));
        if number >= 100.0 && digits.ends_with('0') && decimals == 0 {
            off = 5.0;
        }
        // of "7 to 9 fl oz" the first has the second's unit
        let after = rest.trim_start();
        let after = ["to ", "a ", "and ", "y "]
            .iter()
            .filter_map(|w| after.strip_prefix(w))
            .find(|t| t.starts_with(|c: char| c.is_ascii_digit()))
            .map_or(after, |t| {
                t.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.')
            })
            .trim_start();
        let unit = UNITS.iter().find(|(w, _)| after.starts_with(w));
        let unit = if after.starts_with("K ") {
            Some("K")
        } else {
            unit.map(|(_, u)| *u)
        };
        let unit = unit.unwrap_or_else(|| panic!("\"{text}\": {digits} has no unit"));
        found.push(Figure { number, off, unit });
    }
    found
}

/// The value of a number of this unit, SI.
fn si(number: f64, unit: &str) -> f64 {
    let text = format!("{number} {unit}");
    let value = match unit {
        "g/yr" => MassFlow::parse(&text).map(Quantity::si),
        "micron" => AbsolutePressure::parse(&text).map(Quantity::si),
        "min" => Duration::parse(&text).map(Quantity::si),
        "fl oz" => Volume::parse(&text).map(Quantity::si),
        "rpm" => RotationSpeed::parse(&text).map(Quantity::si),
        "psig" | "kPag" => GaugePressure::parse(&text).map(Quantity::si),
        "oz" | "kg" | "mg" | "g" => Mass::parse(&text).map(Quantity::si),
        "degC" | "degF" => Temperature::parse(&text).map(Quantity::si),
        "K" => TemperatureDifference::parse(&text).map(Quantity::si),
        "%" => Ratio::parse(&text).map(Quantity::si),
        other => panic!("{other}"),
    };
    value.unwrap_or_else(|e| panic!("{text}: {e}"))
}

/// Does a figure say this value (SI)?
fn says(figure: &Figure, value: f64) -> bool {
    let (none, one) = (si(0.0, figure.unit), si(1.0, figure.unit));
    ((value - none) / (one - none) - figure.number).abs() <= figure.off * (1.0 + 1e-9)
}

fn limit(condition: &Predicate) -> Option<f64> {
    match condition.test {
        Test::Below(x) | Test::Above(x) => Some(x),
        Test::Is(_) => None,
    }
}

/// Both limits of the charge, where a step has them.
fn charge(step: &Step) -> Option<(f64, f64)> {
    let of = |above: bool| {
        step.goal.iter().find_map(|c| match c.test {
            Test::Above(x) if above && c.reading == Reading::Charge => Some(x),
            Test::Below(x) if !above && c.reading == Reading::Charge => Some(x),
            _ => None,
        })
    };
    Some((of(true)?, of(false)?))
}

/// What a step may say beside its goal's limits: where a switch has a limit of its own, and the conditions of the test.
fn besides(card: &JobCard, step: &Step) -> Vec<(f64, &'static [&'static str])> {
    let mut all: Vec<(f64, &[&str])> = vec![
        (card.scenario.day.ambient.si(), &["degC", "degF"]),
        (card.scenario.engine.speed.si(), &["rpm"]),
        (step.hold.si(), &["min"]),
    ];
    for condition in &step.goal {
        match condition.reading {
            Reading::ConversionInOrder => all.push((LABEL, &["oz", "g"])),
            Reading::RepairsCleared => all.push((PROVING, &["psig", "kPag"])),
            Reading::ColdAtOrifice => all.push((STEP, &["K"])),
            _ => {}
        }
    }
    all
}

/// Limits that no instrument shows, or that the step says in other words.
fn unseen(step: &Step, condition: &Predicate) -> bool {
    match condition.reading {
        Reading::Air | Reading::SuctionLiquid => true,
        // "stays in vacuum", "the low gauge rises"
        Reading::Charge => charge(step).is_none(),
        _ => false,
    }
}

fn held_to_its_text(card: &JobCard, name: &str, step: &Step, text: &str) {
    let all = figures(text);
    let within = text.contains("within") || text.contains("tolerancia");
    let middle = charge(step).filter(|_| within);
    let said: Vec<f64> = match middle {
        Some((lo, hi)) => vec![f64::midpoint(lo, hi), 0.5 * (hi - lo)],
        None => step.goal.iter().filter_map(limit).collect(),
    };
    let besides = besides(card, step);
    for figure in &all {
        let known = said.iter().any(|x| says(figure, *x))
            || besides
                .iter()
                .any(|(x, units)| units.contains(&figure.unit) && says(figure, *x))
            // 15 K are 27 Fahrenheit degrees
            || (figure.unit == "degF" && figure.number.to_bits() == (STEP * 1.8).to_bits());
        assert!(
            known,
            "{name}: \"{text}\" says {figure:?}, the goal does not"
        );
    }
    if let Some((lo, hi)) = middle {
        for x in [f64::midpoint(lo, hi), 0.5 * (hi - lo)] {
            assert!(
                all.iter().any(|f| says(f, x)),
                "{name}: \"{text}\" does not say {x} kg"
            );
        }
    }
    for condition in step.goal.iter().filter(|c| !unseen(step, c)) {
        let Some(x) = limit(condition) else { continue };
        let told = (middle.is_some() && condition.reading == Reading::Charge)
            || all.iter().any(|f| says(f, x));
        assert!(told, "{name}: \"{text}\" does not say {condition}");
    }
    let held = step.hold.si() <= 0.0
        || all
            .iter()
            .any(|f| f.unit == "min" && says(f, step.hold.si()));
    assert!(held, "{name}: \"{text}\" does not say for how long");
}

#[test]
fn a_goal_asks_what_its_text_says() {
    for name in library::names() {
        let card = library::card(name).unwrap_or_else(|| panic!("{name} reads"));
        for step in &card.step {
            for text in [&step.accept.en, &step.accept.es] {
                held_to_its_text(&card, name, step, text);
            }
        }
        for harm in &card.harm {
            let vented = harm.when.iter().find(|c| c.reading == Reading::Vented);
            let Some(x) = vented.and_then(limit) else {
                continue;
            };
            for text in [&harm.title.en, &harm.title.es] {
                let all = figures(text);
                assert_eq!(all.len(), 2, "{name}: \"{text}\"");
                assert!(
                    all.iter().all(|f| says(f, x)),
                    "{name}: \"{text}\" is not {x} kg"
                );
            }
        }
    }
}

/// By hand: 36 oz within 2 oz is 964 to 1077 g.
#[test]
fn figures_are_read_as_they_are_written() {
    let all = figures(
        "36\u{a0}oz (1\u{a0}020\u{a0}g) of R-134a, 7 to 9\u{a0}fl\u{a0}oz, for eight minutes",
    );
    let read: Vec<(f64, &str)> = all.iter().map(|f| (f.number, f.unit)).collect();
    let wanted = [
        (36.0, "oz"),
        (1020.0, "g"),
        (7.0, "fl oz"),
        (9.0, "fl oz"),
        (8.0, "min"),
    ];
    assert_eq!(read, wanted);
    let figure = |text: &str| figures(text).remove(0);
    assert!(says(&figure("36 oz"), 1.0206) && !says(&figure("36 oz"), 1.06));
    assert!(says(&figure("964 g"), si(34.0, "oz")) && says(&figure("1 077 g"), si(38.0, "oz")));
}
