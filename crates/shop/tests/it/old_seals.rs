//! O-rings from the days of R-12 do not keep R-134a: a conversion that leaves them in leaks at every joint, slowly, and the detector finds
//! it; new ones keep it. Common practice renews them all, no source; the rate is the model's own figure.

use lowside_session::{Bay, BenchAct, VehicleAct};
use lowside_shop::{
    detect::{Sensitivity, Spot},
    joints::{GRAM_A_YEAR, Joint, Seal},
};
use lowside_tests::runs::{act, run, scenario};

/// The van as built, with so much R-134a among its refrigerant, at rest.
fn van(other: &str) -> Bay {
    let mut bay = Bay::new(&scenario(
        "before-retrofit",
        &[&format!("start.other_refrigerant={other}")],
    ));
    act(&mut bay, VehicleAct::Engine { on: false });
    run(&mut bay, 900.0);
    bay
}

/// What escapes at a joint, grams a year.
fn at(bay: &Bay, joint: Joint) -> f64 {
    let escape = Spot::Joint(joint).escape(bay.plant(), bay.shop());
    escape.refrigerant / GRAM_A_YEAR
}

#[test]
fn old_rings_keep_the_old_gas_and_not_the_new() {
    let (before, after) = (van("0"), van("60%"));
    for joint in Joint::ALL {
        assert!(at(&before, joint) < 1e-9, "{joint:?} is tight under R-12");
        let lost = at(&after, joint);
        assert!(
            (5.0..40.0).contains(&lost),
            "{joint:?} loses {lost} g a year"
        );
        assert!(
            lost * GRAM_A_YEAR > Sensitivity::High.threshold(),
            "a detector finds it"
        );
    }
}

#[test]
fn new_rings_keep_it() {
    let mut bay = van("60%");
    let joint = Joint::CondenserOut;
    let seal = Seal::NewOiled;
    act(&mut bay, BenchAct::OpenJoint { joint });
    act(&mut bay, BenchAct::CloseJoint { joint, seal });
    run(&mut bay, 1.0);
    assert!(at(&bay, joint) < 1e-9);
    assert!(
        at(&bay, Joint::EvaporatorIn) > 5.0,
        "the others are as they were"
    );
}
