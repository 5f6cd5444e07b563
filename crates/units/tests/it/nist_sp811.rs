//! Conversion factors against the digits printed in NIST Special Publication 811 (2008), appendix B.8.

use lowside_units::{
    AbsolutePressure, Density, Duration, GaugePressure, Length, Mass, MassFlow, Power, Quantity,
    RotationSpeed, SpecificEnergy, Speed, Temperature, TemperatureDifference, Volume, VolumeFlow,
};

/// One `unit` of `Q`, rounded to seven digits, must be `printed`.
fn one<Q: Quantity>(unit: &str, printed: f64) {
    let si = Q::parse(&format!("1 {unit}")).expect(unit).si();
    assert_eq!(
        format!("{si:.6e}"),
        format!("{printed:.6e}"),
        "1 {unit} = {si}, NIST SP 811 prints {printed}"
    );
}

#[test]
fn factors_agree_with_the_printed_digits() {
    one::<AbsolutePressure>("atm", 1.01325e5);
    one::<AbsolutePressure>("bar", 1.0e5);
    one::<AbsolutePressure>("inHg", 3.386_389e3); // inch of mercury, conventional
    one::<AbsolutePressure>("micron", 1.333_224e-1); // millimetre of mercury, conventional, / 1000
    one::<AbsolutePressure>("torr", 1.333_224e2);
    one::<AbsolutePressure>("psia", 6.894_757e3);
    one::<GaugePressure>("psig", 6.894_757e3);
    one::<GaugePressure>("inHgvac", -3.386_389e3);
    one::<Mass>("lb", 4.535_924e-1);
    one::<Mass>("oz", 2.834_952e-2);
    one::<Volume>("floz", 2.957_353e-5);
    one::<Volume>("gal", 3.785_412e-3);
    one::<Volume>("in3", 1.638_706e-5);
    one::<Volume>("ft3", 2.831_685e-2);
    one::<Density>("lb/ft3", 1.601_846e1);
    one::<SpecificEnergy>("Btu/lb", 2.326e3);
    one::<Length>("in", 2.54e-2);
    one::<Length>("ft", 3.048e-1);
    one::<Speed>("mph", 4.4704e-1);
    one::<Speed>("km/h", 2.777_778e-1);
    one::<Speed>("fpm", 5.08e-3);
    one::<RotationSpeed>("rpm", 1.047_198e-1);
    one::<VolumeFlow>("cfm", 4.719_474e-4);
    one::<MassFlow>("lb/min", 7.559_873e-3);
    one::<Power>("hp", 7.456_999e2); // 550 ft lbf/s
    one::<Power>("Btu/h", 2.930_711e-1); // International Table
    one::<Power>("ton", 3.516_853e3); // 12 000 Btu(IT)/h
    one::<Duration>("yr", 3.1536e7); // 365 days
    one::<Duration>("h", 3.6e3);
    one::<TemperatureDifference>("degF", 5.555_556e-1);
}

/// NIST SP 811, appendix B.8: T/K = (t/degF + 459.67) / 1.8 and T/K = t/degC + 273.15.
#[test]
fn temperature_scales() {
    for t in [-76.0, -40.0, 0.0, 32.0, 95.0, 212.0] {
        let k = Temperature::parse(&format!("{t} degF")).expect("degF").k();
        assert!((k - (t + 459.67) / 1.8).abs() < 1e-12 * k, "{t}");
    }
    assert_eq!(
        Temperature::parse("0 degC"),
        Ok(Temperature::from_k(273.15))
    );
}

/// The trade's own rule: 29.92 inHg of vacuum at sea level is the whole atmosphere; ICAO standard atmosphere 101 325 Pa.
#[test]
fn a_compound_gauge_ends_at_thirty_inches() {
    let full = AbsolutePressure::from_pa(0.0).gauge(AbsolutePressure::STANDARD_ATMOSPHERE);
    assert!(
        (full.in_hg_vacuum() - 29.92).abs() < 0.005,
        "{}",
        full.in_hg_vacuum()
    );
}
