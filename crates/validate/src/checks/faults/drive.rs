//! The compressor worn out, a weak clutch, an engine that overheats, too much oil: what grows from step to step.

use lowside_session::{Event, TICKS_PER_SECOND};

use super::{IDLE, PRACTICE, Sweep, at, list, plots, rises, rising, sweep, values, with};
use crate::{
    check::{Check, Finding},
    error::Error,
    run::{Run, Runs},
};

/// Minutes after which an event came first, infinite where it did not.
fn first(run: &Run, event: Event) -> f64 {
    let found = run.bay.events().iter().find(|(_, e)| *e == event);
    found.map_or(f64::INFINITY, |(tick, _)| {
        *tick as f64 / (60 * TICKS_PER_SECOND) as f64
    })
}

/// Values of a sweep the other way round.
fn back(sweep: &Sweep, of: fn(&Run) -> f64) -> Vec<f64> {
    let mut v = values(sweep, of);
    v.reverse();
    v
}

/// Low side high, high side low, nearly equal; the shaft takes no more for it.
pub(super) fn worn_out(runs: &Runs) -> Result<Vec<Check>, Error> {
    let shares = [0.0, 15.0, 30.0, 45.0, 60.0, 80.0, 100.0];
    let s = sweep(runs, &shares, |v| {
        vec![
            IDLE.into(),
            "day.ambient=27degC".into(),
            "until=20min".into(),
            with("condition.compressor_wear", v, "%"),
        ]
    })?;
    let mut check = Check::new(
        "Worn compressor, 0 to 100 % (idle, 27 degC)",
        "Worn out: low side high, high side low, nearly equal, the vent warm, the discharge line hot; the shaft takes no more than a \
         sound one's. Every step of wear shows more.",
        PRACTICE,
    );
    check.tuned = "size of the leak of a compressor that is worn out".into();
    for (what, values, slack, unit) in [
        ("low side rises", values(&s, |r| r.on.low), 0.0, "kPa"),
        ("high side falls", back(&s, |r| r.on.high), 0.0, "kPa"),
        ("vent warms", values(&s, |r| r.all.vent), 0.0, "K"),
    ] {
        check.find(rising(what, &values, slack, unit));
    }
    let worst = |of: fn(&Run) -> f64| at(&s, 100.0, of);
    check.find(Finding::within(
        "worn out: high side over low side",
        worst(|r| r.on.high) - worst(|r| r.on.low),
        200.0,
        550.0,
        "kPa",
        0,
    ));
    let shaft = values(&s, |r| r.summary.shaft_W);
    check.find(Finding::holds(
        "shaft power",
        list(&shaft, 0),
        "at most 5 % above a sound one's, never below two thirds; less when worn out",
        shaft
            .iter()
            .all(|w| (0.67..=1.05).contains(&(w / shaft[0])))
            && shaft[6] < shaft[0],
    ));
    check.find(Finding::holds(
        "worn out: discharge line",
        format!("{:.0} degC", worst(|r| r.on.discharge)),
        "at least 20 K hotter than a sound one's",
        worst(|r| r.on.discharge) > at(&s, 0.0, |r| r.on.discharge) + 20.0,
    ));
    check.plots = plots(&s, "Wear at idle", "wear, %");
    Ok(vec![check])
}

/// Holds cool, slips hot: the sooner the weaker and the hotter the day.
pub(super) fn clutch(runs: &Runs) -> Result<Vec<Check>, Error> {
    let holds = [30.0, 35.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0];
    let mut check = Check::new(
        "Weak clutch, 30 to 100 % of its torque (1 500 rpm, 20 min)",
        "A weak clutch holds while it is cool and lets go when it is hot and the head high: the sooner the weaker it is and the hotter the \
         day. What slips smells within minutes. A sound one holds on the hottest day.",
        PRACTICE,
    );
    let mut mid = Vec::new();
    for day in [27.0, 38.0, 43.0] {
        let s = sweep(runs, &holds, |v| {
            vec![
                "until=20min".into(),
                with("day.ambient", day, "degC"),
                with("condition.clutch_hold", v, "%"),
            ]
        })?;
        let smells = values(&s, |r| first(r, Event::ClutchSmells));
        check.find(Finding::holds(
            format!("{day:.0} degC: minutes until it smells"),
            list(&smells, 1),
            "never for 70 % and more; within 10 min at 30 %; at least two steps between at once and never",
            smells[5..].iter().all(|m| m.is_infinite()) && smells[0] < 10.0 && {
                let late = smells.iter().filter(|m| m.is_finite()).count();
                late >= 2
            },
        ));
        mid.push(at(&s, 40.0, |r| first(r, Event::ClutchSmells)));
    }
    mid.reverse();
    check.find(Finding::holds(
        "40 %: minutes until it smells at 43, 38, 27 degC",
        list(&mid, 1),
        "later on a milder day",
        rises(&mid, 0.0),
    ));
    Ok(vec![check])
}

