//! The conversion from R-12 to R-134a, act by act: what goes onto what, what blows, what the switches then do.

#![allow(clippy::unwrap_used, reason = "a failed step is a failed test")]
#![allow(
    clippy::print_stdout,
    reason = "the figures found are wanted in the log"
)]

use lowside_fluids::Refrigerant;
use lowside_lessons::statement::{Mismatch, Statement, mismatches};
use lowside_session::{
    Action, Bay, BenchAct, Event, HoseAct, MachineAct, RecordAct, Refused, VehicleAct, VesselAct,
    acts,
};
use lowside_shop::{
    conversion::{Breach, breaches},
    joints::Side,
    label::{Line, Particulars, written},
    oil::OilKind,
    record::Prices,
    shop::SCREW,
};
use lowside_tests::runs::{run, scenario};
use lowside_units::{GaugePressure, Mass, Ratio, Volume};

/// The van on R-12, at rest.
fn van(more: &[&str]) -> Bay {
    let mut all = vec!["engine.on=false", "controls.ac=false"];
    all.extend(more);
    Bay::new(&scenario("before-retrofit", &all))
}

fn act(bay: &mut Bay, acts: &[Action]) {
    for a in acts {
        bay.apply(*a).unwrap_or_else(|e| panic!("{a:?}: {e}"));
    }
}

const OFF: [Action; 2] = [
    Action::Hose(HoseAct::LowCoupler { on: false }),
    Action::Hose(HoseAct::HighCoupler { on: false }),
];

fn convert(new_core: bool) -> [Action; 2] {
    [Side::Low, Side::High].map(|side| BenchAct::ConvertPort { side, new_core }.into())
}

/// R-134a from a can through the low side, with its own gauge set.
fn from_a_can() -> [Action; 5] {
    acts![
        HoseAct::GaugeSet {
            gas: Refrigerant::R134a
        },
        HoseAct::LowCoupler { on: true },
        VesselAct::TakeCan,
        VesselAct::Tap { on: true },
        HoseAct::LowValve {
            open: Ratio::from_fraction(1.0),
        },
    ]
}

/// Every gas has fittings of its own, and none goes onto another's by hand (SAE J639, J2197; 40 CFR 82 subpart G, appendix H; all
/// from memory).
#[test]
fn no_hose_goes_onto_another_gas_port() {
    let mut bay = van(&["start.charge=100 g"]);
    let set = |gas| HoseAct::GaugeSet { gas }.into();
    let hash = bay.state_hash();
    assert_eq!(
        bay.apply(set(Refrigerant::R12)),
        Err(Refused::SetInHand(Refrigerant::R12))
    );
    assert_eq!(bay.apply(set(Refrigerant::R134a)), Err(Refused::Coupled));
    assert!(matches!(
        bay.apply(set(Refrigerant::R1234yf)),
        Err(Refused::NoMixture { .. })
    ));
    for act in acts![
        MachineAct::TakeRecoveryMachine {
            gas: Refrigerant::R134a
        },
        VesselAct::TakeCylinder {
            gas: Refrigerant::R134a,
            holds: Mass::from_kg(5.0),
        },
    ] {
        let refused = Refused::WrongFitting {
            fitting: Refrigerant::R134a,
            hose: Refrigerant::R12,
        };
        assert_eq!(bay.apply(act), Err(refused));
    }
    assert_eq!(bay.state_hash(), hash, "what is refused changes nothing");
    act(&mut bay, &OFF);
    act(&mut bay, &acts![VesselAct::TakeCan]);
    assert_eq!(bay.apply(set(Refrigerant::R134a)), Err(Refused::HoseTaken));
    act(
        &mut bay,
        &acts![VesselAct::RemoveCan, set(Refrigerant::R134a)],
    );
    let refused = Refused::WrongPort {
        hose: Refrigerant::R134a,
        port: Refrigerant::R12,
    };
    assert_eq!(bay.apply(HoseAct::LowCoupler { on: true }), Err(refused));
    act(&mut bay, &convert(true));
    run(&mut bay, 20.0);
    act(
        &mut bay,
        &acts![
            HoseAct::LowCoupler { on: true },
            HoseAct::HighCoupler { on: true },
        ],
    );
    // What is on stays on, and its own gas's hose fits no more.
    act(&mut bay, &OFF);
    let locked = Refused::FittingLocked {
        fitting: Refrigerant::R134a,
    };
    assert_eq!(bay.apply(convert(false)[0]), Err(locked));
    act(&mut bay, &[set(Refrigerant::R12)]);
    assert!(matches!(
        bay.apply(HoseAct::HighCoupler { on: true }),
        Err(Refused::WrongPort { .. })
    ));
    run(&mut bay, 5.0);
    assert!(bay.mass_error() < 1e-9 && bay.ledger_gap() < 1e-9);
    // A vehicle made for R-134a takes none.
    let mut newer = Bay::new(&scenario("healthy", &["engine.on=false"]));
    act(&mut newer, &OFF);
    assert!(matches!(
        newer.apply(convert(true)[0]),
        Err(Refused::FittingLocked { .. })
    ));
}

