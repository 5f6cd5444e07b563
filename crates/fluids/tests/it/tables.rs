//! The fast tables against the reference files and against the equations they are built from.
//!
//! The bounds asked for are p_sat 0.02 %, T 0.02 K, rho 0.1 %, h 0.1 kJ/kg; the limits below are what is
//! reached, with a margin.

use lowside_fluids::saturation::at_temperature;
use lowside_fluids::table::{Phase, T_HOT};
use lowside_fluids::{Refrigerant, Table};
use lowside_tests::{
    csv::{Csv, stem},
    worst::Worst,
};

/// Density of compressed liquid or of vapour that the table gives at `p` and `t`.
fn density(table: &Table, liquid: bool, p: f64, t: f64, start: f64) -> f64 {
    let sat = table.sat(t);
    let mut rho = start;
    for _ in 0..50 {
        let e = if liquid {
            table.liquid(rho, t, &sat)
        } else {
            table.vapour(rho, t)
        };
        rho += (p - e.p) / e.dp_drho;
    }
    rho
}

#[test]
fn saturation_as_coolprop() {
    for gas in Refrigerant::ALL {
        let (table, mut worst) = (gas.table(), Worst::default());
        for row in Csv::read(&format!("{}_saturation.csv", stem(gas))).rows() {
            let t = row.get("T_K");
            if t > table.t_max() {
                continue;
            }
            let s = table.sat(t);
            let place = || format!("{t} K");
            worst.see("p", s.p / row.get("p_Pa") - 1.0, place);
            worst.see("rho_l", s.rho_l / row.get("rho_kgm3_liq") - 1.0, place);
            worst.see("rho_g", s.rho_g / row.get("rho_kgm3_vap") - 1.0, place);
            worst.see("h, J/kg", s.h_l() - row.get("h_Jkg_liq"), place);
            worst.see("h, J/kg", s.h_g() - row.get("h_Jkg_vap"), place);
            worst.see("s, J/kgK", s.s_l - row.get("s_JkgK_liq"), place);
            worst.see("s, J/kgK", s.s_g - row.get("s_JkgK_vap"), place);
            worst.see(
                "latent, J/kg",
                s.latent() - (row.get("h_Jkg_vap") - row.get("h_Jkg_liq")),
                place,
            );
            worst.see("t_sat, K", table.t_sat(row.get("p_Pa")) - t, place);
        }
        let limits = [
            ("p", 1e-6),
            ("rho_l", 5e-6),
            ("rho_g", 5e-6),
            ("h, J/kg", 0.5),
            ("s, J/kgK", 1e-3),
            ("latent, J/kg", 0.5),
            ("t_sat, K", 1e-5),
        ];
        worst.within(gas.name(), &limits);
    }
}

#[test]
fn single_phase_as_coolprop() {
    for gas in Refrigerant::ALL {
        let (table, mut worst) = (gas.table(), Worst::default());
        for row in Csv::read(&format!("{}_single_phase.csv", stem(gas))).rows() {
            let (t, p) = (row.get("T_K"), row.get("p_Pa"));
            let liquid = row.text("phase") == "liquid";
            if liquid && t > table.t_max() {
                continue;
            }
            let (rho_ref, u_ref, h_ref) = (row.get("rho_kgm3"), row.get("u_Jkg"), row.get("h_Jkg"));
            let place = || format!("{t} K, {p} Pa");
            let sat = table.sat(t);
            let rho = density(table, liquid, p, t, rho_ref);
            let e = if liquid {
                table.liquid(rho, t, &sat)
            } else {
                table.vapour(rho, t)
            };
            let cp = e.cv + t * (e.dp_dt / rho) * (e.dp_dt / rho) / e.dp_drho;
            worst.see("rho", rho / rho_ref - 1.0, place);
            worst.see("h, J/kg", e.u + p / rho - h_ref, place);
            worst.see("cp", cp / row.get("cp_JkgK") - 1.0, place);
            let w = (e.dp_drho * cp / e.cv).sqrt();
            worst.see("w", w / row.get("w_ms") - 1.0, place);
            if !liquid {
                worst.see(
                    "s, J/kgK",
                    table.vapour_entropy(rho, t) - row.get("s_JkgK"),
                    place,
                );
            }
            let state = table.state(rho_ref, u_ref, t + 3.0);
            worst.see("T of (rho, u), K", state.t - t, place);
            assert_eq!(
                state.phase,
                if liquid { Phase::Liquid } else { Phase::Vapour },
                "{gas} {t} {p}"
            );
            if !liquid {
                worst.see("p of (rho, u)", state.p / p - 1.0, place);
            }
        }
        let limits = [
            ("rho", 2e-4),
            ("h, J/kg", 20.0),
            ("cp", 1e-2),
            ("w", 1e-2),
            ("s, J/kgK", 1e-3),
            ("T of (rho, u), K", 1e-2),
            ("p of (rho, u)", 1e-5),
        ];
        worst.within(gas.name(), &limits);
    }
}

