//! Solids in the loop: beads of a burst desiccant bag and metal of a worn compressor end on the orifice tube's screen, choke it and are
//! seen there. Directions and cures after common practice (no single source); the figures are the model's own.

use lowside_plant::species::OIL;
use lowside_session::{Bay, BenchAct, Refused, VehicleAct};
use lowside_shop::{
    flush::Flush,
    joints::{Joint, Seal},
    parts::{Part, look},
};
use lowside_tests::runs::{act, run, scenario};
use lowside_units::Length;

fn bay(overrides: &[&str]) -> Bay {
    Bay::new(&scenario("healthy", overrides))
}

/// Over two minutes: the share of the time with the clutch in, and the vent's mean temperature, K.
fn mean(bay: &mut Bay) -> (f64, f64) {
    let (mut engaged, mut vent) = (0.0, 0.0);
    for _ in 0..240 {
        run(bay, 0.5);
        engaged += f64::from(u8::from(bay.plant().drive.engaged)) / 240.0;
        vent += bay.plant().cabin.vent.t / 240.0;
    }
    (engaged, vent)
}

/// Opens the joints of a part and takes it out; the loop is empty by then.
fn out(bay: &mut Bay, part: Part) {
    for joint in part.joints() {
        if !bay.shop().openings.apart(*joint) {
            act(bay, BenchAct::OpenJoint { joint: *joint });
        }
    }
    act(bay, BenchAct::RemovePart { part });
}

#[test]
fn a_burst_bag_chokes_the_tube_over_hours_and_is_seen_there() {
    let mut burst = bay(&["condition.bag_burst=true"]);
    let mut sound = bay(&[]);
    run(&mut burst, 600.0);
    run(&mut sound, 600.0);
    let (first, healthy) = (mean(&mut burst), mean(&mut sound));
    // At first nothing shows.
    assert!(
        (first.1 - healthy.1).abs() < 0.5,
        "vent {first:?}, sound {healthy:?}"
    );
    run(&mut burst, 4.0 * 3600.0);
    run(&mut sound, 4.0 * 3600.0);
    let (late, healthy) = (mean(&mut burst), mean(&mut sound));
    assert!(
        burst.plant().orifice_clean() < 0.1,
        "{:?}",
        burst.plant().debris
    );
    assert!(
        late.1 > healthy.1 + 5.0,
        "the vent is warm: {late:?}, sound {healthy:?}"
    );
    assert!(
        late.0 < 0.5 * healthy.0,
        "the clutch short-cycles: {late:?}, sound {healthy:?}"
    );
    let seen = look(burst.plant(), Part::Orifice);
    assert!(seen.beads > 0.1e-3 && seen.blocked > 0.8, "{seen:?}");
    assert!(look(burst.plant(), Part::Accumulator).beads > 1e-3);
    // Nothing of it left the loop unseen.
    let d = burst.plant().debris;
    let beads = d.loose + d.beads_in_condenser() + d.caught.beads;
    assert!((beads - 0.05).abs() < 1e-9, "{beads}");
}

/// The beads go with the accumulator, what is under way with the condenser, what is caught with the tube.
#[test]
fn each_new_part_takes_its_own_solids_with_it() {
    for (cured, parts) in [
        (false, &[Part::Orifice][..]),
        (
            true,
            &[Part::Accumulator, Part::Condenser, Part::Orifice][..],
        ),
    ] {
        let mut bay = bay(&[
            "condition.bag_burst=true",
            "start.charge=0g",
            "start.air=3g",
        ]);
        for part in parts {
            out(&mut bay, *part);
            act(&mut bay, BenchAct::NewPart { part: *part });
            if *part == Part::Orifice {
                act(
                    &mut bay,
                    BenchAct::FitOrifice {
                        bore: Length::from_m(1.83e-3),
                        reversed: false,
                        rings: true,
                    },
                );
            } else {
                act(&mut bay, BenchAct::RefitPart { part: *part });
            }
        }
        for joint in Joint::ALL {
            if bay.shop().openings.apart(joint) {
                act(
                    &mut bay,
                    BenchAct::CloseJoint {
                        joint,
                        seal: Seal::NewOiled,
                    },
                );
            }
        }
        let left = bay.plant().debris.loose;
        assert_eq!(left == 0.0, cured, "{left} kg of beads are left");
    }
}

/// Wear sheds metal: what is nothing to the long inlet screen closes most of the short one that a tube turned round shows the stream.
#[test]
fn a_tube_turned_round_chokes_on_the_metal_of_a_worn_compressor() {
    // Far too little oil: the compressor wears as it runs.
    let mut dry = bay(&["start.oil=15g"]);
    run(&mut dry, 420.0);
    act(&mut dry, VehicleAct::Engine { on: false });
    let metal = dry.plant().debris;
    let damage = dry.plant().damage;
    assert!(
        metal.caught.metal > 20e-6,
        "a compressor without oil sheds metal: {metal:?} {damage:?}"
    );
    let as_it_sat = dry.plant().orifice_clean();
    // The same tube, turned round with what is on it.
    out(&mut dry, Part::Orifice);
    act(
        &mut dry,
        BenchAct::FitOrifice {
            bore: Length::from_m(1.83e-3),
            reversed: true,
            rings: true,
        },
    );
    let turned = dry.plant().orifice_clean();
    assert!(
        as_it_sat > 0.3 && turned < 0.2 * as_it_sat,
        "{as_it_sat} and {turned}"
    );
}

