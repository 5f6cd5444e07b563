//! Any two quantities to a full state: against CoolProp's files, against itself over every pair, and refusals.

#![allow(clippy::unwrap_used, reason = "a failed step is a failed test")]

use lowside_fluids::Refrigerant;
use lowside_fluids::flash::{FlashError, FlashPhase, FullState, Quantity, flash};
use lowside_tests::csv::{Csv, stem};
use proptest::prelude::*;

use Quantity::{Density, Enthalpy, Entropy, Pressure, Quality, Temperature};

fn close(a: f64, b: f64, limit: f64) -> bool {
    (a / b - 1.0).abs() < limit
}

#[test]
fn single_phase_as_coolprop() {
    for gas in Refrigerant::ALL {
        for row in Csv::read(&format!("{}_single_phase.csv", stem(gas))).rows() {
            let (t, p) = (row.get("T_K"), row.get("p_Pa"));
            if t > gas.equation().coefficients().t_max {
                continue;
            }
            let phase = if row.text("phase") == "liquid" {
                FlashPhase::Liquid
            } else {
                FlashPhase::Vapour
            };
            for (second, column) in [(Pressure, "p_Pa"), (Temperature, "T_K")] {
                // T with p, then p with h.
                let other = if second == Pressure {
                    (Temperature, t)
                } else {
                    (Enthalpy, row.get("h_Jkg"))
                };
                let pair = if second == Pressure {
                    (second, row.get(column))
                } else {
                    (Pressure, p)
                };
                let s = flash(gas, other, pair).unwrap();
                assert!(close(s.t, t, 1e-7), "{gas} {t} {p}: {s:?}");
                assert!(
                    close(s.rho, row.get("rho_kgm3"), 1e-6),
                    "{gas} {t} {p}: {s:?}"
                );
                assert!(close(s.h, row.get("h_Jkg"), 1e-7), "{gas} {t} {p}: {s:?}");
                assert!(close(s.s, row.get("s_JkgK"), 1e-7), "{gas} {t} {p}: {s:?}");
                assert!(close(s.u, row.get("u_Jkg"), 1e-7), "{gas} {t} {p}: {s:?}");
                assert!(
                    close(s.cp.unwrap(), row.get("cp_JkgK"), 1e-5),
                    "{gas} {t} {p}: {s:?}"
                );
                assert!(
                    close(s.w.unwrap(), row.get("w_ms"), 1e-6),
                    "{gas} {t} {p}: {s:?}"
                );
                assert_eq!((s.phase, s.q), (phase, None), "{gas} {t} {p}");
            }
        }
    }
}

#[test]
fn saturation_as_coolprop() {
    for gas in Refrigerant::ALL {
        for row in Csv::read(&format!("{}_saturation.csv", stem(gas))).rows() {
            let (t, p) = (row.get("T_K"), row.get("p_Pa"));
            for (q, name, phase) in [
                (0.0, "liq", FlashPhase::Liquid),
                (1.0, "vap", FlashPhase::Vapour),
            ] {
                let s = flash(gas, (Temperature, t), (Quality, q)).unwrap();
                assert!(
                    close(s.p, p, 1e-7) && close(s.h, row.get(&format!("h_Jkg_{name}")), 1e-7),
                    "{gas} {t}"
                );
                assert_eq!((s.phase, s.q), (phase, Some(q)), "{gas} {t}");
                let s = flash(gas, (Quality, q), (Pressure, p)).unwrap();
                assert!(
                    close(s.t, t, 1e-7) && close(s.s, row.get(&format!("s_JkgK_{name}")), 1e-7),
                    "{gas} {t}"
                );
            }
            let s = flash(gas, (Temperature, t), (Quality, 0.3)).unwrap();
            assert_eq!((s.phase, s.cp), (FlashPhase::TwoPhase, None));
            let h = 0.7 * row.get("h_Jkg_liq") + 0.3 * row.get("h_Jkg_vap");
            assert!(close(s.h, h, 1e-7), "{gas} {t}: {s:?}");
        }
    }
}

/// From a state, every pair of its quantities leads back to it, unless the module says it need not.
fn every_pair_returns(gas: Refrigerant, s: &FullState) {
    for a in Quantity::ALL {
        for b in Quantity::ALL {
            let (Some(x), Some(y)) = (s.get(a), s.get(b)) else {
                continue;
            };
            if a == b {
                continue;
            }
            let with =
                |q: Quantity, other: Quantity| (a == q && b == other) || (a == other && b == q);
            let found = flash(gas, (a, x), (b, y));
            if with(Temperature, Pressure) && s.q.is_some() {
                assert!(
                    matches!(found, Err(FlashError::OnSaturation { .. })),
                    "{gas} {s:?}: {found:?}"
                );
                continue;
            }
            if let Err(FlashError::Several { temperatures, .. }) = &found {
                assert!(a == Quality || b == Quality);
                assert!(
                    temperatures.iter().any(|t| close(*t, s.t, 1e-6)),
                    "{gas} {a} {b} {s:?}: {temperatures:?}"
                );
                continue;
            }
            let r = found.unwrap_or_else(|e| panic!("{gas} {a} = {x}, {b} = {y} of {s:?}: {e}"));
            if with(Temperature, Enthalpy) {
                // Of several states the one of lowest pressure.
                assert!(
                    close(r.h, s.h, 1e-6) && r.p <= s.p * (1.0 + 1e-6),
                    "{gas} {s:?}: {r:?}"
                );
                continue;
            }
            let same =
                close(r.t, s.t, 1e-5) && close(r.rho, s.rho, 1e-4) && (r.h - s.h).abs() < 10.0;
            assert!(same, "{gas} {a} = {x}, {b} = {y}: {s:?} came back as {r:?}");
        }
    }
}

