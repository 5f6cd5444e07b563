//! The shop's own gauges and couplers, when they are wrong.

use super::{Applies, Cure, Device, Fault, Field, Kind, Place, Signs, Sound, Table, switch};
use crate::Shop;

const fn offset(key: &'static str, what: &'static str, apply: fn(&mut Shop) -> &mut f64) -> Field {
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

/// A tool that is wrong says nothing of the loop: its gauge alone differs, and stands wrong on an open hose too.
const fn of_tool(
    id: &'static str,
    field: &'static Field,
    device: Device,
    severities: [f64; 4],
) -> Fault {
    Fault {
        id,
        field,
        place: Place::Device(device),
        cure: Cure::Mend(device),
        signs: Signs::UNSAID,
        shown_at: &[],
        resembles: &[],
        severities,
        hours: 0.1,
    }
}

/// What gauges show too much, Pa.
const OFFSETS: [f64; 4] = [10e3, 25e3, 50e3, 100e3];

pub(super) const FAULTS: &[Fault] = &[
    Fault {
        resembles: &["low-core-stuck", "over-charge"],
        ..of_tool(
            "low-gauge-off",
            &offset(
                "low_gauge_offset",
                "what the compound gauge shows too much",
                |s| &mut s.faults.offset[0],
            ),
            Device::CompoundGauge,
            OFFSETS,
        )
    },
    Fault {
        resembles: &["high-core-stuck", "over-charge"],
        ..of_tool(
            "high-gauge-off",
            &offset(
                "high_gauge_offset",
                "what the high-pressure gauge shows too much",
                |s| &mut s.faults.offset[1],
            ),
            Device::HighGauge,
            OFFSETS,
        )
    },
    Fault {
        resembles: &["low-charge"],
        ..of_tool(
            "low-core-stuck",
            &switch(
                "low_core_stuck",
                "the low-side coupler's depressor does not reach the core",
                Applies::ShopSwitch(|s, on| s.faults.stuck[0] = on),
            ),
            Device::LowCoupler,
            [1.0; 4],
        )
    },
    Fault {
        resembles: &["low-charge"],
        ..of_tool(
            "high-core-stuck",
            &switch(
                "high_core_stuck",
                "the high-side coupler's depressor does not reach the core",
                Applies::ShopSwitch(|s, on| s.faults.stuck[1] = on),
            ),
            Device::HighCoupler,
            [1.0; 4],
        )
    },
];
