//! Deep vacuum: pumping down, water that boils and freezes off, holding tests, leaks, altitude.

use lowside_fluids::{air, moisture, water};
use lowside_plant::{
    circuit::Section,
    species::{AIR, REFRIGERANT, WATER},
};
use lowside_session::{Action, Bay, BenchAct, HoseAct, InstrumentAct, MachineAct, acts};
use lowside_shop::{
    joints::Joint,
    ledger::Place,
    parts::Part,
    vacuum::{GaugePlace, MICRON},
};
use lowside_tests::runs::{act, pump, run, scenario};
use lowside_units::{Quantity, Ratio, VolumeFlow};

/// One inch of mercury, Pa (NIST SP 811).
const INCH: f64 = 3_386.389;
const ATMOSPHERE: f64 = 101_325.0;
/// A loop at rest that has been open: air at the atmosphere's pressure, at 25 degC (3.9 g in the van's 3.35 litres).
const OPENED: [&str; 7] = [
    "start.charge=0g",
    "start.air=3.9g",
    "engine.on=false",
    "controls.ac=false",
    "controls.blower=0",
    "day.ambient=25degC",
    "condition.desiccant_load=80%",
];

const NO_BAG: &str = "vehicle.accumulator.desiccant=0g";

fn opened(more: &[&str]) -> Bay {
    let all: Vec<&str> = OPENED.iter().chain(more).copied().collect();
    Bay::new(&scenario("healthy", &all))
}

/// Shuts both hand valves, as before a holding test.
fn shut(bay: &mut Bay) {
    let open = Ratio::from_si(0.0);
    act(bay, HoseAct::LowValve { open });
    act(bay, HoseAct::HighValve { open });
}

/// Pressure at the accumulator, Pa absolute.
fn loop_pressure(bay: &Bay) -> f64 {
    let plant = bay.plant();
    plant.network.node(plant.circuit.low_side()).state.p
}

/// A species in the loop, without what is bound, kg.
fn in_loop(bay: &Bay, species: usize) -> f64 {
    let plant = bay.plant();
    plant.held(species)
}

/// Volume of the loop, m3.
fn volume(bay: &Bay) -> f64 {
    let plant = bay.plant();
    plant.volumes().map(|n| n.volume).sum()
}

/// Runs until the loop is below so many micron; the time it took, s.
fn run_down_to(bay: &mut Bay, micron: f64, at_most: f64) -> f64 {
    let start = bay.seconds();
    while loop_pressure(bay) > micron * MICRON {
        assert!(
            bay.seconds() - start < at_most,
            "still at {:.0} micron after {at_most} s",
            loop_pressure(bay) / MICRON
        );
        bay.step().expect("the engine goes on");
    }
    bay.seconds() - start
}

fn books_close(bay: &Bay) {
    let (mass, energy) = (bay.mass_error(), bay.energy_error());
    assert!(mass < 1e-9, "mass off by {mass:.1e}");
    assert!(energy < 1e-9, "energy off by {energy:.1e}");
    assert!(
        bay.plant().network.unsettled == 0,
        "{} steps unsettled",
        bay.plant().network.unsettled
    );
}

/// A dry loop reaches 500 micron through quarter-inch hoses in minutes, and a bigger pump hardly hurries it: hose and core
/// set the pace (common practice). The gauge at the pump reads far below the loop.
#[test]
fn hoses_set_the_pace_and_the_gauge_at_the_pump_flatters() {
    let mut times = Vec::new();
    for cfm in [1.5, 3.0, 6.0] {
        let mut bay = opened(&[]);
        pump(&mut bay, cfm);
        times.push(run_down_to(&mut bay, 500.0, 1800.0));
        run(&mut bay, 5.0);
        let at_pump = bay.shop().instruments.vacuum.reading();
        act(
            &mut bay,
            InstrumentAct::VacuumGauge {
                at: GaugePlace::Loop,
            },
        );
        run(&mut bay, 10.0);
        let at_loop = bay.shop().instruments.vacuum.reading();
        assert!(
            at_pump < 0.25 * at_loop,
            "{cfm} cfm: {:.0} micron at the pump, {:.0} at the loop",
            at_pump / MICRON,
            at_loop / MICRON
        );
        books_close(&bay);
    }
    assert!(
        times[1] > 120.0 && times[1] < 600.0,
        "{times:?} s to 500 micron"
    );
    assert!(
        times[0] > times[1] && times[1] > times[2] && times[2] > 0.75 * times[0],
        "{times:?} s: four times the pump may not save a quarter"
    );
}

