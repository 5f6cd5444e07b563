//! R-12 and R-134a in one loop: what the gauges show, what does not cure it, what the identifier says, and where the R-12 is.

#![allow(clippy::unwrap_used, reason = "a failed step is a failed test")]
#![allow(
    clippy::print_stdout,
    reason = "the figures found are wanted in the log"
)]

use lowside_fluids::{Apart, Blend, NoBlend, Refrigerant};
use lowside_plant::{charge::Start, halt::Cause, plant::Plant, species::REFRIGERANT};
use lowside_session::{
    Bay, HoseAct, InstrumentAct, Refused, Scenario, VesselAct, predicate::Predicate,
};
use lowside_shop::identifier::{NoSample, Port, TIME};
use lowside_tests::{
    acts::{Dice, any},
    runs::{healthy, run, scenario},
};
use lowside_units::{Ratio, Temperature};

/// An override for the mole share of R-12 in R-134a.
fn moles(x: f64) -> String {
    let share = Blend::by_mole(x).unwrap().mass_share();
    format!("start.other_refrigerant={share}")
}

/// The van at rest at 75 degF.
const STILL: [&str; 4] = [
    "engine.on=false",
    "controls.ac=false",
    "day.ambient=75degF",
    "start.cabin=75degF",
];

fn still(more: &[&str]) -> Scenario {
    let mut all = STILL.to_vec();
    all.extend(more);
    scenario("healthy", &all)
}

/// Gauge pressure at the accumulator, psi.
fn psig(bay: &Bay) -> f64 {
    let p = bay.plant();
    (p.network.node(p.circuit.low_side()).state.p - p.day().p) / 6_894.757
}

/// R-12 in the bay's nodes and what went into the room, kg.
fn r12(bay: &Bay) -> f64 {
    let (held, to_room) = bay.plant().network.r12().unwrap();
    held.iter().sum::<f64>() + to_room
}

/// Standing pressure of CoolProp's mixture model at 75 degF lies from dew to bubble: 84.2 to 87.5 psig with 10 mol % of R-12,
/// 100.2 with 50 (`tests/data/r12_r134a_saturation.csv`); pure 77 to 79.
#[test]
fn standing_pressure_is_raised_and_venting_does_not_cure_it() {
    for (x, lo, hi) in [(0.0, 77.0, 79.0), (0.1, 84.2, 87.6), (0.5, 100.0, 100.4)] {
        let share = moles(x);
        let mut bay = Bay::new(&still(&[&share]));
        run(&mut bay, 60.0);
        let before = psig(&bay);
        println!("{x}: standing at {before:.1} psig");
        assert!(before > lo && before < hi, "{x}: {before}");
        let charge = bay.charge();
        // Vapour out at the low side for two minutes, as one purges air; then a rest until it is warm again.
        let valve = |open: f64| HoseAct::LowValve {
            open: Ratio::from_fraction(open),
        };
        bay.apply(valve(0.2)).unwrap();
        run(&mut bay, 120.0);
        bay.apply(valve(0.0)).unwrap();
        run(&mut bay, 1800.0);
        let lost = charge - bay.charge();
        println!("{x}: {lost:.3} kg vented, then {:.1} psig", psig(&bay));
        assert!(lost > 0.1, "something has to go: {lost}");
        assert!((psig(&bay) - before).abs() < 1.0, "{x}: {}", psig(&bay));
    }
}

#[test]
fn the_head_runs_higher_with_r12_in_it() {
    let clean = healthy(&[]);
    let mut last = clean.high_kPa_abs_clutch_on_mean.unwrap();
    for share in ["0.05", "0.15", "0.4"] {
        let with = healthy(&[&format!("start.other_refrigerant={share}")]);
        let high = with.high_kPa_abs_clutch_on_mean.unwrap();
        println!(
            "{share}: head {high:.0} kPa, clean {last:.0}, low {:.0}, vent {:.1} degC",
            with.low_kPa_abs, with.vent_degC_mean
        );
        assert!(high > last, "{share}: {high} after {last}");
        assert!(with.max_mass_error_rel < 1e-9 && with.max_energy_error_rel < 1e-9);
        last = high;
    }
}

