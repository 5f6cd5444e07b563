//! The state of a volume: it inverts, its slopes are true, its branches meet.

use lowside_fluids::{Gas, table::Table};

use super::{Phase, R_AIR, energy_at, solve};
use crate::species::Content;

const VOLUME: f64 = 0.3e-3;

/// Contents that stand for every kind of state, at 5 to 60 degC: near-vacuum, vapour, wet, nearly full, over-full; without
/// air, with a trace, with grams; with oil and water.
fn cases(table: &Table) -> Vec<(Content, f64)> {
    let mut out = Vec::new();
    for t in [278.15, 308.15, 333.15] {
        let sat = table.sat(t);
        for rho in [
            1e-4,
            0.1,
            0.5 * sat.rho_g,
            1.2 * sat.rho_g,
            0.3 * sat.rho_l,
            0.97 * sat.rho_l,
            1.002 * sat.rho_l,
            1.01 * sat.rho_l,
        ] {
            for air in [0.0, 1e-15, 1e-9, 2e-6, 2e-4] {
                for (water, oil) in [(0.0, 0.0), (1e-4, 8e-3)] {
                    let free = VOLUME
                        - oil / super::RHO_OIL
                        - water / super::RHO_WATER
                        - 0.3 * oil / super::RHO_DISSOLVED;
                    out.push((Content([rho * free, air, water, oil, 0.3 * oil]), t));
                }
            }
        }
        out.push((Content::air(3e-4), t));
        out.push((Content::air(2e-10), t));
    }
    out
}

#[test]
fn temperature_comes_back_from_energy() {
    for gas in Gas::ALL {
        let table = gas.table();
        for (content, t) in cases(table) {
            let u = energy_at(table, &content, VOLUME, t);
            for guess in [t, t - 30.0, t + 40.0, 200.0, 500.0] {
                let s = solve(table, &content, u, VOLUME, guess);
                assert!(
                    (s.t - t).abs() < 1e-5,
                    "{gas} {content:?}: {} for {t} K from {guess}",
                    s.t
                );
                assert!(
                    s.p >= 0.0 && s.p.is_finite() && s.heat_capacity > 0.0,
                    "{gas} {content:?}: {s:?}"
                );
            }
        }
    }
}

/// The slopes serve the forecast of a step, which the true state then corrects: where air is squeezed into a full volume and
/// the two stiffnesses blend, a third is near enough; everywhere else they hold to a tenth.
#[test]
fn slopes_are_those_of_the_function() {
    let table = Gas::R134a.table();
    for (content, t) in cases(table) {
        // A few micrograms of refrigerant beside grams of air leave nothing to differentiate.
        if content[0] < 1e-6 {
            continue;
        }
        let u = energy_at(table, &content, VOLUME, t);
        let at = |content: &Content, u: f64| solve(table, content, u, VOLUME, t);
        let s = at(&content, u);
        let near = if content[1] > 0.0 && s.v_gas < 0.02 * VOLUME {
            0.33
        } else {
            0.1
        };
        let du = s.heat_capacity * 0.01;
        let (up, down) = (at(&content, u + du), at(&content, u - du));
        if up.phase != s.phase || down.phase != s.phase {
            continue;
        }
        let by_u = (up.p - down.p) / (2.0 * du);
        let scale = s.dp_du.abs().max(s.p * 1e-3 / du);
        assert!(
            (by_u - s.dp_du).abs() < near * scale,
            "{content:?} at {t} K: dp/dU {} against {by_u}",
            s.dp_du
        );
        let capacity = 2.0 * du / (up.t - down.t);
        assert!(
            (capacity / s.heat_capacity - 1.0).abs() < near,
            "{content:?} at {t} K: {} J/K against {capacity}",
            s.heat_capacity
        );
        for k in [0, 1] {
            let dm = (content[k] * 1e-4).max(1e-12);
            // A trace of air, and air squeezed into a full volume, bend too sharply for a difference quotient.
            if k == 1 && (content[k] < 1e-8 || s.v_gas < 0.01 * VOLUME) {
                continue;
            }
            // As it enters: with its enthalpy. At fixed energy two large terms nearly cancel.
            let h = if k == 1 {
                super::CP_AIR * (t - super::T_ZERO)
            } else {
                s.h_liq
            };
            let (mut more, mut less) = (content, content);
            more[k] += dm;
            less[k] -= dm;
            let by_m = (at(&more, u + h * dm).p - at(&less, u - h * dm).p) / (2.0 * dm);
            let slope = s.dp_dm[k] + s.dp_du * h;
            let scale = slope.abs().max(1e-4 * s.p / dm);
            assert!(
                (by_m - slope).abs() < near * scale,
                "{content:?} at {t} K: dp/dm of species {k} {slope} against {by_m}"
            );
        }
    }
}

#[test]
fn a_trace_of_air_is_as_good_as_none() {
    for gas in Gas::ALL {
        let table = gas.table();
        for (content, t) in cases(table) {
            if content[0] < 1e-9 {
                continue;
            }
            let pressure = |air: f64| {
                let mut c = content;
                c[1] = air;
                solve(table, &c, energy_at(table, &c, VOLUME, t), VOLUME, t).p
            };
            let none = pressure(0.0);
            for air in [1e-25, 1e-20, 1e-16] {
                let trace = pressure(air);
                assert!(
                    (trace - none).abs() < 1e-6 * none + 1.0,
                    "{gas} {content:?}: {trace} with {air} kg, {none} without"
                );
            }
        }
    }
}

#[test]
fn air_adds_its_own_pressure() {
    // Dalton's law over liquid: 1 g of air in the gas space.
    let table = Gas::R134a.table();
    let t = 308.15;
    let sat = table.sat(t);
    let content = Content([0.5 * VOLUME * (sat.rho_l + sat.rho_g), 1e-3, 0.0, 0.0, 0.0]);
    let s = solve(
        table,
        &content,
        energy_at(table, &content, VOLUME, t),
        VOLUME,
        t,
    );
    let expected = sat.p + 1e-3 * R_AIR * t / (0.5 * VOLUME);
    assert_eq!(s.phase, Phase::TwoPhase);
    assert!(
        (s.p / expected - 1.0).abs() < 2e-3,
        "{} against {expected} Pa",
        s.p
    );
}

#[test]
fn pressure_rises_with_every_gram() {
    let table = Gas::R134a.table();
    for air in [0.0, 1e-12, 1e-6, 1e-4] {
        let t = 308.15;
        let mut last = 0.0;
        for k in 1..4000 {
            let m = f64::from(k) * 1e-4;
            let content = Content([m, air, 0.0, 0.0, 0.0]);
            let p = solve(
                table,
                &content,
                energy_at(table, &content, VOLUME, t),
                VOLUME,
                t,
            )
            .p;
            assert!(
                p >= last * (1.0 - 1e-12),
                "{air} kg of air: {p} Pa after {last} Pa at {m} kg"
            );
            last = p;
        }
        assert!(
            last > 10e6,
            "a volume filled past its liquid must press back: {last} Pa"
        );
    }
}