/// Water outside the desiccant, with that in the oil, kg.
fn free_water(bay: &Bay) -> f64 {
    bay.plant().free_water()
}

/// Five grams of water: an ideal pump of 3 cfm (1.416 L/s) would carry nine tenths off in 138 s at 25 degC (m R T / (p_sat S), 3 169 Pa by
/// IAPWS-95); a real loop takes half an hour and more (common practice), since what lies there boils itself cold and oil gives its water up
/// slowly. It spoils the pump's oil: blanked off, fresh oil pulls far deeper (common practice: change the oil after a wet system).
#[test]
fn five_grams_of_water_take_half_an_hour_and_more() {
    // Without the bag, which would take a part.
    let mut bay = opened(&["start.water=5g", NO_BAG]);
    pump(&mut bay, 3.0);
    let mut half_gone = f64::NAN;
    while free_water(&bay) > 0.5e-3 {
        assert!(bay.seconds() < 7200.0, "{} kg", free_water(&bay));
        bay.step().expect("the engine goes on");
        if half_gone.is_nan() && in_loop(&bay, WATER) < 2.5e-3 {
            half_gone = loop_pressure(&bay);
        }
    }
    assert!(
        bay.seconds() > 1500.0,
        "nine tenths gone after {} s",
        bay.seconds()
    );
    // It boils below the vapour pressure at the room's temperature, since it is colder, and above that of freezing water.
    assert!(half_gone > 612.0 && half_gone < 3_169.0, "{half_gone} Pa");
    let wet = bay.shop().pump_oil.water;
    assert!(wet > 1e-3, "{wet} kg of water in the oil");
    act(&mut bay, MachineAct::Isolation { on: false });
    run(&mut bay, 60.0);
    let at_pump = |bay: &Bay| bay.shop().instruments.vacuum.reading() / MICRON;
    // 20 to 70 Pa with wet oil, 2 to 10 with clean (from memory).
    assert!(at_pump(&bay) > 250.0, "{:.0} micron", at_pump(&bay));
    for action in acts![
        MachineAct::Pump { on: false },
        MachineAct::PumpOil,
        MachineAct::Pump { on: true },
    ] {
        act(&mut bay, action);
    }
    run(&mut bay, 60.0);
    assert!(
        at_pump(&bay) < 75.0,
        "{:.0} micron with fresh oil",
        at_pump(&bay)
    );
    books_close(&bay);
}

/// Whatever is in a loop, the same pump has it no deeper at the same minute than the same loop dry (common practice: a wet loop comes down
/// slower).
#[test]
fn a_wet_loop_is_never_lower_than_a_dry_one() {
    for (bag, cfm, day) in [
        (NO_BAG, 1.5, "day.ambient=25degC"),
        ("condition.desiccant_load=5%", 3.0, "day.ambient=25degC"),
        ("condition.desiccant_load=80%", 3.0, "day.ambient=10degC"),
    ] {
        let minutes = |water: &str| -> Vec<f64> {
            let mut bay = opened(&[bag, day, water]);
            pump(&mut bay, cfm);
            (0..60)
                .map(|_| {
                    run(&mut bay, 60.0);
                    loop_pressure(&bay)
                })
                .collect()
        };
        let dry = minutes("start.water=0g");
        for water in ["start.water=2g", "start.water=10g"] {
            for (minute, (wet, dry)) in minutes(water).iter().zip(&dry).enumerate() {
                assert!(
                    wet > dry,
                    "{bag}, {water}, minute {}: {wet} under {dry} Pa",
                    minute + 1
                );
            }
        }
    }
}

