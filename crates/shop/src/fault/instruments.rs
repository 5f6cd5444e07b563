//! The shop's own gauges and couplers, when they are wrong.

use super::{Applies, Cure, Fault, Field, Kind, Place, Signs, Sound, Table, switch};
use crate::{Shop, ports::Side};

const fn offset(key: &'static str, what: &'static str, apply: fn(&mut Shop, f64)) -> Field {
    Field {
        table: Table::Condition,
        key,
        what,
        kind: Kind::Gauge,
        sound: Sound::Is(0.0),
        range: |_| (-100e3, 100e3),
        applies: Applies::Shop(apply),
    }
}

const fn of_tool(
    id: &'static str,
    field: &'static Field,
    side: Side,
    severities: [f64; 4],
) -> Fault {
    Fault {
        id,
        field,
        place: Place::Tool(side),
        cure: Cure::Tool,
        signs: Signs::UNSAID,
        shown_at: &[],
        look_alikes: &[],
        severities,
        hours: 0.1,
    }
}

/// What gauges show too much, Pa.
const OFFSETS: [f64; 4] = [10e3, 25e3, 50e3, 100e3];

pub(super) const FAULTS: &[Fault] = &[
    of_tool(
        "low-gauge-off",
        &offset(
            "low_gauge_offset",
            "what the compound gauge shows too much",
            |s, pa| s.faults.offset[0] = pa,
        ),
        Side::Low,
        OFFSETS,
    ),
    of_tool(
        "high-gauge-off",
        &offset(
            "high_gauge_offset",
            "what the high-pressure gauge shows too much",
            |s, pa| s.faults.offset[1] = pa,
        ),
        Side::High,
        OFFSETS,
    ),
    of_tool(
        "low-core-stuck",
        &switch(
            "low_core_stuck",
            "the low-side coupler's depressor does not reach the core",
            Applies::Shop(|s, x| s.faults.stuck[0] = x > 0.0),
        ),
        Side::Low,
        [1.0; 4],
    ),
    of_tool(
        "high-core-stuck",
        &switch(
            "high_core_stuck",
            "the high-side coupler's depressor does not reach the core",
            Applies::Shop(|s, x| s.faults.stuck[1] = x > 0.0),
        ),
        Side::High,
        [1.0; 4],
    ),
];
