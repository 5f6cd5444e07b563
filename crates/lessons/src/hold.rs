//! What may be said of a hold under vacuum.

use lowside_shop::hold::Hold;
use serde::{Deserialize, Serialize};

/// Shortest that counts as a test, s: five minutes (workshop manuals).
const SHORTEST: f64 = 300.0;
/// Rise in ten minutes up to which it held, and above which it did not, Pa: 250 and 1000 micron. Between them either may be
/// said (common practice, no source).
const RISE: (f64, f64) = (33.3, 133.3);

/// How a hold came out, as the technician puts it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// None was made, or too short a one.
    NotDone,
    /// It held.
    Held,
    /// It rose.
    Rose,
}

impl Outcome {
    /// May it be said of this hold?
    pub fn fits(self, hold: Option<&Hold>) -> bool {
        let Some(h) = hold.filter(|h| h.seconds >= SHORTEST) else {
            return self == Self::NotDone;
        };
        let rise = (h.to - h.from) * 600.0 / h.seconds;
        match self {
            Self::NotDone => false,
            Self::Held => rise <= RISE.1,
            Self::Rose => rise > RISE.0,
        }
    }
}
