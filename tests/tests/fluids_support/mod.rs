//! Reads the reference files.
#![allow(dead_code, reason = "each test file uses a part of it")]
#![allow(
    clippy::print_stdout,
    reason = "the figures reached are wanted in the log"
)]

use lowside_fluids::Gas;
use std::fs;
use std::path::Path;

/// Files of each gas begin with this.
pub(crate) fn stem(gas: Gas) -> String {
    gas.name().replace('-', "").to_lowercase()
}

/// A table of named columns; text that is no number is kept as text.
pub(crate) struct Csv {
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

/// One line of it.
pub(crate) struct Row<'a>(&'a Csv, usize);

impl Csv {
    pub(crate) fn read(name: &str) -> Self {
        let path = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("data")
            .join(name);
        let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let mut lines = text
            .lines()
            .filter(|l| !l.starts_with('#') && !l.is_empty());
        let split = |l: &str| l.split(',').map(str::to_owned).collect::<Vec<_>>();
        let head = split(lines.next().expect("a header line"));
        let rows: Vec<_> = lines.map(split).collect();
        assert!(rows.len() > 20, "{name} has lost its rows");
        Self { head, rows }
    }

    pub(crate) fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        (0..self.rows.len()).map(|i| Row(self, i))
    }
}

impl Row<'_> {
    pub(crate) fn text(&self, column: &str) -> &str {
        let k = self
            .0
            .head
            .iter()
            .position(|h| h == column)
            .unwrap_or_else(|| panic!("no column {column}"));
        &self.0.rows[self.1][k]
    }

    pub(crate) fn get(&self, column: &str) -> f64 {
        self.text(column)
            .parse()
            .unwrap_or_else(|e| panic!("{column}: {e}"))
    }
}

/// The largest deviation seen of each kind, and where.
#[derive(Default)]
pub(crate) struct Worst(Vec<(&'static str, f64, String)>);

impl Worst {
    pub(crate) fn see(&mut self, what: &'static str, deviation: f64, place: impl Fn() -> String) {
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
    pub(crate) fn within(&self, title: &str, limits: &[(&str, f64)]) {
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
