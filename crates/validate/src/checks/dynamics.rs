//! Things that take time: cooling down a hot van, equalising, the length of a step.

use lowside_plant::{
    network::{Heat, Law},
    plant::{Plant, TICK},
    species::REFRIGERANT,
};
use lowside_session::{Bay, TICKS_PER_SECOND, VehicleAct, greater};

use super::truths;
use crate::{
    Job,
    check::{Check, Finding},
    error::Error,
    plot::Plot,
    run::{Runs, scenario},
};

/// What fills the section.
pub const JOBS: &[Job] = &[pull_down, shut_down, freeze_up, step_size, tick_length];

fn pull_down(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Pull-down from a hot soak",
        "A van that stood in full sun (cabin 60 degC, day 35 degC), windows shut, recirculation, high blower, 1 500 rpm: the vent \
         falls by 20 K within 2 min, the cabin falls until the clutch first cycles and passes the day's temperature within 15 min; after half \
         an hour the cabin is below 28 degC.",
        "common practice, from memory; a large van on its own air conditioner is slow",
    );
    let run = runs.healthy(&[
        "start.cabin=60degC",
        "day.sun=100%",
        "controls.windows_open=false",
        "until=30min",
    ])?;
    let at = |t: f64| run.at(t).copied().unwrap_or_default();
    let first = at(1.0);
    check.find(Finding::holds(
        "vent after 2 min",
        format!("{:.1} degC, {:.1} at the start", at(120.0).vent, first.vent),
        "20 K lower",
        at(120.0).vent < first.vent - 20.0,
    ));
    let first_trip = run.trips.first().map_or(1800.0, |t| t.t);
    let minutes: Vec<f64> = (1..=30)
        .map(|m| f64::from(m) * 60.0)
        .filter(|t| *t < first_trip)
        .map(|t| at(t).cabin)
        .collect();
    check.find(Finding::holds(
        format!("cabin falls from minute to minute until {first_trip:.0} s"),
        super::list(&minutes, 1),
        "falling, slack 0.2 K",
        super::falls(&minutes, 0.2),
    ));
    let cool = run
        .samples
        .iter()
        .find(|s| s.cabin < 35.0)
        .map_or(f64::INFINITY, |s| s.t / 60.0);
    check.find(Finding::within(
        "cabin below the day's temperature after",
        cool,
        0.0,
        15.0,
        "min",
        1,
    ));
    check.find(Finding::within(
        "cabin after 30 min",
        run.last().cabin,
        10.0,
        28.0,
        "degC",
        1,
    ));
    check.tuned = super::healthy::tuned("utility-van");
    check.plots = vec![
        Plot::new("Pull-down: air", "time, s", "degC")
            .line("cabin", run.curve(|s| s.cabin))
            .line("vent", run.curve(|s| s.vent)),
        Plot::new("Pull-down: pressures", "time, s", "kPa gauge")
            .line("high side", run.curve(|s| s.high))
            .line("low side", run.curve(|s| s.low)),
    ];
    Ok(vec![check])
}

