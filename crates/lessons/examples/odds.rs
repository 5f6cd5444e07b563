//! Cases that no test asks, judged by rivals: `odds FROM TO [slight|moderate|severe] [wider]` prints a row a case.

use std::{
    env, fs,
    io::{Write, stdout},
    thread,
};

use lowside_lessons::{
    drill::{Deck, Drill},
    rivals::{Case, Odds, Read, Run, Trace},
};
use lowside_session::{
    Action, Bay, HoseAct, InstrumentAct, LearnerAct, VehicleAct,
    action::{Meter, Wheel},
    library,
};
use lowside_shop::{fault::Severity, meters::Point, senses::Surface};
use lowside_units::RotationSpeed;

/// Who reads all that is cheap, in an order that experience has.
fn look(bay: &mut Bay) {
    let pass = |bay: &mut Bay, s: f64| {
        let until = bay.seconds() + s;
        while bay.seconds() < until && bay.step().is_ok() {}
    };
    let act = |bay: &mut Bay, action: Action| drop(bay.apply(action));
    let read = |bay: &mut Bay, instrument: Meter| {
        act(bay, LearnerAct::Read { instrument }.into());
        pass(bay, 5.0);
    };
    act(bay, HoseAct::LowCoupler { on: true }.into());
    act(bay, HoseAct::HighCoupler { on: true }.into());
    pass(bay, 20.0);
    read(bay, Meter::LowGauge);
    read(bay, Meter::HighGauge);
    act(bay, VehicleAct::Engine { on: true }.into());
    let speed = RotationSpeed::from_rpm(1500.0);
    act(bay, VehicleAct::EngineSpeed { speed }.into());
    act(bay, VehicleAct::AirConditioning { on: true }.into());
    act(bay, VehicleAct::Blower { step: 4 }.into());
    act(bay, VehicleAct::Windows { on: true }.into());
    pass(bay, 300.0);
    for _ in 0..2 {
        read(bay, Meter::LowGauge);
        read(bay, Meter::HighGauge);
        read(bay, Meter::VentThermometer);
        read(bay, Meter::Tachometer(Wheel::Hub));
        pass(bay, 15.0);
    }
    read(bay, Meter::Anemometer);
    for at in [
        Point::Discharge,
        Point::CondenserOut,
        Point::LiquidLine,
        Point::EvaporatorIn,
        Point::EvaporatorOut,
        Point::Suction,
    ] {
        act(bay, InstrumentAct::Clamp { at: Some(at) }.into());
        pass(bay, 25.0);
        read(bay, Meter::Clamp(at));
    }
    for surface in [
        Surface::Suction,
        Surface::Accumulator,
        Surface::EvaporatorInlet,
    ] {
        read(bay, Meter::Surface(surface));
    }
    let speed = RotationSpeed::from_rpm(800.0);
    act(bay, VehicleAct::EngineSpeed { speed }.into());
    pass(bay, 60.0);
    read(bay, Meter::LowGauge);
    read(bay, Meter::HighGauge);
    read(bay, Meter::VentThermometer);
    act(bay, VehicleAct::AirConditioning { on: false }.into());
    pass(bay, 10.0);
    read(bay, Meter::LowGauge);
    read(bay, Meter::HighGauge);
    pass(bay, 40.0);
    read(bay, Meter::LowGauge);
    read(bay, Meter::HighGauge);
}

/// The runs of a case, from the folder that ODDS_KEEP names if they are there.
fn kept(seed: u64, case: &Case) -> Vec<(Run, Trace)> {
    let file = env::var("ODDS_KEEP")
        .ok()
        .map(|dir| format!("{dir}/{seed}"));
    let text = file.as_ref().and_then(|f| fs::read_to_string(f).ok());
    if let Some(text) = text {
        let trace = |line: &str| Trace {
            menu: Vec::new(),
            read: line
                .split(',')
                .zip(&case.evidence().read)
                .map(|(value, read)| Read {
                    value: value.parse().ok(),
                    ..*read
                })
                .collect(),
        };
        return Case::runs().zip(text.lines().map(trace)).collect();
    }
    let runs: Vec<(Run, Trace)> = Case::runs().map(|run| (run, case.run(run))).collect();
    if let Some(file) = file {
        let value = |read: &Read| read.value.map_or(String::new(), |v| v.to_string());
        let line =
            |(_, trace): &(Run, Trace)| trace.read.iter().map(value).collect::<Vec<_>>().join(",");
        drop(fs::write(
            file,
            runs.iter().map(line).collect::<Vec<_>>().join("\n"),
        ));
    }
    runs
}

fn judge(seed: u64, deck: &Deck) -> String {
    let kind = library::shipped("healthy").expect("shipped");
    let drill = Drill::drawn(seed, deck, &kind);
    let mut bay = Bay::new(&drill.scenario);
    look(&mut bay);
    let case = Case::of(&bay);
    let runs = kept(seed, &case);
    let odds = Odds::of(&case, &runs);
    let name =
        |fault: Option<&'static lowside_shop::fault::Fault>| fault.map_or("nothing", |f| f.id);
    let first = odds.last()[0];
    let second = odds.last()[1];
    let truth = odds.last().iter().position(|s| s.fault == drill.fault);
    let likely = truth.map_or(0.0, |n| odds.last()[n].likely);
    format!(
        "{seed},{},{},{},{:.3},{},{:.3},{},{likely:.3}",
        name(drill.fault),
        drill.severity.map_or("", Severity::name),
        name(first.fault),
        first.likely,
        name(second.fault),
        second.likely,
        truth.map_or(0, |n| n + 1),
    )
}

fn main() {
    let args: Vec<String> = env::args().skip(1).collect();
    let number = |n: usize, or: u64| args.get(n).and_then(|a| a.parse().ok()).unwrap_or(or);
    let (from, to) = (number(0, 0), number(1, 12));
    let least = match args.get(2).map(String::as_str) {
        Some("slight") => Severity::Slight,
        Some("severe") => Severity::Severe,
        _ => Severity::Moderate,
    };
    let wider = args.get(3).and_then(|a| a.parse().ok()).unwrap_or(1.0);
    let deck = Deck {
        severities: [least, Severity::Extreme],
        wider,
        ..Deck::default()
    };
    let cores = number(4, 2);
    thread::scope(|scope| {
        for core in 0..cores {
            let deck = &deck;
            scope.spawn(move || {
                for seed in (from..to).filter(|s| s % cores == core) {
                    let row = judge(seed, deck);
                    drop(writeln!(stdout().lock(), "{row}"));
                }
            });
        }
    });
}
