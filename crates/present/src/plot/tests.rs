//! Charts against published properties.

use super::*;
use crate::readout::tests::bay;

fn run(seconds: u32) -> Bay {
    let mut bay = bay("healthy");
    for _ in 0..50 * seconds {
        bay.step().expect("the engine goes on");
    }
    bay
}

#[test]
fn every_chart_has_lines_inside_its_axes_in_both_systems() {
    let bay = run(120);
    for plot in Plot::ALL {
        for units in [UnitSystem::US, UnitSystem::SI, UnitSystem::MIXED] {
            let (f, l) = (plot.frame(&bay, units), plot.live(&bay, units));
            assert!(f.x.range[0] < f.x.range[1] && f.y.range[0] < f.y.range[1]);
            assert!(!f.lines.is_empty() && !l.dots.is_empty(), "{plot:?}");
            for a in [&f.x, &f.y] {
                assert!(a.ticks.len() >= 4, "{plot:?} {a:?}");
                assert!(!a.log || a.range[0] > 0.0);
            }
            let all = f.lines.iter().chain(&l.paths).flat_map(|l| &l.points);
            for (x, y) in all.chain(l.dots.iter().map(|d| &d.at)) {
                assert!(x.is_finite() && y.is_finite(), "{plot:?}");
            }
            for d in &l.dots {
                let inside = |v: f64, r: [f64; 2]| v >= r[0] && v <= r[1];
                assert!(
                    inside(d.at.0, f.x.range) && inside(d.at.1, f.y.range),
                    "{plot:?} {d:?}"
                );
            }
        }
    }
}

#[test]
fn the_chart_of_air_holds_the_hottest_and_wettest_day() {
    use lowside_session::{Scenario, library};
    let text = library::scenario("healthy").expect("shipped");
    let hot = [
        "day.ambient=48 degC".to_owned(),
        "day.humidity=95 %".to_owned(),
    ];
    let bay = Bay::new(&Scenario::parse(text, &hot).expect("sound"));
    let usual = Plot::MoistAir.key(&run(1), UnitSystem::US);
    assert_ne!(
        Plot::MoistAir.key(&bay, UnitSystem::US),
        usual,
        "drawn anew"
    );
    let (f, l) = (
        Plot::MoistAir.frame(&bay, UnitSystem::US),
        Plot::MoistAir.live(&bay, UnitSystem::US),
    );
    for d in &l.dots {
        assert!(d.at.0 < f.x.range[1] && d.at.1 < f.y.range[1], "{d:?}");
    }
}

#[test]
fn the_dome_and_isotherms_agree_with_published_values() {
    // R-134a at 0 degC, IIR reference: 292.8 kPa, liquid 200.0, vapour 398.6 kJ/kg (Tillner-Roth & Baehr 1994; ASHRAE
    // Fundamentals 2017 ch. 30). At 40 degC: 1016.6 kPa, 256.4 and 419.4 kJ/kg.
    let bay = run(1);
    let f = Plot::PressureEnthalpy.frame(&bay, UnitSystem::SI);
    let dome = f
        .lines
        .iter()
        .find(|l| l.name == Name::Saturation)
        .expect("dome");
    for (p, liquid, vapour) in [(292.8, 200.0, 398.6), (1016.6, 256.4, 419.4)] {
        let cross: Vec<f64> = dome
            .points
            .windows(2)
            .filter(|w| (w[0].1 - p) * (w[1].1 - p) <= 0.0)
            .map(|w| w[0].0 + (p - w[0].1) / (w[1].1 - w[0].1) * (w[1].0 - w[0].0))
            .collect();
        assert_eq!(cross.len(), 2);
        assert!(
            (cross[0] - liquid).abs() < 1.0 && (cross[1] - vapour).abs() < 1.0,
            "{cross:?}"
        );
    }
    let forty = f
        .lines
        .iter()
        .find(|l| l.name == Name::Isotherm && l.label.as_deref() == Some("40\u{b0}"))
        .expect("40 degC");
    let flat: Vec<_> = forty
        .points
        .iter()
        .filter(|(_, p)| (p - 1016.6).abs() < 2.0)
        .collect();
    let (a, b) = (
        flat.iter().map(|p| p.0).fold(f64::MAX, f64::min),
        flat.iter().map(|p| p.0).fold(f64::MIN, f64::max),
    );
    assert!(
        (a - 256.4).abs() < 1.5 && (b - 419.4).abs() < 1.5,
        "the isotherm crosses the dome: {a} {b}"
    );
}