/// Shut off, a wet loop without desiccant rises and does not fall again; with a fresh one it falls no faster than a bag can drink, which
/// fills in four hours of saturated vapour (own figure, common practice "hours"), the less the thinner the vapour.
#[test]
fn shut_off_only_a_desiccant_lowers_the_pressure() {
    for minutes in [4.0, 20.0, 60.0] {
        let held = |bag: &str| {
            let mut bay = opened(&["start.water=5g", bag]);
            pump(&mut bay, 3.0);
            run(&mut bay, 60.0 * minutes);
            act(&mut bay, MachineAct::Isolation { on: false });
            let mut p = vec![mean_pressure(&bay)];
            for _ in 0..15 {
                run(&mut bay, 60.0);
                p.push(mean_pressure(&bay));
            }
            books_close(&bay);
            (p, volume(&bay))
        };
        let (p, _) = held(NO_BAG);
        // Oil that was above the last puddle's water takes up a little more of it: a hundredth is not seen to fall.
        let mut highest = 0.0_f64;
        for now in &p {
            assert!(*now > 0.99 * highest, "after {minutes} min: {p:.1?} Pa");
            highest = highest.max(*now);
        }
        assert!(p[15] > p[0], "after {minutes} min: {p:.1?} Pa");
        let (p, space) = held("condition.desiccant_load=5%");
        // 50 g of sieve hold 10.5 g of water; saturated vapour at 25 degC weighs 23 g/m3 (IAPWS-95).
        let draws = 10.5 / (4.0 * 3600.0 * 23.0);
        for pair in p.windows(2) {
            let least = pair[0] * (1.0 - 60.0 * draws / space);
            assert!(pair[1] > least, "after {minutes} min: {p:.1?} Pa");
        }
    }
}

/// A fresh bag drinks the last vapour, and the pump then lets air back: nothing stands below the pump's ultimate pressure for long, nor the
/// vapour over a bag below its isotherm. Mineral oil holds next to no water.
#[test]
fn nothing_stands_below_the_pump_or_the_isotherm() {
    for load in ["5%", "80%"] {
        let load = format!("condition.desiccant_load={load}");
        let mut bay = opened(&["start.water=1g", &load, "vehicle.oil_kind=mineral"]);
        pump(&mut bay, 3.0);
        run(&mut bay, 3600.0);
        let oil = bay.shop().pump_oil;
        assert!(
            loop_pressure(&bay) > 0.95 * oil.ultimate(false),
            "{load}: {} Pa, the pump {}",
            loop_pressure(&bay),
            oil.ultimate(false)
        );
        act(&mut bay, MachineAct::Isolation { on: false });
        run(&mut bay, 900.0);
        let plant = bay.plant();
        let node = plant.network.node(plant.circuit.accumulator.outlet());
        let sieve = plant.vehicle.accumulator.desiccant.si();
        let over = water::p_sat(node.state.t)
            * moisture::sieve_saturation(plant.desiccant_water() / sieve, node.state.t);
        assert!(
            node.state.p_water > 0.98 * over,
            "{load}: {} Pa over a bag of {over}",
            node.state.p_water
        );
        books_close(&bay);
    }
}

/// On a day near freezing what lies there freezes as it boils, and ice sublimes at its own pressure, below 611 Pa (IAPWS R14-08).
#[test]
fn near_freezing_water_turns_to_ice_under_the_pump() {
    let mut bay = opened(&[
        "start.water=10g",
        NO_BAG,
        "day.ambient=0.2degC",
        "vehicle.oil_kind=mineral",
    ]);
    pump(&mut bay, 6.0);
    let (mut most, mut at) = (0.0, 0.0);
    for _ in 0..60 {
        run(&mut bay, 60.0);
        let ice: f64 = bay.plant().volumes().map(|n| n.state.m_ice).sum();
        if ice > most {
            (most, at) = (ice, loop_pressure(&bay));
        }
    }
    assert!(most > 0.1e-3, "{most} kg of ice");
    assert!(at < 612.0 && at > 100.0, "{at} Pa");
    books_close(&bay);
}

