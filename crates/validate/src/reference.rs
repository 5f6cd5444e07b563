//! Reference tables of `tests/data`, taken in by the build.

use core::str::FromStr;

use crate::error::Error;

/// A table of named columns.
#[derive(Debug)]
pub struct Table {
    name: &'static str,
    head: Vec<&'static str>,
    rows: Vec<(usize, Vec<&'static str>)>,
}

impl Table {
    /// Reads a table: lines that begin with `#` are remarks, the first other line names the columns.
    ///
    /// # Errors
    /// When there is no head, or a row has another number of cells.
    pub fn read(name: &'static str, text: &'static str) -> Result<Self, Error> {
        let mut lines = text
            .lines()
            .enumerate()
            .filter(|(_, l)| !l.starts_with('#') && !l.is_empty());
        let wrong = |line, why: &str| Error::Table {
            table: name,
            line,
            why: why.to_owned(),
        };
        let (_, head) = lines.next().ok_or_else(|| wrong(1, "there is no head"))?;
        let head: Vec<&str> = head.split(',').collect();
        let mut rows = Vec::new();
        for (n, line) in lines {
            let cells: Vec<&str> = line.split(',').collect();
            if cells.len() != head.len() {
                return Err(wrong(n + 1, "it has another number of cells than the head"));
            }
            rows.push((n + 1, cells));
        }
        Ok(Self { name, head, rows })
    }

    /// Its rows.
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        (0..self.rows.len()).map(|at| Row { table: self, at })
    }
}

/// A row of a table.
#[derive(Debug, Clone, Copy)]
pub struct Row<'a> {
    table: &'a Table,
    at: usize,
}

impl Row<'_> {
    /// The text of a cell.
    ///
    /// # Errors
    /// When there is no such column.
    pub fn text(&self, column: &str) -> Result<&'static str, Error> {
        let (line, cells) = &self.table.rows[self.at];
        let at = self.table.head.iter().position(|h| *h == column);
        at.map(|k| cells[k]).ok_or_else(|| Error::Table {
            table: self.table.name,
            line: *line,
            why: format!("there is no column {column}"),
        })
    }

    /// The number of a cell.
    ///
    /// # Errors
    /// When there is no such column or it holds no number.
    pub fn get(&self, column: &str) -> Result<f64, Error> {
        self.parse(column, "a number")
    }

    /// What a cell holds.
    ///
    /// # Errors
    /// When there is no such column or it does not hold `what` is asked for.
    pub fn parse<T: FromStr>(&self, column: &str, what: &str) -> Result<T, Error> {
        let text = self.text(column)?;
        text.parse().map_err(|_| Error::Table {
            table: self.table.name,
            line: self.table.rows[self.at].0,
            why: format!("\"{text}\" in {column} is not {what}"),
        })
    }

    /// The number of a cell that may be empty.
    ///
    /// # Errors
    /// When there is no such column.
    pub fn maybe(&self, column: &str) -> Result<Option<f64>, Error> {
        Ok(self.text(column)?.parse().ok())
    }
}
