//! Reads the reference tables of `tests/data`.

use std::fs;

use lowside_fluids::Refrigerant;

/// How the names of a refrigerant's tables begin.
pub fn stem(gas: Refrigerant) -> String {
    gas.name().replace('-', "").to_lowercase()
}

/// A table of named columns.
#[derive(Debug)]
pub struct Csv {
    head: Vec<String>,
    rows: Vec<Vec<String>>,
}

/// One line of it.
#[derive(Debug)]
pub struct Row<'a>(&'a Csv, &'a [String]);

impl Csv {
    /// Reads a table of `tests/data`; lines that begin with `#` are remarks.
    ///
    /// # Panics
    /// When there is no such table, it has lost its rows, or a row has another number of cells than the head.
    pub fn read(name: &str) -> Self {
        let path = crate::data().join(name);
        let text = fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
        let mut lines = text
            .lines()
            .filter(|l| !l.starts_with('#') && !l.is_empty());
        let split = |l: &str| l.split(',').map(str::to_owned).collect::<Vec<_>>();
        let head = split(lines.next().expect("a header line"));
        let rows: Vec<_> = lines.map(split).collect();
        assert!(rows.len() > 10, "{name} has lost its rows");
        for row in &rows {
            assert_eq!(row.len(), head.len(), "{name}: {row:?}");
        }
        Self { head, rows }
    }

    /// Its lines.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|row| Row(self, row))
    }
}

impl Row<'_> {
    /// A cell as it is written.
    ///
    /// # Panics
    /// When there is no such column.
    pub fn text(&self, column: &str) -> &str {
        let at = self.0.head.iter().position(|h| h == column);
        &self.1[at.unwrap_or_else(|| panic!("no column {column}"))]
    }

    /// A cell's number, or none where the cell is empty.
    ///
    /// # Panics
    /// When there is no such column, or something else stands in it.
    pub fn find(&self, column: &str) -> Option<f64> {
        let text = self.text(column);
        let number = || {
            text.parse()
                .unwrap_or_else(|e| panic!("{column}: {text}: {e}"))
        };
        (!text.is_empty()).then(number)
    }

    /// A cell's number.
    ///
    /// # Panics
    /// When there is no such column, or no number stands in it.
    pub fn get(&self, column: &str) -> f64 {
        self.find(column)
            .unwrap_or_else(|| panic!("{column} is empty"))
    }

    /// The numbers of all cells from a column on, in their order.
    ///
    /// # Panics
    /// When one is no number.
    pub fn numbers(&self, from: usize) -> Vec<f64> {
        self.0.head[from..].iter().map(|c| self.get(c)).collect()
    }
}
