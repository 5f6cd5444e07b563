//! Faults beside the loop: a clutch that slips, a blend door that leaks heat, an engine that overheats (fault table of common practice,
//! no source; the resistance of copper is IEC 60028's).

use lowside_session::{Bay, Event, VehicleAct};
use lowside_shop::meters::{self, Point};
use lowside_tests::runs::{act, run, scenario};
use lowside_units::RotationSpeed;

fn seen(bay: &Bay, event: Event) -> bool {
    bay.events().iter().any(|(_, e)| *e == event)
}

fn healthy(overrides: &[&str], seconds: f64) -> Bay {
    let mut bay = Bay::new(&scenario("healthy", overrides));
    run(&mut bay, seconds);
    bay
}

/// Gauge low and high, vent: kPa, kPa, K.
fn readings(bay: &Bay) -> [f64; 3] {
    let p = bay.plant();
    let at = |n| p.network.node(n).state.p / 1e3;
    [
        at(p.circuit.low_side()),
        at(p.circuit.high_side()),
        p.cabin.vent.t,
    ]
}

#[test]
fn a_slipping_clutch_has_current_and_does_not_turn_the_hub() {
    let sound = healthy(&[], 600.0);
    let bay = healthy(&["condition.clutch_hold=30%"], 600.0);
    // The pulley turns, the coil has its current, the hub stays behind: what one watches for (common practice).
    let (volts, amperes) = meters::clutch(bay.plant());
    assert!(volts > 13.0 && amperes > 2.0, "{volts} V, {amperes} A");
    let [hub, pulley] = meters::turning(bay.plant());
    assert!(hub < 0.8 * pulley, "hub {hub}, pulley {pulley}");
    let ([low, high, vent], [l, h, v]) = (readings(&bay), readings(&sound));
    assert!(
        low > l + 20.0 && high < h - 20.0 && vent > v + 3.0,
        "low {low:.0} ({l:.0}), high {high:.0} ({h:.0}), vent {vent:.1} ({v:.1})"
    );
    assert!(seen(&bay, Event::ClutchSmells) && !seen(&sound, Event::ClutchSmells));
    let [hub, pulley] = meters::turning(sound.plant());
    assert!((hub - pulley).abs() < 1.0);
}

#[test]
fn a_worn_clutch_that_holds_on_a_mild_day_slips_on_a_hot_one() {
    let hub = |ambient: &str| {
        let bay = healthy(&["condition.clutch_hold=37%", ambient], 900.0);
        let [hub, pulley] = meters::turning(bay.plant());
        hub / pulley
    };
    assert!(hub("day.ambient=32degC") > 0.99);
    assert!(hub("day.ambient=43degC") < 0.8);
}

#[test]
fn a_new_compressor_brings_a_sound_clutch() {
    let bay = healthy(&["condition.clutch_hold=30%"], 1.0);
    let (mut plant, mut shop) = (bay.plant().clone(), bay.shop().clone());
    assert!((plant.condition.clutch_hold - 0.3).abs() < 1e-12);
    lowside_shop::parts::renew(&mut plant, &mut shop, lowside_shop::parts::Part::Compressor);
    assert!((plant.condition.clutch_hold - 1.0).abs() < 1e-12);
}

#[test]
fn a_leaking_blend_door_warms_the_vent_alone_until_the_heater_hose_is_pinched() {
    let sound = healthy(&[], 600.0);
    let mut bay = healthy(&["condition.blend_leak=10%"], 600.0);
    let ([low, high, vent], [l, h, v]) = (readings(&bay), readings(&sound));
    assert!((low - l).abs() < 15.0 && (high - h).abs() < 40.0);
    // A tenth of the air heated by a core that brings it near the coolant's 88 degC.
    let mixed = 0.1 * (361.0 - v);
    assert!(
        vent - v > 0.6 * mixed && vent - v < 1.6 * mixed,
        "{:.1} K warmer for {mixed:.1}",
        vent - v
    );
    act(&mut bay, VehicleAct::HeaterHose { pinched: true });
    run(&mut bay, 600.0);
    assert!((readings(&bay)[2] - v).abs() < 0.5);
    act(&mut bay, VehicleAct::HeaterHose { pinched: false });
    run(&mut bay, 300.0);
    assert!(readings(&bay)[2] > v + 4.0);
}

#[test]
fn a_blocked_radiator_overheats_the_engine_and_raises_all_three() {
    let sound = healthy(&[], 1800.0);
    let bay = healthy(&["condition.radiator=5%"], 1800.0);
    let hose = |bay: &Bay| meters::felt(bay.plant(), Point::RadiatorHose) - 273.15;
    assert!((80.0..97.0).contains(&hose(&sound)), "{}", hose(&sound));
    assert!(hose(&bay) > 112.0, "{}", hose(&bay));
    let (now, was) = (readings(&bay), readings(&sound));
    // Half a psi, 2 psi, 0.2 K: what one sees on gauges and thermometer.
    for (k, seen) in [3.4, 14.0, 0.2].into_iter().enumerate() {
        assert!(now[k] > was[k] + seen, "{now:?} against {was:?}");
    }
}

#[test]
fn a_blocked_condenser_starves_the_radiator_behind_it() {
    let bay = healthy(
        &[
            "condition.condenser_air=8%",
            "engine.speed=800rpm",
            "controls.ac=false",
        ],
        1800.0,
    );
    assert!(bay.plant().engine.coolant > 373.0);
}

#[test]
fn the_engines_control_lets_the_clutch_go_and_takes_it_again() {
    let mut bay = Bay::new(&scenario("healthy-compact", &["condition.radiator=3%"]));
    act(
        &mut bay,
        VehicleAct::EngineSpeed {
            speed: RotationSpeed::from_rpm(2500.0),
        },
    );
    run(&mut bay, 1200.0);
    assert!(seen(&bay, Event::EngineTooHot));
    assert!(!bay.plant().drive.engaged);
    act(&mut bay, VehicleAct::Engine { on: false });
    run(&mut bay, 3600.0);
    act(
        &mut bay,
        VehicleAct::EngineSpeed {
            speed: RotationSpeed::from_rpm(800.0),
        },
    );
    act(&mut bay, VehicleAct::Engine { on: true });
    run(&mut bay, 30.0);
    assert!(bay.plant().drive.engaged, "cooled down, it is let in again");
}