#[test]
fn the_identifier_takes_its_time_and_says_what_is_there() {
    let mut bay = Bay::new(&still(&["start.other_refrigerant=12 %", "start.air=3 g"]));
    run(&mut bay, 60.0);
    let low = InstrumentAct::Identify { port: Port::Low };
    bay.apply(low).unwrap();
    assert!(bay.shop().identifier.result().is_none());
    let busy = bay.apply(InstrumentAct::Identify { port: Port::High });
    assert!(matches!(
        busy,
        Err(Refused::Identifier(NoSample::Busy { .. }))
    ));
    let hash = bay.state_hash();
    let purity: Predicate = "purity > 0 %".parse().unwrap();
    run(&mut bay, TIME - 0.1);
    assert!(bay.shop().identifier.result().is_none() && !purity.holds(&bay));
    assert_ne!(bay.state_hash(), hash);
    run(&mut bay, 0.2);
    assert!(purity.holds(&bay));
    let s = bay.shop().identifier.result().unwrap();
    println!("{s:?}");
    assert!(
        (s.of(Refrigerant::R12) - 0.12).abs() < 0.0011
            && (s.of(Refrigerant::R12) + s.of(Refrigerant::R134a) - 1.0).abs() < 1e-9
    );
    assert!(s.of(Refrigerant::R1234yf) == 0.0 && s.hydrocarbon == 0.0);
    assert!((s.purity() - 0.88).abs() < 0.0011 && !s.pure());
    // The air of the sample, from Dalton at the port: no outside figure but the model's own state.
    assert!(s.air > 0.0 && s.air < 0.2, "{}", s.air);
    // Its steps are tenths of a percent.
    for share in [s.of(Refrigerant::R12), s.of(Refrigerant::R134a), s.air] {
        let tenths = share * 1000.0;
        assert!((tenths - tenths.round()).abs() < 1e-6, "{share}");
    }
    // 98 % is where it passes.
    for (other, pass) in [("1.5 %", true), ("2.5 %", false)] {
        let mut bay = Bay::new(&still(&[&format!("start.other_refrigerant={other}")]));
        bay.apply(low).unwrap();
        run(&mut bay, TIME + 0.1);
        assert_eq!(bay.shop().identifier.result().unwrap().pure(), pass);
    }
    let mut yf = Bay::new(&scenario("healthy-crossover", &[]));
    yf.apply(low).unwrap();
    run(&mut yf, TIME + 0.1);
    let s = yf.shop().identifier.result().unwrap();
    assert!((s.of(Refrigerant::R1234yf) - 1.0).abs() < 1e-9 && s.pure());
}

#[test]
fn the_identifier_refuses_without_coupler_or_pressure() {
    let mut bay = Bay::new(&still(&[]));
    bay.apply(HoseAct::HighCoupler { on: false }).unwrap();
    let high = InstrumentAct::Identify { port: Port::High };
    let hash = bay.state_hash();
    let refused = bay.apply(high).unwrap_err();
    assert_eq!(
        refused.to_string(),
        "port: there is no coupler on the high-side port"
    );
    assert_eq!(bay.state_hash(), hash);
    let mut bay = Bay::new(&still(&["start.charge=1 g"]));
    let refused = bay.apply(high).unwrap_err().to_string();
    assert!(
        refused.starts_with("port: -") && refused.contains("is less than 5.0 psig"),
        "{refused}"
    );
}

