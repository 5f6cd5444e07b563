//! Density and energy to temperature and pressure under near-degenerate numbers: on the saturation line, a
//! rounding beside it, one part in 1e12 of one phase, beyond every end of the tables, and plain nonsense.

use lowside_fluids::Refrigerant;
use lowside_fluids::table::Phase;
use proptest::prelude::*;

fn gases() -> impl Strategy<Value = Refrigerant> {
    prop::sample::select(Refrigerant::ALL.to_vec())
}

/// Shares of vapour from clearly mixed to the last bits before one phase.
fn qualities() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        Just(1.0),
        Just(1e-12),
        Just(1.0 - 1e-12),
        Just(f64::EPSILON),
        Just(1.0 - f64::EPSILON),
        Just(f64::MIN_POSITIVE),
        0.0..1.0f64,
        (-16.0..-2.0f64).prop_map(|e| 10f64.powf(e)),
        (-16.0..-2.0f64).prop_map(|e| 1.0 - 10f64.powf(e)),
    ]
}

/// A number and its near neighbours.
fn nudged(x: f64, bits: i64) -> f64 {
    f64::from_bits((x.to_bits().cast_signed() + bits).cast_unsigned())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn mixtures_come_back(gas in gases(), share in 0.0..1.0f64, x in qualities(), off in -60.0..60.0f64) {
        let table = gas.table();
        let t = 205.0 + share * (table.t_max() - 205.0);
        let s = table.sat(t);
        let rho = 1.0 / ((1.0 - x) / s.rho_l + x / s.rho_g);
        let u = (1.0 - x) * s.u_l + x * s.u_g;
        let state = table.state(rho, u, t + off);
        prop_assert!((state.t - t).abs() < 1e-3, "{gas} {t} {x}: {state:?}");
        prop_assert!((state.p / s.p - 1.0).abs() < 2e-5, "{gas} {t} {x}: {state:?} {}", s.p);
        if let Some(q) = state.quality {
            prop_assert!((q - x).abs() < 1e-6, "{gas} {t} {x}: {state:?}");
        } else {
            prop_assert!(!(1e-6..=1.0 - 1e-5).contains(&x), "{gas} {t} {x}: {state:?}");
        }
    }

    #[test]
    fn one_bit_beside_the_line(gas in gases(), share in 0.0..1.0f64, liquid: bool, a in -3i64..=3, b in -3i64..=3) {
        let table = gas.table();
        let t = 205.0 + share * (table.t_max() - 205.0);
        let s = table.sat(t);
        let (rho, u) = if liquid { (s.rho_l, s.u_l) } else { (s.rho_g, s.u_g) };
        let state = table.state(nudged(rho, a), nudged(u, b), t);
        prop_assert!((state.t - t).abs() < 1e-3 && (state.p / s.p - 1.0).abs() < 2e-5, "{gas} {t}: {state:?}");
    }

    #[test]
    fn vapour_comes_back(gas in gases(), t in 205.0..450.0f64, e in -9.0..0.0f64, off in -60.0..60.0f64) {
        let table = gas.table();
        let rho = 10f64.powf(e) * table.sat(t.min(table.t_max())).rho_g;
        let v = table.vapour(rho, t);
        let state = table.state(rho, v.u, t + off);
        prop_assert!((state.t - t).abs() < 1e-3, "{gas} {t} {rho}: {state:?}");
        prop_assert!((state.p / v.p - 1.0).abs() < 2e-5, "{gas} {t} {rho}: {state:?} {v:?}");
    }

    #[test]
    fn liquid_comes_back(gas in gases(), share in 0.0..1.0f64, more in 0.0..0.02f64, off in -60.0..60.0f64) {
        let table = gas.table();
        let t = 205.0 + share * (table.t_max() - 205.0);
        let s = table.sat(t);
        let rho = s.rho_l * (1.0 + more);
        let l = table.liquid(rho, t, &s);
        let state = table.state(rho, l.u, t + off);
        prop_assert!((state.t - t).abs() < 1e-5, "{gas} {t} {rho}: {state:?}");
        prop_assert!((state.p - l.p).abs() < 1e-6 * l.p + 10.0, "{gas} {t} {rho}: {state:?} {l:?}");
    }

    /// The guess saves time and nothing else.
    #[test]
    fn the_guess_does_not_matter(gas in gases(), e in -6.0..3.2f64, u in 120e3..520e3f64, g in prop::num::f64::ANY) {
        let table = gas.table();
        let rho = 10f64.powf(e);
        let (a, b) = (table.state(rho, u, 300.0), table.state(rho, u, g));
        // Beyond, the series of the compressed liquid may turn round: documented.
        if a.p.min(b.p) > 30e6 {
            return Ok(());
        }
        prop_assert!((a.t - b.t).abs() < 1e-4, "{gas} {rho} {u}: {a:?} {b:?}");
        prop_assert!((a.p - b.p).abs() < 1e-5 * a.p + 100.0, "{gas} {rho} {u}: {a:?} {b:?}");
    }

    /// Far outside everything is still a finite, ordered answer.
    #[test]
    fn finite_everywhere(gas in gases(), e in -30.0..3.25f64, u in -200e3..2e6f64) {
        let table = gas.table();
        let rho = 10f64.powf(e);
        let s = table.state(rho, u, 300.0);
        prop_assert!(s.t.is_finite() && s.t > 0.0 && s.p.is_finite(), "{gas} {rho} {u}: {s:?}");
        prop_assert!(s.quality.is_none_or(|q| (0.0..=1.0).contains(&q)), "{gas} {rho} {u}: {s:?}");
        prop_assert!(s.cv.is_finite() && s.dp_du.is_finite() && s.dp_drho.is_finite(), "{gas} {rho} {u}: {s:?}");
        prop_assert_eq!(s.quality.is_some(), s.phase == Phase::TwoPhase);
    }

    /// Nonsense in, no panic and no endless search.
    #[test]
    fn nonsense_ends(gas in gases(), rho in prop::num::f64::ANY, u in prop::num::f64::ANY, t in prop::num::f64::ANY) {
        let table = gas.table();
        let _ = table.state(rho, u, t);
        let _ = table.vapour(rho, t);
        let _ = table.vapour_entropy(rho, t);
        let _ = table.liquid(rho, t, &table.sat(t));
        let _ = (table.t_sat(u), table.p_sat(t));
    }
}