#[test]
fn every_pair_over_the_range() {
    for gas in Refrigerant::ALL {
        for t in [205.0, 250.0, 290.0, 330.0, 360.0] {
            for q in [0.0, 0.01, 0.4, 0.99, 1.0] {
                every_pair_returns(gas, &flash(gas, (Temperature, t), (Quality, q)).unwrap());
            }
            for p in [10.0, 1e3, 1e5, 1e6, 3e6, 4.5e6, 20e6] {
                every_pair_returns(gas, &flash(gas, (Temperature, t), (Pressure, p)).unwrap());
            }
        }
        for p in [10.0, 1e5, 3e6, 5e6, 30e6] {
            every_pair_returns(
                gas,
                &flash(gas, (Temperature, 405.0), (Pressure, p)).unwrap(),
            );
        }
    }
}

#[test]
fn phases_are_named() {
    let name = |t: f64, p: f64| {
        flash(Refrigerant::R134a, (Temperature, t), (Pressure, p))
            .unwrap()
            .phase
            .to_string()
    };
    assert_eq!(name(300.0, 1e5), "vapour");
    assert_eq!(name(300.0, 1e6), "liquid");
    assert_eq!(name(300.0, 1e7), "liquid");
    assert_eq!(name(400.0, 1e6), "vapour");
    assert_eq!(name(400.0, 6e6), "supercritical");
    assert_eq!(
        flash(Refrigerant::R12, (Pressure, 5e5), (Quality, 0.5))
            .unwrap()
            .phase
            .to_string(),
        "two-phase"
    );
}

#[test]
fn refusals_name_what_is_wrong() {
    let refused = |a, b| flash(Refrigerant::R134a, a, b).unwrap_err();
    let says = |e: FlashError, words: &[&str]| {
        let text = e.to_string();
        assert!(words.iter().all(|w| text.contains(w)), "{text}");
    };
    says(
        refused((Temperature, 100.0), (Pressure, 1e5)),
        &["T = 100 K", "169.85"],
    );
    says(
        refused((Temperature, 500.0), (Pressure, 1e5)),
        &["T = 500 K", "455"],
    );
    says(
        refused((Temperature, 300.0), (Pressure, 1e9)),
        &["p = 1000000000 Pa"],
    );
    says(
        refused((Temperature, 300.0), (Pressure, -1.0)),
        &["p = -1 Pa"],
    );
    says(
        refused((Temperature, f64::NAN), (Pressure, 1e5)),
        &["T = NaN"],
    );
    says(
        refused((Temperature, 300.0), (Temperature, 300.0)),
        &["T is given twice"],
    );
    says(
        refused((Temperature, 300.0), (Quality, 1.5)),
        &["q = 1.5", "0 to 1"],
    );
    says(
        refused((Temperature, 380.0), (Quality, 0.5)),
        &["T = 380 K"],
    );
    says(
        refused((Pressure, 5e6), (Quality, 0.5)),
        &["p = 5000000 Pa"],
    );
    says(
        refused((Pressure, 1e5), (Enthalpy, 9e5)),
        &["no state", "p = 100000 Pa", "h = 900000 J/kg"],
    );
    says(
        refused((Temperature, 300.0), (Entropy, -5e3)),
        &["no state"],
    );
    says(refused((Enthalpy, 6e5), (Entropy, 500.0)), &["no state"]);
    says(refused((Density, 1500.0), (Enthalpy, 4e5)), &["no state"]);
    assert!(matches!(
        refused((Temperature, 374.205), (Density, 510.0)),
        FlashError::Critical { .. }
    ));
    says("x".parse::<Quantity>().unwrap_err(), &["\"x\"", "rho"]);
    assert_eq!("rho".parse::<Quantity>(), Ok(Density));
    // The saturated vapour's enthalpy has a maximum: two temperatures.
    let h = flash(Refrigerant::R134a, (Temperature, 355.0), (Quality, 1.0))
        .unwrap()
        .h;
    assert!(
        matches!(refused((Quality, 1.0), (Enthalpy, h)), FlashError::Several { temperatures, .. } if temperatures.len() == 2)
    );
}

#[test]
fn names_of_gases() {
    for gas in Refrigerant::ALL {
        assert_eq!(gas.to_string().parse::<Refrigerant>(), Ok(gas));
        assert_eq!(serde_json::to_string(&gas).unwrap(), format!("\"{gas}\""));
    }
    assert_eq!("r1234YF".parse::<Refrigerant>(), Ok(Refrigerant::R1234yf));
    assert!(
        "R-22"
            .parse::<Refrigerant>()
            .unwrap_err()
            .to_string()
            .contains("\"R-22\"")
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn density_and_temperature_return(k in 0..3usize, t in 200.0..405.0f64, e in -6.0..3.1f64) {
        let gas = Refrigerant::ALL[k];
        if let Ok(s) = flash(gas, (Temperature, t), (Density, 10f64.powf(e))) {
            let near = (t / gas.equation().t_crit() - 1.0).abs() < 0.002;
            if s.p < 50e6 && !near {
                every_pair_returns(gas, &s);
            }
        }
    }

    #[test]
    fn nonsense_is_refused_or_answered(
        k in 0..3usize, a in 0..6usize, b in 0..6usize, x in prop::num::f64::ANY, y in prop::num::f64::ANY,
    ) {
        let (qa, qb) = (Quantity::ALL[a], Quantity::ALL[b]);
        if let Ok(s) = flash(Refrigerant::ALL[k], (qa, x), (qb, y)) {
            prop_assert!(s.t.is_finite() && s.p.is_finite() && s.rho.is_finite() && s.h.is_finite());
        }
    }
}
