//! Switches, leads, fans, doors and seals: devices outside the loop that are broken, stuck or out of adjustment.

use super::{
    Applies, Cure, Device, Fault, Field, Place,
    Severity::{Extreme, Moderate, Severe},
    Signs,
    Way::{Any, Down, Level, Up},
    parts::{condition, of_part},
    switch,
};
use crate::parts::Part;
use lowside_plant::plant::Plant;

/// A fault of a device outside the loop that is mended where it sits.
const fn of_device(
    id: &'static str,
    field: &'static Field,
    device: Device,
    severities: [f64; 4],
) -> Fault {
    Fault {
        place: Place::Device(device),
        cure: Cure::Mend(device),
        hours: 0.5,
        ..of_part(id, field, Part::Compressor, severities)
    }
}

/// Where the cycling switch opens: its two faults, too early and too late, share it.
const CYCLING_SWITCH: Field = Field {
    range: |_| (0.2, 1.7),
    ..condition(
        "cycling_switch_opens",
        "gauge pressure at which the cycling switch opens, of its set point; it closes where it should",
        1.0,
        |p: &mut Plant| &mut p.condition.cycling_switch_opens,
    )
};

pub(super) const FAULTS: &[Fault] = &[
    Fault {
        resembles: &["evaporator-air-blocked"],
        ..of_device(
            "cycling-switch-stuck",
            &switch(
                "cycling_switch_stuck",
                "the cycling switch's contacts are stuck closed: the coil ices",
                Applies::PlantSwitch(|p, on| p.condition.cycling_switch_stuck = on),
            ),
            Device::CyclingSwitch,
            [1.0; 4],
        )
    },
    Fault {
        signs: Signs {
            cycling: Up,
            ..Signs::of([Up, Any, Up])
        },
        shown_at: &[Severe],
        resembles: &["low-charge"],
        ..of_device(
            "cycling-switch-early",
            &CYCLING_SWITCH,
            Device::CyclingSwitch,
            [1.15, 1.3, 1.45, 1.6],
        )
    },
    Fault {
        resembles: &["cycling-switch-stuck"],
        ..of_device(
            "cycling-switch-late",
            &CYCLING_SWITCH,
            Device::CyclingSwitch,
            [0.85, 0.7, 0.5, 0.3],
        )
    },
    Fault {
        signs: Signs::of([Any, Any, Up]),
        shown_at: &[Extreme],
        resembles: &["clutch-circuit-open"],
        ..of_device(
            "cut-out-early",
            &Field {
                // A vehicle without one has none that is wrong.
                range: |v| (v.switches.high_opens.map_or(1.0, |_| 0.3), 1.0),
                ..condition(
                    "cut_out_opens",
                    "gauge pressures at which the high-pressure cut-out opens and closes, of its set points",
                    1.0,
                    |p| &mut p.condition.cut_out_opens,
                )
            },
            Device::CutOut,
            [0.85, 0.7, 0.6, 0.5],
        )
    },
    Fault {
        // What it lets happen is the relief valve's work.
        resembles: &["relief-weak"],
        ..of_device(
            "cut-out-welded",
            &Field {
                range: |v| (0.0, f64::from(u8::from(v.switches.high_opens.is_some()))),
                ..switch(
                    "cut_out_welded",
                    "the high-pressure cut-out's contacts are welded: nothing but the relief valve stands between a blocked condenser and the room",
                    Applies::PlantSwitch(|p, on| p.condition.cut_out_welded = on),
                )
            },
            Device::CutOut,
            [1.0; 4],
        )
    },
    Fault {
        signs: Signs::of([Up, Down, Up]),
        shown_at: &[Severe],
        resembles: &["low-charge"],
        ..of_device(
            "clutch-circuit-open",
            &switch(
                "clutch_circuit_open",
                "the clutch's circuit is broken: a fuse, the relay, a lead",
                Applies::PlantSwitch(|p, on| p.condition.clutch_circuit_open = on),
            ),
            Device::ClutchCircuit,
            [1.0; 4],
        )
    },
    Fault {
        signs: Signs::of([Up, Up, Up]),
        shown_at: &[Severe],
        hours: 1.0,
        ..of_device(
            "fan-weak",
            &condition(
                "condenser_fan",
                "share of its air that the condenser's fan moves; on the road the wind does it",
                1.0,
                |p| &mut p.condition.condenser_fan,
            ),
            Device::Fan,
            [0.7, 0.5, 0.3, 0.0],
        )
    },
    Fault {
        signs: Signs::of([Up, Up, Up]),
        shown_at: &[Severe],
        hours: 1.0,
        ..of_device(
            "hood-seals-missing",
            &Field {
                range: |_| (0.0, 0.6),
                ..condition(
                    "hood_round",
                    "share of the fan's air that comes round from under the hood where seals and panels are missing",
                    0.0,
                    |p| &mut p.condition.hood_round,
                )
            },
            Device::HoodSeals,
            [0.15, 0.3, 0.45, 0.6],
        )
    },
    Fault {
        signs: Signs::of([Up, Up, Up]),
        shown_at: &[Severe],
        hours: 1.0,
        ..of_device(
            "recirculation-stuck",
            &switch(
                "recirculation_stuck",
                "the recirculation door stands open to the outside whatever its control says",
                Applies::PlantSwitch(|p, on| p.condition.recirculation_stuck = on),
            ),
            Device::RecirculationDoor,
            [1.0; 4],
        )
    },
    Fault {
        signs: Signs::of([Level, Level, Up]),
        shown_at: &[Moderate],
        hours: 4.0,
        ..of_device(
            "blend-door-leaks",
            &condition(
                "blend_leak",
                "share of the coil's air that the blend door lets through the heater core though it stands on cold",
                0.0,
                |p| &mut p.condition.blend_leak,
            ),
            Device::BlendDoor,
            [0.05, 0.1, 0.3, 0.6],
        )
    },
    Fault {
        signs: Signs::of([Up, Up, Up]),
        shown_at: &[Extreme],
        hours: 1.5,
        ..of_device(
            "radiator-blocked",
            &condition(
                "radiator",
                "heat passage of the radiator, of a sound one's; with too little the engine overheats",
                1.0,
                |p| &mut p.condition.radiator,
            ),
            Device::Radiator,
            [0.5, 0.3, 0.15, 0.05],
        )
    },
];
