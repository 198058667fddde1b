//! Documents as JSON: each table a list of objects under its key.

use serde::Serialize;
use serde::ser::{SerializeMap as _, SerializeSeq as _, Serializer};

use super::{Document, Table};

/// The form of the document; it grows when a field changes its meaning.
const FORM: u32 = 1;

struct Rows<'a>(&'a Table);
struct Row<'a>(&'a Table, usize);

impl Serialize for Row<'_> {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        let mut map = out.serialize_map(Some(self.0.columns.len()))?;
        for (column, cell) in self.0.columns.iter().zip(&self.0.rows[self.1]) {
            map.serialize_entry(column.key, cell)?;
        }
        map.end()
    }
}

impl Serialize for Rows<'_> {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        let mut seq = out.serialize_seq(Some(self.0.rows.len()))?;
        for row in 0..self.0.rows.len() {
            seq.serialize_element(&Row(self.0, row))?;
        }
        seq.end()
    }
}

struct Whole<'a>(&'a Document);

impl Serialize for Whole<'_> {
    fn serialize<S: Serializer>(&self, out: S) -> Result<S::Ok, S::Error> {
        let d = self.0;
        let mut map = out.serialize_map(None)?;
        map.serialize_entry("form", &FORM)?;
        map.serialize_entry("kind", d.kind)?;
        map.serialize_entry("title", &d.title)?;
        map.serialize_entry("complete", &d.complete)?;
        map.serialize_entry("remarks", &d.remarks)?;
        for table in &d.tables {
            map.serialize_entry(table.key, &Rows(table))?;
        }
        map.end()
    }
}

impl Document {
    /// The document as JSON, a line end at its end.
    ///
    /// # Errors
    /// Where a figure cannot be written, which none of the figures here can cause.
    pub fn json(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string_pretty(&Whole(self)).map(|text| text + "\n")
    }
}
