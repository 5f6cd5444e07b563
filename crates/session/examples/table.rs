//! Healthy readings over the day's temperature, engine speed and charge: `--example table -- [path=value ...]`.
use lowside_session::{Bay, Scenario, library, summary::Window};

#[expect(clippy::print_stdout, reason = "a tool for the terminal")]
fn main() {
    let mut sets: Vec<String> = std::env::args().skip(1).collect();
    let mode = sets.first().filter(|m| !m.contains('=')).cloned();
    if mode.is_some() {
        sets.remove(0);
    }
    let runs: Vec<Vec<String>> = match mode.as_deref() {
        Some("charge") => [
            0.3, 0.4, 0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.9, 1.02, 1.1, 1.2, 1.33, 1.5, 1.8, 2.0,
        ]
        .iter()
        .map(|c| vec![format!("start.charge={c}kg")])
        .collect(),
        Some("one") => vec![vec![]],
        Some("idle") => [21, 27, 32, 34, 35, 38, 43]
            .iter()
            .map(|a| vec![format!("day.ambient={a}degC"), "engine.speed=800rpm".into()])
            .collect(),
        _ => [21, 27, 32, 35, 38, 43]
            .iter()
            .map(|a| vec![format!("day.ambient={a}degC")])
            .collect(),
    };
    for run in runs {
        let mut all = run.clone();
        all.extend(sets.iter().cloned());
        let scenario =
            Scenario::parse(library::scenario("healthy").expect("known"), &all).expect("sound");
        let mut bay = Bay::new(&scenario);
        let mut window = Window::default();
        while bay.seconds() < scenario.until.s() {
            bay.step();
            window.take(&bay);
        }
        let s = window.summary(&bay);
        println!(
            "{:32} low {:4.0} high {:5.0} kPag vent {:5.1} ({:5.1}) cab {:4.1} SH {:4.1} SC {:4.1} Td {:4.0} duty {:.2} cyc/min {:4.1} Q {:5.0} W {:4.0} acc {:.2} sl {:.3}",
            run.join(" "),
            s.low_kPa_abs_clutch_on_mean.unwrap_or(0.0) - 101.3,
            s.high_kPa_abs_clutch_on_mean.unwrap_or(0.0) - 101.3,
            s.vent_degC_mean,
            s.vent_degC,
            s.cabin_degC,
            s.superheat_K,
            s.subcooling_K,
            s.discharge_degC,
            s.clutch_duty,
            f64::from(s.clutch_cycles) / 2.0,
            s.capacity_W,
            s.shaft_W,
            s.accumulator_level,
            s.suction_liquid,
        );
    }
}
