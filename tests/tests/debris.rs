//! Solids in the loop: beads of a burst desiccant bag and metal of a worn compressor end on the orifice tube's screen, choke it and are
//! seen there. Directions and cures after common practice (no single source); the figures are the model's own.

use lowside_session::{Action, Bay};
use lowside_shop::{
    joints::{Joint, Seal},
    parts::{Part, look},
};
use lowside_tests::runs::{run, scenario};
use lowside_units::Length;

fn bay(overrides: &[&str]) -> Bay {
    Bay::new(&scenario("healthy", overrides))
}

fn act(bay: &mut Bay, action: Action) {
    bay.apply(action)
        .unwrap_or_else(|e| panic!("{action:?}: {e}"));
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
            act(bay, Action::OpenJoint { joint: *joint });
        }
    }
    act(bay, Action::RemovePart { part });
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
    let beads = d.loose + d.under_way.beads + d.caught.beads;
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
            act(&mut bay, Action::NewPart { part: *part });
            if *part == Part::Orifice {
                act(
                    &mut bay,
                    Action::FitOrifice {
                        bore: Length::from_m(1.83e-3),
                        reversed: false,
                        rings: true,
                    },
                );
            } else {
                act(&mut bay, Action::RefitPart { part: *part });
            }
        }
        for joint in Joint::ALL {
            if bay.shop().openings.apart(joint) {
                act(
                    &mut bay,
                    Action::CloseJoint {
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
    act(&mut dry, Action::Engine { on: false });
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
        Action::FitOrifice {
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
