//! Moist air against PsychroLib 2.5.0 (ASHRAE Handbook Fundamentals 2017, ch. 1) and published table values.

use lowside_fluids::{moist_air, water};
use lowside_tests::csv::Csv;

fn near(what: &str, ours: f64, theirs: f64, tolerance: f64) {
    assert!(
        (ours - theirs).abs() <= tolerance,
        "{what}: {ours} against {theirs}, more than {tolerance} apart"
    );
}

/// PsychroLib 2.5.0. It iterates dew point and wet bulb to 1e-3 K, hence the tolerance there; its table has nine digits.
#[test]
fn psychrolib_table() {
    let table = Csv::read("moist_air.csv");
    assert_eq!(table.rows().count(), 100);
    for r in table.rows() {
        let [t_c, rh, p, w, dew, wet, h, v] = r.numbers(0)[..] else {
            panic!("eight columns")
        };
        let (t, at) = (t_c + 273.15, format!("{t_c} degC, rh {rh}, {p} Pa"));
        near(
            &format!("w at {at}"),
            moist_air::humidity_ratio(t, rh, p),
            w,
            2e-8 * w,
        );
        near(
            &format!("rh at {at}"),
            moist_air::relative_humidity(t, w, p),
            rh,
            2e-8,
        );
        near(
            &format!("h at {at}"),
            moist_air::enthalpy(t, w),
            h,
            1e-8 * h.abs() + 1e-4,
        );
        near(
            &format!("T from h at {at}"),
            moist_air::temperature(h, w),
            t,
            1e-6,
        );
        near(
            &format!("v at {at}"),
            moist_air::volume(t, w, p),
            v,
            1e-6 * v,
        );
        near(
            &format!("dew point at {at}"),
            moist_air::dew_point(w, p) - 273.15,
            dew,
            2e-3,
        );
        near(
            &format!("wet bulb at {at}"),
            moist_air::wet_bulb(t, w, p) - 273.15,
            wet,
            2e-3,
        );
    }
}

/// ASHRAE Handbook Fundamentals, ch. 1, table 3: saturation pressure of water, kPa (from memory, 4 or 5 digits).
#[test]
fn ashrae_saturation_pressure() {
    for (t_c, p) in [
        (-40.0, 12.85),
        (-20.0, 103.26),
        (0.0, 611.2),
        (20.0, 2338.9),
        (40.0, 7383.8),
        (60.0, 19944.0),
    ] {
        near("p_ws", moist_air::p_ws(t_c + 273.15), p, 5e-4 * p);
    }
}

/// The fast curve of the coil against the equation, between and at its joints, over ice and liquid.
#[test]
fn fast_saturation_keeps_its_stated_error() {
    let (mut worst, mut worst_cold): (f64, f64) = (0.0, 0.0);
    for i in 0..=20_000 {
        let t = 173.16 + 200.0 * f64::from(i) / 20_001.0;
        let exact = moist_air::humidity_ratio(t, 1.0, 4e5);
        let e = (moist_air::w_sat(t, 4e5) / exact - 1.0).abs();
        if t < 213.15 {
            worst_cold = worst_cold.max(e);
        } else {
            worst = worst.max(e);
        }
    }
    eprintln!("largest relative error of w_sat: {worst_cold:.1e}, {worst:.1e} above -60 degC");
    assert!(
        worst < 1e-6 && worst_cold < 3.1e-6,
        "{worst:e} {worst_cold:e}"
    );
}

/// The two sets of saturation equations this program holds (ASHRAE ch. 1 and IAPWS) describe the same water.
#[test]
fn hyland_wexler_and_iapws_agree() {
    for i in 0..=90 {
        let t = 233.15 + f64::from(i) * 1.5;
        let ratio = moist_air::p_ws(t) / water::p_sat(t);
        assert!((ratio - 1.0).abs() < 5e-4, "{t} K: {ratio}");
    }
}

/// Inverses, and what comes at the ends: dry air, supersaturated air, boiling, nonsense. Nothing may panic or leave bounds.
#[test]
fn ends_of_the_range() {
    let p = 101_325.0;
    for t_c in [-20.0, 0.005, 10.0, 35.0, 55.0] {
        let t = t_c + 273.15;
        for rh in [0.02, 0.4, 1.0] {
            let w = moist_air::humidity_ratio(t, rh, p);
            let dew = moist_air::dew_point(w, p);
            near(
                "rh at the dew point",
                moist_air::relative_humidity(dew, w, p),
                1.0,
                1e-9,
            );
            let wet = moist_air::wet_bulb(t, w, p);
            assert!(
                dew <= wet + 1e-5 && wet <= t,
                "{t_c} {rh}: dew {dew}, wet {wet}"
            );
            if (wet - 273.15).abs() > 1e-3 {
                near(
                    "w from the wet bulb",
                    moist_air::w_of_wet_bulb(t, wet, p),
                    w,
                    1e-7,
                );
            }
        }
    }
    near("driest air", moist_air::dew_point(0.0, p), 173.15, 1e-9);
    near("fog", moist_air::wet_bulb(280.0, 0.1, p), 280.0, 1e-9);
    for t in [-1e9, 0.0, 100.0, 373.15, 400.0, 1e9, f64::INFINITY] {
        let w = moist_air::w_sat(t, p);
        assert!((0.0..62.0).contains(&w), "{t}: {w}");
    }
    assert!(moist_air::w_sat(f64::NAN, p).is_nan());
}
