//! The largest deviations found, and whether they stay within their limits.

/// The largest deviation seen of each kind, and where.
#[derive(Debug, Default)]
pub struct Worst(Vec<(&'static str, f64, String)>);

impl Worst {
    /// Takes a deviation; one that is no number counts as infinite.
    pub fn see(&mut self, what: &'static str, deviation: f64, place: impl Fn() -> String) {
        let d = if deviation.is_nan() {
            f64::INFINITY
        } else {
            deviation.abs()
        };
        match self.0.iter_mut().find(|w| w.0 == what) {
            Some(w) if d > w.1 => *w = (what, d, place()),
            Some(_) => {}
            None => self.0.push((what, d, place())),
        }
    }

    /// Prints all and fails where a limit is passed.
    ///
    /// # Panics
    /// When a limit is passed, or names what was never seen.
    #[expect(
        clippy::print_stdout,
        reason = "the figures reached are wanted in the log"
    )]
    pub fn within(&self, title: &str, limits: &[(&str, f64)]) {
        for (what, d, place) in &self.0 {
            println!("{title}: {what} {d:.2e} at {place}");
        }
        for (what, limit) in limits {
            let w = self
                .0
                .iter()
                .find(|w| w.0 == *what)
                .unwrap_or_else(|| panic!("{title}: {what} never seen"));
            assert!(
                w.1 <= *limit,
                "{title}: {what} is off by {:.3e} at {}, limit {limit:.1e}",
                w.1,
                w.2
            );
        }
    }
}
