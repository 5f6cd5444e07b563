//! Passages of the circuit that are narrowed, places that leak, joints made up wrong.

use super::{
    Applies, Cure, Fault, Field, Kind, Place,
    Severity::Severe,
    Signs, Sound, Table,
    Way::{Any, Down, Up},
    share,
};
use crate::parts::Part;
use lowside_plant::passage::Passage;

/// The open share of a restricted passage. Shut altogether no loop runs and no law holds.
const OPEN: Field = Field {
    range: |_| (0.01, 1.0),
    ..share(
        Table::Restriction,
        "open",
        "how much of its flow area is open",
        1.0,
        Applies::Passage,
    )
};

const LEAK: Field = Field {
    table: Table::Leak,
    key: "rate",
    what: "size as vapour lost in a year by a loop standing at saturation at 20 degC; a capillary",
    kind: Kind::Listed,
    sound: Sound::Is(0.0),
    range: |_| (0.1 * G_YR, 100_000.0 * G_YR),
    applies: Applies::Places,
};

const JOINT: Field = Field {
    table: Table::Joint,
    key: "seal",
    what: "its O-ring",
    applies: Applies::Places,
    ..LEAK
};

/// A gram a year, kg/s.
const G_YR: f64 = crate::joints::GRAM_A_YEAR;

/// A passage that a new part opens again.
const fn narrowed(id: &'static str, at: Passage, part: Part, severities: [f64; 4]) -> Fault {
    Fault {
        id,
        field: &OPEN,
        place: Place::Passage(at),
        cure: Cure::NewPart(part),
        signs: Signs::UNSAID,
        shown_at: &[],
        look_alikes: &[],
        severities,
        hours: 2.0,
    }
}

pub(super) const FAULTS: &[Fault] = &[
    narrowed(
        "discharge-hose-kinked",
        Passage::DischargeLine,
        Part::DischargeHose,
        [0.5, 0.3, 0.15, 0.1],
    ),
    Fault {
        signs: Signs::of([Down, Up, Up]),
        shown_at: &[Severe],
        look_alikes: &["liquid-line-crushed"],
        hours: 3.0,
        ..narrowed(
            "condenser-plugged",
            Passage::Condenser,
            Part::Condenser,
            [0.7, 0.5, 0.3, 0.15],
        )
    },
    Fault {
        signs: Signs::of([Down, Up, Up]),
        shown_at: &[Severe],
        look_alikes: &["condenser-plugged", "orifice-clogged"],
        ..narrowed(
            "liquid-line-crushed",
            Passage::LiquidLine,
            Part::LiquidLine,
            [0.5, 0.3, 0.14, 0.08],
        )
    },
    Fault {
        hours: 6.0,
        ..narrowed(
            "evaporator-plugged",
            Passage::Evaporator,
            Part::Evaporator,
            [0.7, 0.5, 0.3, 0.15],
        )
    },
    Fault {
        signs: Signs::of([Any, Down, Up]),
        shown_at: &[Severe],
        look_alikes: &["compressor-worn"],
        ..narrowed(
            "pick-up-clogged",
            Passage::PickUp,
            Part::Accumulator,
            [0.5, 0.3, 0.12, 0.08],
        )
    },
    Fault {
        look_alikes: &["oil-low"],
        ..narrowed(
            "accumulator-screen-clogged",
            Passage::OilBleed,
            Part::Accumulator,
            [0.7, 0.4, 0.2, 0.05],
        )
    },
    Fault {
        signs: Signs::of([Any, Down, Up]),
        shown_at: &[Severe],
        look_alikes: &["compressor-worn", "pick-up-clogged"],
        ..narrowed(
            "suction-hose-kinked",
            Passage::SuctionLine,
            Part::SuctionHose,
            [0.5, 0.3, 0.16, 0.1],
        )
    },
    Fault {
        id: "leak",
        field: &LEAK,
        place: Place::AnySite,
        cure: Cure::RenewedThere,
        look_alikes: &["low-charge"],
        severities: [10.0 * G_YR, 40.0 * G_YR, 400.0 * G_YR, 40_000.0 * G_YR],
        ..narrowed("", Passage::DischargeLine, Part::DischargeHose, [0.0; 4])
    },
    Fault {
        id: "joint-leaks",
        field: &JOINT,
        place: Place::AnyJoint,
        cure: Cure::RenewedThere,
        look_alikes: &["leak"],
        // What an old, a dry, an old dry and a missing O-ring let out.
        severities: [40.0 * G_YR, 150.0 * G_YR, 400.0 * G_YR, 40_000.0 * G_YR],
        ..narrowed("", Passage::DischargeLine, Part::DischargeHose, [0.0; 4])
    },
];
