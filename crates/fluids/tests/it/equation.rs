//! The equations of state against CoolProp 8.0.0's implementation of the same papers, against published
//! single values, and against thermodynamics itself.

#![allow(clippy::unwrap_used, reason = "a failed step is a failed test")]

use lowside_fluids::Refrigerant;
use lowside_fluids::saturation::{at_pressure, at_temperature, temperature_range};
use lowside_tests::{
    csv::{Csv, stem},
    worst::Worst,
};

#[test]
fn saturation_as_coolprop() {
    for gas in Refrigerant::ALL {
        let (eq, mut worst) = (gas.equation(), Worst::default());
        for row in Csv::read(&format!("{}_saturation.csv", stem(gas))).rows() {
            let t = row.get("T_K");
            let sat = at_temperature(eq, t).unwrap();
            let (l, g) = sat.phases(eq);
            let mut see = |what, value: f64, column: &str| {
                worst.see(what, value / row.get(column) - 1.0, || format!("{t} K"));
            };
            see("p", sat.p, "p_Pa");
            for (f, phase) in [(&l, "liq"), (&g, "vap")] {
                see("rho", f.rho, &format!("rho_kgm3_{phase}"));
                see("h", f.h, &format!("h_Jkg_{phase}"));
                see("s", f.s, &format!("s_JkgK_{phase}"));
                see("u", f.u, &format!("u_Jkg_{phase}"));
                see("cp", f.cp, &format!("cp_JkgK_{phase}"));
            }
        }
        // Files carry nine digits.
        worst.within(
            gas.name(),
            &[
                ("p", 2e-8),
                ("rho", 2e-8),
                ("h", 2e-8),
                ("s", 2e-8),
                ("u", 2e-8),
                ("cp", 1e-7),
            ],
        );
    }
}

#[test]
fn single_phase_as_coolprop() {
    for gas in Refrigerant::ALL {
        let (eq, mut worst) = (gas.equation(), Worst::default());
        for row in Csv::read(&format!("{}_single_phase.csv", stem(gas))).rows() {
            let (t, rho) = (row.get("T_K"), row.get("rho_kgm3"));
            let f = eq.properties(rho, t);
            // Nine digits of a liquid's density leave its pressure open: compare at the density that the
            // pressure asks for.
            let rho = rho + (row.get("p_Pa") - f.p) / f.dp_drho;
            let f = eq.properties(rho, t);
            let mut see = |what, value: f64, column: &str| {
                worst.see(what, value / row.get(column) - 1.0, || {
                    format!("{t} K, {} Pa", row.get("p_Pa"))
                });
            };
            see("p", f.p, "p_Pa");
            see("rho", f.rho, "rho_kgm3");
            see("h", f.h, "h_Jkg");
            see("s", f.s, "s_JkgK");
            see("u", f.u, "u_Jkg");
            see("cp", f.cp, "cp_JkgK");
            see("w", f.w, "w_ms");
        }
        let limits = [
            ("p", 1e-8),
            ("rho", 2e-8),
            ("h", 2e-8),
            ("s", 2e-8),
            ("u", 2e-8),
            ("cp", 1e-7),
            ("w", 5e-8),
        ];
        worst.within(gas.name(), &limits);
    }
}

#[test]
fn density_and_energy_as_coolprop() {
    let eq = Refrigerant::R134a.equation();
    let mut worst = Worst::default();
    for row in Csv::read("r134a_rho_u.csv").rows() {
        let (rho, t, x) = (row.get("rho"), row.get("T_K"), row.get("x"));
        let (p, u, s) = if (0.0..=1.0).contains(&x) {
            let sat = at_temperature(eq, t).unwrap();
            let (l, g) = sat.phases(eq);
            let q = (1.0 / rho - 1.0 / l.rho) / (1.0 / g.rho - 1.0 / l.rho);
            worst.see("quality", q - x, || format!("{t} K, {rho}"));
            (sat.p, l.u + q * (g.u - l.u), l.s + q * (g.s - l.s))
        } else {
            let f = eq.properties(rho, t);
            (f.p, f.u, f.s)
        };
        worst.see("p", p / row.get("p_Pa") - 1.0, || format!("{t} K, {rho}"));
        worst.see("u", u / row.get("u") - 1.0, || format!("{t} K, {rho}"));
        worst.see("s", s / row.get("s") - 1.0, || format!("{t} K, {rho}"));
    }
    // Files carry seven digits.
    worst.within(
        "R-134a",
        &[("p", 2e-6), ("u", 1e-6), ("s", 1e-6), ("quality", 1e-6)],
    );
}

