//! Documents as CSV (RFC 4180): one table, its keys as the header.

use std::io;

use super::{Cell, Document, Table};

impl Document {
    /// Writes the first table that has rows; money and quantities as they are shown. A table for plots has figures
    /// without units, and the unit in the header of the column.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub fn write_csv(&self, out: &mut dyn io::Write) -> io::Result<()> {
        let table = self.tables.iter().find(|t| !t.rows.is_empty()).or(self.tables.first());
        let Some(table) = table else { return Ok(()) };
        let mut writer = ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(out);
        let units: Vec<Option<&str>> = (0..table.columns.len()).map(|c| unit_of(table, c)).collect();
        writer.write_record(table.columns.iter().zip(&units).map(|(column, unit)| match unit {
            Some(unit) => format!("{} ({unit})", column.key),
            None => column.key.to_owned(),
        }))?;
        for row in &table.rows {
            writer.write_record(row.iter().zip(&units).map(|(cell, unit)| match (unit, split(cell)) {
                (Some(_), Some((figure, _))) => figure.to_owned(),
                _ => field(cell),
            }))?;
        }
        writer.flush()
    }
}

/// The figure of a quantity and its unit, where it is shown as the one and the other.
fn split(cell: &Cell) -> Option<(&str, &str)> {
    let Cell::Quantity { shown, .. } = cell else { return None };
    let (figure, unit) = shown.split_once(' ')?;
    figure.parse::<f64>().is_ok().then_some((figure, unit))
}

/// The unit of a column of a table for plots, where all its figures have that one.
fn unit_of(table: &Table, column: usize) -> Option<&str> {
    let mut cells = table.rows.iter().filter_map(|row| row.get(column)).filter(|cell| **cell != Cell::Empty);
    let (_, unit) = cells.next().filter(|_| table.plots).and_then(split)?;
    cells.all(|cell| split(cell).is_some_and(|(_, other)| other == unit)).then_some(unit)
}

fn field(cell: &Cell) -> String {
    let text = match cell {
        Cell::Money { amount, .. } => return amount.clone(),
        other => other.shown(),
    };
    // A text that a spreadsheet would take for a formula is told apart by an apostrophe.
    if matches!(cell, Cell::Text(_)) && text.starts_with(['=', '+', '-', '@']) { format!("'{text}") } else { text }
}