#[test]
fn density_and_energy_as_coolprop() {
    let (table, mut worst) = (Refrigerant::R134a.table(), Worst::default());
    for row in Csv::read("r134a_rho_u.csv").rows() {
        let (rho, u, x, t) = (row.get("rho"), row.get("u"), row.get("x"), row.get("T_K"));
        let place = || format!("rho {rho}, u {u}");
        let s = table.state(rho, u, 300.0);
        worst.see("T, K", s.t - t, place);
        if x < 0.0 {
            assert_eq!(s.phase, Phase::Liquid, "{}", place());
            // Seven digits of a liquid's density are tens of kilopascals.
            worst.see("liquid p, Pa", s.p - row.get("p_Pa"), place);
        } else {
            worst.see("p", s.p / row.get("p_Pa") - 1.0, place);
            worst.see("h, J/kg", u + s.p / rho - row.get("h"), place);
        }
        if (0.0..=1.0).contains(&x) {
            worst.see("quality", s.quality.expect("two phases") - x, place);
        } else {
            assert_eq!(s.quality, None, "{}", place());
        }
    }
    worst.within(
        "R-134a",
        &[
            ("T, K", 1e-2),
            ("p", 5e-6),
            ("h, J/kg", 1.0),
            ("quality", 1e-6),
            ("liquid p, Pa", 2e4),
        ],
    );
}

/// Every corner of the vapour's domain, 10 Pa and thinner included.
#[test]
fn vapour_as_the_equation() {
    for gas in Refrigerant::ALL {
        let (table, eq, mut worst) = (gas.table(), gas.equation(), Worst::default());
        let mut t = 213.3;
        while t < T_HOT {
            let top = table.sat(t.min(table.t_max())).rho_g;
            let mut rho = 1e-6;
            while rho < top {
                let (e, f) = (table.vapour(rho, t), eq.properties(rho, t));
                let place = || format!("{rho:.3e} kg/m3, {t:.2} K");
                worst.see("p", e.p / f.p - 1.0, place);
                worst.see("u, J/kg", e.u - f.u, place);
                worst.see("cv", e.cv / f.cv - 1.0, place);
                worst.see("dp_dt", e.dp_dt / f.dp_dt - 1.0, place);
                worst.see("dp_drho", e.dp_drho / f.dp_drho - 1.0, place);
                worst.see("du_drho", e.du_drho / f.du_drho - 1.0, place);
                worst.see("s, J/kgK", table.vapour_entropy(rho, t) - f.s, place);
                rho *= 1.37;
            }
            t += 2.3;
        }
        let limits = [
            ("p", 2e-6),
            ("u, J/kg", 0.1),
            ("cv", 1e-4),
            ("dp_dt", 1e-4),
            ("dp_drho", 1e-4),
            ("du_drho", 1e-4),
            ("s, J/kgK", 1e-3),
        ];
        worst.within(gas.name(), &limits);
    }
}

