//! How the vehicle answers to what one does to it to tell one cause from another: water on the condenser, cardboard before it, a hot cloth
//! round the orifice tube (common practice, no source).

use lowside_session::{Bay, VehicleAct};
use lowside_tests::runs::{act, run, scenario};

const PSI: f64 = 6894.76;

/// High side, psig.
fn high(bay: &Bay) -> f64 {
    let p = bay.plant();
    (p.network.node(p.circuit.high_side()).state.p - p.day().p) / PSI
}

fn running(overrides: &[&str]) -> Bay {
    let mut all = vec!["day.ambient=35degC", "day.humidity=40%"];
    all.extend(overrides);
    let mut bay = Bay::new(&scenario("healthy", &all));
    run(&mut bay, 480.0);
    bay
}

/// Highest fall within a minute of water on the face, psi, and what is left of it after ten more.
fn misted(overrides: &[&str]) -> [f64; 2] {
    let mut bay = running(overrides);
    let before = high(&bay);
    act(&mut bay, VehicleAct::MistCondenser);
    let mut fall: f64 = 0.0;
    for _ in 0..60 {
        run(&mut bay, 1.0);
        fall = fall.max(before - high(&bay));
    }
    run(&mut bay, 600.0);
    [fall, before - high(&bay)]
}

/// By hand: half the way to a wet bulb of 23.9 degC is 5.5 K at the face, and the saturation pressure of R-134a changes 5 to 6 psi a kelvin at
/// 50 to 60 degC (CoolProp 8.0.0: 195 psig at 55 degC, 202 at 56). Cooler air ahead of the condenser lowers whatever stands there: what is
/// short of air and what is over-full alike, so that a fall alone tells neither from the other.
#[test]
fn water_on_the_condenser_lowers_the_high_side_until_it_has_dried() {
    for fault in [
        "start.charge=36oz",
        "condition.condenser_fan=50%",
        "start.charge=50oz",
    ] {
        let [fall, left] = misted(&[fault]);
        assert!((12.0..45.0).contains(&fall), "{fault}: {fall:.1} psi");
        assert!(
            left.abs() < 0.25 * fall,
            "{fault}: {left:.1} psi left of {fall:.1}"
        );
    }
    let damp = misted(&["day.humidity=95%"])[0];
    assert!(damp < 8.0, "{damp:.1} psi on a damp day");
}

#[test]
fn cardboard_raises_the_high_side_and_taken_away_lets_it_fall() {
    let mut bay = running(&[]);
    let before = high(&bay);
    act(&mut bay, VehicleAct::CoverCondenser { on: true });
    run(&mut bay, 240.0);
    let covered = high(&bay);
    act(&mut bay, VehicleAct::CoverCondenser { on: false });
    run(&mut bay, 360.0);
    assert!(
        covered > before + 15.0,
        "{before:.0}, then {covered:.0} psig"
    );
    assert!(
        (high(&bay) - before).abs() < 6.0,
        "{before:.0}, then {:.0} psig",
        high(&bay)
    );
}

/// A van that freezes up while it runs has its low side back within a minute of a hot cloth, and not without (common practice: the cloth
/// alone brings it back in 20 to 60 s).
#[test]
fn a_hot_cloth_brings_a_frozen_low_side_back() {
    let back_in = |warm: bool| {
        let mut bay = Bay::new(&scenario(
            "healthy",
            &[
                "start.water=5g",
                "condition.desiccant_load=100%",
                "condition.cycling_switch_stuck=true",
                "day.ambient=24degC",
                "start.cabin=24degC",
            ],
        ));
        let low = |bay: &Bay| {
            let p = bay.plant();
            (p.network.node(p.circuit.low_side()).state.p - p.day().p) / PSI
        };
        let mut seconds = 0;
        while low(&bay) > 2.0 {
            run(&mut bay, 1.0);
            seconds += 1;
            assert!(seconds < 3600, "it never freezes up");
        }
        if warm {
            act(&mut bay, VehicleAct::WarmOrifice);
        }
        let mut took = 0;
        while low(&bay) < 12.0 && took < 600 {
            run(&mut bay, 1.0);
            took += 1;
        }
        took
    };
    let (alone, warmed) = (back_in(false), back_in(true));
    assert!(
        warmed <= 60 && alone > 3 * warmed,
        "{warmed} s warmed, {alone} s alone"
    );
}