/// With the pressure off nothing happens; under pressure gas blows out of the bore in the hands' way, more with the core out.
#[test]
fn a_fitting_screwed_on_under_pressure_blows() {
    let mut lost = Vec::new();
    for new_core in [false, true] {
        let mut bay = van(&[]);
        act(&mut bay, &OFF);
        act(&mut bay, &convert(new_core)[..1]);
        run(&mut bay, 30.0);
        assert_eq!((bay.shop().injuries, bay.shop().ventings), (1, 1));
        println!("new core {new_core}: {:.1} g vented", bay.vented() * 1e3);
        lost.push(bay.vented());
        let after = bay.vented();
        run(&mut bay, 30.0);
        assert!(bay.vented() - after < 1e-5, "the hole is shut again");
        assert!(bay.mass_error() < 1e-9 && bay.ledger_gap() < 1e-9);
    }
    assert!(lost[0] > 2e-3 && lost[1] > 2.0 * lost[0], "{lost:?}");
    let mut empty = van(&["start.charge=1 g"]);
    act(&mut empty, &OFF);
    act(&mut empty, &convert(true));
    run(&mut empty, 30.0);
    assert_eq!(empty.shop().injuries, 0);
}

/// The screw moves both points, and the clutch obeys: it lets go where the switch then opens, within its lag.
#[test]
fn the_cycling_switch_is_set_lower() {
    let lets_go = |quarters: i8| {
        // low enough on gas to cycle
        let mut bay = Bay::new(&scenario("before-retrofit", &["start.charge=600 g"]));
        let before = bay.plant().drive.cycling_points()[0];
        act(&mut bay, &acts![BenchAct::SwitchScrew { quarters }]);
        let set = bay.plant().drive.cycling_points()[0];
        assert!((set - before - f64::from(quarters) / 4.0 * SCREW).abs() < 1.0);
        let mut lowest = f64::INFINITY;
        for _ in 0..180 {
            run(&mut bay, 1.0);
            if bay.plant().drive.engaged {
                lowest = lowest.min(bay.plant().drive.felt()[0]);
            }
        }
        assert!(
            bay.events()
                .iter()
                .any(|(_, e)| *e == Event::LowSwitchOpened)
        );
        (set, lowest)
    };
    for quarters in [0, -3, -6] {
        let (set, lowest) = lets_go(quarters);
        println!("{quarters}: set {set:.0}, lowest {lowest:.0} Pa");
        assert!(lowest > set && lowest < set + 30e3, "{set} {lowest}");
    }
    let mut bay = van(&[]);
    act(&mut bay, &acts![BenchAct::SwitchScrew { quarters: -8 }]);
    let end = bay.apply(BenchAct::SwitchScrew { quarters: -1 });
    assert_eq!(end, Err(Refused::ScrewAtEnd));
}

