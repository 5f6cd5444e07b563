//! Holds the drawing of the levels to what stands in the bay.

use super::*;
use crate::readout::tests::bay;
use lowside_session::{Action, BenchAct, FixingAct, MachineAct, VesselAct};
use lowside_shop::joints::Joint;

#[test]
fn the_axis_rises_and_meets_at_the_atmosphere() {
    let a = 101_325.0;
    assert!(height(10.0, a).abs() < 1e-12 && (height(9e9, a) - 1.0).abs() < 1e-12);
    assert!((height(a, a) - CELLAR).abs() < 1e-12 && (height(a - 1.0, a) - CELLAR).abs() < 1e-4);
    let all: Vec<f64> = (1..400).map(|k| height(f64::from(k) * 1e4, a)).collect();
    assert!(all.windows(2).all(|w| w[0] <= w[1]));
    for units in [UnitSystem::US, UnitSystem::SI, UnitSystem::MIXED] {
        let t = ticks(&bay("healthy"), units);
        assert!(t.windows(2).all(|w| w[0].height < w[1].height));
    }
}

#[test]
fn a_hand_finds_the_day_whose_line_it_pulls() {
    let a = 101_325.0;
    for p in [4e3, 5e4, a, 4e5, 3e6] {
        assert!((pressure(height(p, a), a) / p - 1.0).abs() < 1e-9, "{p}");
    }
    let bay = bay("healthy");
    for t in [0.0, 21.0, 35.0, 48.0] {
        let at = outside(&bay, Temperature::from_deg_c(t));
        assert!((ambient_at(&bay, at).deg_c() - t).abs() < 1e-6, "{t}");
    }
    // No day is hotter than the panel's control has one.
    assert!((ambient_at(&bay, 1.0).deg_c() - 48.0).abs() < 1e-6);
}

#[test]
fn a_parked_charged_loop_rests_on_the_line_of_the_outside_air() {
    let l = Levels::of(&bay_parked(), UnitSystem::US);
    for b in l
        .high_side()
        .map(|(_, block)| block)
        .chain(&l.evaporator)
        .chain([&l.accumulator, &l.suction])
    {
        assert!((b.height - l.outside.height).abs() < 0.01, "{b:?}");
    }
    assert!(l.compressor.flow.abs() < 0.1 && !l.clutch);
}

/// An evacuated loop opened to the room stands at the atmosphere, and what hangs below that line needs room there; the hoses, which
/// are lines, need none.
#[test]
fn a_loop_at_the_atmosphere_needs_room_below_it() {
    let mut bay = bay("charge-from-cans");
    let joint = Joint::CompressorIn;
    bay.apply(BenchAct::OpenJoint { joint }).expect("possible");
    bay.apply(VesselAct::TakeCan).expect("possible");
    for _ in 0..120 * 50 {
        bay.step().expect("the engine goes on");
    }
    let l = Levels::of(&bay, UnitSystem::US);
    assert!((l.accumulator.height - l.atmosphere).abs() < 0.01);
    assert!(l.lowest() <= l.accumulator.height && l.can.is_some());
}

#[test]
fn the_drawing_knows_what_hangs_on_the_hose() {
    let mut bay = bay("charge-from-cans");
    let tool = |bay: &Bay| Levels::of(bay, UnitSystem::US).tool;
    assert_eq!(tool(&bay), None);
    let gas = lowside_fluids::Refrigerant::R134a;
    let all: [(Action, Option<Tool>); 4] = [
        (VesselAct::TakeNitrogen.into(), Some(Tool::Nitrogen)),
        (
            MachineAct::TakeRecoveryMachine { gas }.into(),
            Some(Tool::Machine),
        ),
        (VesselAct::TakeCan.into(), None),
        (
            MachineAct::TakePump {
                speed: lowside_units::VolumeFlow::from_cfm(4.0),
            }
            .into(),
            Some(Tool::Pump),
        ),
    ];
    for (act, hangs) in all {
        bay.apply(act).expect("possible");
        assert_eq!(tool(&bay), hangs, "{act:?}");
    }
}

fn pass(bay: &mut Bay, seconds: u32) {
    for _ in 0..50 * seconds {
        bay.step().expect("the engine goes on");
    }
}

#[test]
fn liquid_boils_where_heat_comes_in_and_vapour_condenses_where_it_goes_out() {
    let mut bay = bay("healthy");
    pass(&mut bay, 60);
    let l = Levels::of(&bay, UnitSystem::SI);
    let kw = |blocks: &[Block]| blocks.iter().map(|b| b.boils).sum::<f64>();
    assert!(l.evaporator.iter().all(|b| b.boils >= 0.0));
    // What the walls give is what the air gave, as good as the walls stand still: within a tenth.
    let taken = l.taken * 1e-3;
    assert!(
        (kw(&l.evaporator) - taken).abs() < 0.1 * taken,
        "{} of {taken} kW",
        kw(&l.evaporator)
    );
    assert!(
        kw(&l.condenser_cells) < -0.5 * l.shed * 1e-3,
        "{}",
        kw(&l.condenser_cells)
    );
    // A line of liquid alone does neither.
    assert!(l.liquid.boils.abs() < 1e-12);
    assert!(l.accumulator.oil > 0.0 && l.frost.iter().all(|share| *share < 0.01));
}

#[test]
fn a_gauge_off_its_port_reads_no_line() {
    let mut bay = bay("healthy");
    assert!(
        Levels::of(&bay, UnitSystem::US)
            .gauges
            .iter()
            .all(Option::is_some)
    );
    bay.apply(lowside_session::HoseAct::HighCoupler { on: false })
        .expect("possible");
    let [low, high] = Levels::of(&bay, UnitSystem::US).gauges;
    assert!(low.is_some() && high.is_none());
}

