//! R-12 with R-134a: the mixture's equation and tables against CoolProp 8.0.0 (`tests/data/r12_r134a.py`), their ends, and the
//! glide that holding one composition leaves out.

#![allow(clippy::unwrap_used, reason = "a failed step is a failed test")]
#![allow(
    clippy::print_stdout,
    reason = "the figures reached are wanted in the log"
)]

use lowside_fluids::{Blend, Refrigerant, saturation::at_temperature};
use lowside_tests::{csv::Csv, worst::Worst};

/// Compositions of the reference files.
const SHARES: [f64; 5] = [0.05, 0.1, 0.25, 0.5, 0.8];

fn blend(x: f64) -> Blend {
    Blend::by_mole(x).unwrap()
}

#[test]
fn single_phase_as_coolprop() {
    let file = Csv::read("r12_r134a_single_phase.csv");
    let mut worst = Worst::default();
    for x in SHARES {
        let eq = blend(x).equation();
        let zero = eq.properties(10.0, 300.0).h;
        for row in file.rows().filter(|r| (r.get("x_R12") - x).abs() < 1e-9) {
            let (t, rho) = (row.get("T_K"), row.get("rho"));
            let f = eq.properties(rho, t);
            let mut see = |what, value: f64, column: &str| {
                worst.see(what, value / row.get(column) - 1.0, || {
                    format!("{x}, {t} K, {rho} kg/m3")
                });
            };
            see("p", f.p, "p");
            see("cv", f.cv, "cv");
            see("cp", f.cp, "cp");
            see("w", f.w, "w");
            worst.see("h", (f.h - zero - row.get("h_above")) / 1e5, || {
                format!("{x}, {t} K, {rho} kg/m3")
            });
        }
    }
    // The components were fitted with R = 8.314471, CoolProp takes 8.314462618 for a mixture: 1e-6 of what the gas constant
    // scales. Its mixture reduces the ideal-gas part of R-134a by the critical temperature 374.21 K where the paper has 374.18 K
    // (as its pure R-134a does): 6e-5 of the heat capacities even without any R-12.
    worst.within(
        "R-12 with R-134a",
        &[
            ("p", 2e-6),
            ("cv", 8e-5),
            ("cp", 8e-5),
            ("w", 3e-5),
            ("h", 6e-5),
        ],
    );
}

#[test]
fn saturation_as_coolprop_between_bubble_and_dew() {
    let file = Csv::read("r12_r134a_saturation.csv");
    let (mut equation, mut table, mut glide) =
        (Worst::default(), Worst::default(), Worst::default());
    for x in SHARES {
        let eq = blend(x).equation();
        let fast = blend(x).table();
        for row in file.rows().filter(|r| (r.get("x_R12") - x).abs() < 1e-9) {
            let t = row.get("T_K");
            let place = || format!("{x}, {t} K");
            let (bubble, dew) = (row.get("p_bubble"), row.get("p_dew"));
            let sat = at_temperature(&eq, t).unwrap();
            let (l, g) = sat.phases(&eq);
            assert!(
                sat.p <= bubble * (1.0 + 2e-6) && sat.p >= dew * (1.0 - 2e-6),
                "{}: {}",
                place(),
                sat.p
            );
            equation.see("p", sat.p / row.get("p_one") - 1.0, place);
            equation.see("rho", l.rho / row.get("rho_liq") - 1.0, place);
            equation.see("rho", g.rho / row.get("rho_vap") - 1.0, place);
            equation.see("latent", (g.h - l.h) / row.get("latent") - 1.0, place);
            let s = fast.sat(t);
            table.see("p", s.p / row.get("p_one") - 1.0, place);
            table.see("rho", s.rho_l / row.get("rho_liq") - 1.0, place);
            table.see("rho", s.rho_g / row.get("rho_vap") - 1.0, place);
            table.see("latent", s.latent() / row.get("latent") - 1.0, place);
            // Glide as a temperature, and how far the pressure is from the mean of bubble and dew.
            glide.see("glide, K", (bubble - dew) / s.dp_dt, place);
            glide.see("off the mean", sat.p / (0.5 * (bubble + dew)) - 1.0, place);
        }
    }
    let limits = [("p", 3e-6), ("rho", 5e-6), ("latent", 3e-6)];
    equation.within("equation", &limits);
    table.within("table", &limits);
    // From CoolProp's own bubble and dew: what the model leaves out.
    glide.within("glide", &[("glide, K", 3.5), ("off the mean", 0.02)]);
}

