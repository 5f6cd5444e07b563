//! The ends of what a loop can hold: nothing at all, and more heat than it can shed. Neither makes a number that is none, and no
//! energy is lost where a table ends.

use lowside_session::{Bay, Event, HoseAct, MachineAct, TICKS_PER_SECOND};
use lowside_tests::runs::{act, scenario};
use lowside_units::{Ratio, VolumeFlow};

const VEHICLES: [&str; 4] = [
    "healthy",
    "before-retrofit",
    "healthy-compact",
    "healthy-crossover",
];
/// Where room air comes in: an O-ring that was left out, joint by joint, and a hole.
const OPENINGS: [&str; 9] = [
    "condition.joint=[{at=\"compressor-out\",seal=\"missing\"}]",
    "condition.joint=[{at=\"condenser-in\",seal=\"missing\"}]",
    "condition.joint=[{at=\"condenser-out\",seal=\"missing\"}]",
    "condition.joint=[{at=\"evaporator-in\",seal=\"missing\"}]",
    "condition.joint=[{at=\"evaporator-out\",seal=\"missing\"}]",
    "condition.joint=[{at=\"relief-thread\",seal=\"missing\"}]",
    "condition.leak=[{at=\"condenser-top\",hole=\"200 um\"}]",
    "condition.leak=[{at=\"condenser-top\",hole=\"5000 um\"}]",
    "condition.leak=[{at=\"low-port\",hole=\"5000 um\"}]",
];
/// Ratio of heat capacities of air: an ideal gas that fills a vacuum without losing heat ends at this times the temperature it came
/// from (textbooks of thermodynamics: filling of an evacuated vessel).
const KAPPA: f64 = 1.4;

/// The hottest that any volume has been in `seconds`, K.
fn hottest(bay: &mut Bay, seconds: u64) -> f64 {
    let mut hottest: f64 = 0.0;
    for _ in 0..seconds * TICKS_PER_SECOND {
        bay.step().expect("the engine goes on");
        for node in bay.plant().network.nodes() {
            assert!(
                node.state.p.is_finite() && node.state.t.is_finite(),
                "{} at {} s",
                node.name,
                bay.seconds()
            );
            hottest = hottest.max(node.state.t);
        }
    }
    hottest
}

fn books_close(bay: &Bay, what: &str) {
    let (mass, energy) = (bay.mass_error(), bay.energy_error());
    assert!(
        mass < 1e-9 && energy < 1e-9,
        "{what}: mass {mass}, energy {energy}"
    );
}

#[test]
fn air_fills_a_perfect_vacuum_and_gets_no_hotter_than_an_ideal_gas() {
    for vehicle in VEHICLES {
        // Oil holds heat: a loop without it, as after a flush, is the harder case.
        let oils = ["start.oil=237 g", "start.oil=0 g"];
        for (opening, oil) in OPENINGS.iter().flat_map(|o| oils.map(|oil| (o, oil))) {
            let set = [
                "start.charge=0 g",
                "start.air=0 g",
                "engine.on=false",
                opening,
                oil,
            ];
            let scenario = scenario(vehicle, &set);
            let mut bay = Bay::new(&scenario);
            let what = format!("{vehicle}, {opening}, {oil}");
            let peak = hottest(&mut bay, 120);
            let ideal = KAPPA * bay.plant().day().t;
            assert!(peak < 1.01 * ideal, "{what}: {peak} K, {ideal} K");
            books_close(&bay, &what);
            // A hole of 0.2 mm takes longer than two minutes.
            let (net, c) = (&bay.plant().network, &bay.plant().circuit);
            let (now, day) = (net.node(c.condenser.inlet()).state.p, bay.plant().day().p);
            let full = if opening.contains("200 um") {
                0.02
            } else {
                0.5
            };
            assert!(now > full * day && now < 1.01 * day, "{what}: {now} Pa");
        }
    }
}

#[test]
fn an_evacuated_loop_holds_what_a_pump_leaves() {
    for vehicle in VEHICLES {
        let bay = Bay::new(&scenario(vehicle, &["start.charge=0 g", "start.air=0 g"]));
        for node in &bay.plant().network.nodes()[1..] {
            let p = node.state.p;
            // Two-stage rotary pumps end at 10 to 50 micron (common practice, no source); nothing hangs on the service hose.
            assert!(
                p > 1.3 || node.name == "can",
                "{vehicle}: {} at {p} Pa",
                node.name
            );
        }
    }
}

/// A condenser without air, a compressor that nothing stops and a relief valve that only holds the pressure: heat goes on coming
/// until the discharge hose gives way.
#[test]
fn a_loop_that_sheds_no_heat_ends_in_a_burst_hose() {
    let blocked = [
        "vehicle.fan.idle_flow=0.01 kg/s",
        "vehicle.fan.cool_flow=0.01 kg/s",
        "vehicle.fan.top_flow=0.01 kg/s",
        "engine.on=true",
        "controls.ac=true",
    ];
    let mut bay = Bay::new(&scenario("before-retrofit", &blocked));
    let peak = hottest(&mut bay, 600);
    assert!(
        peak < 473.15,
        "oil and rubber are gone by 200 degC: {peak} K"
    );
    books_close(&bay, "no air over the condenser");
    let seen = |event: Event| bay.events().iter().any(|(_, e)| *e == event);
    assert!(seen(Event::ReliefLifted) && seen(Event::HoseBurst));
    assert!(bay.charge() < 0.1, "{} kg are left", bay.charge());
    // The cut-out of the converted van answers long before.
    let mut bay = Bay::new(&scenario("healthy", &blocked));
    let peak = hottest(&mut bay, 600);
    assert!(peak < 393.15 && !bay.plant().hose_burst(), "{peak} K");
}

/// No oil, a switch that never opens, all the speed there is: the gas gets hotter until the pistons are fast. Common practice, no source:
/// a compressor run dry seizes.
#[test]
fn a_compressor_run_dry_and_hot_seizes() {
    let dry = [
        "start.oil=0 g",
        "engine.on=true",
        "controls.ac=true",
        "engine.speed=5000 rpm",
        "condition.cycling_switch_stuck=true",
    ];
    let mut bay = Bay::new(&scenario("healthy", &dry));
    let peak = hottest(&mut bay, 1200);
    assert!(peak < 533.15, "{peak} K");
    books_close(&bay, "run dry");
    let seized = bay
        .events()
        .iter()
        .any(|(_, e)| *e == Event::CompressorSeized);
    assert!(seized && bay.plant().compressor_rpm() < 1e-9 && bay.plant().drive.engaged);
}

/// Outside eyes found it: a pump that has emptied its hose, and then a loop of air let into it.
#[test]
fn a_hand_valve_opened_onto_an_evacuated_hose_is_sound() {
    let mut bay = Bay::new(&scenario(
        "healthy-compact",
        &["start.charge=1 g", "start.air=20 g"],
    ));
    act(
        &mut bay,
        MachineAct::TakePump {
            speed: VolumeFlow::from_cfm(8.0),
        },
    );
    act(&mut bay, MachineAct::Pump { on: true });
    act(&mut bay, MachineAct::Isolation { on: true });
    let before = hottest(&mut bay, 120);
    act(
        &mut bay,
        HoseAct::HighValve {
            open: Ratio::from_fraction(1.0),
        },
    );
    let peak = hottest(&mut bay, 10);
    assert!(peak < 1.4 * before, "{peak} K after {before} K");
    books_close(&bay, "the pump's hose");
}
