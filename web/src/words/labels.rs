//! Labels that come in twos or more, and numbers as they are spoken.
use lowside_units::display::Shown;
use lowside_words as say;

use crate::{host, store::Kept};

/// States of the switches, off and on.
pub(crate) fn coupler_states() -> [&'static str; 2] {
    [say::coupler_state_off(), say::coupler_state_on()]
}

pub(crate) fn purge_states() -> [&'static str; 2] {
    [say::purge_state_off(), say::purge_state_on()]
}

pub(crate) fn tap_states() -> [&'static str; 2] {
    [say::tap_state_off(), say::tap_state_on()]
}

pub(crate) fn windows_states() -> [&'static str; 2] {
    [say::windows_state_off(), say::windows_state_on()]
}

pub(crate) fn rock_states() -> [&'static str; 2] {
    [say::rock_states_off(), say::rock_states_on()]
}

pub(crate) fn secret_states() -> [&'static str; 2] {
    [say::secret_off(), say::secret_on()]
}

pub(crate) fn names_states() -> [&'static str; 2] {
    [say::compare_names_off(), say::compare_names_on()]
}

/// The severities of a fault by name.
pub(crate) fn severities() -> Vec<String> {
    let names = lowside_present::drill::Severity::ALL.map(|s| say::severity_name(s.name()));
    names.to_vec()
}

pub(crate) fn turn_states() -> [&'static str; 2] {
    [say::turn_state_off(), say::turn_state_on()]
}

pub(crate) fn bath_states() -> [&'static str; 2] {
    [say::bath_state_off(), say::bath_state_on()]
}

pub(crate) fn engine_states() -> [&'static str; 2] {
    [say::engine_state_off(), say::engine_state_on()]
}

pub(crate) fn ac_states() -> [&'static str; 2] {
    [say::ac_state_off(), say::ac_state_on()]
}

pub(crate) fn air_states() -> [&'static str; 2] {
    [say::air_state_off(), say::air_state_on()]
}

/// The clutch: out and in.
pub(crate) fn in_out() -> [&'static str; 2] {
    [say::clutch_out(), say::clutch_in()]
}

/// Marks of the cycling switch: where it opens and where it closes.
pub(crate) fn switch() -> [&'static str; 2] {
    [say::switch_out(), say::switch_in()]
}

/// Key of the drawing: temperature, liquid, vapour, heat.
pub(crate) fn key() -> [&'static str; 4] {
    [
        say::key_temperature(),
        say::key_liquid(),
        say::key_vapour(),
        say::key_heat(),
    ]
}

/// Key of the strip chart: high, low, vent and clutch, cabin.
pub(crate) fn ledger_columns() -> [&'static str; 6] {
    [
        say::column_place(),
        say::column_liquid(),
        say::column_vapour(),
        say::column_oil(),
        say::column_air(),
        say::column_water(),
    ]
}

pub(crate) fn numbers_columns() -> [&'static str; 7] {
    [
        say::column_time(),
        say::column_low(),
        say::column_high(),
        say::column_vent(),
        say::column_cabin(),
        say::column_vacuum(),
        say::column_clutch(),
    ]
}

/// A thing and its state: "Low valve (blue): shut".
pub(crate) fn named(what: &str, state: &str) -> String {
    say::named_state(what, host::lower(state))
}

/// A shown value as it is read aloud: "minus 3.5 degrees Celsius", "2 minutes 5 seconds".
pub(crate) fn spoken(shown: &Shown) -> String {
    let (minus, size) = match shown.number.strip_prefix('\u{2212}') {
        Some(size) => (true, size),
        None => (false, shown.number.as_str()),
    };
    if !size.contains(|c: char| c.is_ascii_digit()) {
        return say::no_reading().to_owned();
    }
    let said = if size.contains(':') {
        clock(size)
    } else {
        amount(size, shown.unit)
    };
    if minus { say::minus(said) } else { said }
}

/// A clock `h:mm:ss` or `m:ss` in words; parts that are zero are left out.
fn clock(text: &str) -> String {
    let mut parts: Vec<u64> = text.split(':').filter_map(|p| p.parse().ok()).collect();
    while parts.len() < 3 {
        parts.insert(0, 0);
    }
    let mut said = Vec::new();
    if parts[0] > 0 {
        said.push(say::hours(parts[0]));
    }
    if parts[1] > 0 {
        said.push(say::whole_minutes(parts[1]));
    }
    if parts[2] > 0 || said.is_empty() {
        said.push(say::whole_seconds(parts[2]));
    }
    said.join(" ")
}

fn amount(n: &str, unit: &str) -> String {
    match unit {
        "psig" => say::unit_psig(n),
        "inHg vac" => say::unit_in_hg_vacuum(n),
        "kPag" => say::unit_kpag(n),
        "barg" => say::unit_bar_g(n),
        "psia" => say::unit_psia(n),
        "kPa" => say::unit_kpa(n),
        "micron" => say::unit_micron(n),
        "Pa" => say::unit_pa(n),
        "\u{b0}F" => say::unit_deg_f(n),
        "\u{b0}C" => say::unit_deg_c(n),
        "K" => say::unit_kelvin(n),
        "oz" => say::unit_oz(n),
        "g" => say::unit_gram(n),
        "mg" => say::unit_milligram(n),
        "mph" => say::unit_mph(n),
        "km/h" => say::unit_km_h(n),
        "rpm" => say::unit_rpm(n),
        "%" => say::unit_percent(n),
        symbol => format!("{n} {symbol}"),
    }
}

/// What to say of how the take is kept; nothing when all is well.
pub(crate) fn stored(kept: Kept) -> Option<&'static str> {
    match kept {
        Kept::Yes => None,
        Kept::Full => Some(say::storage_full()),
        Kept::Denied => Some(say::storage_denied()),
    }
}

/// A unit as the settings list it, by the name it is kept under.
pub(crate) fn unit_name(name: &str) -> &'static str {
    match name {
        "psi" => say::choice_psi(),
        "kpa" => say::choice_kpa(),
        "bar" => say::choice_bar(),
        "f" => say::choice_fahrenheit(),
        "c" => say::choice_celsius(),
        "oz" => say::choice_ounce(),
        "g" => say::choice_gram(),
        "us" => say::choice_us(),
        _ => say::choice_si(),
    }
}