/// Normal boiling points: R-134a 247.076 K (Tillner-Roth & Baehr 1994), R-12 243.398 K (Marx et al. 1992),
/// R-1234yf 243.665 K (Richter, McLinden & Lemmon 2011, the earlier equation; hence the wider limit). From
/// memory of the literature.
#[test]
fn normal_boiling_points() {
    for (gas, t, limit) in [
        (Refrigerant::R134a, 247.076, 0.005),
        (Refrigerant::R12, 243.398, 0.005),
        (Refrigerant::R1234yf, 243.665, 0.05),
    ] {
        let found = at_pressure(gas.equation(), 101_325.0).unwrap().t;
        assert!((found - t).abs() < limit, "{gas}: {found} K");
    }
}

/// R-134a, saturated at 25 degC: 665.4 kPa, liquid 1206.7 kg/m3, h_g 412.33 kJ/kg.
/// ASHRAE Handbook Fundamentals, table of R-134a; from memory.
#[test]
fn handbook_row() {
    let eq = Refrigerant::R134a.equation();
    let sat = at_temperature(eq, 298.15).unwrap();
    let (l, g) = sat.phases(eq);
    assert!((sat.p - 665.4e3).abs() < 50.0, "{}", sat.p);
    assert!((l.rho - 1206.7).abs() < 0.06, "{}", l.rho);
    assert!((g.h - 412.33e3).abs() < 10.0, "{}", g.h);
}

/// The IIR reference state by definition.
#[test]
fn reference_state() {
    for gas in Refrigerant::ALL {
        let (l, _) = at_temperature(gas.equation(), 273.15)
            .unwrap()
            .phases(gas.equation());
        assert!(
            (l.h - 200e3).abs() < 1e-6 && (l.s - 1000.0).abs() < 1e-9,
            "{gas}: {} {}",
            l.h,
            l.s
        );
    }
}

/// Equal pressure and Gibbs energy, up to a tenth of a kelvin below the critical point.
#[test]
fn phases_are_in_equilibrium() {
    for gas in Refrigerant::ALL {
        let eq = gas.equation();
        let (low, _) = temperature_range(eq);
        let (mut t, mut last) = (low, 0.0);
        while t < eq.t_crit() - 0.1 {
            let sat = at_temperature(eq, t).unwrap();
            let (l, g) = sat.phases(eq);
            let gibbs = (l.h - t * l.s) - (g.h - t * g.s);
            assert!(
                gibbs.abs() < 1e-5 * (1.0 + l.h.abs() * 1e-5),
                "{gas} {t} K: Gibbs {gibbs}"
            );
            // A cold liquid's pressure is a difference of terms 1e8 times its size.
            assert!(
                (l.p - g.p).abs() < 1e-8 * g.p + 1e-2,
                "{gas} {t} K: {} {}",
                l.p,
                g.p
            );
            assert!(
                sat.p > last && l.dp_drho > 0.0 && g.dp_drho > 0.0,
                "{gas} {t} K"
            );
            last = sat.p;
            let back = at_pressure(eq, sat.p).unwrap();
            assert!(
                (back.t - t).abs() < 1e-8,
                "{gas} {t} K came back as {}",
                back.t
            );
            t += if t > eq.t_crit() - 5.0 { 0.07 } else { 1.7 };
        }
        let edge = at_temperature(eq, eq.t_crit() - 0.1).unwrap();
        assert!(
            edge.rho_l > 1.05 * edge.rho_g,
            "{gas} at the edge: {edge:?}"
        );
    }
}

