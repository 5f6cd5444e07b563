//! The loop taken apart and put together: joints, seals, parts, oil, the desiccant in the room's air.

use lowside_fluids::moisture::SIEVE_CAPACITY;
use lowside_session::{Bay, BenchAct, Event, HoseAct, Refused};
use lowside_shop::{
    joints::{Joint, Seal, Side},
    ledger::Place,
    oil::{OilKind, worksheet},
    parts::Part,
};
use lowside_tests::runs::{act, run, scenario};
use lowside_units::{Length, Quantity, Volume};

fn seen(bay: &Bay, event: Event) -> usize {
    bay.events().iter().filter(|(_, e)| *e == event).count()
}

/// The van at rest, with so many overrides.
fn at_rest(overrides: &[&str]) -> Bay {
    let mut all = vec![
        "engine.on=false",
        "controls.ac=false",
        "act=[]",
        "day.ambient=27degC",
    ];
    all.extend(overrides);
    let mut bay = Bay::new(&scenario("healthy", &all));
    run(&mut bay, 1.0);
    bay
}

/// An empty, dry loop at atmospheric pressure: 4.6 L of air.
fn empty() -> Bay {
    let mut bay = at_rest(&["start.charge=0g", "start.air=3g"]);
    for joint in [Joint::EvaporatorOut, Joint::AccumulatorOut] {
        act(&mut bay, BenchAct::OpenJoint { joint });
    }
    run(&mut bay, 20.0);
    bay
}

fn sound(bay: &Bay) {
    assert!(bay.ledger_gap() < 1e-9, "{:.1e}", bay.ledger_gap());
    assert!(bay.mass_error() < 1e-9, "{:.1e}", bay.mass_error());
    assert!(bay.energy_error() < 1e-9, "{:.1e}", bay.energy_error());
}

#[test]
fn opening_under_pressure_vents_and_hurts() {
    let mut bay = at_rest(&[]);
    let full = bay.charge();
    let joint = Joint::CondenserOut;
    act(&mut bay, BenchAct::OpenJoint { joint });
    assert_eq!(bay.shop().injuries, 1);
    assert_eq!(seen(&bay, Event::Injury), 1);
    run(&mut bay, 600.0);
    assert!(
        bay.vented() > 0.5 * full,
        "{:.3} of {full:.3} kg",
        bay.vented()
    );
    assert_eq!(
        bay.apply(BenchAct::OpenJoint { joint }),
        Err(Refused::JointApart(joint))
    );
    sound(&bay);
    let mut calm = empty();
    assert_eq!(calm.shop().injuries, 0, "an empty loop hurts nobody");
    act(&mut calm, BenchAct::OpenJoint { joint });
    assert_eq!(calm.shop().injuries, 0);
}

/// The trade: an accumulator that stands open takes up grams of water a day from air of 60 %.
#[test]
fn an_open_accumulator_takes_grams_of_water_a_day() {
    let mut bay = at_rest(&["start.charge=0g", "start.air=3g", "day.humidity=60%"]);
    let before = bay.plant().desiccant_water();
    for joint in [Joint::EvaporatorOut, Joint::AccumulatorOut] {
        act(&mut bay, BenchAct::OpenJoint { joint });
    }
    run(&mut bay, 3600.0);
    let open = bay.plant().desiccant_water() - before;
    let a_day = open * 24.0;
    assert!((1e-3..6e-3).contains(&a_day), "{:.2} g a day", a_day * 1e3);
    for joint in [Joint::EvaporatorOut, Joint::AccumulatorOut] {
        act(&mut bay, BenchAct::CapJoint { joint });
    }
    run(&mut bay, 600.0);
    let capped = bay.plant().desiccant_water();
    run(&mut bay, 3600.0);
    let more = bay.plant().desiccant_water() - capped;
    assert!(more < 0.02 * open, "capped it takes up {more:.1e} kg");
    sound(&bay);
    let capacity = bay.plant().vehicle.accumulator.desiccant.si() * SIEVE_CAPACITY;
    assert!(
        capacity > a_day,
        "a night does not fill it; days do: {capacity:.4} kg"
    );
}

/// What job card 5 says: a suction hose that hangs open over a humid week fills the accumulator's desiccant, one that hangs a night does not.
#[test]
fn an_end_open_for_a_week_fills_the_desiccant() {
    let mut bay = at_rest(&[
        "start.charge=0g",
        "start.air=3g",
        "day.ambient=27degC",
        "day.humidity=70%",
    ]);
    act(
        &mut bay,
        BenchAct::OpenJoint {
            joint: Joint::AccumulatorOut,
        },
    );
    run(&mut bay, 1800.0);
    let before = bay.plant().desiccant_water();
    run(&mut bay, 3600.0);
    let an_hour = bay.plant().desiccant_water() - before;
    let capacity = bay.plant().vehicle.accumulator.desiccant.si() * SIEVE_CAPACITY;
    let (night, week) = (14.0 * an_hour / capacity, 168.0 * an_hour / capacity);
    assert!(
        night < 0.3 && week > 0.9,
        "a night {night:.2}, a week {week:.2}"
    );
}

