//! Times on the command line, in whole ticks.

use crate::failure::Failure;
use lowside_session::Tick;
use lowside_units::{Duration, Quantity};

/// Whole ticks in a time, at most a day's.
pub(crate) fn ticks(t: Duration) -> Tick {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked to lie in 0 to 24 h"
    )]
    let whole = (t.s() * lowside_session::TICKS_PER_SECOND as f64).round() as Tick;
    whole
}

/// The ticks of a time given for an option: a tick to a day.
///
/// # Errors
/// [`Failure::Asked`] naming the option and what is allowed.
pub(crate) fn ticks_of(option: &str, text: &str) -> Result<Tick, Failure> {
    let wrong = |e: lowside_units::UnitError| Failure::Asked(format!("{option}: {e}"));
    let t = Duration::parse(text).map_err(wrong)?;
    if (0.02 - 1e-12..=86_400.0).contains(&t.s()) {
        return Ok(ticks(t));
    }
    Err(Failure::Asked(format!(
        "{option}: {t} is outside 0.02 s to 86400 s"
    )))
}
