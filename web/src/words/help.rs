//! The help: shortcuts, terms, and what a control is for.
use lowside_present::controls::Control;
use lowside_words as say;

use crate::host;

/// Keys and what they do.
pub(crate) fn shortcuts() -> Vec<(&'static str, &'static str)> {
    let mut keys = vec![
        (say::key_space(), say::key_space_does()),
        (say::key_step(), say::key_step_does()),
        (say::key_slower(), say::key_slower_does()),
        (say::key_faster(), say::key_faster_does()),
        (say::key_read(), say::key_read_does()),
        (say::key_help(), say::key_help_does()),
        (say::key_undo(), say::key_undo_does()),
        (say::key_redo(), say::key_redo_does()),
        (say::key_fine(), say::key_fine_does()),
    ];
    if host::projector() {
        keys.push((say::key_pages(), say::key_pages_does()));
    }
    keys
}

/// The keys that a class is led with.
pub(crate) fn class_keys() -> [(&'static str, &'static str); 4] {
    [
        (say::key_space(), say::key_space_does()),
        (say::key_pages(), say::key_pages_does()),
        (say::key_step(), say::key_step_does()),
        (say::key_help(), say::help()),
    ]
}

/// The doors and what is behind each.
pub(crate) fn doors_told() -> Vec<(&'static str, &'static str)> {
    vec![
        (say::door_explore(), say::help_explore()),
        (say::door_service(), say::help_service()),
        (say::door_diagnose(), say::help_diagnose()),
        (say::door_class(), say::help_class()),
    ]
}

/// Terms and what they mean.
pub(crate) fn glossary() -> Vec<(&'static str, &'static str)> {
    vec![
        (say::term_saturation(), say::term_saturation_means()),
        (say::term_superheat(), say::term_superheat_means()),
        (say::term_subcooling(), say::term_subcooling_means()),
        (say::term_static(), say::term_static_means()),
        (say::term_low_side(), say::term_low_side_means()),
        (say::term_high_side(), say::term_high_side_means()),
        (say::term_compressor(), say::term_compressor_means()),
        (say::term_clutch(), say::term_clutch_means()),
        (say::term_condenser(), say::term_condenser_means()),
        (say::term_orifice(), say::term_orifice_means()),
        (say::term_evaporator(), say::term_evaporator_means()),
        (say::term_accumulator(), say::term_accumulator_means()),
        (say::term_low_switch(), say::term_low_switch_means()),
        (say::term_cut_out(), say::term_cut_out_means()),
        (say::term_coupler(), say::term_coupler_means()),
        (say::term_purging(), say::term_purging_means()),
        (say::term_charge(), say::term_charge_means()),
        (say::term_vacuum(), say::term_vacuum_means()),
        (say::term_slugging(), say::term_slugging_means()),
        (say::term_air(), say::term_air_means()),
    ]
}

/// What a control is for, by the id of its element.
pub(crate) fn hint(id: &str) -> Option<&'static str> {
    let of = |control: Control| match control {
        Control::LowCoupler => say::hint_low_coupler(),
        Control::HighCoupler => say::hint_high_coupler(),
        Control::LowValve => say::hint_low_valve(),
        Control::HighValve => say::hint_high_valve(),
        Control::Purge => say::hint_purge(),
        Control::TakeCan => say::hint_take_can(),
        Control::RemoveCan => say::hint_drop_can(),
        Control::Tap => say::hint_tap(),
        Control::Invert => say::hint_invert(),
        Control::Rock => say::hint_rock(),
        Control::Bath => say::hint_bath(),
        Control::Engine => say::hint_engine(),
        Control::Ac => say::hint_ac(),
        Control::Blower => say::hint_blower(),
        Control::Recirculation => say::hint_recirculation(),
        Control::Windows => say::hint_windows(),
        Control::Rpm => say::hint_rpm(),
        Control::RoadSpeed => say::hint_road_speed(),
        Control::Ambient => say::hint_ambient(),
        Control::Humidity => say::hint_humidity(),
    };
    if matches!(id, "sight" | "job-sight") {
        return Some(say::sight_hint());
    }
    CONTROLS
        .into_iter()
        .find(|c| crate::panel::id(*c) == id)
        .map(of)
}

const CONTROLS: [Control; 20] = [
    Control::LowCoupler,
    Control::HighCoupler,
    Control::LowValve,
    Control::HighValve,
    Control::Purge,
    Control::TakeCan,
    Control::RemoveCan,
    Control::Tap,
    Control::Invert,
    Control::Rock,
    Control::Bath,
    Control::Engine,
    Control::Ac,
    Control::Blower,
    Control::Recirculation,
    Control::Windows,
    Control::Rpm,
    Control::RoadSpeed,
    Control::Ambient,
    Control::Humidity,
];
