//! Text in and out: round trips, and texts nobody should be able to break the reader with.

use lowside_units::{
    AbsolutePressure, Density, Duration, GaugePressure, Length, Mass, MassFlow, Power, Pressure,
    Quantity, Ratio, RotationSpeed, SpecificEnergy, SpecificEntropy, Speed, Temperature,
    TemperatureDifference, Volume, VolumeFlow,
};
use proptest::prelude::*;

#[derive(Debug, PartialEq, serde::Serialize, serde::Deserialize)]
struct Job {
    charge: Mass,
    open: GaugePressure,
    hold: Duration,
    door: Ratio,
}

#[test]
fn toml_carries_units() {
    let job: Job =
        toml::from_str("charge = \"36 oz\"\nopen = \"22 psig\"\nhold = \"10 min\"\ndoor = 0.25\n")
            .unwrap();
    assert_eq!(job.charge, Mass::from_oz(36.0));
    assert_eq!(job.open, GaugePressure::from_psi(22.0));
    assert_eq!(job.hold, Duration::from_s(600.0));
    assert_eq!(job.door, Ratio::from_percent(25.0));
    let text = toml::to_string(&job).unwrap();
    assert_eq!(toml::from_str::<Job>(&text).unwrap(), job, "{text}");
}

#[test]
fn toml_errors_say_what_is_missing() {
    let e =
        toml::from_str::<Job>("charge = 36\nopen = \"22 psig\"\nhold = \"10 min\"\ndoor = 0.25\n")
            .unwrap_err();
    assert!(
        e.to_string()
            .contains("\"36\" has no unit: a mass needs one of kg"),
        "{e}"
    );
    let e = toml::from_str::<Job>("charge = true\nopen = \"1 psig\"\nhold = \"1 s\"\ndoor = 1\n")
        .unwrap_err();
    assert!(
        e.to_string()
            .contains("a mass as text with one of the units kg"),
        "{e}"
    );
}

/// Every unit name of every quantity is read, and means the unit that lists it.
fn names_are_read<Q: Quantity + std::fmt::Debug>() {
    for unit in Q::UNITS {
        for name in unit.names.iter().filter(|n| !n.is_empty()) {
            let number = 300.0;
            let q = Q::parse(&format!("{number} {name}")).expect(name);
            assert_eq!(q.si().to_bits(), unit.to_si(number).to_bits(), "{name}");
            assert!((unit.of_si(q.si()) - number).abs() < 1e-10, "{name}");
            assert_eq!(Q::parse(&q.to_string()), Ok(q), "{name}");
        }
    }
}

#[test]
fn every_unit_name_is_read() {
    names_are_read::<AbsolutePressure>();
    names_are_read::<GaugePressure>();
    names_are_read::<Temperature>();
    names_are_read::<TemperatureDifference>();
    names_are_read::<Mass>();
    names_are_read::<Volume>();
    names_are_read::<Density>();
    names_are_read::<SpecificEnergy>();
    names_are_read::<SpecificEntropy>();
    names_are_read::<Length>();
    names_are_read::<Speed>();
    names_are_read::<RotationSpeed>();
    names_are_read::<Duration>();
    names_are_read::<Power>();
    names_are_read::<VolumeFlow>();
    names_are_read::<MassFlow>();
    names_are_read::<Ratio>();
}

proptest! {
    #[test]
    fn printed_quantities_read_back_to_the_same_bits(bits in any::<u64>()) {
        let si = f64::from_bits(bits);
        prop_assume!(si.is_finite());
        let si = si + 0.0;
        let m = Mass::from_kg(si);
        prop_assert_eq!(Mass::parse(&m.to_string()).unwrap().si().to_bits(), si.to_bits());
        let json = serde_json::to_string(&m).unwrap();
        prop_assert_eq!(serde_json::from_str::<Mass>(&json).unwrap().si().to_bits(), si.to_bits());
    }

    #[test]
    fn no_text_panics(text in "\\PC*") {
        if let Ok(m) = Mass::parse(&text) {
            prop_assert!(m.si().is_finite());
        }
        if let Ok(Pressure::Absolute(p)) = Pressure::parse_or_si(&text) {
            prop_assert!(p.pa() >= 0.0);
        }
    }

    #[test]
    fn no_near_number_panics(text in "[-+\u{2212}0-9.eE ]{0,12}(kg|oz|g|%|\u{b0}C|inHg vac)?") {
        for e in [Mass::parse(&text).err(), Temperature::parse(&text).err(), Ratio::parse(&text).err()].into_iter().flatten() {
            prop_assert!(!e.to_string().is_empty());
        }
    }
}
