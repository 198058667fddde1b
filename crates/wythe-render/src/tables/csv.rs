//! Documents as CSV (RFC 4180): one table, its keys as the header.

use std::io;

use super::{Cell, Document};

impl Document {
    /// Writes the first table that has rows; money and quantities as they are shown, without units in figures.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub fn write_csv(&self, out: &mut dyn io::Write) -> io::Result<()> {
        let table = self.tables.iter().find(|t| !t.rows.is_empty()).or(self.tables.first());
        let Some(table) = table else { return Ok(()) };
        let mut writer = ::csv::WriterBuilder::new().terminator(::csv::Terminator::CRLF).from_writer(out);
        writer.write_record(table.columns.iter().map(|c| c.key))?;
        for row in &table.rows {
            writer.write_record(row.iter().map(field))?;
        }
        writer.flush()
    }
}

fn field(cell: &Cell) -> String {
    let text = match cell {
        Cell::Money { amount, .. } => return amount.clone(),
        other => other.shown(),
    };
    // A text that a spreadsheet would take for a formula is told apart by an apostrophe.
    if matches!(cell, Cell::Text(_)) && text.starts_with(['=', '+', '-', '@']) { format!("'{text}") } else { text }
}