fn shut_down(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Shut-down",
        "After the engine stops, pressures come within 50 kPa in 25 to 60 s; liquid goes over from the high side to evaporator and \
         accumulator, nine tenths of it within 3 min; an hour and a half later, everything off, both sides stand at saturation at \
         the day's temperature (1 %).",
        "common practice; migration within 1-3 min from memory (the measurements of Peuker 2010 were not reachable); R-134a saturation",
    );
    let (run, seconds) = truths::equalise(runs, &[])?;
    check.find(
        Finding::within("pressures equal after", seconds, 25.0, 60.0, "s", 0)
            .instead_of(truths::MINUTES, truths::BY_BORE),
    );
    let since = |t: f64| run.at(300.0 + t).copied().unwrap_or_default();
    let gone = |t: f64| since(0.0).mass_high - since(t).mass_high;
    check.find(Finding::within(
        "share of the six-minute migration done after 3 min",
        100.0 * gone(180.0) / gone(355.0),
        90.0,
        110.0,
        "%",
        0,
    ));
    check.find(Finding::holds(
        "refrigerant gone over to the low side in 3 min",
        format!("{:.0} g", 1e3 * gone(180.0)),
        "more than 50 g",
        gone(180.0) > 0.05,
    ));
    let soaked = runs.play(
        "healthy",
        &["until=95min"],
        &[
            (300.0, VehicleAct::Engine { on: false }.into()),
            (300.0, VehicleAct::AirConditioning { on: false }.into()),
            (300.0, VehicleAct::Blower { step: 0 }.into()),
        ],
    )?;
    let saturation = lowside_fluids::Refrigerant::R134a.table().p_sat(308.15) / 1e3 - 101.325;
    for (side, p) in [("low", soaked.last().low), ("high", soaked.last().high)] {
        check.find(Finding::within(
            format!("{side} side after 90 min"),
            p,
            saturation * 0.99,
            saturation * 1.01,
            "kPag",
            1,
        ));
    }
    let after = |of: fn(&crate::run::Sample) -> f64| -> Vec<(f64, f64)> {
        run.curve(of)
            .into_iter()
            .filter(|p| p.0 >= 290.0)
            .map(|p| (p.0 - 300.0, p.1))
            .collect()
    };
    check.plots = vec![
        Plot::new("Shut-down: pressures", "time since, s", "kPa gauge")
            .line("high side", after(|s| s.high))
            .line("low side", after(|s| s.low)),
        Plot::new("Shut-down: where the refrigerant is", "time since, s", "g")
            .line("high side", after(|s| 1e3 * s.mass_high))
            .line("evaporator", after(|s| 1e3 * s.mass_evaporator))
            .line("accumulator", after(|s| 1e3 * s.mass_accumulator)),
        Plot::new("A soak of an hour and a half", "time, s", "kPa gauge")
            .line("high side", soaked.curve(|s| s.high))
            .line("low side", soaked.curve(|s| s.low)),
    ];
    Ok(vec![check])
}

/// Pressures of discharge line, accumulator and evaporator inlet after `seconds` at steps of `dt`, without heat, Pa.
fn coast(plant: &Plant, dt: f64, seconds: f64) -> Result<[f64; 3], Error> {
    let mut net = plant.network.clone();
    let heat = net.per_node(Heat::default());
    let mut t = 0.0;
    while t < seconds - 1e-9 {
        // Divided where much would flow, as the plant divides its tick.
        let parts = (net.courant(dt) / 0.5).ceil().clamp(1.0, 16.0);
        let mut done = 0.0;
        while done < parts {
            net.advance(dt / parts, &heat)?;
            done += 1.0;
        }
        t += dt;
    }
    let c = &plant.circuit;
    Ok([c.high_side(), c.low_side(), c.evaporator.inlet()].map(|i| net.node(i).state.p))
}

const STEPS: [f64; 6] = [0.08, 0.04, TICK, 0.01, 0.005, 0.0025];
/// The finest step, against which the others stand.
const FINE: f64 = 0.00125;

fn step_size(_: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Length of the step",
        "The network alone, from a running loop and without heat: 3 s with the compressor turning and 30 s after it stopped, \
         at steps of 80 ms to 2.5 ms against 1.25 ms. At the 20 ms of a tick no pressure is off by more than 0.5 % (our own \
         demand), and finer steps come nearer.",
        "numerical analysis: the step is of first order, so that a quarter of the step has about a quarter of the error",
    );
    let mut bay = Bay::new(&scenario("healthy", &["day.ambient=38degC"])?);
    while bay.tick() < 200 * TICKS_PER_SECOND {
        bay.step()?;
    }
    let running = bay.plant().clone();
    let mut stopped = bay.plant().clone();
    let compressor = stopped.circuit.compressor();
    if let Law::Compressor(c, _) = stopped.network.link(compressor).law {
        stopped.network.set_law(compressor, Law::Compressor(c, 0.0));
    }
    let mut plot = Plot::new(
        "Error of the pressures by step",
        "step, ms",
        "largest error, %",
    )
    .log();
    for (what, plant, seconds) in [
        ("compressor turning, 3 s", &running, 3.0),
        ("coming to rest, 30 s", &stopped, 30.0),
    ] {
        let fine = coast(plant, FINE, seconds)?;
        let errors = STEPS
            .iter()
            .map(|dt| {
                let now = coast(plant, *dt, seconds)?;
                let worst = now
                    .iter()
                    .zip(&fine)
                    .map(|(a, b)| (a / b - 1.0).abs() * 100.0)
                    .fold(0.0, greater);
                Ok((dt * 1e3, worst))
            })
            .collect::<Result<Vec<(f64, f64)>, Error>>()?;
        check.find(Finding::within(
            format!("{what}: error at 20 ms"),
            errors[2].1,
            0.0,
            0.5,
            "%",
            3,
        ));
        check.find(Finding::holds(
            format!("{what}: errors at 80, 20, 5 ms"),
            format!(
                "{:.3}, {:.3}, {:.3} %",
                errors[0].1, errors[2].1, errors[4].1
            ),
            "each below the one before",
            errors[0].1 > errors[2].1 && errors[2].1 > errors[4].1,
        ));
        plot = plot.curve(what, errors);
    }
    check.plots.push(plot);
    Ok(vec![check])
}