/// Rubber that was damp gives its water off for hours (own figures: half a day; common practice: after a wet loop the vacuum creeps), and
/// a hose that comes off takes it along.
#[test]
fn damp_rubber_gives_its_water_off_for_hours() {
    let mut bay = opened(&["start.water=3g", NO_BAG]);
    let held = |bay: &Bay| -> f64 {
        let plant = bay.plant();
        let hoses = [&plant.circuit.discharge_line, &plant.circuit.suction_line];
        let nodes = hoses.into_iter().flat_map(Section::nodes);
        nodes.map(|id| plant.network.node(*id).bound).sum()
    };
    run(&mut bay, 7200.0);
    let damp = held(&bay);
    // Two hoses of 0.25 g, two hours of fourteen, in air that the oil dries a little.
    assert!(damp > 0.02e-3 && damp < 0.07e-3, "{damp} kg");
    pump(&mut bay, 6.0);
    run(&mut bay, 5.0 * 3600.0);
    let left = held(&bay) / damp;
    assert!(left > 0.5 && left < 0.97, "{left}");
    books_close(&bay);
    for joint in [Joint::CompressorOut, Joint::CondenserIn] {
        act(&mut bay, BenchAct::OpenJoint { joint });
    }
    let part = Part::DischargeHose;
    act(&mut bay, BenchAct::RemovePart { part });
    let hose = bay.shop().bench[part as usize].expect("on the bench");
    assert!(hose.bound > 0.0 && (held(&bay) + hose.bound - left * damp).abs() < 1e-9);
    books_close(&bay);
}

/// The gas ballast keeps most of the water out of the oil and dries oil that is wet (Gaede 1935).
#[test]
fn gas_ballast_keeps_the_oil_dry() {
    let after = |ballast: bool| {
        let mut bay = opened(&["start.water=5g"]);
        pump(&mut bay, 3.0);
        act(&mut bay, MachineAct::Ballast { on: ballast });
        run(&mut bay, 900.0);
        books_close(&bay);
        (bay.shop().pump_oil.water, bay)
    };
    let ((without, mut bay), (with, _)) = (after(false), after(true));
    assert!(with < 0.5 * without, "{with} against {without} kg");
    act(&mut bay, MachineAct::Isolation { on: false });
    act(&mut bay, MachineAct::Ballast { on: true });
    run(&mut bay, 1800.0);
    let now = bay.shop().pump_oil.water;
    assert!(
        now < 0.7 * without && now > 0.0,
        "{without} to {now} kg in half an hour"
    );
}

/// Under vacuum at room temperature a molecular sieve keeps most of its water (17 % of its mass at a relative saturation of
/// 0.001, from memory 16-18 %): a full bag gives some for hours, one that is two thirds full gives nothing.
#[test]
fn vacuum_does_not_dry_the_bag() {
    let given = |load: f64| {
        let load = format!("condition.desiccant_load={load}");
        let mut bay = opened(&[&load]);
        let before = bay.plant().desiccant_water();
        pump(&mut bay, 3.0);
        run(&mut bay, 3600.0);
        books_close(&bay);
        1.0 - bay.plant().desiccant_water() / before
    };
    let full = given(1.0);
    assert!(full > 0.005 && full < 0.2, "{full} of a full bag's water");
    let part = given(0.67);
    assert!(part.abs() < 0.005, "{part} of what was two thirds full");
}

/// 20 inHg is 33.6 kPa absolute: a third of the air stays (1.6 to 1.9 g in 4 litres), water would boil at 72 degC, and in an hour
/// nothing dries (gas law; IAPWS-95).
#[test]
fn twenty_inches_dry_nothing() {
    let mut bay = opened(&["start.water=5g", NO_BAG]);
    let before = free_water(&bay);
    pump(&mut bay, 3.0);
    run_down_to(&mut bay, (ATMOSPHERE - 20.0 * INCH) / MICRON, 300.0);
    act(&mut bay, MachineAct::Isolation { on: false });
    act(&mut bay, MachineAct::Pump { on: false });
    run(&mut bay, 3600.0);
    assert!(
        free_water(&bay) > 0.9 * before,
        "{} of {before} kg left",
        free_water(&bay)
    );
    books_close(&bay);
    let mut dry = opened(&[]);
    pump(&mut dry, 3.0);
    run_down_to(&mut dry, (ATMOSPHERE - 20.0 * INCH) / MICRON, 300.0);
    let plant = dry.plant();
    let space: f64 = plant.volumes().map(|n| n.state.v_gas).sum();
    let left = in_loop(&dry, AIR) * 4e-3 / space;
    assert!(
        left > 1.55e-3 && left < 1.9e-3,
        "{left} kg of air in 4 litres of gas space"
    );
}

