//! How fast a run went: the one place that looks at the wall's clock.

use lowside_session::Bay;
use std::time::Instant;

/// A started clock.
#[derive(Debug)]
pub(crate) struct Clock(Instant);

impl Clock {
    /// Starts now.
    pub(crate) fn start() -> Self {
        Self(Instant::now())
    }

    /// Bay time in a unit of wall time since the start.
    pub(crate) fn real_time_factor(&self, bay: &Bay) -> f64 {
        bay.seconds() / self.0.elapsed().as_secs_f64().max(1e-9)
    }
}
