//! First-order lags: of gauges, thermometers and switches.

/// Returns where a value that follows a truth with a time constant `lag` (s) stands after `dt` seconds in which the truth went from `was` to
/// `now` in a straight line. Exact, so that one long step ends where short ones do.
pub fn follow(value: f64, was: f64, now: f64, lag: f64, dt: f64) -> f64 {
    if lag <= 0.0 {
        return now;
    }
    let behind = (now - was) / dt * lag;
    now - behind + (value - was + behind) * libm::exp(-dt / lag)
}

#[cfg(test)]
mod tests {
    use super::follow;

    #[test]
    fn a_long_step_ends_where_short_ones_do() {
        let (mut short, lag) = (3.0, 0.4);
        for k in 0..8 {
            let at = |k: i32| 10.0 + 5.0 * f64::from(k) / 8.0;
            short = follow(short, at(k), at(k + 1), lag, 0.02);
        }
        let long = follow(3.0, 10.0, 15.0, lag, 0.16);
        assert!((short - long).abs() < 1e-12, "{short} {long}");
    }

    /// A step of the truth: 63.2 % of it after one time constant (IEC 60751 takes its time constants so).
    #[test]
    fn after_a_time_constant_two_thirds_of_a_step_are_made() {
        let value = follow(0.0, 1.0, 1.0, 0.4, 0.4);
        assert!((value - 0.632_12).abs() < 1e-5, "{value}");
        assert!(
            (follow(7.0, 7.0, 7.0, 0.4, 0.02) - 7.0).abs() < 1e-12,
            "at rest"
        );
        assert!(
            (follow(0.0, 1.0, 2.0, 0.0, 0.02) - 2.0).abs() < 1e-12,
            "at once"
        );
    }
}