/// Mean pressure of the loop, by volume, Pa: a leak takes minutes to reach the far side of the orifice tube.
fn mean_pressure(bay: &Bay) -> f64 {
    let plant = bay.plant();
    plant
        .volumes()
        .map(|n| n.state.p * n.volume / volume(bay))
        .sum()
}

/// Mean pressures of a shut loop after 0, 5, 10, ... 30 minutes, Pa.
fn hold(bay: &mut Bay) -> Vec<f64> {
    shut(bay);
    run(bay, 60.0);
    (0..=6)
        .map(|k| {
            if k > 0 {
                run(bay, 300.0);
            }
            mean_pressure(bay)
        })
        .collect()
}

/// A leak of 450 g a year raises 4 litres by about 6 micron in ten minutes, in a straight line (capillary; computed for the
/// same passage from the laminar law with CoolProp's densities: 6 to 7).
#[test]
fn a_leak_raises_the_vacuum_in_a_straight_line() {
    let leak = r#"condition.leak=[{at="condenser-top",rate="450 g/yr"}]"#;
    let mut bay = opened(&["start.air=0.1mg", "condition.desiccant_load=0", leak]);
    for action in acts![
        HoseAct::LowCoupler { on: false },
        HoseAct::HighCoupler { on: false },
    ] {
        act(&mut bay, action);
    }
    let p = hold(&mut bay);
    let rise = (p[2] - p[0]) / MICRON * volume(&bay) / 4e-3;
    assert!(rise > 5.0 && rise < 7.5, "{rise:.2} micron in ten minutes");
    let (first, last) = (p[2] - p[0], p[6] - p[4]);
    assert!((last / first - 1.0).abs() < 0.05, "{first} then {last} Pa");
    // What came in is room air with its humidity.
    let w = bay.plant().day().w();
    let came = in_loop(&bay, WATER) / in_loop(&bay, AIR);
    assert!(came < 1.1 * w, "{came} against {w}");
    books_close(&bay);
}

/// Moisture bends over towards its vapour pressure, a tight dry loop stays where it is, a coarse leak goes straight on.
#[test]
fn the_holding_test_tells_water_from_a_leak() {
    let held = |more: &[&str], minutes: f64| {
        let mut bay = opened(more);
        pump(&mut bay, 3.0);
        run(&mut bay, 60.0 * minutes);
        let p = hold(&mut bay);
        books_close(&bay);
        p
    };
    // Shut off in the middle of drying, two grams of water are left.
    let wet = held(&["start.water=5g", NO_BAG], 3.0);
    let (early, late) = (wet[1] - wet[0], wet[6] - wet[5]);
    assert!(
        wet[6] > 2_900.0 && wet[6] < 3_200.0 && late < 0.5 * early.max(20.0),
        "{wet:.0?} Pa"
    );
    let tight = held(&["condition.desiccant_load=0"], 15.0);
    assert!(
        tight[6] < 1.5 * tight[0] && tight[6] < 100.0,
        "{tight:.1?} Pa"
    );
    let hole = r#"condition.leak=[{at="accumulator",hole="20 um"}]"#;
    let leaky = held(&["condition.desiccant_load=0", hole], 15.0);
    let (early, late) = (leaky[2] - leaky[0], leaky[6] - leaky[4]);
    assert!(
        early > 100.0 && (late / early - 1.0).abs() < 0.05,
        "{leaky:.0?} Pa"
    );
}

