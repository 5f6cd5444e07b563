//! How much liquid a tube holds: the drift of vapour against published void fractions.
//!
//! Values of the Rouhani-Axelsson void fraction (horizontal form) worked out apart from this code, for R-134a boiling at
//! 5 degC and 150 kg/(s m2) and condensing at 55 degC and 250 kg/(s m2); the formula itself is from memory (Int. J. Heat Mass
//! Transfer 13 (1970) 383), as is its horizontal form. Zivi (1964) and homogeneous flow stand beside it as the two ends.

use lowside_fluids::Refrigerant;
use lowside_plant::stream::drift;

/// Quality, void fraction boiling, void fraction condensing.
const ROUHANI: [(f64, f64, f64); 5] = [
    (0.05, 0.609465, 0.318669),
    (0.20, 0.829231, 0.659181),
    (0.50, 0.919962, 0.860054),
    (0.80, 0.970281, 0.953249),
    (0.95, 0.992671, 0.988919),
];

/// Void fraction at which the flow has a quality, by bisection of the law under test.
fn void_at(quality: f64, t: f64, flux: f64) -> f64 {
    let s = Refrigerant::R134a.table().sat(t);
    let (mut lo, mut hi) = (0.0, 1.0);
    for _ in 0..60 {
        let mid = 0.5 * (lo + hi);
        if 1.0 - drift(mid, 1.0 / s.rho_l, 1.0 / s.rho_g, flux) < quality {
            lo = mid;
        } else {
            hi = mid;
        }
    }
    0.5 * (lo + hi)
}

#[test]
fn void_fractions_are_those_published() {
    for (x, boiling, condensing) in ROUHANI {
        for (t, flux, asked) in [(278.15, 150.0, boiling), (328.15, 250.0, condensing)] {
            let got = void_at(x, t, flux);
            // The surface tension is taken as one for all; that is worth two percent of void at most.
            assert!(
                (got - asked).abs() < 0.02,
                "x = {x} at {t} K: {got:.4} for {asked:.4}"
            );
        }
    }
}

#[test]
fn slow_flow_leaves_more_liquid_behind_and_none_outruns_its_vapour() {
    for x in [0.05, 0.2, 0.5, 0.8] {
        let s = Refrigerant::R134a.table().sat(278.15);
        let homogeneous = 1.0 / (1.0 + (1.0 - x) / x * s.rho_g / s.rho_l);
        let voids: Vec<f64> = [20.0, 60.0, 150.0, 400.0]
            .iter()
            .map(|g| void_at(x, 278.15, *g))
            .collect();
        assert!(voids.is_sorted(), "x = {x}: {voids:?}");
        assert!(
            voids[3] < homogeneous,
            "x = {x}: {:.4} above homogeneous {homogeneous:.4}",
            voids[3]
        );
    }
    // All liquid stays all liquid, all vapour all vapour.
    assert!(
        (drift(0.0, 1e-3, 5e-2, 100.0) - 1.0).abs() < 1e-12 && drift(1.0, 1e-3, 5e-2, 100.0) == 0.0
    );
}
