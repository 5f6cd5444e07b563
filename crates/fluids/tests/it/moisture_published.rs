//! Water in refrigerant against published figures, and the sieve against its own inverse.

use lowside_fluids::{
    Refrigerant,
    moisture::{SIEVE_CAPACITY, sieve_load, sieve_saturation, solubility},
};

/// Solubility of water in liquid refrigerant, degF and mg/kg: ASHRAE Handbook - Refrigeration, chapter on moisture, table of
/// solubilities. Columns told from the values: R-12 is known independently (a maker's manual: 90 mg/kg at 25 degC).
const R134A: [(f64, f64); 15] = [
    (160.0, 4200.0),
    (140.0, 3200.0),
    (120.0, 2400.0),
    (100.0, 1800.0),
    (80.0, 1300.0),
    (70.0, 1100.0),
    (60.0, 880.0),
    (50.0, 730.0),
    (40.0, 600.0),
    (30.0, 490.0),
    (20.0, 390.0),
    (10.0, 320.0),
    (0.0, 250.0),
    (-20.0, 150.0),
    (-40.0, 89.0),
];
const R12: [(f64, f64); 15] = [
    (160.0, 700.0),
    (140.0, 440.0),
    (120.0, 270.0),
    (100.0, 165.0),
    (80.0, 98.0),
    (70.0, 76.0),
    (60.0, 58.0),
    (50.0, 44.0),
    (40.0, 32.0),
    (30.0, 23.3),
    (20.0, 16.6),
    (10.0, 11.8),
    (0.0, 8.3),
    (-20.0, 3.8),
    (-40.0, 1.7),
];

#[test]
fn solubility_meets_the_handbook() {
    let k = |f: f64| (f - 32.0) / 1.8 + 273.15;
    for (gas, row) in R134A
        .iter()
        .map(|r| (Refrigerant::R134a, r))
        .chain(R12.iter().map(|r| (Refrigerant::R12, r)))
    {
        let ours = 1e6 * solubility(gas, k(row.0));
        // The table has two figures: half its last digit is up to 3 % by itself.
        let off = ours / row.1 - 1.0;
        assert!(
            off.abs() < 0.0301,
            "{gas:?} at {} degF: {ours:.2} mg/kg, handbook {} ({:+.1} %)",
            row.0,
            row.1,
            100.0 * off
        );
    }
}

/// R-12 dissolves 90 mg/kg at 25 degC (a maker's manual of technical data).
#[test]
fn r12_meets_a_second_source() {
    let ours = 1e6 * solubility(Refrigerant::R12, 298.15);
    assert!((ours / 90.0 - 1.0).abs() < 0.05, "{ours:.1} mg/kg");
}

/// Type A sieve holds 16-18 % at a thousandth of saturation and 20-22 % when full (common practice, no source), less when hot.
#[test]
fn the_sieve_holds_what_is_commonly_stated() {
    let room = 297.15;
    assert!((0.16..=0.18).contains(&sieve_load(0.001, room)));
    assert!((0.20..=0.22).contains(&sieve_load(1.0, room)));
    assert!((0.20..=0.22).contains(&sieve_load(7.0, room)));
    for a in [0.05, 0.01, 1e-3, 1e-4] {
        assert!(sieve_load(a, 325.15) < sieve_load(a, room));
    }
    assert!(sieve_load(0.0, room).abs() < 1e-15);
}

/// The inverse gives back what went in, over all loads a bag can have.
#[test]
fn the_sieve_and_its_inverse_agree() {
    for t in [250.0, 297.15, 350.0] {
        for percent in [1, 5, 20, 50, 80, 95, 99] {
            let load = SIEVE_CAPACITY * f64::from(percent) / 100.0;
            let back = sieve_load(sieve_saturation(load, t), t);
            assert!((back / load - 1.0).abs() < 1e-9, "{load} at {t} K: {back}");
        }
        assert!(sieve_saturation(0.0, t).abs() < 1e-15);
        assert!((sieve_saturation(SIEVE_CAPACITY, t) - 1.0).abs() < 1e-15);
    }
}