/// What a plant shows after eight minutes of ticks of one length.
struct Shown {
    /// Low side, high side (Pa), cooling and shaft (W), vent (degC), refrigerant on the high side (kg): means of the last three minutes.
    settled: [f64; 6],
    /// Seconds from clutch in to clutch in, mean after the third minute.
    period: f64,
}

const SHOWN: [&str; 6] = [
    "low side",
    "high side",
    "cooling",
    "shaft power",
    "vent",
    "charge of the high side",
];
/// Of these, those that are held against a tick of a quarter too: the head and the charge.
const HEAD_AND_CHARGE: [usize; 2] = [1, 5];

fn shown(overrides: &[&str], dt: f64) -> Result<Shown, Error> {
    let mut plant = Bay::new(&scenario("healthy", overrides)?).plant().clone();
    let (mut t, mut n, mut settled) = (0.0, 0.0, [0.0; 6]);
    let (mut was_on, mut engaged) = (false, Vec::new());
    while t < 480.0 {
        plant.tick_of(dt)?;
        t += dt;
        if plant.drive.engaged && !was_on && t > 180.0 {
            engaged.push(t);
        }
        was_on = plant.drive.engaged;
        if t > 300.0 {
            let (c, net) = (&plant.circuit, &plant.network);
            let now = [
                net.node(c.low_side()).state.p,
                net.node(c.high_side()).state.p,
                plant.evaporator.duty,
                net.link(c.compressor()).shaft,
                plant.cabin.vent.t - 273.15,
                [&c.discharge_line, &c.condenser, &c.liquid_line]
                    .iter()
                    .flat_map(|s| s.nodes())
                    .map(|id| net.node(*id).content[REFRIGERANT])
                    .sum(),
            ];
            n += 1.0;
            settled.iter_mut().zip(now).for_each(|(s, x)| *s += x);
        }
    }
    let periods = engaged.len().saturating_sub(1) as f64;
    Ok(Shown {
        settled: settled.map(|s| s / n),
        period: match (engaged.first(), engaged.last()) {
            (Some(a), Some(b)) => (b - a) / periods,
            _ => f64::NAN,
        },
    })
}

/// The whole tick, halved and doubled.
fn tick_length(_: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "Length of the tick",
        "The whole vehicle at ticks of 10 and 40 ms against the 20 ms of every bay: settled readings (38 degC, the clutch stays in) move by less \
         than 0.5 %, at 5 ms too head and charge by less than 2 %, the period of the clutch (27 degC, 1 500 rpm) by less than 2 %.",
        "own demand; numerical analysis",
    );
    let (hot, mild) = (["day.ambient=38degC"], ["day.ambient=27degC"]);
    let lengths = [0.005, 0.01, TICK, 0.04, 0.08];
    let mut settled = Vec::new();
    let mut periods = Vec::new();
    for dt in lengths {
        settled.push(shown(&hot, dt)?.settled);
        periods.push((dt * 1e3, shown(&mild, dt)?.period));
    }
    let mut plot = Plot::new("Settled readings, 38 degC", "tick, ms", "change, %");
    for (k, what) in SHOWN.iter().enumerate() {
        let change = |i: usize| 100.0 * (settled[i][k] / settled[2][k] - 1.0);
        for (i, name) in [(1, "halved"), (3, "doubled")] {
            check.find(Finding::within(
                format!("{what}, tick {name}"),
                change(i),
                -0.5,
                0.5,
                "%",
                3,
            ));
        }
        if HEAD_AND_CHARGE.contains(&k) {
            for i in [0, 1, 3] {
                check.find(Finding::within(
                    format!("{what}, tick of {:.0} ms", lengths[i] * 1e3),
                    change(i),
                    -2.0,
                    2.0,
                    "%",
                    3,
                ));
            }
        }
        let points = (0..lengths.len()).map(|i| (lengths[i] * 1e3, change(i)));
        plot = plot.curve(*what, points.collect());
    }
    for (i, name) in [(1, "halved"), (3, "doubled")] {
        check.find(Finding::within(
            format!("period of the clutch ({:.2} s), tick {name}", periods[2].1),
            100.0 * (periods[i].1 / periods[2].1 - 1.0),
            -2.0,
            2.0,
            "%",
            2,
        ));
    }
    check.plots = vec![
        plot,
        Plot::new("Period of the clutch, 27 degC", "tick, ms", "s").curve("period", periods),
    ];
    Ok(vec![check])
}