#[test]
fn a_can_of_the_other_gas_comes_in_and_is_counted() {
    let mut bay = Bay::new(&still(&["start.charge=600 g"]));
    run(&mut bay, 10.0);
    assert!(bay.plant().network.r12().is_none());
    let before = psig(&bay);
    bay.apply(VesselAct::TakeCanOf {
        gas: Refrigerant::R12,
    })
    .unwrap();
    run(&mut bay, 5.0);
    assert!((psig(&bay) - before).abs() < 0.1, "its tap is shut");
    assert!((r12(&bay) - 0.340_194).abs() < 1e-12);
    let can = |bay: &Bay| {
        let id = bay.shop().manifold.can;
        bay.plant().network.node(id).state.p
    };
    // A can of R-12 has the pressure of R-12.
    let expected = Refrigerant::R12.table().p_sat((75.0 + 459.67) / 1.8);
    assert!((can(&bay) / expected - 1.0).abs() < 0.01, "{}", can(&bay));
    bay.apply(VesselAct::Invert { on: true }).unwrap();
    bay.apply(VesselAct::Bath {
        temperature: Some(Temperature::from_deg_c(45.0)),
    })
    .unwrap();
    bay.apply(VesselAct::Tap { on: true }).unwrap();
    bay.apply(HoseAct::LowValve {
        open: Ratio::from_fraction(1.0),
    })
    .unwrap();
    run(&mut bay, 600.0);
    bay.apply(HoseAct::LowValve {
        open: Ratio::from_fraction(0.0),
    })
    .unwrap();
    run(&mut bay, 1200.0);
    let net = &bay.plant().network;
    let inside = bay.plant().charge();
    let circuit = &bay.plant().circuit;
    let r12_inside: f64 = circuit.nodes().iter().map(|id| net.r12_in(*id)).sum();
    let share = r12_inside / inside;
    println!(
        "share {share:.3}, tables for {:.3}, {:.1} psig (before {before:.1})",
        net.blend_of_tables().unwrap().mass_share(),
        psig(&bay)
    );
    assert!(share > 0.2, "{share}");
    assert!((net.blend_of_tables().unwrap().mass_share() - share).abs() <= 0.0026);
    // The loop stands where the mixture of that composition does.
    let t = net.node(circuit.low_side()).state.t;
    let blend = Blend::by_mass(share).unwrap();
    let stands = blend.table().p_sat(t);
    let is = net.node(circuit.low_side()).state.p;
    assert!((is / stands - 1.0).abs() < 0.005, "{is} for {stands}");
    assert!((r12(&bay) - 0.340_194).abs() < 1e-9 && bay.mass_error() < 1e-9);
    assert!(bay.energy_error() < 1e-6, "{}", bay.energy_error());
}

/// What cures it: all of it out, and fresh gas in.
#[test]
fn fresh_gas_in_an_emptied_loop_is_pure() {
    let mut bay = Bay::new(&still(&[
        "start.other_refrigerant=30 %",
        "start.charge=3 g",
    ]));
    run(&mut bay, 10.0);
    bay.apply(VesselAct::TakeCan).unwrap();
    bay.apply(VesselAct::Invert { on: true }).unwrap();
    bay.apply(VesselAct::Tap { on: true }).unwrap();
    bay.apply(HoseAct::LowValve {
        open: Ratio::from_fraction(1.0),
    })
    .unwrap();
    run(&mut bay, 900.0);
    bay.apply(InstrumentAct::Identify { port: Port::Low })
        .unwrap();
    run(&mut bay, TIME + 0.1);
    let s = bay.shop().identifier.result().unwrap();
    println!("{s:?}, {:.0} g", bay.charge() * 1e3);
    assert!(bay.charge() > 0.1 && s.pure());
    assert!(bay.plant().network.blend_of_tables().unwrap().mass_share() < 0.01);
}

