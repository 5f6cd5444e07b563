//! Duration.

use crate::factor::YEAR_S;
use crate::quantity::quantity;

quantity! {
    /// Length of time, s.
    Duration, "duration", lowest f64::NEG_INFINITY, bare false {
        from_s, s, "seconds", ["s"], 1.0, 1.0, 0.0;
        from_ms, ms, "milliseconds", ["ms"], 1.0, 1e3, 0.0;
        from_min, min, "minutes", ["min"], 60.0, 1.0, 0.0;
        from_h, h, "hours", ["h"], 3600.0, 1.0, 0.0;
        from_days, days, "days", ["d", "day", "days"], 86400.0, 1.0, 0.0;
        from_yr, yr, "years of 365 days", ["yr"], YEAR_S, 1.0, 0.0;
    }
}