/// Dry and old rings leak under pressure, at the trade's rates, and a vacuum does not show it.
#[test]
fn a_bad_ring_leaks_under_pressure_and_not_in_vacuum() {
    for (seal, grams_a_year) in [
        (Seal::NewOiled, 0.0),
        (Seal::OldOiled, 40.0),
        (Seal::NewDry, 150.0),
        (Seal::OldDry, 400.0),
    ] {
        // Put together dry and empty, then charged: here the order is turned, since the leak does not remember.
        let mut bay = at_rest(&["day.ambient=20degC", "start.charge=0g", "start.air=0g"]);
        let joint = Joint::AccumulatorOut;
        act(&mut bay, BenchAct::OpenJoint { joint });
        act(&mut bay, BenchAct::CloseJoint { joint, seal });
        let air = |b: &Bay| b.ledger().iter().take(7).map(|e| e.content[1]).sum::<f64>();
        let before = air(&bay);
        run(&mut bay, 600.0);
        assert!(
            (air(&bay) - before).abs() < 1e-12,
            "{seal:?}: a vacuum draws nothing in"
        );
        let mut bay = at_rest(&["day.ambient=20degC"]);
        act(&mut bay, BenchAct::OpenJoint { joint });
        act(&mut bay, BenchAct::CloseJoint { joint, seal });
        run(&mut bay, 60.0);
        let at = bay.vented();
        run(&mut bay, 3600.0);
        let a_year = (bay.vented() - at) * 8766.0 * 1e3;
        assert!(
            (a_year - grams_a_year).abs() < 0.25 * grams_a_year + 0.1,
            "{seal:?}: {a_year:.1} g a year"
        );
    }
}

#[test]
fn parts_come_out_with_their_oil_and_go_back() {
    let mut bay = empty();
    let part = Part::Accumulator;
    let held = bay
        .plant()
        .network
        .node(bay.plant().circuit.low_side())
        .content[3];
    assert!(held > 0.03, "{held}");
    let wrong = bay.apply(BenchAct::RemovePart {
        part: Part::Condenser,
    });
    assert_eq!(wrong, Err(Refused::JointMade(Joint::CondenserIn)));
    act(&mut bay, BenchAct::RemovePart { part });
    let bench = bay.shop().bench[part as usize].expect("it is there");
    // The act comes up to three ticks after what was read of the loop.
    assert!((bench.oil - held).abs() < 1e-6 * held && bench.bound > 0.0);
    assert!(bay.plant().desiccant_water() <= 0.0);
    sound(&bay);
    // 30 to 60 mL come out of an accumulator that held some 60 (workshop manuals: measure, then add 1 to 2 oz).
    act(&mut bay, BenchAct::DrainPart { part });
    let drained = bay.shop().oil.drained[part as usize];
    assert!((drained / held - 0.7).abs() < 1e-6);
    act(&mut bay, BenchAct::NewPart { part });
    let volume = Volume::from_cm3(60.0);
    act(
        &mut bay,
        BenchAct::PourOil {
            part,
            volume,
            oil: OilKind::Pag46,
        },
    );
    let joint = Joint::EvaporatorOut;
    let seal = Seal::NewOiled;
    assert_eq!(
        bay.apply(BenchAct::CloseJoint { joint, seal }),
        Err(Refused::PartOut(part))
    );
    act(&mut bay, BenchAct::RefitPart { part });
    assert!(
        bay.plant().desiccant_water() <= 1e-4,
        "a new desiccant is dry"
    );
    for joint in [Joint::EvaporatorOut, Joint::AccumulatorOut] {
        act(&mut bay, BenchAct::CloseJoint { joint, seal });
    }
    run(&mut bay, 60.0);
    sound(&bay);
    let w = worksheet(bay.plant(), bay.shop());
    // To a gram: what clings to the open ends and hoses is nobody's to measure.
    assert!((w.by_balance - w.truth).abs() < 1e-3, "{w:?}");
    let waste = bay
        .ledger()
        .into_iter()
        .find(|e| e.place == Place::Waste)
        .expect("a place");
    assert!((waste.content[3] - held).abs() < 1e-9);
    assert!(bay.shop().oil.wrong_kind.abs() < 1e-12);
}