/// Below the bay too, nothing is taken for what it is not: a shop hands out no such can, and a plant that is asked to start with such a
/// blend stands still and says why.
#[test]
fn what_does_not_mix_is_an_error_at_every_level() {
    let bay = Bay::new(&scenario("healthy-crossover", &[]));
    let (mut plant, mut shop) = (bay.plant().clone(), bay.shop().clone());
    let apart = Apart {
        gas: Refrigerant::R1234yf,
        other: Refrigerant::R12,
    };
    assert_eq!(
        shop.take_can_of(&mut plant, Refrigerant::R12, false),
        Err(apart)
    );
    assert_eq!(
        shop.take_cylinder(&mut plant, Refrigerant::R12, 5.0),
        Err(apart)
    );
    assert_eq!(shop.take_machine(&mut plant, Refrigerant::R12), Err(apart));
    assert_eq!(shop.hands, bay.shop().hands);
    assert!(
        (plant.network.held()[REFRIGERANT] - bay.plant().network.held()[REFRIGERANT]).abs() < 1e-15
    );
    let start = Start {
        charge: 0.5,
        other: 0.1,
        air: 0.0,
        water: 0.0,
        desiccant_load: 0.0,
        oil: 0.1,
        cabin_t: 300.0,
    };
    let mut mixed = Plant::new(&plant.vehicle.shared(), plant.day(), &start);
    let halt = mixed.tick().expect_err("it stands still");
    assert_eq!(
        halt.cause,
        Cause::NoBlend(NoBlend::Alone(Refrigerant::R1234yf))
    );
    let clean = Start {
        other: 0.0,
        ..start
    };
    assert!(
        Plant::new(&plant.vehicle.shared(), plant.day(), &clean)
            .tick()
            .is_ok()
    );
}

#[test]
fn what_does_not_mix_is_refused() {
    let mut yf = Bay::new(&scenario("healthy-crossover", &[]));
    let refused = yf
        .apply(VesselAct::TakeCanOf {
            gas: Refrigerant::R12,
        })
        .unwrap_err();
    assert_eq!(
        refused.to_string(),
        "gas: R-12 does not mix with R-1234yf here; only R-12 and R-134a do"
    );
    yf.apply(VesselAct::TakeCanOf {
        gas: Refrigerant::R1234yf,
    })
    .unwrap();
    assert!(yf.plant().network.r12().is_none());
    let mut van = Bay::new(&still(&[]));
    assert!(
        van.apply(VesselAct::TakeCanOf {
            gas: Refrigerant::R1234yf
        })
        .is_err()
    );
    for (name, value) in [
        ("healthy", "0.61"),
        ("healthy", "-0.01"),
        ("healthy-crossover", "0.01"),
    ] {
        let text = lowside_session::library::scenario(name).unwrap();
        let set = format!("start.other_refrigerant={value}");
        let why = Scenario::parse(text, &[set]).unwrap_err().to_string();
        assert!(why.starts_with("start.other_refrigerant: "), "{why}");
    }
}

/// Whatever anyone does, R-12 is where refrigerant is, and none is made or lost.
#[test]
fn random_acts_lose_no_r12() {
    for seed in 0..60 {
        let mut dice = Dice::new(seed ^ 0x0b1e_4d00);
        let name = if dice.chance(0.7) {
            "healthy"
        } else {
            "before-retrofit"
        };
        let share = format!("start.other_refrigerant={}", 0.5 * dice.unit());
        let mut bay = Bay::new(&scenario(name, &[&share]));
        let mut given = r12(&bay);
        for _ in 0..40 {
            let act = any(&mut dice);
            let before = r12(&bay);
            if bay.apply(act).is_ok() {
                // Vessels are swapped and parts opened at the act itself; while time passes none may come or go.
                given += r12(&bay) - before;
            }
            run(&mut bay, dice.between(0.1, 3.0));
            let net = &bay.plant().network;
            let (nodes, _) = net.r12().unwrap();
            for (node, kg) in net.nodes().iter().zip(nodes).skip(1) {
                let all = node.content.whole()[REFRIGERANT];
                assert!(
                    *kg >= -1e-12 && *kg <= all + 1e-12,
                    "seed {seed}: {} holds {kg} of {all}",
                    node.name
                );
            }
            assert!((r12(&bay) - given).abs() < 1e-9, "seed {seed}");
            assert!(bay.mass_error() < 1e-9, "seed {seed}");
            assert!(
                bay.energy_error() < 1e-6,
                "seed {seed}: {}",
                bay.energy_error()
            );
        }
    }
}