#[test]
fn the_ends_are_the_pure_gases_themselves() {
    for (share, gas) in [(0.0, Refrigerant::R134a), (1.0, Refrigerant::R12)] {
        let end = Blend::by_mass(share).unwrap();
        assert_eq!(end.pure(), Some(gas));
        assert!(
            std::sync::Arc::ptr_eq(&end.table(), &gas.shared_table()),
            "{gas}: the very same table"
        );
        let near = Blend::by_mass(share + 1e-9 - 2e-9 * share).unwrap();
        assert_eq!(near.pure(), None);
        // The mixture's own formulas run into the pure equation.
        let (mixed, pure) = (near.equation(), gas.equation());
        for t in [213.15, 273.15, 333.15] {
            let (a, b) = (
                at_temperature(&mixed, t).unwrap(),
                at_temperature(pure, t).unwrap(),
            );
            assert!((a.p / b.p - 1.0).abs() < 1e-7, "{gas}: {} {}", a.p, b.p);
            let (a, b) = (a.phases(&mixed).0, b.phases(pure).0);
            assert!((a.h - b.h).abs() < 0.01, "{gas}: {} {}", a.h, b.h);
        }
    }
    for share in [-1e-9, 1.000_001, f64::NAN, f64::INFINITY] {
        assert!(Blend::by_mass(share).is_err() && Blend::by_mole(share).is_err());
    }
}

/// The figures of the trade: 77 to 79 psig pure, about 88 at 10 mol %, 100 at 50 mol % (CoolProp's bubble pressures: 87.5 and
/// 100.2; bubble and dew at 10 mol %: 84.2 to 87.5).
#[test]
fn standing_pressure_at_75_degf() {
    let psig = |x: f64| (blend(x).table().p_sat((75.0 + 459.67) / 1.8) - 101_325.0) / 6_894.757;
    let (none, tenth, half) = (psig(0.0), psig(0.1), psig(0.5));
    println!("psig at 75 degF with 0, 10 and 50 mol % of R-12: {none:.1}, {tenth:.1}, {half:.1}");
    assert!(none > 77.0 && none < 79.0);
    assert!(tenth > 84.1 && tenth < 87.6);
    assert!((half - 100.2).abs() < 0.1);
    // A positive azeotrope: above both of its gases.
    assert!(half > none && half > psig(1.0));
}

/// Every table has to be usable: made at every composition from the coldest to the hottest end, without a hole.
#[test]
fn tables_at_any_composition() {
    for percent in 1..100 {
        let b = Blend::by_mass(f64::from(percent) / 100.0).unwrap();
        let table = b.table();
        let mut last = 0.0;
        let mut t = table.t_min();
        while t < table.t_max() {
            let s = table.sat(t);
            assert!(
                s.p > last && s.rho_l > s.rho_g && s.latent() > 0.0,
                "{percent} %, {t} K"
            );
            last = s.p;
            for rho in [
                1e-9,
                0.5 * s.rho_g,
                0.5 * (s.rho_l + s.rho_g),
                1.01 * s.rho_l,
            ] {
                let u = if rho < s.rho_g {
                    table.vapour(rho, t).u
                } else if rho > s.rho_l {
                    table.liquid(rho, t, &s).u
                } else {
                    let q = (1.0 / rho - 1.0 / s.rho_l) / (1.0 / s.rho_g - 1.0 / s.rho_l);
                    s.u_l + q * (s.u_g - s.u_l)
                };
                let found = table.state(rho, u, t + 3.0);
                assert!(
                    (found.t - t).abs() < 0.01,
                    "{percent} %, {rho}: {} for {t}",
                    found.t
                );
            }
            t += 9.7;
        }
    }
}

/// A trace of the other gas, as it is left in a vessel that was filled from another: tables for any share, and one too small to count is none.
#[test]
fn a_trace_of_the_other_gas_has_tables() {
    for digits in 1..=300 {
        let trace = 10f64.powi(-digits);
        for share in [trace, 1.0 - trace] {
            let blend = Blend::by_mass(share).expect("a share");
            if digits > 12 {
                assert!(blend.pure().is_some(), "{share:e}");
            }
            if digits < 14 {
                let p = blend.table().sat(300.0).p;
                assert!(p > 600e3 && p < 800e3, "{share:e}: {p}");
            }
        }
    }
}