/// A relief valve without a switch before it blows the gas out; that is why the law asks for the switch (40 CFR 82 subpart G,
/// appendix D, from memory).
#[test]
fn a_cut_out_stops_the_compressor_before_the_relief_valve_lifts() {
    let hot = [
        "condition.condenser_air=2 %",
        "day.ambient=45 degC",
        "start.charge=1500 g",
    ];
    let lifts = |fitted: bool| {
        let mut bay = Bay::new(&scenario("before-retrofit", &hot));
        if fitted {
            let opens = GaugePressure::from_kpa(2800.0);
            bay.apply(VehicleAct::AirConditioning { on: false })
                .unwrap();
            act(&mut bay, &acts![BenchAct::FitCutOut { opens }]);
            assert_eq!(
                bay.apply(BenchAct::FitCutOut { opens }),
                Err(Refused::CutOutFitted)
            );
            run(&mut bay, 6.0);
            bay.apply(VehicleAct::AirConditioning { on: true }).unwrap();
        }
        let vented = bay.vented();
        let mut top = 0.0_f64;
        for _ in 0..300 {
            run(&mut bay, 1.0);
            top = top.max(bay.shop().instruments.high.pointer());
        }
        let seen = |event| bay.events().iter().any(|(_, e)| *e == event);
        println!(
            "{fitted}: up to {top:.0} Pa, {:.0} g out",
            1e3 * (bay.vented() - vented)
        );
        (seen(Event::ReliefLifted), seen(Event::CutOutOpened))
    };
    assert_eq!(lifts(false), (true, false));
    assert_eq!(lifts(true), (false, true));
}

/// An old core left in under the fitting stands in the way of what is drawn out.
#[test]
fn an_old_core_left_in_slows_what_flows() {
    let taken = |new_core| {
        let mut bay = van(&["start.charge=1 g"]);
        act(&mut bay, &OFF);
        act(&mut bay, &convert(new_core));
        run(&mut bay, 10.0);
        act(&mut bay, &from_a_can());
        run(&mut bay, 10.0);
        bay.charge()
    };
    let (free, held) = (taken(true), taken(false));
    println!("{:.2} g and {:.2} g", free * 1e3, held * 1e3);
    assert!(held < 0.95 * free && held > 0.5 * free);
}