/// A wet loop freezes up at the orifice, starves, recovers at rest and does it again.
fn freeze_up(runs: &Runs) -> Result<Vec<Check>, Error> {
    let mut check = Check::new(
        "A wet loop freezes up",
        "5 g of water, the desiccant full, 27 degC, 1 500 rpm: it runs well for minutes (5 to 30 in practice), then the low side falls to 0-10 psig \
         or a vacuum, the high side by 20 to 60 psi, the vent warms. Off for 20 minutes the ice is gone and it runs again. On a day of 43 degC at idle the \
         evaporator is not cold enough, and nothing shows.",
        "fault table of common practice, no single source; solubility by the ASHRAE Handbook - Refrigeration",
    );
    check.tuned = "share of the water that sticks in the tube, and the heat that reaches the ice (own figures with their ranges in the plant's moisture module)".into();
    let (off, on) = (1200.0, 2400.0);
    let wet = ["start.water=5g", "condition.desiccant_load=100%"];
    let mut all = wet.to_vec();
    all.extend(["day.ambient=27degC", "until=60min"]);
    let run = runs.play(
        "healthy",
        &all,
        &[
            (off, VehicleAct::Engine { on: false }.into()),
            (on, VehicleAct::Engine { on: true }.into()),
        ],
    )?;
    let rounds = [("first", 0.0, off), ("second", on, 3600.0)];
    for (which, from, to) in rounds {
        let during = || run.between(from, to);
        // In the first seconds after a rest the low side may fall as far until liquid has come to the tube.
        let frozen = during().find(|s| s.t > from + 30.0 && s.low < 100.0);
        check.find(Finding::within(
            format!("{which} time: runs well for"),
            frozen.map_or(f64::INFINITY, |s| (s.t - from) / 60.0),
            2.0,
            30.0,
            "min",
            1,
        ));
        check.find(Finding::within(
            format!("{which} time: lowest low side"),
            during().map(|s| s.low).fold(f64::INFINITY, f64::min) / 6.894_757,
            -15.0,
            10.0,
            "psig",
            1,
        ));
        let most = |of: fn(&crate::run::Sample) -> f64| during().map(of).fold(0.0, greater);
        check.find(Finding::holds(
            format!("{which} time: most ice in the tube"),
            format!("{:.0} mg", 1e6 * most(|s| s.ice)),
            "more than 20 mg",
            most(|s| s.ice) > 20e-6,
        ));
    }
    let rested = run.at(on);
    check.find(Finding::holds(
        "ice after twenty minutes off",
        rested.map_or("none seen".into(), |s| format!("{:.0} mg", 1e6 * s.ice)),
        "none",
        rested.is_some_and(|s| s.ice <= 0.0),
    ));
    let mut all = wet.to_vec();
    all.extend(["day.ambient=43degC", "engine.speed=800rpm", "until=30min"]);
    let hot = runs.healthy(&all)?;
    let ice = hot.samples.iter().map(|s| s.ice).fold(0.0, greater);
    check.find(Finding::holds(
        "43 degC, idle: most ice in half an hour",
        format!("{:.1} mg", 1e6 * ice),
        "below 1 mg",
        ice < 1e-6,
    ));
    check.plots = vec![
        Plot::new("Pressures of a wet loop", "time, s", "kPa gauge")
            .line("high side", run.curve(|s| s.high))
            .line("low side", run.curve(|s| s.low)),
        Plot::new("Ice and vent", "time, s", "mg, degC")
            .line("ice in the tube, mg", run.curve(|s| 1e6 * s.ice))
            .line("vent, degC", run.curve(|s| s.vent)),
    ];
    Ok(vec![check])
}
