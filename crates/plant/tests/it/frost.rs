//! Frost: a cycling switch stuck closed lets the coil ice, the air falls off, and comes back after a thaw (trade knowledge, no
//! single source); water and energy are accounted for to rounding all the while.

use lowside_plant::{evaporator::Air, network::Heat};
use lowside_session::{Bay, VehicleAct};
use lowside_tests::runs::{run, scenario};

/// A mild muggy day, blower low: what ices a coil.
const MUGGY: [&str; 5] = [
    "day.ambient=24degC",
    "day.humidity=80%",
    "controls.blower=2",
    "engine.speed=1500rpm",
    "until=60min",
];

fn muggy(more: &[&str]) -> Bay {
    let mut all = MUGGY.to_vec();
    all.extend(more);
    Bay::new(&scenario("healthy", &all))
}

#[test]
fn a_stuck_switch_ices_the_coil_and_a_thaw_brings_the_air_back() {
    let mut bay = muggy(&["condition.cycling_switch_stuck=true"]);
    run(&mut bay, 1.0);
    let clean = bay.plant().cabin.flow;
    run(&mut bay, 59.0);
    let low = |bay: &Bay| {
        let p = bay.plant();
        p.network.node(p.circuit.low_side()).state.p
    };
    let early = low(&bay);
    run(&mut bay, 45.0 * 60.0);
    let p = bay.plant();
    let (iced, flow) = (p.evaporator.iced(), p.cabin.flow);
    assert!(p.drive.engaged, "the clutch stays in");
    assert!(iced > 0.1, "{:.0} g of frost", iced * 1e3);
    assert!(flow < 0.5 * clean, "air {flow:.3} kg/s of {clean:.3}");
    // Fault table: the low side falls as the coil takes up less and less.
    assert!(
        low(&bay) < early - 20e3,
        "low side {:.0} Pa, was {early:.0}",
        low(&bay)
    );
    bay.apply(VehicleAct::AirConditioning { on: false })
        .expect("it can be done");
    run(&mut bay, 25.0 * 60.0);
    let p = bay.plant();
    assert!(
        p.evaporator.iced() < 1e-6 && (p.cabin.flow / clean - 1.0).abs() < 1e-9,
        "{:.0} g left, air {:.3} kg/s",
        p.evaporator.iced() * 1e3,
        p.cabin.flow
    );
    // The melt is condensate: on the fins until it drips.
    assert!(p.evaporator.held + p.evaporator.drained > iced);
    assert!(bay.energy_error() < 1e-9 && bay.mass_error() < 1e-9);
}

/// The switch is there so that this does not happen.
#[test]
fn a_healthy_switch_keeps_the_coil_free() {
    let mut bay = muggy(&[]);
    run(&mut bay, 60.0);
    let clean = bay.plant().cabin.flow;
    run(&mut bay, 30.0 * 60.0);
    let p = bay.plant();
    assert!(
        p.cabin.flow > 0.9 * clean,
        "air {:.3} of {clean:.3}",
        p.cabin.flow
    );
}

/// Water out of the air is frost, held or dripped; heat out of air and water is in the walls or gone on to the refrigerant:
/// through freezing, thawing and drying, to rounding.
#[test]
fn the_books_of_a_frosting_coil_close() {
    let mut bay = muggy(&["condition.cycling_switch_stuck=true"]);
    run(&mut bay, 120.0);
    let p = bay.plant();
    let cells: [_; lowside_plant::evaporator::CELLS] =
        core::array::from_fn(|k| p.network.node(p.circuit.evaporator.nodes()[k]));
    let mut coil = p.evaporator.clone();
    let water = |c: &lowside_plant::evaporator::Evaporator| c.held + c.drained + c.iced();
    let (mut w, mut e) = (water(&coil), coil.energy());
    let (mut most, mut dried) = (0.0f64, 0.0);
    // Muggy air, then warm air that thaws, then dry air.
    for (air, wall, steps) in [
        (Air { t: 295.0, w: 0.014 }, Some(268.0), 40_000),
        (Air { t: 310.0, w: 0.012 }, None, 60_000),
        (Air { t: 310.0, w: 0.002 }, None, 60_000),
    ] {
        for _ in 0..steps {
            if let Some(t) = wall {
                let was = coil.energy();
                coil.wall = [t; lowside_plant::evaporator::CELLS];
                e += coil.energy() - was;
            }
            let mut heat = [Heat::default(); lowside_plant::evaporator::CELLS];
            let (out, from_air) = coil.pass(cells, 0.0, 0.08, air, 101_325.0, 0.02, &mut heat);
            let taken = 0.08 * (air.w - out.w) * 0.02;
            w += taken;
            dried += f64::from(u8::from(taken < 0.0)) * -taken;
            // The refrigerant stays as it is: it takes its heat at its own temperature.
            let t = cells.map(|c| c.state.t);
            coil.settle(t, 0.02);
            let given = heat.iter().zip(t).map(|(q, t)| q.drive - q.hold * t);
            e += from_air - given.sum::<f64>();
        }
        most = most.max(coil.iced());
    }
    assert!(most > 0.1, "{most} kg of frost at most");
    assert!(dried > 0.001, "{dried} kg given back to dry air");
    assert!(
        (water(&coil) - w).abs() < 1e-9,
        "water {} for {w}",
        water(&coil)
    );
    assert!(
        (coil.energy() - e).abs() < 1e-7 * e.abs(),
        "energy {} for {e}",
        coil.energy()
    );
}