/// Compressed liquid to 4.5 MPa.
#[test]
fn liquid_as_the_equation() {
    for gas in Refrigerant::ALL {
        let (table, eq, mut worst) = (gas.table(), gas.equation(), Worst::default());
        let mut t = 213.3;
        while t < table.t_max() {
            let sat = table.sat(t);
            for i in 0..20 {
                let p = sat.p + (4.5e6 - sat.p) * f64::from(i) / 19.0;
                let mut rho = sat.rho_l;
                for _ in 0..50 {
                    let (q, slope) = eq.pressure(rho, t);
                    rho += (p - q) / slope;
                }
                let f = eq.properties(rho, t);
                let place = || format!("{t:.2} K, {p:.0} Pa");
                let found = density(table, true, p, t, sat.rho_l);
                let e = table.liquid(found, t, &sat);
                worst.see("rho", found / rho - 1.0, place);
                worst.see("h, J/kg", e.u + p / found - f.h, place);
                worst.see("dp_drho", e.dp_drho / f.dp_drho - 1.0, place);
                worst.see("cv", e.cv / f.cv - 1.0, place);
                worst.see("dp_dt", e.dp_dt / f.dp_dt - 1.0, place);
            }
            t += 2.3;
        }
        let limits = [
            ("rho", 5e-4),
            ("h, J/kg", 60.0),
            ("dp_drho", 5e-2),
            ("cv", 1e-2),
            ("dp_dt", 5e-2),
        ];
        worst.within(gas.name(), &limits);
    }
}

/// Where two pieces meet they agree: dew line, bubble line, and both ends of the line.
#[test]
fn pieces_join() {
    for gas in Refrigerant::ALL {
        let table = gas.table();
        let mut t = table.t_min() + 0.1;
        while t < table.t_max() {
            let s = table.sat(t);
            let g = table.vapour(s.rho_g, t);
            assert!((g.p / s.p - 1.0).abs() < 1e-5, "{gas} {t}: {} {}", g.p, s.p);
            assert!((g.u - s.u_g).abs() < 0.5, "{gas} {t}: {} {}", g.u, s.u_g);
            assert!(
                (table.vapour_entropy(s.rho_g, t) - s.s_g).abs() < 2e-3,
                "{gas} {t}"
            );
            let beyond = table.vapour(s.rho_g * (1.0 + 1e-9), t);
            assert!(
                (beyond.p / g.p - 1.0).abs() < 1e-7
                    && (beyond.dp_drho / g.dp_drho - 1.0).abs() < 1e-5
            );
            let l = table.liquid(s.rho_l, t, &s);
            assert!(
                (l.p - s.p).abs() < 1e-6 && (l.u - s.u_l).abs() < 1e-6,
                "{gas} {t}"
            );
            t += 0.731;
        }
        for t in [table.t_min(), table.t_max(), T_HOT] {
            let (a, b) = (table.sat(t - 1e-7), table.sat(t + 1e-7));
            for (x, y) in [
                (a.p, b.p),
                (a.rho_l, b.rho_l),
                (a.rho_g, b.rho_g),
                (a.u_l, b.u_l),
                (a.u_g, b.u_g),
            ] {
                assert!((x / y - 1.0).abs() < 1e-6, "{gas} {t}: {x} {y}");
            }
            let rho = 0.5 * table.sat(t.min(table.t_max())).rho_g;
            let (a, b) = (table.vapour(rho, t - 1e-7), table.vapour(rho, t + 1e-7));
            assert!(
                (a.p / b.p - 1.0).abs() < 1e-7 && (a.u / b.u - 1.0).abs() < 1e-7,
                "{gas} {t}"
            );
        }
    }
}

/// The tables' own slopes are the slopes of the tables, or a Newton iteration would limp.
#[test]
fn slopes_are_consistent() {
    for gas in Refrigerant::ALL {
        let table = gas.table();
        let check = |what: &str, slope: f64, f: &dyn Fn(f64) -> f64, d: f64| {
            let quotient = (f(d) - f(-d)) / (2.0 * d);
            assert!(
                (quotient - slope).abs() < 3e-5 * slope.abs() + 1e-7,
                "{gas} {what}: {quotient} {slope}"
            );
        };
        let mut t = 180.3;
        while t < table.t_max() - 0.1 {
            let s = table.sat(t);
            check("p", s.dp_dt, &|d| table.sat(t + d).p, 1e-3);
            check("rho_g", s.drho_g, &|d| table.sat(t + d).rho_g, 1e-3);
            check("rho_l", s.drho_l, &|d| table.sat(t + d).rho_l, 1e-3);
            check("u_l", s.du_l, &|d| table.sat(t + d).u_l, 1e-3);
            for rho in [1e-3 * s.rho_g, 0.4 * s.rho_g, 0.9 * s.rho_g] {
                let e = table.vapour(rho, t);
                check("vapour p_T", e.dp_dt, &|d| table.vapour(rho, t + d).p, 1e-3);
                check("vapour cv", e.cv, &|d| table.vapour(rho, t + d).u, 1e-3);
                check(
                    "vapour p_rho",
                    e.dp_drho,
                    &|d| table.vapour(rho + d, t).p,
                    1e-4 * rho,
                );
                check(
                    "vapour u_rho",
                    e.du_drho,
                    &|d| table.vapour(rho + d, t).u,
                    1e-4 * rho,
                );
            }
            let rho = 1.002 * s.rho_l;
            let liquid = |rho: f64, t: f64| table.liquid(rho, t, &table.sat(t));
            let e = liquid(rho, t);
            check("liquid p_T", e.dp_dt, &|d| liquid(rho, t + d).p, 1e-3);
            check("liquid cv", e.cv, &|d| liquid(rho, t + d).u, 1e-3);
            check("liquid p_rho", e.dp_drho, &|d| liquid(rho + d, t).p, 1e-3);
            check("liquid u_rho", e.du_drho, &|d| liquid(rho + d, t).u, 1e-3);
            t += 3.17;
        }
    }
}

