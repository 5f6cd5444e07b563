//! Water against IAPWS check values and CoolProp 8.0.0 (IAPWS-95).

use lowside_fluids::water;
use lowside_tests::csv::Csv;

fn near(what: &str, ours: f64, theirs: f64, relative: f64) {
    assert!(
        (ours / theirs - 1.0).abs() <= relative,
        "{what}: {ours} against {theirs}"
    );
}

/// IAPWS SR1-86(1992), table 1 of check values: triple point, normal boiling point, critical point.
#[test]
fn sr1_86_check_values() {
    for (t, p, liquid, vapour, latent) in [
        (273.16, 611.657, 999.789, 0.004_854_26, 2500.5e3),
        (
            373.1243,
            101_325.0,
            958.365,
            0.597_586,
            (2675.7 - 419.05) * 1e3,
        ),
        (647.096, 22.064e6, 322.0, 322.0, 0.0),
    ] {
        near("p", water::p_sat_liquid(t), p, 1e-5);
        near("rho'", water::rho_liquid(t), liquid, 1e-6);
        near("rho''", water::rho_vapour(t), vapour, 1e-6);
        let ours = water::latent_vaporisation(t);
        assert!(
            (ours - latent).abs() < 300.0,
            "latent heat at {t} K: {ours}"
        );
    }
}

/// IAPWS R14-08(2011), check value: 8.947 35 Pa at 230 K; and the triple point.
#[test]
fn r14_08_check_value() {
    near("p at 230 K", water::p_sat_ice(230.0), 8.947_35, 1e-6);
    near(
        "p at the triple point",
        water::p_sat_ice(273.16),
        611.657,
        1e-9,
    );
}

/// CoolProp 8.0.0, IAPWS-95 over liquid; IAPWS R14-08 over ice.
#[test]
fn saturation_pressure_table_and_its_inverse() {
    for r in Csv::read("water_saturation.csv").rows() {
        let (t, p, over) = (r.get("T_K"), r.get("p_Pa"), r.text("over"));
        near(
            over,
            water::p_sat(t),
            p,
            if over == "ice" { 1e-6 } else { 1e-4 },
        );
        let back = water::boiling_temperature(p);
        assert!(
            (back - t).abs() < 5e-3,
            "boiling temperature at {p} Pa: {back}, table {t}"
        );
    }
}

/// CoolProp 8.0.0, IAPWS-95: densities, heat of vaporisation, heat capacity of the liquid.
#[test]
fn saturated_water_table() {
    for r in Csv::read("water_properties.csv").rows() {
        let [t, p, liquid, vapour, latent, cp] = r.numbers(0)[..] else {
            panic!("six columns")
        };
        near("p", water::p_sat_liquid(t), p, 1e-4);
        near(
            "rho'",
            water::rho_liquid(t),
            liquid,
            if t < 500.0 { 1e-4 } else { 1e-3 },
        );
        near("rho''", water::rho_vapour(t), vapour, 1e-3);
        near(
            "latent heat",
            water::latent_vaporisation(t),
            latent,
            if t < 600.0 { 3e-4 } else { 5e-3 },
        );
        if t <= 373.15 {
            near("cp", water::cp_liquid(t), cp, 5e-4);
        }
    }
}

/// At the triple point subliming is melting and evaporating: IAPWS R10-06 melting heat + IAPWS SR1-86 vaporisation.
#[test]
fn latent_heats_add_up_at_the_triple_point() {
    let sum = water::LATENT_FUSION + water::latent_vaporisation(273.16);
    near("sublimation", water::latent_sublimation(273.16), sum, 1e-3);
}

/// Water boils at 71.72 degC at 20 inHg of vacuum (33.6 kPa absolute): CoolProp 8.0.0, IAPWS-95.
#[test]
fn twenty_inches_of_vacuum_dry_nothing() {
    let t = water::boiling_temperature(101_325.0 - 20.0 * 3386.389);
    assert!((t - 273.15 - 71.72).abs() < 0.02, "{t}");
}

/// The fast curve keeps its stated error, and the inverse closes, from deep vacuum to the critical point.
#[test]
fn fast_curve_and_inverse() {
    let (mut worst, mut worst_cold): (f64, f64) = (0.0, 0.0);
    for i in 0..20_000 {
        let t = 173.16 + 200.0 * f64::from(i) / 20_000.0;
        let exact = if t < 273.16 {
            water::p_sat_ice(t)
        } else {
            water::p_sat_liquid(t)
        };
        let e = (water::p_sat(t) / exact - 1.0).abs();
        if t < 213.15 {
            worst_cold = worst_cold.max(e);
        } else {
            worst = worst.max(e);
        }
    }
    eprintln!(
        "largest relative error of the fast curve: {worst_cold:.1e}, {worst:.1e} above 213 K"
    );
    assert!(
        worst < 1e-6 && worst_cold < 3.1e-6,
        "{worst:e} {worst_cold:e}"
    );
    let mut p = 1e-5;
    while p < 22.06e6 {
        let t = water::boiling_temperature(p);
        let back = if p < water::P_TRIPLE {
            water::p_sat_ice(t)
        } else {
            water::p_sat_liquid(t)
        };
        near("p", back, p, 1e-9);
        p *= 1.07;
    }
    for p in [-1.0, 0.0, 1e9, f64::INFINITY] {
        let t = water::boiling_temperature(p);
        assert!((150.0..=647.096).contains(&t), "{p}: {t}");
    }
}

/// CoolProp 8.0.0 dry air (Lemmon et al. 2000; Lemmon & Jacobsen 2004) against the ideal-gas figures of air.
#[test]
fn dry_air_table() {
    use lowside_fluids::air;
    for r in Csv::read("air_properties.csv").rows() {
        let [t, rho, cp, mu, k] = r.numbers(0)[..] else {
            panic!("five columns")
        };
        near("rho", air::density(t, 101_325.0), rho, 3e-3);
        near("cp", air::CP, cp, if t < 370.0 { 6e-3 } else { 2e-2 });
        near("mu", air::viscosity(t), mu, 1.3e-2);
        near("k", air::conductivity(t), k, 2e-2);
    }
    // U.S. Standard Atmosphere 1976: 89 874.6 Pa at 1 000 m, 79 495.2 Pa at 2 000 m
    near("1 000 m", air::standard_pressure(1_000.0), 89_874.6, 2e-5);
    near("2 000 m", air::standard_pressure(2_000.0), 79_495.2, 2e-5);
}
