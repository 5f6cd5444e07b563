//! The units a person chose, kept between visits.
use lowside_units::display::{Family, MassUnit, PressureUnit, TemperatureUnit, UnitSystem};

use crate::store;

/// Names under which units are kept and listed.
pub(crate) const PRESSURES: [(&str, PressureUnit); 3] = [
    ("psi", PressureUnit::Psi),
    ("kpa", PressureUnit::Kpa),
    ("bar", PressureUnit::Bar),
];
pub(crate) const TEMPERATURES: [(&str, TemperatureUnit); 2] = [
    ("f", TemperatureUnit::Fahrenheit),
    ("c", TemperatureUnit::Celsius),
];
pub(crate) const MASSES: [(&str, MassUnit); 2] = [("oz", MassUnit::Ounce), ("g", MassUnit::Gram)];
pub(crate) const FAMILIES: [(&str, Family); 2] = [("us", Family::Us), ("si", Family::Si)];

/// The unit of a name.
pub(crate) fn named<T: Copy>(list: &[(&str, T)], name: &str) -> Option<T> {
    list.iter().find(|(n, _)| *n == name).map(|(_, u)| *u)
}

/// The name of a unit.
pub(crate) fn name_of<T: Copy + PartialEq>(list: &[(&'static str, T)], unit: T) -> &'static str {
    list.iter().find(|(_, u)| *u == unit).map_or("", |(n, _)| n)
}

/// Units chosen last; US customary at first.
pub(crate) fn load() -> UnitSystem {
    store::get(store::UNITS)
        .and_then(|text| read(&text))
        .unwrap_or_default()
}

/// Keeps the choice.
pub(crate) fn save(u: UnitSystem) {
    let _ = store::set(store::UNITS, &write(u));
}

/// As text.
pub(crate) fn write(u: UnitSystem) -> String {
    [
        name_of(&PRESSURES, u.pressure),
        name_of(&TEMPERATURES, u.temperature),
        name_of(&MASSES, u.mass),
        name_of(&FAMILIES, u.rest),
    ]
    .join(" ")
}

/// From text; none if it names no units.
pub(crate) fn read(text: &str) -> Option<UnitSystem> {
    let mut words = text.split(' ');
    Some(UnitSystem {
        pressure: named(&PRESSURES, words.next()?)?,
        temperature: named(&TEMPERATURES, words.next()?)?,
        mass: named(&MASSES, words.next()?)?,
        rest: named(&FAMILIES, words.next()?)?,
    })
}