/// A leak loses what its size says from a loop standing at 20 degC; a hole of 0.1 mm loses about 18 mg/s of vapour
/// (choked nozzle with a discharge coefficient of 0.6, by hand).
#[test]
fn leaks_lose_what_they_say() {
    let lost = |leak: &str, hours: f64| {
        let leak = format!("condition.leak=[{leak}]");
        let mut bay = Bay::new(&scenario(
            "healthy",
            &[
                "engine.on=false",
                "controls.ac=false",
                "day.ambient=20degC",
                &leak,
            ],
        ));
        let before = bay.plant().network.held()[REFRIGERANT];
        run(&mut bay, 3600.0 * hours);
        books_close(&bay);
        let room = bay.ledger();
        let room = room
            .iter()
            .find(|e| e.place == Place::Room)
            .expect("a place");
        let gone = before - bay.plant().network.held()[REFRIGERANT];
        assert!(
            (room.content[REFRIGERANT] / gone - 1.0).abs() < 1e-6,
            "{gone} kg"
        );
        gone / hours
    };
    let hour = lost(r#"{at="low-port",rate="450 g/yr"}"#, 0.5) * 8760.0;
    assert!((hour / 0.450 - 1.0).abs() < 0.03, "{hour} kg a year");
    let hole = lost(r#"{at="accumulator",hole="0.1 mm"}"#, 0.05) / 3600.0;
    assert!((hole / 18e-6 - 1.0).abs() < 0.2, "{:.1} mg/s", 1e6 * hole);
}

/// The same vacuum reads less on a compound gauge the higher the shop stands. ISO 2533 (standard atmosphere): 89 875 Pa at
/// 1 000 m, 79 495 at 2 000 m, 70 109 at 3 000 m.
#[test]
fn a_compound_gauge_reads_less_vacuum_at_altitude() {
    for (metres, iso) in [
        (0.0, 101_325.0),
        (1e3, 89_875.0),
        (2e3, 79_495.0),
        (3e3, 70_109.0),
    ] {
        let p = air::standard_pressure(metres);
        assert!(
            (p / iso - 1.0).abs() < 3e-4,
            "{metres} m: {p} against {iso} Pa"
        );
        let mut bay = opened(&["start.air=0g", &format!("day.pressure={p}Pa")]);
        run(&mut bay, 20.0);
        let read = bay.shop().instruments.low.pointer();
        assert!((read + iso).abs() < 600.0, "{metres} m: {read} Pa");
    }
}

/// A pump under pressure blows out its oil and vents: both counted, both said before.
#[test]
fn pumping_a_charged_loop_blows_the_oil_out() {
    let mut bay = Bay::new(&scenario(
        "healthy",
        &["engine.on=false", "controls.ac=false"],
    ));
    let open = Ratio::from_si(1.0);
    act(
        &mut bay,
        MachineAct::TakePump {
            speed: VolumeFlow::from_cfm(3.0),
        },
    );
    act(&mut bay, HoseAct::LowValve { open });
    run(&mut bay, 5.0);
    let last = Action::from(MachineAct::Isolation { on: true });
    assert!(
        lowside_lessons::Caution::at(last, &lowside_lessons::Shown::of(&bay)).is_some(),
        "no caution at the act"
    );
    act(&mut bay, MachineAct::Pump { on: true });
    act(&mut bay, last);
    run(&mut bay, 60.0);
    let oil = bay.shop().pump_oil.level;
    assert!(oil < 0.9, "{oil} of the oil");
    let vented = bay.plant().network.account().to_room[REFRIGERANT];
    assert!(vented > 0.02, "{vented} kg vented");
    assert!(
        bay.events()
            .iter()
            .any(|(_, e)| *e == lowside_session::Event::PumpOilBlown)
    );
    books_close(&bay);
}

/// The same bits twice and through a clone; the pump and the leaks are in the fingerprint.
#[test]
fn vacuums_give_the_same_bits() {
    let wet = || {
        let mut bay = opened(&["start.water=2g"]);
        pump(&mut bay, 3.0);
        bay
    };
    let (mut a, mut b) = (wet(), wet());
    run(&mut a, 300.0);
    run(&mut b, 150.0);
    let mut b = b.clone();
    run(&mut b, 150.0);
    assert_eq!(a.state_hash(), b.state_hash());
    let mut c = a.clone();
    act(&mut c, MachineAct::Ballast { on: true });
    assert_ne!(a.state_hash(), c.state_hash());
    let leak = |rate: &str| {
        let leak = format!(r#"condition.leak=[{{at="low-port",rate="{rate}"}}]"#);
        opened(&[&leak]).state_hash()
    };
    assert_ne!(leak("40 g/yr"), leak("41 g/yr"));
}
