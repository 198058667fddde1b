//! A document: titled tables with remarks, in the order they are read.

use super::Cell;

/// A column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its name for programs: lower case, words joined by `_`.
    pub key: &'static str,
    /// Its head for people.
    pub head: &'static str,
    /// Whether its fields stand at the right.
    pub right: bool,
}

/// A table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Its name for programs.
    pub key: &'static str,
    /// Its title for people; empty for none.
    pub title: String,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each as long as the columns.
    pub rows: Vec<Vec<Cell>>,
    /// Whether its CSV is for plots: figures bare, with the unit of the column in the header.
    pub plots: bool,
}

impl Table {
    /// A table with columns given as key and head; a head that starts with `>` stands at the right.
    pub fn new(key: &'static str, title: impl Into<String>, columns: &[(&'static str, &'static str)]) -> Table {
        let column = |&(key, head): &(&'static str, &'static str)| match head.strip_prefix('>') {
            Some(head) => Column { key, head, right: true },
            None => Column { key, head, right: false },
        };
        Table {
            key,
            title: title.into(),
            columns: columns.iter().map(column).collect(),
            rows: Vec::new(),
            plots: false,
        }
    }

    /// Adds a row; it is filled up or cut to the columns.
    pub fn row(&mut self, mut cells: Vec<Cell>) {
        cells.resize(self.columns.len(), Cell::Empty);
        self.rows.push(cells);
    }
}

/// A document.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// What it is, for programs: `takeoff`, `order`.
    pub kind: &'static str,
    /// Its title.
    pub title: String,
    /// What holds of the whole, first what is most needed.
    pub remarks: Vec<String>,
    /// Whether nothing is missing from it.
    pub complete: bool,
    /// Its tables.
    pub tables: Vec<Table>,
}

impl Document {
    /// A document with no tables yet.
    pub fn new(kind: &'static str, title: impl Into<String>) -> Document {
        Document { kind, title: title.into(), remarks: Vec::new(), complete: true, tables: Vec::new() }
    }
}