#[test]
fn the_live_cycle_has_superheat_subcooling_and_a_throttle_that_keeps_enthalpy() {
    let bay = run(300);
    let l = Plot::PressureEnthalpy.live(&bay, UnitSystem::SI);
    assert_eq!(l.paths.len(), 1);
    let at = |name| l.dots.iter().find(|d| d.name == name).expect("there").at;
    assert!((at(Name::BeforeOrifice).0 - at(Name::BehindOrifice).0).abs() < 1e-9);
    assert!(at(Name::Discharge).1 > 3.0 * at(Name::Suction).1);
    assert!(l.span(Name::Subcooling).is_some(), "a full loop subcools");
}

#[test]
fn at_rest_both_sides_stand_on_the_static_point() {
    use lowside_session::{Scenario, library};
    let text = library::scenario("healthy").expect("shipped");
    let off = ["engine.on=false".to_owned(), "controls.ac=false".to_owned()];
    let bay = Bay::new(&Scenario::parse(text, &off).expect("sound"));
    let l = Plot::PressureTemperature.live(&bay, UnitSystem::US);
    let at = |name| l.dots.iter().find(|d| d.name == name).expect("there").at;
    // R-134a at 95 degF: 114 psig (pressure-temperature charts of the trade; 887 kPa by Tillner-Roth & Baehr 1994).
    assert!(
        (at(Name::Static).1 - 114.0).abs() < 1.5,
        "{:?}",
        at(Name::Static)
    );
    for side in [Name::LowSide, Name::HighSide] {
        assert!((at(side).1 - at(Name::Static).1).abs() < 1.5);
    }
    assert!(l.spans.is_empty());
}

#[test]
fn the_air_mixes_on_a_line_and_the_coil_dries_it() {
    let bay = run(240);
    let l = Plot::MoistAir.live(&bay, UnitSystem::SI);
    let at = |name| l.dots.iter().find(|d| d.name == name).expect("there").at;
    let (coil, vent, mixed) = (at(Name::CoilOut), at(Name::Vent), at(Name::Mixed));
    assert!(coil.0 < vent.0 && (coil.1 - vent.1).abs() < 1e-9);
    assert!(coil.1 < mixed.1 && coil.0 < mixed.0);
    // Saturation at 20 degC, 101.325 kPa: 14.76 g/kg (ASHRAE Fundamentals 2017 ch. 1, table 2).
    let f = Plot::MoistAir.frame(&bay, UnitSystem::SI);
    let sat = f
        .lines
        .iter()
        .find(|l| l.name == Name::Saturation)
        .expect("there");
    let w = sat
        .points
        .windows(2)
        .find(|w| w[0].0 <= 20.0 && w[1].0 >= 20.0)
        .map(|w| w[0].1 + (20.0 - w[0].0) / (w[1].0 - w[0].0) * (w[1].1 - w[0].1))
        .expect("20 degC is on it");
    assert!((w - 14.76).abs() < 0.08, "{w}");
}

#[test]
fn water_boils_at_212_at_the_atmosphere_and_cold_in_a_vacuum() {
    let f = Plot::WaterBoils.frame(&bay("healthy"), UnitSystem::US);
    let boils = |micron: f64| {
        let line = &f.lines[0].points;
        let w = line
            .windows(2)
            .find(|w| w[0].0 <= micron && w[1].0 >= micron)
            .expect("on it");
        w[0].1 + (micron - w[0].0) / (w[1].0 - w[0].0) * (w[1].1 - w[0].1)
    };
    // 760 000 micron: 212 degF; 25 400 micron (1 inHg): 79.0 degF (IAPWS steam tables).
    assert!((boils(760e3) - 212.0).abs() < 0.5, "{}", boils(760e3));
    assert!((boils(25.4e3) - 79.0).abs() < 0.6, "{}", boils(25.4e3));
}

#[test]
fn the_file_holds_every_point_with_names_and_units() {
    let bay = run(60);
    let (f, l) = (
        Plot::PressureEnthalpy.frame(&bay, UnitSystem::US),
        Plot::PressureEnthalpy.live(&bay, UnitSystem::US),
    );
    let text = csv(&f, &l, &|n| format!("{n:?}"));
    let points: usize = f
        .lines
        .iter()
        .chain(&l.paths)
        .map(|l| l.points.len())
        .sum::<usize>()
        + l.dots.len();
    assert_eq!(text.lines().count(), points + 1);
    assert!(text.starts_with("line,figure,\"Enthalpy (Btu/lb)\",\"AbsolutePressure (psia)\"\n"));
}
