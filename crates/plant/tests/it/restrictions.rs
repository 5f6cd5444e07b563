//! Passages restricted by place: at a given flow a turbulent passage loses one over the square of its open share as much pressure
//! (m = k sqrt(rho dp), the orifice equation of any textbook), and what the trade sees follows.

use lowside_plant::{
    network::{LinkId, NodeId},
    passage::Passage,
    plant::Plant,
};
use lowside_session::Bay;
use lowside_tests::runs::{run, scenario};
use lowside_units::Quantity;

/// The healthy van at a fast idle in the heat, where its clutch stays in.
fn running() -> Plant {
    let mut bay = Bay::new(&scenario("healthy", &["day.ambient=38degC"]));
    run(&mut bay, 200.0);
    bay.plant().clone()
}

fn pass(plant: &mut Plant, seconds: u32) {
    for _ in 0..50 * seconds {
        plant.tick().expect("the engine goes on");
    }
}

/// Mean over ten seconds of dp rho / m^2 from one volume to another, 1/m4: what a passage is at any flow. `rho` of the first volume.
fn resistance(plant: &mut Plant, [from, to]: [NodeId; 2], through: LinkId, liquid: bool) -> f64 {
    let (mut sum, mut n) = (0.0, 0.0);
    for _ in 0..500 {
        plant.tick().expect("the engine goes on");
        let net = &plant.network;
        let flow = net.link(through).flow;
        assert!(flow > 5e-3, "{flow} kg/s");
        let (a, b) = (net.node(from), net.node(to));
        let rho = if liquid {
            a.state.rho_liq
        } else {
            a.state.gas_density(&a.content)
        };
        sum += (a.state.p - b.state.p) * rho / (flow * flow);
        n += 1.0;
    }
    sum / n
}

/// How the resistance of a stretch grows when a passage is restricted.
fn grows(
    at: Passage,
    open: f64,
    stretch: impl Fn(&Plant) -> ([NodeId; 2], LinkId),
    liquid: bool,
) -> f64 {
    let mut sound = running();
    let mut restricted = sound.clone();
    restricted.restrict(at, open);
    let (ends, through) = stretch(&sound);
    for plant in [&mut sound, &mut restricted] {
        pass(plant, 60);
    }
    let was = resistance(&mut sound, ends, through, liquid);
    resistance(&mut restricted, ends, through, liquid) / was
}

fn close(what: &str, is: f64, want: f64, within: f64) {
    assert!(
        (is / want - 1.0).abs() < within,
        "{what}: {is:.3} for {want:.3}"
    );
}

/// Half open: four times the drop. A laminar rest of 30 Pa and the liquid in the gas account for the tolerance.
#[test]
fn a_crushed_liquid_line_loses_four_times_as_much_half_open() {
    let stretch = |p: &Plant| {
        let c = &p.circuit;
        (
            [c.condenser.outlet(), c.liquid_line.inlet()],
            c.condenser.out(),
        )
    };
    close(
        "liquid line",
        grows(Passage::LiquidLine, 0.5, stretch, true),
        4.0,
        0.05,
    );
}

#[test]
fn a_dented_discharge_line_loses_four_times_as_much_half_open() {
    let stretch = |p: &Plant| {
        let c = &p.circuit;
        (
            [c.discharge_line.outlet(), c.condenser.inlet()],
            c.discharge_line.out(),
        )
    };
    close(
        "discharge line",
        grows(Passage::DischargeLine, 0.5, stretch, false),
        4.0,
        0.05,
    );
}

/// Pick-up tube and suction line are one stretch, of 4 and 8 kPa at the rated flow: their drops add, each as one over the square of its
/// own share.
#[test]
fn pick_up_tube_and_suction_line_add_their_drops() {
    let stretch = |p: &Plant| {
        let c = &p.circuit;
        (
            [c.accumulator.outlet(), c.suction_line.inlet()],
            c.pick_up(),
        )
    };
    let v = running().vehicle;
    let (tube, line) = (
        v.accumulator.pressure_loss.si(),
        v.suction_line.pressure_loss.si(),
    );
    close("rated drops", tube / line, 0.5, 1e-9);
    let kinked = grows(Passage::SuctionLine, 0.5, stretch, false);
    close(
        "kinked suction line",
        kinked,
        (tube + 4.0 * line) / (tube + line),
        0.06,
    );
    let clogged = grows(Passage::PickUp, 0.5, stretch, false);
    close(
        "clogged pick-up",
        clogged,
        (4.0 * tube + line) / (tube + line),
        0.06,
    );
}

