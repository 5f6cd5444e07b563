//! What a challenge shows: the figures of what came.

pub use lowside_lessons::challenge::{ALL, Challenge, Guess, Outcome, Watched};
use lowside_units::{
    GaugePressure, Mass,
    display::{self, Shown, Style, UnitSystem},
};

/// Times a minute.
const A_MINUTE: Style = Style::new(0, "/min");

/// A reading of what is watched.
pub fn shown(watched: Watched, value: f64, units: UnitSystem) -> Shown {
    match watched {
        Watched::Low | Watched::High => {
            display::gauge_pressure(GaugePressure::from_pa(value), units)
        }
        Watched::Pulls => A_MINUTE.show(value),
        Watched::Scale => display::mass(Mass::from_kg(value), units),
    }
}
