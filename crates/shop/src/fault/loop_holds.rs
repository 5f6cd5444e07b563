//! What is in the loop at the start: too little, too much, or what does not belong there.

use super::{
    Applies, Cure, Fault, Field, Kind, Place,
    Severity::{Extreme, Moderate, Severe},
    Signs, Sound, Table,
    Way::{Any, Down, Up},
    share,
};
use lowside_fluids::Blend;
use lowside_units::Quantity;

/// Most of the refrigerant that may be the other one at the start, share of the mass: past half by moles either way.
const MOST_OTHER: f64 = 0.6;

const CHARGE: Field = Field {
    table: Table::Start,
    key: "charge",
    what: "refrigerant in the loop; at most 850 g for each litre of the loop, here the utility van's",
    kind: Kind::Mass,
    sound: Sound::Of(|v| v.label_charge.si(), "the label's"),
    range: |v| (0.0, v.most_charge().si()),
    applies: Applies::Start(|s, kg| s.charge = kg),
};

const OTHER: Field = Field {
    // Only R-12 and R-134a mix here.
    range: |v| {
        (
            0.0,
            Blend::partner(v.refrigerant).map_or(0.0, |_| MOST_OTHER),
        )
    },
    ..share(
        Table::Start,
        "other_refrigerant",
        "R-12 among the R-134a of a loop made for R-134a, R-134a in a loop made for R-12: its share of the refrigerant's mass; \
         nothing mixes with R-1234yf",
        0.0,
        Applies::Start(|s, share| s.other = share),
    )
};

const OIL: Field = Field {
    table: Table::Start,
    key: "oil",
    what: "oil in the loop",
    kind: Kind::Mass,
    sound: Sound::Of(|v| v.oil.si(), "the vehicle's"),
    range: |_| (0.0, 0.8),
    applies: Applies::Start(|s, kg| s.oil = kg),
};

/// Nothing is said of it, and nothing is put right but by a new charge.
const PLAIN: Fault = Fault {
    id: "",
    field: &CHARGE,
    place: Place::Loop,
    cure: Cure::Charge,
    signs: Signs::UNSAID,
    shown_at: &[],
    resembles: &[],
    severities: [0.0; 4],
    hours: 1.2,
};

pub(super) const FAULTS: &[Fault] = &[
    Fault {
        id: "low-charge",
        signs: Signs {
            cycling: Up,
            ..Signs::of([Down, Down, Up])
        },
        shown_at: &[Moderate, Severe],
        resembles: &["liquid-line-crushed"],
        severities: [0.85, 0.7, 0.4, 0.15],
        ..PLAIN
    },
    Fault {
        id: "over-charge",
        signs: Signs {
            subcooling: Up,
            ..Signs::of([Up, Up, Up])
        },
        shown_at: &[Severe],
        severities: [1.15, 1.3, 1.5, 2.0],
        ..PLAIN
    },
    Fault {
        id: "blend",
        field: &OTHER,
        signs: Signs::of([Up, Up, Up]),
        shown_at: &[Severe],
        severities: [0.03, 0.1, 0.2, 0.3],
        ..PLAIN
    },
    Fault {
        id: "wrong-gas",
        field: &OTHER,
        signs: Signs::of([Any, Up, Any]),
        shown_at: &[Severe],
        resembles: &["air", "over-charge", "blend"],
        severities: [0.4, 0.5, 0.55, 0.6],
        ..PLAIN
    },
    Fault {
        id: "air",
        field: &Field {
            table: Table::Start,
            key: "air",
            what: "air left in the loop",
            kind: Kind::Mass,
            sound: Sound::Is(0.0),
            range: |_| (0.0, 0.02),
            applies: Applies::Start(|s, kg| s.air = kg),
        },
        signs: Signs::of([Up, Up, Up]),
        shown_at: &[Severe],
        severities: [0.0005, 0.001, 0.002, 0.0036],
        ..PLAIN
    },
    Fault {
        id: "water",
        field: &Field {
            table: Table::Start,
            key: "water",
            what: "water in the loop, outside the desiccant",
            kind: Kind::Mass,
            sound: Sound::Is(0.0),
            range: |_| (0.0, 0.05),
            applies: Applies::Start(|s, kg| s.water = kg),
        },
        resembles: &["orifice-clogged"],
        severities: [0.0005, 0.002, 0.005, 0.02],
        hours: 2.0,
        ..PLAIN
    },
    Fault {
        id: "oil-low",
        field: &OIL,
        cure: Cure::OilBalance,
        resembles: &["compressor-worn"],
        severities: [0.8, 0.6, 0.4, 0.2],
        hours: 1.5,
        ..PLAIN
    },
    Fault {
        id: "oil-high",
        field: &OIL,
        cure: Cure::OilBalance,
        signs: Signs::of([Up, Up, Up]),
        shown_at: &[Extreme],
        severities: [1.3, 1.6, 2.0, 2.5],
        hours: 2.5,
        ..PLAIN
    },
];