/// A radiator that lets little through: gauge, steam, and an engine that stops.
pub(super) fn radiator(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Blocked radiator (1 500 rpm, 35 degC, 40 min)",
        "The gauge goes into the red before the coolant boils, the coolant boils before the engine stops, within an hour; a sound one does \
         none of it. The cars' control lets the clutch go, the van has none.",
        PRACTICE,
    );
    for vehicle in ["healthy", "healthy-compact"] {
        let run = runs.play(vehicle, &["condition.radiator=5%", "until=40min"], &[])?;
        let told = [Event::GaugeRed, Event::CoolantBoils, Event::EngineStalled];
        let minutes = told.map(|e| first(&run, e));
        let control = first(&run, Event::EngineTooHot);
        check.find(Finding::holds(
            format!("{vehicle}: red, boils, stops; clutch let go"),
            format!("{}; {control:.1} min", list(&minutes, 1)),
            "in this order, the first two within 20 min; clutch let go in the car alone",
            minutes.is_sorted()
                && minutes[1] < 20.0
                && control.is_finite() == (vehicle != "healthy"),
        ));
        let sound = runs.play(vehicle, &["until=40min"], &[])?;
        check.find(Finding::holds(
            format!("{vehicle}, sound radiator"),
            format!("{:.1} min", first(&sound, Event::GaugeRed)),
            "never in the red",
            first(&sound, Event::GaugeRed).is_infinite(),
        ));
    }
    Ok(vec![check])
}

/// Share of a coil's work that each percent of oil in the flow costs at most.
const LOST_A_PERCENT: f64 = 0.02;
const OIL_SOURCE: &str = "fault table of common practice, no source; measurements of loops with oil lose 5 to 10 % of their capacity with 5 % of oil in circulation (from memory)";
const BY_CIRCULATION: &str = "The surplus lies in the accumulator, and its bleed hole fixes what goes round: twice the oil is twice the share of the flow at \
                              the most. Each percent costs 1 to 2 % of the coil's work, some 0.5 K: several kelvins need 5 % and more.";

/// Too much oil warms the vent.
pub(super) fn oil(runs: &Runs) -> Result<Vec<Check>, Error> {
    let shares = [60.0, 100.0, 150.0, 200.0, 250.0, 300.0];
    let s = sweep(runs, &shares, |v| {
        vec![
            "day.ambient=38degC".into(),
            "until=30min".into(),
            with("start.oil", 2.37 * v, "g"),
        ]
    })?;
    let mut check = Check::new(
        "Oil, 60 to 300 % (1 500 rpm, 38 degC)",
        "Each surplus warms the vent more, by no more than what goes round can: 2 % of the coil's work for each percent of oil in the flow.",
        OIL_SOURCE,
    );
    check.find(rising(
        "vent rises with oil",
        &values(&s, |r| r.all.vent),
        0.0,
        "K",
    ));
    let over = |v| at(&s, v, |r| r.all.vent) - at(&s, 100.0, |r| r.all.vent);
    for (what, share) in [("twice", 200.0), ("three times", 300.0)] {
        let percent = 100.0 * (at(&s, share, |r| r.on.oil) - at(&s, 100.0, |r| r.on.oil));
        let drop = at(&s, 100.0, |r| r.all.cabin - r.all.vent);
        let most = LOST_A_PERCENT * percent * drop;
        let asked =
            format!("more than 0, at most {most:.1} K with {percent:.1} % more oil going round");
        check.find(
            Finding::holds(
                format!("{what} the oil: vent"),
                format!("{:+.2} K", over(share)),
                asked,
                over(share) > 0.0 && over(share) <= most,
            )
            .instead_of(
                "several kelvins with twice the oil, 1.5 to 5.0",
                BY_CIRCULATION,
            ),
        );
    }
    check.plots = plots(&s, "Oil", "oil, % of the label's");
    Ok(vec![check])
}
