//! Passages of the circuit that are narrowed.

use super::{
    Applies, Cure, Fault, Field, Place,
    Severity::Severe,
    Signs, Table,
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

/// A passage that a new part opens again.
const fn narrowed(id: &'static str, at: Passage, part: Part, severities: [f64; 4]) -> Fault {
    Fault {
        id,
        field: &OPEN,
        place: Place::Passage(at),
        cure: Cure::NewPart(part),
        signs: Signs::UNSAID,
        shown_at: &[],
        resembles: &[],
        severities,
        hours: 2.0,
    }
}

pub(super) const FAULTS: &[Fault] = &[
    Fault {
        resembles: &["condenser-plugged"],
        ..narrowed(
            "discharge-hose-kinked",
            Passage::DischargeLine,
            Part::DischargeHose,
            [0.5, 0.3, 0.15, 0.1],
        )
    },
    Fault {
        signs: Signs::of([Down, Up, Up]),
        shown_at: &[Severe],
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
        resembles: &["orifice-clogged"],
        ..narrowed(
            "liquid-line-crushed",
            Passage::LiquidLine,
            Part::LiquidLine,
            [0.5, 0.3, 0.14, 0.08],
        )
    },
    Fault {
        resembles: &["orifice-clogged", "suction-hose-kinked"],
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
        resembles: &["compressor-worn"],
        ..narrowed(
            "pick-up-clogged",
            Passage::PickUp,
            Part::Accumulator,
            [0.5, 0.3, 0.12, 0.08],
        )
    },
    Fault {
        resembles: &["oil-low"],
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
        resembles: &["compressor-worn"],
        ..narrowed(
            "suction-hose-kinked",
            Passage::SuctionLine,
            Part::SuctionHose,
            [0.5, 0.3, 0.16, 0.1],
        )
    },
];
