//! What ends a step that the engine cannot vouch for: a number that is none, or a state its tables do not hold.

use std::borrow::Cow;

use lowside_fluids::NoBlend;
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Why the vehicle stands still. Nothing of it moves any more; its volumes hold what they did before the step that failed.
#[derive(Debug, Clone, PartialEq, Error, Serialize, Deserialize)]
#[error("{place}: {cause}")]
pub struct Halt {
    /// Volume or part where it was found.
    pub place: Cow<'static, str>,
    /// What was wrong there.
    pub cause: Cause,
}

/// What was wrong.
#[derive(Debug, Clone, PartialEq, Error, Serialize, Deserialize)]
pub enum Cause {
    /// Not a number, or infinite.
    #[error("{0} is not a finite number")]
    NotFinite(Cow<'static, str>),
    /// Its energy belongs to no temperature between the limits.
    #[error(
        "its energy asks for a temperature beyond {t:.0} K; the states reach from {least:.0} to {most:.0} K"
    )]
    Temperature {
        /// Temperature at which the search ended, K.
        t: f64,
        /// Coldest that is looked for, K.
        least: f64,
        /// Hottest that is looked for, K.
        most: f64,
    },
    /// It was to start with two gases that cannot be reckoned with together.
    #[error(transparent)]
    NoBlend(#[from] NoBlend),
    /// Beyond the pressure to which the tables of liquid hold.
    #[error("{p:.0} Pa is above {most:.0} Pa, the limit of the tables")]
    Pressure {
        /// Pressure, Pa.
        p: f64,
        /// The limit, Pa.
        most: f64,
    },
}

/// The greater of two numbers, and not a number if either is none: [`f64::max`] takes the other one then, so that a fold by it never
/// hears of it.
pub fn greater(a: f64, b: f64) -> f64 {
    if b > a || b.is_nan() { b } else { a }
}

/// Finds the first of some named numbers that is not finite.
pub(crate) fn first_not_finite(place: &'static str, named: &[(&'static str, f64)]) -> Option<Halt> {
    named
        .iter()
        .find(|(_, x)| !x.is_finite())
        .map(|&(name, _)| Halt {
            place: place.into(),
            cause: Cause::NotFinite(name.into()),
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fold_by_the_greater_hears_of_what_is_no_number() {
        for all in [
            [f64::NAN, 1.0, 2.0],
            [1.0, f64::NAN, 2.0],
            [1.0, 2.0, f64::NAN],
        ] {
            assert!(all.into_iter().fold(0.0, greater).is_nan(), "{all:?}");
        }
        assert!((([1.0, 3.0, 2.0]).into_iter().fold(0.0, greater) - 3.0).abs() < 1e-15);
    }
}
