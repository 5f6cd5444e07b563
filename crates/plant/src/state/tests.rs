//! The state of a volume: it inverts, its slopes are true, its branches meet.

use lowside_fluids::{Refrigerant, table::Table};
use lowside_tests::csv::Csv;

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
    for gas in Refrigerant::ALL {
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

/// The slopes serve the forecast of a step, which the true state then corrects: a tenth is near enough. With air squeezed into a full
/// volume they hold to a fiftieth.
#[test]
fn slopes_are_those_of_the_function() {
    let table = Refrigerant::R134a.table();
    for (content, t) in cases(table) {
        // A few micrograms of refrigerant beside grams of air leave nothing to differentiate.
        if content[0] < 1e-6 {
            continue;
        }
        let u = energy_at(table, &content, VOLUME, t);
        let at = |content: &Content, u: f64| solve(table, content, u, VOLUME, t);
        let s = at(&content, u);
        let near = if content[1] > 0.0 && s.v_gas < 0.02 * VOLUME {
            0.02
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
    for gas in Refrigerant::ALL {
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
    let table = Refrigerant::R134a.table();
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
    let table = Refrigerant::R134a.table();
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

/// A gram of water alone in a litre boils at the pressure of its temperature, and ice sublimes. Pressures from IAPWS-95 and
/// R14-08 as tabled by CoolProp 8.0.0 (`tests/data/water_saturation.csv`).
#[test]
fn water_boils_at_its_vapour_pressure() {
    let table = Refrigerant::R134a.table();
    let reference = Csv::read("water_saturation.csv");
    let (mut seen, mut ice) = (0, 0);
    for row in reference.rows().step_by(4) {
        let (t, p) = (row.get("T_K"), row.get("p_Pa"));
        if !(220.0..370.0).contains(&t) {
            continue;
        }
        let content = Content([0.0, 0.0, 1e-3, 0.0, 0.0]);
        let u = energy_at(table, &content, 1e-3, t);
        for guess in [t, 400.0, 200.0] {
            let s = solve(table, &content, u, 1e-3, guess);
            assert!((s.t - t).abs() < 1e-5, "{} for {t} K", s.t);
            assert!(
                (s.p / p - 1.0).abs() < 5e-4,
                "{t} K: {} against {p} Pa",
                s.p
            );
            assert!(s.m_steam + s.m_ice <= 1e-3 && (s.m_ice > 0.0) == (t < 273.16));
        }
        seen += 1;
        ice += u32::from(t < 273.16);
    }
    assert!(seen >= 12 && ice >= 5, "{seen} rows, {ice} of ice");
}

/// Boiling off a milligram cools what is left by its latent heat: 2 500.9 kJ/kg at 0 degC, 2 441.7 at 25 degC (IAPWS-95); ice
/// takes 2 834 kJ/kg (IAPWS R10-06 and R14-08).
#[test]
fn water_takes_its_latent_heat() {
    let table = Refrigerant::R134a.table();
    for (t, latent) in [(298.15, 2441.7e3), (274.15, 2498.6e3), (268.15, 2835.5e3)] {
        // More space at one temperature: so much more vapour.
        let content = Content([0.0, 0.0, 1e-3, 0.0, 0.0]);
        let at = |v: f64| {
            let u = energy_at(table, &content, v, t);
            (u, solve(table, &content, u, v, t))
        };
        let ((u1, s1), (u2, s2)) = (at(1e-3), at(2e-3));
        // At constant pressure the vapour does p dV on top.
        let heat = u2 - u1 + s1.p * 1e-3;
        let took = heat / (s2.m_steam - s1.m_steam);
        assert!((took / latent - 1.0).abs() < 2e-3, "{t} K: {took} J/kg");
    }
}

/// With water as vapour, liquid and ice energy rises with temperature all the way and the state comes back; slopes hold.
#[test]
fn water_is_a_function_of_state_too() {
    let table = Refrigerant::R134a.table();
    for refrigerant in [0.0, 1e-7, 5e-5, 2e-4, 4e-4] {
        for air in [0.0, 1e-7, 4e-4] {
            for water in [1e-12, 1e-8, 1e-6, 3e-6, 1e-4, 2e-3] {
                let content = Content([refrigerant, air, water, 5e-3, 0.0]);
                let mut last = f64::MIN;
                for k in 0..400 {
                    let t = 230.0 + 0.4 * f64::from(k);
                    let u = energy_at(table, &content, VOLUME, t);
                    assert!(u > last, "{content:?} at {t} K: {u} after {last} J");
                    last = u;
                    if k % 20 == 0 {
                        let s = solve(table, &content, u, VOLUME, 300.0);
                        assert!((s.t - t).abs() < 1e-5, "{content:?}: {} for {t} K", s.t);
                    }
                }
                let s = solve(
                    table,
                    &content,
                    energy_at(table, &content, VOLUME, 290.0),
                    VOLUME,
                    290.0,
                );
                let saturated = s.m_steam < water;
                let dm = water * 1e-4;
                let mut more = content;
                more[2] += dm;
                let u = energy_at(table, &content, VOLUME, 290.0);
                let h = if saturated { 0.0 } else { 2.5e6 };
                let by_m = (solve(table, &more, u + h * dm, VOLUME, 290.0).p - s.p) / dm;
                let slope = s.dp_dm[2] + h * s.dp_du;
                let scale = slope.abs().max(1e-3 * s.p / dm);
                assert!(
                    (by_m - slope).abs() <= 0.1 * scale,
                    "{content:?}: {slope} against {by_m}"
                );
            }
        }
    }
}

/// The first trace of water counts as vapour does: each kilogram brings the same energy, 2 406 kJ/kg over liquid at 0 degC (2 547 kJ/kg of
/// enthalpy at 25 degC by ASHRAE Fundamentals 2017 ch. 1, less R T), and the same pressure.
#[test]
fn a_trace_of_water_brings_no_jump() {
    let table = Refrigerant::R134a.table();
    let t = 298.15;
    let empty = energy_at(table, &Content::default(), VOLUME, t);
    for water in [1e-13, 1e-12, 1.9e-12, 2.5e-12, 1e-11, 1e-9, 1e-7] {
        let content = Content([0.0, 0.0, water, 0.0, 0.0]);
        let u = energy_at(table, &content, VOLUME, t);
        let each = (u - empty) / water;
        assert!(
            (each / 2.4099e6 - 1.0).abs() < 1e-3,
            "{water} kg: {each} J/kg"
        );
        let p = solve(table, &content, u, VOLUME, t).p_water / water;
        assert!((p * VOLUME / (461.52 * t) - 1.0).abs() < 1e-3, "{water} kg");
    }
}