/// The dust of the beads goes through the compressor before it comes to the tube: it is worn by it, and by nothing else.
#[test]
fn a_burst_bag_wears_the_compressor() {
    let mut burst = bay(&["condition.bag_burst=true"]);
    let mut sound = bay(&[]);
    run(&mut burst, 3.0 * 3600.0);
    run(&mut sound, 3.0 * 3600.0);
    let (worn, healthy) = (burst.plant().damage, sound.plant().damage);
    assert!(
        worn.grit > 0.01 && worn.grit < 0.2 && healthy.grit == 0.0,
        "{worn:?}, sound {healthy:?}"
    );
    assert!(worn.wear() > healthy.wear() + 0.9 * worn.grit);
    // What it grinds off is metal on its way.
    let d = burst.plant().debris;
    let metal = d.under_way.metal + d.lodged.metal + d.caught.metal;
    assert!(metal > 1e-5, "{d:?}");
}

/// A loop whose bag burst, with a new accumulator and a new tube; `condenser` does what it does to the condenser on the bench.
fn repaired(worn: &Bay, condenser: impl Fn(&mut Bay)) -> Bay {
    let mut bay = worn.clone();
    act(&mut bay, VehicleAct::Engine { on: false });
    for part in [Part::Accumulator, Part::Orifice, Part::Condenser] {
        out(&mut bay, part);
    }
    condenser(&mut bay);
    for part in [Part::Accumulator, Part::Orifice] {
        act(&mut bay, BenchAct::NewPart { part });
    }
    bay
}

/// A clean tube behind a condenser that was left as it was clogs again; a flush takes part of it, a new one all (common practice: tubes
/// side by side do not flush clean). What comes to the tube over a long drive is the model's own.
#[test]
fn what_lodged_in_the_condenser_comes_after_unless_it_is_flushed() {
    let mut worn = bay(&["condition.bag_burst=true"]);
    run(&mut worn, 4.0 * 3600.0);
    let flush = |with| {
        move |bay: &mut Bay| {
            act(
                bay,
                BenchAct::FlushPart {
                    part: Part::Condenser,
                    with,
                },
            );
        }
    };
    let part = Part::Condenser;
    let ways: [&dyn Fn(&mut Bay); 4] = [
        &|_| {},
        &flush(Flush::Nitrogen),
        &flush(Flush::Solvent),
        &|bay| act(bay, BenchAct::NewPart { part }),
    ];
    let bays: Vec<Bay> = ways.iter().map(|way| repaired(&worn, way)).collect();
    let left: Vec<f64> = bays
        .iter()
        .map(|b| b.plant().debris.beads_in_condenser())
        .collect();
    assert!(
        left[0] > 20e-6 && left[0] > left[1] && left[1] > left[2] && left[2] > 0.3 * left[0],
        "{left:?}"
    );
    assert!(left[3] == 0.0, "{left:?}");
    // Seen on the bench, before and after.
    let on_bench = |b: &Bay| b.shop().bench[part as usize].expect("it is out");
    let seen: Vec<(f64, f64)> = bays
        .iter()
        .map(|b| (on_bench(b).seen.beads, on_bench(b).oil))
        .collect();
    assert!((seen[0].0 - left[0]).abs() < 1e-12 && (seen[2].0 - left[2]).abs() < 1e-12);
    // A flush takes the oil, which has to be measured in again, and the books close.
    assert!(seen[2].1 < 0.05 * seen[0].1 && seen[1].1 < seen[0].1);
    let oil = |b: &Bay| b.ledger().iter().map(|e| e.content[OIL]).sum::<f64>();
    for bay in &bays[..3] {
        let (before, after) = (oil(&worn), oil(bay));
        assert!((before - after).abs() < 1e-9, "oil {before} and {after} kg");
    }
    // A long drive on: what is left reaches the tube.
    let driven = |bay: &Bay| {
        let mut debris = bay.plant().debris;
        for _ in 0..100 {
            debris.pass(0.0, 0.04, true, 3600.0);
        }
        debris.open(false)
    };
    let tube: Vec<f64> = bays.iter().map(driven).collect();
    assert!(
        tube[0] < tube[1] && tube[1] < tube[2] && tube[2] < tube[3] && tube[3] > 0.999,
        "{tube:?}"
    );
    assert!(tube[0] < 0.85, "{tube:?}");
}

/// An accumulator, a compressor and a hose with its muffler keep the solvent (common practice).
#[test]
fn what_would_keep_the_solvent_is_not_flushed() {
    let mut bay = bay(&["start.charge=0g", "start.air=3g"]);
    for part in [
        Part::Accumulator,
        Part::Compressor,
        Part::DischargeHose,
        Part::Orifice,
    ] {
        out(&mut bay, part);
        let with = Flush::Solvent;
        assert_eq!(
            bay.apply(BenchAct::FlushPart { part, with }),
            Err(Refused::NotFlushed(part))
        );
    }
    // Nor what is in the vehicle.
    let part = Part::Evaporator;
    let with = Flush::Nitrogen;
    assert_eq!(
        bay.apply(BenchAct::FlushPart { part, with }),
        Err(Refused::PartIn(part))
    );
}

/// Ordinary use sheds nothing worth seeing.
#[test]
fn a_sound_loop_stays_clean() {
    let mut bay = bay(&[]);
    run(&mut bay, 3600.0);
    assert!(
        bay.plant().orifice_clean() > 0.99,
        "{:?}",
        bay.plant().debris
    );
}