/// dp/dT, h and v of the tables obey Clausius-Clapeyron.
#[test]
fn clausius_clapeyron() {
    for gas in Refrigerant::ALL {
        let table = gas.table();
        let mut t = 200.2;
        while t < table.t_max() {
            let s = table.sat(t);
            let slope = s.latent() / (t * (1.0 / s.rho_g - 1.0 / s.rho_l));
            assert!(
                (s.dp_dt / slope - 1.0).abs() < 3e-5,
                "{gas} {t}: {} {slope}",
                s.dp_dt
            );
            t += 0.57;
        }
    }
}

/// At 10 Pa a gas obeys p = rho R T to some millionths, in the tables too, and a perfect vacuum is a state.
#[test]
fn virial_limit() {
    for gas in Refrigerant::ALL {
        let (table, r) = (gas.table(), gas.table().gas_constant());
        for t in [220.0, 273.15, 320.0, 420.0] {
            let rho = 10.0 / (r * t);
            let e = table.vapour(rho, t);
            assert!((e.p / 10.0 - 1.0).abs() < 1e-5, "{gas} {t}: {}", e.p);
            let thin = table.vapour(1e-9 * rho, t);
            assert!(
                (thin.p / (1e-9 * 10.0) - 1.0).abs() < 1e-12,
                "{gas} {t}: {}",
                thin.p
            );
            let s = table.state(rho, e.u, 250.0);
            assert!(
                (s.t - t).abs() < 1e-6 && (s.p / e.p - 1.0).abs() < 1e-8,
                "{gas} {t}: {s:?}"
            );
            let nothing = table.vapour(0.0, t);
            assert!(nothing.p == 0.0 && nothing.u.is_finite() && nothing.cv > 0.0);
        }
    }
}

/// Pressure rises with density and with temperature through every region, and never jumps.
#[test]
fn pressure_rises_and_never_jumps() {
    for gas in Refrigerant::ALL {
        let table = gas.table();
        // Along isochores by energy, from a cold mixture to hot gas or 20 MPa liquid.
        let top = table.sat(table.t_min()).rho_l;
        let (mut rho, mut steps) = (1e-4, 0);
        while rho < top {
            let mut u = table.sat(205.0).u_l + 1e3;
            let mut before = table.state(rho, u, 250.0);
            while u < 520e3 && before.p < 20e6 {
                u += 500.0;
                let now = table.state(rho, u, before.t);
                assert!(now.t > before.t, "{gas} {rho} {u}: {before:?} {now:?}");
                assert!(now.p > before.p, "{gas} {rho} {u}: {before:?} {now:?}");
                assert!(now.cv > 0.0 && now.dp_du > 0.0, "{gas} {rho} {u}: {now:?}");
                // A jump would show as a rise beyond the slopes at both ends.
                let rise = now.p - before.p;
                let slope = now.dp_du.max(before.dp_du);
                assert!(
                    rise < 1.3 * slope * 500.0 + 10.0,
                    "{gas} {rho} {u}: {before:?} {now:?}"
                );
                before = now;
                steps += 1;
            }
            rho *= 1.09;
        }
        assert!(steps > 50_000, "{gas}: only {steps} steps");
    }
}