/// The coils flow wet, so that the mean density moves with the pressures: within a quarter.
#[test]
fn plugged_tubes_of_a_coil_lose_more_as_the_square() {
    let hot = |p: &Plant| {
        let c = &p.circuit;
        (
            [c.condenser.inlet(), c.condenser.outlet()],
            c.condenser.out(),
        )
    };
    close(
        "condenser",
        grows(Passage::Condenser, 0.6, hot, false),
        1.0 / 0.36,
        0.25,
    );
    let cold = |p: &Plant| {
        let c = &p.circuit;
        (
            [c.evaporator.inlet(), c.accumulator.outlet()],
            c.evaporator.out(),
        )
    };
    close(
        "evaporator",
        grows(Passage::Evaporator, 0.6, cold, false),
        1.0 / 0.36,
        0.25,
    );
}

/// Every link of a passage has the sound law narrowed by its share, and the same law again once it is open.
#[test]
fn a_passage_that_is_opened_again_is_to_the_bit_what_it_was() {
    let sound = running();
    for at in Passage::ALL {
        let mut plant = sound.clone();
        plant.restrict(at, 0.3);
        assert!((plant.open_share(at) - 0.3).abs() < 1e-12);
        let mut narrowed = plant.clone();
        pass(&mut narrowed, 2);
        plant.restrict(at, 1.0);
        let mut untouched = sound.clone();
        for p in [&mut plant, &mut untouched] {
            pass(p, 2);
        }
        let bits = |p: &Plant| -> Vec<u64> { p.volumes().map(|n| n.state.p.to_bits()).collect() };
        assert_eq!(bits(&plant), bits(&untouched), "{at:?}");
        assert_ne!(bits(&narrowed), bits(&untouched), "{at:?}");
        for link in plant.network.links() {
            assert!(
                (link.open() - 1.0).abs() < 1e-12 && link.law == link.sound(),
                "{}",
                link.name
            );
        }
    }
}

/// A kink in the suction hose starves the compressor: it draws from a lower pressure than the gauge at the accumulator shows, and cools
/// less (common practice, no source). A blocked liquid line stops the flow.
#[test]
fn the_compressor_behind_a_kinked_hose_starves() {
    let mut sound = running();
    let mut kinked = sound.clone();
    kinked.restrict(Passage::SuctionLine, 0.25);
    let mut blocked = sound.clone();
    blocked.restrict(Passage::LiquidLine, 0.0);
    for plant in [&mut sound, &mut kinked, &mut blocked] {
        pass(plant, 60);
    }
    let drop = |p: &Plant| {
        let at = |id| p.network.node(id).state.p;
        at(p.circuit.low_side()) - at(p.circuit.compressor_inlet())
    };
    assert!(
        drop(&kinked) > 5.0 * drop(&sound),
        "{} {}",
        drop(&kinked),
        drop(&sound)
    );
    assert!(kinked.evaporator.duty < 0.9 * sound.evaporator.duty);
    let through = blocked.network.link(blocked.circuit.condenser.out());
    assert!(through.flow.abs() < 1e-12, "{}", through.flow);
}

/// The oil that lies in the accumulator comes back through its bleed hole alone: with its screen clogged the compressor loses oil
/// (common practice, no source).
#[test]
fn oil_stays_behind_a_clogged_bleed_screen() {
    let mut sound = running();
    let mut clogged = sound.clone();
    clogged.restrict(Passage::OilBleed, 0.05);
    for plant in [&mut sound, &mut clogged] {
        pass(plant, 600);
    }
    let (with, without) = (clogged.compressor_oil(), sound.compressor_oil());
    assert!(with < 0.8 * without, "{with} kg of oil for {without}");
}

/// The names that files and faults use.
#[test]
fn passages_are_named_as_in_files() {
    let names: Vec<String> = Passage::ALL
        .iter()
        .map(|at| serde_json::to_string(at).expect("a name"))
        .collect();
    let all = "discharge-line condenser liquid-line evaporator pick-up oil-bleed suction-line";
    assert_eq!(names.join(" ").replace('"', ""), all);
}