#[test]
fn outside_the_line_is_refused() {
    for gas in Refrigerant::ALL {
        let eq = gas.equation();
        for t in [f64::NAN, -1.0, 100.0, eq.t_crit(), f64::INFINITY] {
            assert!(at_temperature(eq, t).is_err(), "{gas} {t}");
        }
        for p in [f64::NAN, -1.0, 0.0, eq.p_crit() * 1.01] {
            let message = at_pressure(eq, p).unwrap_err().to_string();
            assert!(message.contains("Pa is outside"), "{message}");
        }
    }
}

/// dp/dT of the line by difference quotient against (s_g - s_l)/(v_g - v_l).
#[test]
fn clausius_clapeyron() {
    for gas in Refrigerant::ALL {
        let eq = gas.equation();
        for i in 0..30 {
            let t = 205.0 + 5.0 * f64::from(i);
            let p = |t: f64| at_temperature(eq, t).unwrap().p;
            let d = 0.02;
            let quotient =
                (8.0 * (p(t + d) - p(t - d)) - (p(t + 2.0 * d) - p(t - 2.0 * d))) / (12.0 * d);
            let (l, g) = at_temperature(eq, t).unwrap().phases(eq);
            let slope = (g.s - l.s) / (1.0 / g.rho - 1.0 / l.rho);
            assert!(
                (quotient / slope - 1.0).abs() < 1e-7,
                "{gas} {t} K: {quotient} {slope}"
            );
        }
    }
}

/// All derivatives against difference quotients; the Maxwell relation du/drho = (p - T dp/dT)/rho^2.
#[test]
fn derivatives_are_the_slopes() {
    for gas in Refrigerant::ALL {
        let eq = gas.equation();
        for (rho, t) in [
            (0.01, 300.0),
            (3.0, 250.0),
            (80.0, 350.0),
            (400.0, 400.0),
            (1100.0, 280.0),
        ] {
            let f = eq.properties(rho, t);
            let (dr, dt) = (1e-4 * rho, 1e-4 * t);
            let slope = |d: f64, q: &dyn Fn(f64) -> f64| {
                (8.0 * (q(d) - q(-d)) - (q(2.0 * d) - q(-2.0 * d))) / (12.0 * d)
            };
            let at_t = |q: fn(&lowside_fluids::eos::Properties) -> f64| {
                slope(dt, &|d| q(&eq.properties(rho, t + d)))
            };
            let at_rho = |q: fn(&lowside_fluids::eos::Properties) -> f64| {
                slope(dr, &|d| q(&eq.properties(rho + d, t)))
            };
            let close = |a: f64, b: f64, what| {
                assert!(
                    (a - b).abs() <= 1e-6 * b.abs() + 1e-9,
                    "{gas} {rho} {t} {what}: {a} {b}"
                );
            };
            close(f.cv, at_t(|f| f.u), "cv");
            close(f.dp_dt, at_t(|f| f.p), "dp/dT");
            close(f.dp_drho, at_rho(|f| f.p), "dp/drho");
            close(f.du_drho, at_rho(|f| f.u), "du/drho");
            close(f.cv / t, at_t(|f| f.s), "ds/dT");
            close(-f.dp_dt / (rho * rho), at_rho(|f| f.s), "ds/drho");
            let maxwell = (f.p - t * f.dp_dt) / (rho * rho);
            assert!(
                (f.du_drho - maxwell).abs() < 1e-6 * maxwell.abs() + 1e-3,
                "{gas} {rho} {t}: Maxwell"
            );
        }
    }
}

/// At 10 Pa a gas is ideal to some millionths, and B = (Z - 1)/rho has a limit.
#[test]
fn virial_limit() {
    for gas in Refrigerant::ALL {
        let eq = gas.equation();
        for t in [220.0, 273.15, 320.0, 420.0] {
            let rho = 10.0 / (eq.gas_constant() * t);
            let p = eq.properties(rho, t).p;
            assert!((p / 10.0 - 1.0).abs() < 1e-5, "{gas} {t}: {p}");
            let b = |rho: f64| eq.reduced(rho, t).expand(rho / eq.rho_red()).a_d / eq.rho_red();
            assert!(
                b(0.0) < 0.0 && (b(1e-6) / b(0.0) - 1.0).abs() < 1e-6,
                "{gas} {t}"
            );
        }
    }
}
