//! Documents as Markdown, for a pull request.

use std::io;

use super::Document;

impl Document {
    /// Writes the document with its tables as Markdown tables.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub fn write_markdown(&self, out: &mut dyn io::Write) -> io::Result<()> {
        writeln!(out, "## {}\n", escaped(&self.title))?;
        for remark in &self.remarks {
            writeln!(out, "{}\n", escaped(remark))?;
        }
        for table in self.tables.iter().filter(|t| !t.rows.is_empty()) {
            if !table.title.is_empty() {
                writeln!(out, "### {}\n", escaped(&table.title))?;
            }
            let heads: Vec<String> = table.columns.iter().map(|c| escaped(c.head)).collect();
            writeln!(out, "| {} |", heads.join(" | "))?;
            let rule: Vec<&str> = table.columns.iter().map(|c| if c.right { "--:" } else { "---" }).collect();
            writeln!(out, "| {} |", rule.join(" | "))?;
            for row in &table.rows {
                let cells: Vec<String> = row.iter().map(|c| escaped(&c.shown())).collect();
                writeln!(out, "| {} |", cells.join(" | "))?;
            }
            writeln!(out)?;
        }
        Ok(())
    }
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '|' | '\\' | '`' | '*' | '_' | '<' | '[' => {
                out.push('\\');
                out.push(c);
            }
            '\n' | '\r' => out.push(' '),
            c => out.push(c),
        }
    }
    out
}
