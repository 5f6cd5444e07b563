//! Places that leak, and joints that somebody has made up badly.

use lowside_plant::leak::Site;
use lowside_units::MassFlow;

use super::{Applies, Cure, Fault, Field, Kind, Place, Signs, Sound, Table};
use crate::joints::Joint;

/// So many grams a year, kg/s.
const fn a_year(grams: f64) -> f64 {
    MassFlow::from_g_yr(grams).kg_s()
}

/// A leak tells nothing by the pressures of one day. What it has let out by then is a low charge.
const LEAK: Fault = Fault {
    id: "leak",
    field: &Field {
        table: Table::Leak,
        key: "rate",
        what: "size as vapour lost in a year by a loop standing at saturation at 20 degC; a capillary",
        kind: Kind::Flow,
        sound: Sound::Is(0.0),
        range: |_| (a_year(0.1), a_year(100_000.0)),
        applies: Applies::Places,
    },
    place: Place::Site(Site::ShaftSeal),
    cure: Cure::TightPart,
    signs: Signs::UNSAID,
    shown_at: &[],
    resembles: &["low-charge", "joint-leaks"],
    severities: [a_year(10.0), a_year(40.0), a_year(400.0), a_year(40_000.0)],
    hours: 3.0,
};

pub(super) const FAULTS: &[Fault] = &[
    LEAK,
    Fault {
        id: "holed",
        field: &Field {
            table: Table::Leak,
            key: "hole",
            what: "size as the diameter of a round hole, instead of `rate`",
            kind: Kind::Length,
            sound: Sound::Is(0.0),
            range: |_| (1e-6, 5e-3),
            applies: Applies::Places,
        },
        place: Place::Site(Site::CondenserTop),
        resembles: &["low-charge", "leak"],
        severities: [10e-6, 30e-6, 100e-6, 500e-6],
        ..LEAK
    },
    Fault {
        id: "joint-leaks",
        field: &Field {
            table: Table::Joint,
            key: "seal",
            what: "its O-ring",
            kind: Kind::Seal,
            sound: Sound::Is(0.0),
            range: |_| (0.0, 4.0),
            applies: Applies::Places,
        },
        place: Place::Joint(Joint::CondenserOut),
        cure: Cure::NewSeal,
        resembles: &["low-charge", "leak"],
        severities: [1.0, 2.0, 3.0, 4.0],
        hours: 1.5,
        ..LEAK
    },
];
