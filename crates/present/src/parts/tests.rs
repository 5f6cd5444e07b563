//! Parts against continuity, dew point and the books.

use super::*;
use crate::{
    UnitSystem,
    parts::inside::{Figure, open},
    readout::tests::bay,
};

fn run(name: &str, seconds: u32) -> Bay {
    let mut bay = bay(name);
    for _ in 0..50 * seconds {
        bay.step().expect("the engine goes on");
    }
    bay
}

#[test]
fn vapour_runs_faster_than_the_same_mass_of_liquid() {
    let bay = run("healthy", 240);
    let p = Parts::of(&bay, UnitSystem::SI);
    // Continuity: same mass flow, bores of 7 and 14 mm (areas 1 : 4), so the speeds are as the densities turned round over 4.
    let (liquid, suction) = (
        bay.plant()
            .network
            .node(bay.plant().circuit.liquid_line.outlet())
            .state
            .rho_liq,
        bay.plant()
            .network
            .node(bay.plant().circuit.low_side())
            .state
            .rho_gas,
    );
    assert!(p.tubes.liquid.liquid > 0.99 && p.tubes.suction.liquid < 0.2);
    let ratio =
        p.tubes.suction.speed / p.tubes.liquid.speed * (p.tubes.liquid.flow / p.tubes.suction.flow);
    let want = liquid / suction / 4.0;
    assert!((ratio / want - 1.0).abs() < 0.25, "{ratio} against {want}");
    assert!(
        p.tubes.liquid.speed > 0.1 && p.tubes.liquid.speed < 3.0,
        "{}",
        p.tubes.liquid.speed
    );
}

/// Continuity, m = rho A w, with the bores of the data sheet: 7 mm of liquid line, 14 mm of suction line.
#[test]
fn drawn_speeds_are_those_of_the_data_sheets_bores() {
    use core::f64::consts::FRAC_PI_4;
    use lowside_session::{Scenario, library};
    let text = library::scenario("healthy").expect("shipped");
    let drawn = |set: &[String]| {
        let mut bay = Bay::new(&Scenario::parse(text, set).expect("sound"));
        for _ in 0..50 * 240 {
            bay.step().expect("the engine goes on");
        }
        let plant = bay.plant();
        let state = |id| plant.network.node(id).state;
        let liquid = state(plant.circuit.condenser.outlet()).rho_liq;
        (Tubes::of(&bay), liquid)
    };
    let (tubes, rho) = drawn(&[]);
    assert!(tubes.liquid.liquid > 0.99);
    let by_hand = tubes.liquid.flow * 1e-3 / (rho * FRAC_PI_4 * 7e-3 * 7e-3);
    let drawn_speed = tubes.liquid.speed;
    assert!(
        (drawn_speed / by_hand - 1.0).abs() < 0.02,
        "{drawn_speed} for {by_hand} m/s"
    );
    let (wide, _) = drawn(&["vehicle.suction_line.bore=28mm".into()]);
    let (a, b) = (tubes.suction, wide.suction);
    let ratio = (a.speed / a.flow) / (b.speed / b.flow);
    assert!((ratio / 4.0 - 1.0).abs() < 0.02, "{ratio}");
}

#[test]
fn what_is_colder_than_the_dew_point_is_wet_and_what_is_hot_is_not() {
    let bay = run("healthy", 240);
    let p = Parts::of(&bay, UnitSystem::US);
    // 35 degC and 40 %: dew point 19.4 degC (ASHRAE Fundamentals 2017 ch. 1).
    assert_eq!(p.tubes.discharge.coat, Coat::Dry);
    assert_eq!(p.tubes.liquid.coat, Coat::Dry);
    assert_ne!(p.tubes.cold.coat, Coat::Dry, "{}", p.tubes.cold.t);
    assert!(p.held > 0.0);
    assert!(
        p.taken.0 > 500.0 && p.shed.0 > p.taken.0,
        "{} {}",
        p.taken.0,
        p.shed.0
    );
}

#[test]
fn at_rest_nothing_moves() {
    let bay = bay("charge-from-cans");
    let p = Parts::of(&bay, UnitSystem::US);
    for tube in [
        p.tubes.discharge,
        p.tubes.liquid,
        p.tubes.cold,
        p.tubes.suction,
    ] {
        assert!(tube.speed.abs() < 1e-9);
    }
    assert!(p.can.is_none() && p.turns == 0.0);
}

#[test]
fn every_part_opens_with_figures_and_the_books_agree() {
    let bay = run("healthy", 120);
    let mut oil = 0.0;
    for part in Part::ALL {
        let o = open(&bay, part, UnitSystem::SI);
        assert!(o.figures.len() >= 3, "{part:?}");
        assert!(o.fill.iter().all(|f| (0.0..=1.0).contains(f)), "{part:?}");
        oil += o.oil;
    }
    assert!(oil > 0.0);
    let a = open(&bay, Part::Accumulator, UnitSystem::SI);
    let grams = |f: Figure| {
        let shown = a
            .figures
            .iter()
            .find(|(x, _)| *x == f)
            .expect("there")
            .1
            .clone();
        shown.number.parse::<f64>().expect("a number")
    };
    let node = bay.plant().network.node(bay.plant().circuit.low_side());
    assert!((grams(Figure::Refrigerant) - node.content[REFRIGERANT] * 1e3).abs() <= 0.5);
    assert!((a.fill[0] - (1.0 - node.state.void_fraction())).abs() < 1e-12);
}

#[test]
fn a_screen_that_is_clogged_shows_its_debris() {
    use lowside_session::{Scenario, library};
    let text = library::scenario("healthy").expect("shipped");
    let set = ["condition.orifice_open=40 %".to_owned()];
    let bay = Bay::new(&Scenario::parse(text, &set).expect("sound"));
    let o = open(&bay, Part::Orifice, UnitSystem::US);
    assert!((o.blocked[1] - 0.6).abs() < 1e-9 && o.blocked[0] == 0.0);
    assert!((inside::open_share(&bay) - 0.4).abs() < 1e-9);
}