#[test]
fn the_pump_is_drawn_with_its_valve_and_the_vacuum_at_it() {
    let mut bay = bay("charge-from-cans");
    let speed = lowside_units::VolumeFlow::from_cfm(4.0);
    bay.apply(MachineAct::TakePump { speed }).expect("possible");
    bay.apply(MachineAct::Pump { on: true }).expect("possible");
    pass(&mut bay, 20);
    let hung = Levels::of(&bay, UnitSystem::US).hung.expect("a pump");
    assert!(hung.runs && !hung.open);
    assert!(
        hung.block.below && hung.shown.unit.contains("micron"),
        "{hung:?}"
    );
}

/// The filling limit is 80 % of the cylinder's water capacity at 54 degC (49 CFR 173.304a has the cylinder no more than full of liquid
/// at 130 degF, the trade stops at 80 %; from memory). At 35 degC that mass takes up less: by the densities of R-134a, 1083 and
/// 1167 kg/m3 (saturated liquid, printed tables; from memory), 74.2 %.
#[test]
fn the_recovery_cylinder_has_its_limit_where_the_mass_stands_now() {
    let mut bay = bay("healthy");
    let gas = lowside_fluids::Refrigerant::R134a;
    bay.apply(MachineAct::TakeRecoveryMachine { gas })
        .expect("possible");
    let hung = Levels::of(&bay, UnitSystem::SI).hung.expect("a machine");
    let limit = hung.limit.expect("a limit");
    assert!((limit - 0.742).abs() < 0.01, "{limit}");
}

#[test]
fn an_open_joint_has_its_hole_and_its_loss() {
    let mut bay = bay_parked();
    let joint = Joint::CondenserOut;
    assert!(Levels::of(&bay, UnitSystem::SI).openings.is_empty());
    bay.apply(BenchAct::OpenJoint { joint }).expect("possible");
    pass(&mut bay, 1);
    let l = Levels::of(&bay, UnitSystem::SI);
    let [open] = l.openings.as_slice() else {
        panic!("{:?}", l.openings);
    };
    assert!(
        open.joint == joint && open.flow > 1.0 && !open.capped,
        "{open:?}"
    );
    bay.apply(BenchAct::CapJoint { joint }).expect("possible");
    pass(&mut bay, 1);
    let l = Levels::of(&bay, UnitSystem::SI);
    assert!(
        l.openings[0].capped && l.openings[0].flow.abs() < 1e-9,
        "{:?}",
        l.openings
    );
}

/// Into an evacuated loop air falls.
#[test]
fn air_that_falls_into_an_open_joint_is_told_as_such() {
    let mut bay = bay("charge-from-cans");
    bay.apply(BenchAct::OpenJoint {
        joint: Joint::CompressorIn,
    })
    .expect("possible");
    pass(&mut bay, 1);
    let l = Levels::of(&bay, UnitSystem::SI);
    assert!(l.openings[0].flow < -0.01, "{:?}", l.openings);
}

fn bay_parked() -> Bay {
    use lowside_session::{Scenario, library};
    let text = library::scenario("healthy").expect("shipped");
    let off: Vec<String> = ["engine.on=false", "controls.ac=false"]
        .map(Into::into)
        .into();
    Bay::new(&Scenario::parse(text, &off).expect("sound"))
}

#[test]
fn running_lifts_the_high_shelf_and_drops_the_low_one() {
    let mut bay = bay("healthy");
    for _ in 0..50 * 60 {
        bay.step().expect("the engine goes on");
    }
    let l = Levels::of(&bay, UnitSystem::US);
    assert!(
        l.condenser_cells[2].height > l.outside.height,
        "the condenser sheds heat down to the outside air"
    );
    assert!(
        l.accumulator.height < l.cabin.height,
        "the cabin pours heat down into the low side"
    );
    assert!(l.shed > 500.0 && l.taken > 500.0, "{} {}", l.shed, l.taken);
    assert!(
        l.condenser.flow > 0.0 && l.evaporated.flow > 0.0,
        "the links are the ones meant"
    );
}

#[test]
fn the_evacuated_loop_lies_on_the_floor_and_a_full_can_stands_by_the_outside_air() {
    let mut bay = bay("charge-from-cans");
    bay.apply(VesselAct::TakeCan).unwrap();
    let l = Levels::of(&bay, UnitSystem::SI);
    assert!(l.high_side().all(|(_, b)| b.below && b.height == 0.0));
    let can = l.can.expect("a can is on");
    assert!((can.block.height - l.outside.height).abs() < 0.01);
    assert!(can.block.fill > 0.5);
}

/// Whoever takes belt, plug or battery lead off sees why nothing turns; a bridged plug closes its circuit.
#[test]
fn what_keeps_the_compressor_from_turning_is_told() {
    use lowside_plant::loose::{Lead, Plug};
    let mut bay = bay_parked();
    let low = |state| FixingAct::Plug {
        at: Lead::LowSwitch,
        state,
    };
    let clutch = |state| FixingAct::Plug {
        at: Lead::Clutch,
        state,
    };
    for (act, told) in [
        (FixingAct::Belt { on: false }, true),
        (FixingAct::Belt { on: true }, false),
        (clutch(Plug::Off), true),
        (clutch(Plug::On), false),
        (low(Plug::Off), true),
        (low(Plug::Bridged), false),
        (low(Plug::On), false),
        (FixingAct::Battery { on: false }, true),
    ] {
        bay.apply(act).expect("the engine is off");
        assert_eq!(Levels::of(&bay, UnitSystem::SI).loose, told, "{act:?}");
    }
}
