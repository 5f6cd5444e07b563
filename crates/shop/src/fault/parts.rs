//! Parts that are worn, clogged or put in wrong.

use super::{
    Applies, Cure, Fault, Field, Kind, Place,
    Severity::Severe,
    Signs, Sound, Table,
    Way::{Down, Up},
    share, switch,
};
use crate::parts::Part;
use lowside_plant::plant::Plant;
use lowside_units::Quantity;

pub(super) const fn condition(
    key: &'static str,
    what: &'static str,
    sound: f64,
    apply: fn(&mut Plant) -> &mut f64,
) -> Field {
    share(Table::Condition, key, what, sound, Applies::Plant(apply))
}

/// A fault of a part of the loop that a new one cures.
pub(super) const fn of_part(
    id: &'static str,
    field: &'static Field,
    part: Part,
    severities: [f64; 4],
) -> Fault {
    Fault {
        id,
        field,
        place: Place::Part(part),
        cure: Cure::NewPart(part),
        signs: Signs::UNSAID,
        shown_at: &[],
        resembles: &[],
        severities,
        hours: 2.5,
    }
}

pub(super) const FAULTS: &[Fault] = &[
    Fault {
        signs: Signs::of([Up, Down, Up]),
        shown_at: &[Severe],
        hours: 3.0,
        ..of_part(
            "compressor-worn",
            &condition(
                "compressor_wear",
                "wear of the compressor, 0 is new",
                0.0,
                |p| &mut p.condition.compressor_wear,
            ),
            Part::Compressor,
            [0.15, 0.3, 0.5, 0.8],
        )
    },
    Fault {
        signs: Signs {
            subcooling: Up,
            ..Signs::of([Down, Down, Up])
        },
        shown_at: &[Severe],
        ..of_part(
            "orifice-clogged",
            &condition(
                "orifice_open",
                "share of the orifice that is open",
                1.0,
                |p| &mut p.condition.orifice_open,
            ),
            Part::Orifice,
            [0.8, 0.5, 0.3, 0.1],
        )
    },
    Fault {
        signs: Signs::of([Up, Up, Up]),
        shown_at: &[Severe],
        ..of_part(
            "condenser-air-blocked",
            &condition(
                "condenser_air",
                "share of the air that gets through the condenser",
                1.0,
                |p| &mut p.condition.condenser_air,
            ),
            Part::Condenser,
            [0.8, 0.6, 0.45, 0.2],
        )
    },
    Fault {
        signs: Signs {
            duty: Down,
            ..Signs::of([Down, Down, Down])
        },
        shown_at: &[Severe],
        resembles: &["low-charge"],
        hours: 5.0,
        ..of_part(
            "evaporator-air-blocked",
            &Field {
                range: |_| (0.05, 1.0),
                ..condition(
                    "evaporator_air",
                    "share of the blower's air that gets through the evaporator",
                    1.0,
                    |p| &mut p.condition.evaporator_air,
                )
            },
            Part::Evaporator,
            [0.8, 0.6, 0.45, 0.2],
        )
    },
    Fault {
        signs: Signs::of([Up, Down, Up]),
        shown_at: &[Severe],
        hours: 3.0,
        ..of_part(
            "clutch-slips",
            &condition(
                "clutch_hold",
                "torque that the compressor's clutch holds, of a sound one's; a hot coil holds less, and what slips gets hot",
                1.0,
                |p| &mut p.condition.clutch_hold,
            ),
            Part::Compressor,
            [0.7, 0.5, 0.3, 0.0],
        )
    },
    Fault {
        resembles: &["water"],
        ..of_part(
            "desiccant-wet",
            &share(
                Table::Condition,
                "desiccant_load",
                "water the desiccant holds at the start, of what it can hold (21 % of its mass)",
                0.05,
                Applies::Start(|s, x| s.desiccant_load = x),
            ),
            Part::Accumulator,
            [0.3, 0.6, 0.9, 1.0],
        )
    },
    Fault {
        resembles: &["orifice-clogged"],
        ..of_part(
            "bag-burst",
            &switch(
                "bag_burst",
                "the desiccant's bag has burst: its beads lie loose in the accumulator and end on the orifice tube's screen",
                Applies::PlantSwitch(|p, on| {
                    let beads = p.vehicle.accumulator.desiccant.si();
                    p.debris.loose = if on { beads } else { 0.0 };
                }),
            ),
            Part::Accumulator,
            [1.0; 4],
        )
    },
    Fault {
        cure: Cure::Refit(Part::Orifice),
        resembles: &["orifice-clogged"],
        ..of_part(
            "orifice-reversed",
            &switch(
                "orifice_reversed",
                "the orifice tube was put in the wrong way round: its short outlet screen meets the stream and clogs ten times as soon",
                Applies::PlantSwitch(|p, on| p.seat.turned = on),
            ),
            Part::Orifice,
            [1.0; 4],
        )
    },
    Fault {
        cure: Cure::Refit(Part::Orifice),
        signs: Signs::of([Up, Down, Up]),
        shown_at: &[Severe],
        ..of_part(
            "orifice-rings",
            &switch(
                "orifice_rings_missing",
                "the orifice tube was put in without its O-rings: liquid goes past it",
                Applies::PlantSwitch(|p, on| p.seat.sealed = !on),
            ),
            Part::Orifice,
            [1.0; 4],
        )
    },
    Fault {
        // What it lets off is missing afterwards.
        resembles: &["low-charge", "leak"],
        ..of_part(
            "relief-weak",
            &Field {
                table: Table::Condition,
                key: "relief_opens",
                what: "where the relief valve opens when its spring has gone weak; a new valve opens as the vehicle says",
                kind: Kind::Gauge,
                sound: Sound::Of(|v| v.switches.relief_opens.si(), "the vehicle's"),
                range: |_| (2.0e6, 4.5e6),
                applies: Applies::Plant(|p| &mut p.relief.opens),
            },
            Part::ReliefValve,
            [0.9, 0.8, 0.7, 0.55],
        )
    },
];
