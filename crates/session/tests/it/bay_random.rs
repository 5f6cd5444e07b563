//! Whatever anyone does, the books close, nothing is negative or not a number, and nothing panics.

use lowside_session::Bay;
use lowside_tests::{
    acts::{Dice, any},
    runs::scenario,
};

/// What one random run may not do.
fn sound(bay: &Bay, seed: u64) {
    for node in bay.plant().network.nodes() {
        for m in node.content.0 {
            assert!(
                m >= 0.0 && m.is_finite(),
                "seed {seed} at {} s: {} holds {m} kg",
                bay.seconds(),
                node.name
            );
        }
        assert!(
            (0.0..0.05).contains(&node.bound),
            "seed {seed} at {} s: {} binds {} kg",
            bay.seconds(),
            node.name,
            node.bound
        );
        let s = &node.state;
        // Nothing is packed tighter than liquid: a volume that overfills must say so in its pressure.
        let packed = node.content[0] / node.volume;
        assert!(
            packed < 1.06 * s.rho_liq,
            "seed {seed} at {} s: {} packed to {packed:.0} kg/m3, {s:?}",
            bay.seconds(),
            node.name,
        );
        assert!(
            s.m_steam >= 0.0
                && s.m_ice >= 0.0
                && s.m_steam + s.m_ice <= node.content[2] * 1.000_001,
            "seed {seed} at {} s: {} {} kg of water, {s:?}",
            bay.seconds(),
            node.name,
            node.content[2]
        );
        assert!(
            s.t.is_finite() && s.p.is_finite() && s.p >= 0.0 && node.energy.is_finite(),
            "seed {seed} at {} s: {} at {} K, {} Pa",
            bay.seconds(),
            node.name,
            s.t,
            s.p
        );
    }
}

/// Water for one run in two, up to far more than any refrigerant dissolves, and a desiccant from dry to full.
fn moisture(seed: u64) -> (String, String) {
    // Dice of its own, so that the other draws stay what they were.
    let mut dice = Dice::new(seed ^ 0x0057_a7e2);
    let water = if dice.chance(0.5) {
        0.0
    } else {
        20.0 * dice.unit() * dice.unit() * dice.unit()
    };
    (
        format!("start.water={water}g"),
        format!("condition.desiccant_load={}", dice.unit()),
    )
}

/// A leak of any kind for one run in three.
fn leak(seed: u64) -> String {
    const SITES: [&str; 4] = ["shaft-seal", "condenser-top", "accumulator", "liquid-line"];
    let mut dice = Dice::new(seed ^ 0x001e_a4ed);
    let site = SITES[usize::try_from(dice.bits() % 4).unwrap_or(0)];
    let size = if dice.chance(0.5) {
        format!(
            "rate=\"{} g/yr\"",
            10.0 * 10f64.powf(dice.between(0.0, 3.9))
        )
    } else {
        format!("hole=\"{} um\"", dice.between(10.0, 3000.0))
    };
    if dice.chance(0.67) {
        "condition.leak=[]".into()
    } else {
        format!("condition.leak=[{{at=\"{site}\",{size}}}]")
    }
}

/// Plays `seconds` of random acts, one every two seconds or so.
fn random_run(seed: u64, seconds: f64) {
    let mut dice = Dice::new(seed);
    let charge = format!("start.charge={}kg", dice.between(0.0, 1.8));
    let air = format!(
        "start.air={}g",
        if dice.chance(0.5) {
            0.0
        } else {
            dice.between(0.0, 4.0)
        }
    );
    let ambient = format!("day.ambient={}K", dice.between(268.0, 318.0));
    let (water, load) = moisture(seed);
    let scenario = scenario(
        "charge-from-cans",
        &[&charge, &air, &ambient, &water, &load, &leak(seed)],
    );
    let mut bay = Bay::new(&scenario);
    while bay.seconds() < seconds {
        if dice.chance(0.01) {
            // A refusal is an answer too; it must leave the bay as it was.
            let before = bay.state_hash();
            if bay.apply(any(&mut dice)).is_err() {
                assert_eq!(
                    before,
                    bay.state_hash(),
                    "seed {seed}: a refused act changed the bay"
                );
            }
        }
        bay.step().expect("the engine goes on");
        if bay.tick().is_multiple_of(50) {
            sound(&bay, seed);
        }
    }
    assert!(
        bay.mass_error() < 1e-9,
        "seed {seed}: mass off by {:.1e}",
        bay.mass_error()
    );
    assert!(
        bay.energy_error() < 1e-9,
        "seed {seed}: energy off by {:.1e}",
        bay.energy_error()
    );
}

#[test]
fn short_runs_are_sound() {
    (0..300).for_each(|seed| random_run(seed, 180.0));
}

#[test]
fn long_runs_are_sound() {
    (2000..2006).for_each(|seed| random_run(seed, 1800.0));
}

/// The rest of a thousand, by `cargo xtask deep`.
#[test]
#[ignore = "deep: takes minutes"]
fn many_short_runs_are_sound() {
    (300..1000).for_each(|seed| random_run(seed, 180.0));
}

/// The rest of twenty, by `cargo xtask deep`.
#[test]
#[ignore = "deep: takes minutes"]
fn many_long_runs_are_sound() {
    (2006..2020).for_each(|seed| random_run(seed, 1800.0));
}
