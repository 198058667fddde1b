//! Documents as aligned text. Long texts are broken within their column, and a table of one column is a list.

use std::io;

use unicode_width::UnicodeWidthStr as _;

use super::{Cell, Document, Table};

impl Document {
    /// Writes the document for people: every column as wide as its widest field.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub fn write_text(&self, out: &mut dyn io::Write) -> io::Result<()> {
        writeln!(out, "{}", self.title)?;
        for remark in &self.remarks {
            for line in textwrap::wrap(remark, textwrap::Options::new(PAGE).subsequent_indent("  ")) {
                writeln!(out, "{line}")?;
            }
        }
        for table in self.tables.iter().filter(|t| !t.rows.is_empty()) {
            writeln!(out)?;
            write_table(out, table)?;
        }
        Ok(())
    }
}

/// How wide a page of running text is.
const PAGE: usize = 100;
/// How wide a column of text may get before its texts are broken.
const TEXT: usize = 60;

fn write_list(out: &mut dyn io::Write, table: &Table) -> io::Result<()> {
    writeln!(out, "{}", table.title)?;
    for cell in table.rows.iter().flatten() {
        let options = textwrap::Options::new(PAGE).initial_indent("  - ").subsequent_indent("    ");
        for line in textwrap::wrap(&cell.shown(), options) {
            writeln!(out, "{line}")?;
        }
    }
    Ok(())
}

/// The lines of a field: of a text that is too long, as many as it takes.
fn lines(cell: &Cell) -> Vec<String> {
    match cell {
        Cell::Text(text) if text.width() > TEXT => {
            textwrap::wrap(text, TEXT).into_iter().map(std::borrow::Cow::into_owned).collect()
        }
        other => vec![other.shown()],
    }
}

fn write_table(out: &mut dyn io::Write, table: &Table) -> io::Result<()> {
    if table.columns.len() == 1 && !table.title.is_empty() {
        return write_list(out, table);
    }
    let rows: Vec<Vec<Vec<String>>> = table.rows.iter().map(|r| r.iter().map(lines).collect()).collect();
    // A column that is empty throughout is left out.
    let used: Vec<usize> = (0..table.columns.len())
        .filter(|&i| rows.iter().any(|r| r.get(i).is_some_and(|c| c.iter().any(|l| !l.is_empty()))))
        .collect();
    let width = |i: usize| {
        let fields = rows.iter().filter_map(|r| r.get(i)).flatten().map(|c| c.width());
        fields.chain([table.columns[i].head.width()]).max().unwrap_or(0)
    };
    let widths: Vec<usize> = used.iter().map(|&i| width(i)).collect();
    if !table.title.is_empty() {
        writeln!(out, "{}", table.title)?;
    }
    let line = |out: &mut dyn io::Write, cells: &dyn Fn(usize) -> String| -> io::Result<()> {
        let mut text = String::new();
        for (&column, &width) in used.iter().zip(&widths) {
            let cell = cells(column);
            let space = " ".repeat(width.saturating_sub(cell.width()));
            if !text.is_empty() {
                text.push_str("  ");
            }
            if table.columns[column].right {
                text.push_str(&space);
                text.push_str(&cell);
            } else {
                text.push_str(&cell);
                text.push_str(&space);
            }
        }
        writeln!(out, "  {}", text.trim_end())
    };
    line(out, &|i| table.columns[i].head.to_owned())?;
    let rule: Vec<usize> = widths.clone();
    let at = |i: usize| used.iter().position(|&u| u == i).map_or(0, |p| rule[p]);
    line(out, &|i| "-".repeat(at(i)))?;
    for row in &rows {
        let deep = row.iter().map(Vec::len).max().unwrap_or(0);
        for n in 0..deep {
            line(out, &|i| row[i].get(n).cloned().unwrap_or_default())?;
        }
    }
    Ok(())
}