/// The record names what a conversion lacks, and a statement that claims otherwise does not match.
#[test]
fn the_record_says_what_a_conversion_lacks() {
    let mut bay = van(&["start.charge=1 g"]);
    assert_eq!(breaches(&bay.record(&Prices::default())), []);
    act(&mut bay, &OFF);
    act(&mut bay, &convert(true)[..1]);
    run(&mut bay, 10.0);
    act(&mut bay, &from_a_can());
    run(&mut bay, 120.0);
    let record = bay.record(&Prices::default());
    assert_eq!(
        (record.gas, record.built_for),
        (Refrigerant::R134a, Refrigerant::R12)
    );
    let lacks = breaches(&record);
    assert_eq!(lacks, [Breach::Fittings, Breach::Label, Breach::CutOut]);
    let stated = Statement {
        gas: Some(Refrigerant::R134a),
        conversion_in_order: Some(true),
        ..Statement::default()
    };
    assert_eq!(mismatches(&record, &stated), [Mismatch::Conversion]);
    let opens = GaugePressure::from_kpa(2900.0);
    act(
        &mut bay,
        &acts![HoseAct::LowValve {
            open: Ratio::from_fraction(0.0),
        }],
    );
    let label = RecordAct::Label {
        charge: Mass::from_kg(bay.charge()),
        gas: Some(Refrigerant::R134a),
        oil: Some(OilKind::Ester),
        particulars: Particulars::default(),
    };
    act(&mut bay, &acts![label, BenchAct::FitCutOut { opens }]);
    // It names nobody, no day and no maker of the oil.
    let lacks = breaches(&bay.record(&Prices::default()));
    assert_eq!(lacks[0], Breach::Fittings);
    assert!(!lacks.contains(&Breach::Label));
    assert!(lacks.contains(&Breach::LabelLine(Line::Technician)));
    let whole = RecordAct::Label {
        charge: Mass::from_kg(bay.charge()),
        gas: Some(Refrigerant::R134a),
        oil: Some(OilKind::Ester),
        particulars: Particulars {
            technician: written("A. Technician"),
            shop: written("Training bay, 1 Workshop Road"),
            date: "2026-05-04".parse().ok(),
            oil_maker: written("Maker of the bottle"),
            oil_volume: Some(Volume::from_l(0.0)),
            old_covered: true,
        },
    }
    .into();
    let hash = bay.state_hash();
    act(&mut bay, &[whole]);
    assert_ne!(
        bay.state_hash(),
        hash,
        "what the label says is part of the bay"
    );
    let lacks = breaches(&bay.record(&Prices::default()));
    assert_eq!(lacks, [Breach::Fittings]);
    // In a take it stands as it was written, and one from before labels had these lines still reads.
    let text = serde_json::to_string(&whole).unwrap();
    assert!(text.contains(r#""date":"2026-05-04""#), "{text}");
    assert_eq!(serde_json::from_str::<Action>(&text).unwrap(), whole);
    let old = r#"{"do":"label","charge":"980 g","gas":"R-134a"}"#;
    assert!(serde_json::from_str::<Action>(old).is_ok());
    let long = old.replace(
        '}',
        &format!(r#","particulars":{{"technician":"{}"}}}}"#, "x".repeat(41)),
    );
    let refused = serde_json::from_str::<Action>(&long)
        .unwrap_err()
        .to_string();
    assert!(refused.contains("40"), "{refused}");
}

/// Each machine keeps its own cylinder: what the R-12 machine drew stays in it, and is counted, when the other is brought.
#[test]
fn each_gas_has_its_own_recovery_cylinder() {
    let mut bay = van(&["start.charge=400 g"]);
    let open = |open| {
        acts![
            HoseAct::LowValve {
                open: Ratio::from_fraction(open),
            },
            HoseAct::HighValve {
                open: Ratio::from_fraction(open),
            },
        ]
    };
    act(
        &mut bay,
        &acts![MachineAct::TakeRecoveryMachine {
            gas: Refrigerant::R12
        }],
    );
    act(&mut bay, &open(1.0));
    act(&mut bay, &acts![MachineAct::RecoveryMachine { on: true }]);
    run(&mut bay, 600.0);
    let drawn = bay.shop().recovered(bay.plant());
    assert!(drawn > 0.3, "{drawn}");
    act(&mut bay, &open(0.0));
    act(&mut bay, &acts![HoseAct::Disconnect]);
    act(&mut bay, &OFF);
    act(&mut bay, &convert(true));
    run(&mut bay, 10.0);
    act(
        &mut bay,
        &acts![
            HoseAct::GaugeSet {
                gas: Refrigerant::R134a
            },
            MachineAct::TakeRecoveryMachine {
                gas: Refrigerant::R134a
            },
        ],
    );
    let held = |bay: &Bay| {
        bay.plant()
            .network
            .node(bay.shop().manifold.can)
            .content
            .whole()[0]
    };
    assert!(held(&bay) < 1e-9, "an empty cylinder: {}", held(&bay));
    assert!((bay.shop().recovered(bay.plant()) - drawn).abs() < 1e-6);
    act(
        &mut bay,
        &acts![
            HoseAct::Disconnect,
            HoseAct::GaugeSet {
                gas: Refrigerant::R12
            }
        ],
    );
    act(
        &mut bay,
        &acts![MachineAct::TakeRecoveryMachine {
            gas: Refrigerant::R12
        }],
    );
    assert!((held(&bay) - drawn).abs() < 1e-3, "the first one again");
    run(&mut bay, 5.0);
    assert!(
        bay.mass_error() < 1e-9 && bay.ledger_gap() < 1e-9,
        "{}",
        bay.ledger_gap()
    );
}