/// Single-phase isotherms rise in density, extrapolations included.
#[test]
fn isotherms_rise() {
    for gas in Refrigerant::ALL {
        let table = gas.table();
        for i in 0..70 {
            let t = 175.0 + 5.0 * f64::from(i);
            let s = table.sat(t);
            for k in 0..200 {
                let rho = s.rho_g * 1.6 * f64::from(k) / 199.0;
                let e = table.vapour(rho, t);
                assert!(
                    e.dp_drho > 0.0 && e.cv > 0.0,
                    "{gas} vapour {rho} {t}: {e:?}"
                );
                let rho = s.rho_l * (0.98 + 0.001 * f64::from(k));
                let e = table.liquid(rho, t, &s);
                assert!(e.dp_drho > 0.0, "{gas} liquid {rho} {t}: {e:?}");
                if e.p < 20e6 {
                    assert!(e.cv > 0.0, "{gas} liquid {rho} {t}: {e:?}");
                }
            }
        }
    }
}

/// dp/drho and dp/du of a state are the slopes of its pressure.
#[test]
fn slopes_of_state() {
    for gas in Refrigerant::ALL {
        let table = gas.table();
        let p = |rho: f64, u: f64, t: f64| table.state(rho, u, t).p;
        for i in 0..12 {
            let t = 230.0 + 10.3 * f64::from(i);
            let s = table.sat(t);
            let mut points = vec![(1.003 * s.rho_l, table.liquid(1.003 * s.rho_l, t, &s).u)];
            for x in [0.02, 0.4, 0.9] {
                points.push((
                    1.0 / ((1.0 - x) / s.rho_l + x / s.rho_g),
                    s.u_l + x * (s.u_g - s.u_l),
                ));
            }
            points.push((0.6 * s.rho_g, table.vapour(0.6 * s.rho_g, t + 5.0).u));
            for (rho, u) in points {
                let state = table.state(rho, u, t);
                let (dr, du) = (1e-5 * rho, 20.0);
                let by_rho = (p(rho + dr, u, t) - p(rho - dr, u, t)) / (2.0 * dr);
                let by_u = (p(rho, u + du, t) - p(rho, u - du, t)) / (2.0 * du);
                let scale = state.p / rho;
                assert!(
                    (by_rho - state.dp_drho).abs() < 2e-3 * (by_rho.abs() + scale),
                    "{gas} {t} {rho}: {by_rho} {state:?}"
                );
                assert!(
                    (by_u / state.dp_du - 1.0).abs() < 2e-3,
                    "{gas} {t} {rho}: {by_u} {state:?}"
                );
            }
        }
    }
}

/// `t_sat` undoes `p_sat` to a part in 1e9, on and beyond the line.
#[test]
fn saturation_inverse() {
    for gas in Refrigerant::ALL {
        let table = gas.table();
        let mut t = 120.0;
        while t < table.t_max() + 20.0 {
            let back = table.t_sat(table.p_sat(t));
            assert!((back / t - 1.0).abs() < 1e-9, "{gas} {t}: {back}");
            assert!(
                (table.p_sat(t) - table.sat(t).p).abs() <= 1e-12 * table.p_sat(t),
                "{gas} {t}"
            );
            t += 0.613;
        }
        assert!(table.t_sat(0.0).is_finite() && table.t_sat(-1.0).is_finite());
    }
}

/// The tables reach what they say, and the constants are the equation's.
#[test]
fn range_and_constants() {
    for gas in Refrigerant::ALL {
        let (table, eq) = (gas.table(), gas.equation());
        assert!(table.t_min() <= 203.15, "{gas}");
        assert!((table.t_max() / eq.t_crit() - 0.985).abs() < 1e-9, "{gas}");
        assert_eq!(table.t_crit().to_bits(), eq.t_crit().to_bits());
        assert_eq!(table.p_crit().to_bits(), eq.p_crit().to_bits());
        assert!((table.gas_constant() * table.molar_mass() - 8.3144).abs() < 1e-3);
        let edge = at_temperature(eq, table.t_max()).expect("a temperature of the line");
        assert!((table.sat(table.t_max()).p / edge.p - 1.0).abs() < 1e-9);
    }
}
