//! Runs of shipped scenarios.

use lowside_fluids::Refrigerant;
use lowside_lessons::PerformanceTest;
use lowside_session::{
    Action, Bay, HoseAct, MachineAct, Scenario, VesselAct, acts, library,
    script::Player,
    summary::{Summary, Window},
};
use lowside_units::{Mass, Quantity, Ratio, VolumeFlow};

/// A shipped scenario with overrides.
///
/// # Panics
/// When the scenario is not shipped or an override is wrong: a fault of the test.
pub fn scenario(name: &str, overrides: &[&str]) -> Scenario {
    let text = library::scenario(name).unwrap_or_else(|| panic!("{name} is shipped"));
    let overrides: Vec<String> = overrides.iter().map(|o| (*o).to_owned()).collect();
    Scenario::parse(text, &overrides).unwrap_or_else(|e| panic!("{name} with {overrides:?}: {e}"))
}

/// Plays a scenario to its end; gives the bay and the numbers of its last two minutes.
///
/// # Panics
/// When the bay refuses an act of the scenario or halts.
pub fn play(scenario: &Scenario) -> (Bay, Summary) {
    let mut bay = Bay::new(scenario);
    let mut player = Player::new(&scenario.act);
    let mut window = Window::default();
    while bay.seconds() < scenario.until.s() {
        player
            .play(&mut bay)
            .expect("the bay takes the scenario's acts");
        bay.step().expect("the engine goes on");
        window.take(&bay);
    }
    let summary = window.summary(&bay);
    (bay, summary)
}

/// The healthy van with overrides, played to its end.
pub fn healthy(overrides: &[&str]) -> Summary {
    play(&scenario("healthy", overrides)).1
}

/// Does an act that has to be possible.
///
/// # Panics
/// When the bay refuses it.
pub fn act(bay: &mut Bay, action: impl Into<Action>) {
    let action = action.into();
    bay.apply(action)
        .unwrap_or_else(|e| panic!("{action:?}: {e}"));
}

/// Runs a bay for so many seconds while somebody watches for the performance test.
///
/// # Panics
/// When the bay halts.
pub fn run_observed(bay: &mut Bay, seconds: f64) {
    let mut test = PerformanceTest::default();
    let end = bay.seconds() + seconds;
    while bay.seconds() < end - 1e-9 {
        bay.step_observed(&mut |bay| test.look(bay))
            .expect("the engine goes on");
    }
}

/// Runs a bay for so many seconds.
///
/// # Panics
/// When the bay halts.
pub fn run(bay: &mut Bay, seconds: f64) {
    let end = bay.seconds() + seconds;
    while bay.seconds() < end - 1e-9 {
        bay.step().expect("the engine goes on");
    }
}

/// Screws a pump of so many cfm on, opens everything and starts it.
///
/// # Panics
/// When the bay refuses an act.
pub fn pump(bay: &mut Bay, cfm: f64) {
    let speed = VolumeFlow::from_cfm(cfm);
    let open = Ratio::from_fraction(1.0);
    for action in acts![
        MachineAct::TakePump { speed },
        HoseAct::LowValve { open },
        HoseAct::HighValve { open },
        MachineAct::Pump { on: true },
        MachineAct::Isolation { on: true },
    ] {
        act(bay, action);
    }
}

/// Evacuates for an hour and charges R-134a as the label asks for, liquid from a cylinder into the high side; the engine is off.
///
/// # Panics
/// When the bay refuses an act or halts.
pub fn evacuate_and_charge(bay: &mut Bay) {
    let (open, shut) = (Ratio::from_fraction(1.0), Ratio::from_fraction(0.0));
    pump(bay, 6.0);
    run(bay, 3600.0);
    let cylinder = VesselAct::TakeCylinder {
        gas: Refrigerant::R134a,
        holds: Mass::from_kg(9.0),
    };
    for action in acts![
        HoseAct::LowValve { open: shut },
        HoseAct::HighValve { open: shut },
        MachineAct::Isolation { on: false },
        MachineAct::Pump { on: false },
        cylinder,
        VesselAct::Invert { on: true },
        VesselAct::Tap { on: true },
        HoseAct::Purge { on: true },
    ] {
        act(bay, action);
    }
    run(bay, 3.0);
    act(bay, HoseAct::Purge { on: false });
    run(bay, 5.0);
    act(bay, HoseAct::HighValve { open });
    let mass = Mass::from_kg(bay.scenario().vehicle.label_charge.si());
    act(bay, VesselAct::Dose { mass });
    run(bay, 900.0);
    act(bay, HoseAct::HighValve { open: shut });
}