/// The trade's shares of an eight-ounce loop (workshop manuals): compressor 25 to 50 %, accumulator 25 to 40 %, evaporator 15 to
/// 35 %, condenser about 10 %. Here at rest as the bay starts.
#[test]
fn oil_lies_in_the_parts_as_the_trade_has_it() {
    let bay = at_rest(&[]);
    let all = bay.plant().vehicle.oil.si();
    let share = |place| {
        let entry = bay.ledger().into_iter().find(|e| e.place == place);
        entry.map_or(0.0, |e| e.content[3]) / all
    };
    for (place, least, most) in [
        (Place::SuctionLine, 0.25, 0.50),
        (Place::Accumulator, 0.25, 0.40),
        (Place::Evaporator, 0.12, 0.35),
        (Place::Condenser, 0.07, 0.13),
    ] {
        assert!(
            (least..=most).contains(&share(place)),
            "{place:?}: {:.2}",
            share(place)
        );
    }
}

#[test]
fn a_missing_tube_and_a_loose_tube_level_the_sides() {
    let spread = |how: Option<(f64, bool, bool)>| {
        let mut bay = at_rest(&["start.charge=0g", "start.air=0g"]);
        let joint = Joint::EvaporatorIn;
        let part = Part::Orifice;
        act(&mut bay, BenchAct::OpenJoint { joint });
        act(&mut bay, BenchAct::RemovePart { part });
        if let Some((mm, reversed, rings)) = how {
            let bore = Length::from_mm(mm);
            act(
                &mut bay,
                BenchAct::FitOrifice {
                    bore,
                    reversed,
                    rings,
                },
            );
        }
        bay.plant().seat
    };
    assert!(!spread(None).fitted);
    let loose = spread(Some((1.7, true, false)));
    assert!(loose.fitted && loose.turned && !loose.sealed);
    let run_with = |change: fn(&mut Bay)| {
        let mut bay = Bay::new(&scenario("healthy", &["until=6min"]));
        change(&mut bay);
        let mut player = lowside_session::script::Player::new(&bay.scenario().act.clone());
        // Without a tube the loop surges: the means of the last two minutes count.
        let mut means = [0.0; 3];
        for tick in 0..50 * 360 {
            player.play(&mut bay).expect("taken");
            bay.step().expect("the engine goes on");
            let p = bay.plant();
            let kpa = |n| p.network.node(n).state.p / 1e3;
            let now = [
                kpa(p.circuit.low_side()),
                kpa(p.circuit.high_side()),
                kpa(p.circuit.liquid_line.outlet()) - kpa(p.circuit.evaporator.inlet()),
            ];
            for (mean, now) in means.iter_mut().zip(now) {
                *mean += if tick < 50 * 240 {
                    0.0
                } else {
                    now / (50.0 * 120.0)
                };
            }
        }
        means
    };
    let sound = run_with(|_| {});
    // Open and shut in one tick: nothing has time to leave.
    let without = run_with(|b| {
        let joint = Joint::EvaporatorIn;
        act(b, BenchAct::OpenJoint { joint });
        act(
            b,
            BenchAct::RemovePart {
                part: Part::Orifice,
            },
        );
        act(
            b,
            BenchAct::CloseJoint {
                joint,
                seal: Seal::NewOiled,
            },
        );
    });
    // The trade's signs of a missing tube: low side up, high side down, no fall of pressure where the tube should sit.
    assert!(without[0] > sound[0] + 50.0, "{without:.0?} {sound:.0?}");
    assert!(without[1] < sound[1] - 100.0, "{without:.0?} {sound:.0?}");
    assert!(without[2] < 0.1 * sound[2], "{without:.0?} {sound:.0?}");
}

#[test]
fn caps_and_cores() {
    let mut bay = at_rest(&["day.ambient=20degC"]);
    let side = Side::Low;
    assert_eq!(
        bay.apply(BenchAct::PortCap { side, on: true }),
        Err(Refused::Coupled)
    );
    act(&mut bay, HoseAct::LowCoupler { on: false });
    run(&mut bay, 60.0);
    let at = bay.vented();
    run(&mut bay, 3600.0);
    let bare = (bay.vented() - at) * 8766.0 * 1e3;
    assert!(
        (15.0..45.0).contains(&bare),
        "an old core without its cap: {bare:.1} g a year"
    );
    act(&mut bay, BenchAct::PortCap { side, on: true });
    assert_eq!(
        bay.apply(HoseAct::LowCoupler { on: true }),
        Err(Refused::CapOn)
    );
    let at = bay.vented();
    run(&mut bay, 3600.0);
    let capped = (bay.vented() - at) * 8766.0 * 1e3;
    assert!(capped < 0.1 * bare, "{capped:.2} g a year");
    act(&mut bay, BenchAct::PortCap { side, on: false });
    act(
        &mut bay,
        BenchAct::ValveCore {
            side,
            fitted: false,
        },
    );
    assert_eq!(bay.shop().injuries, 1);
    run(&mut bay, 60.0);
    assert!(bay.vented() > 0.1, "it blows: {:.3} kg", bay.vented());
    sound(&bay);
}
