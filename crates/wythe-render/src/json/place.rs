//! Places as file, line and column.

use rustc_hash::FxHashMap;
use serde::Serialize;
use wythe_source::{FileId, LineTable, Span};

use crate::Files;

/// A half-open range of a file.
#[derive(Serialize)]
pub(super) struct Place {
    file: String,
    start: Point,
    end: Point,
}

/// A point in a file: line and column from one, the column in characters; the offset from nought, in bytes.
#[derive(Serialize)]
struct Point {
    line: u32,
    column: usize,
    offset: u32,
}

/// Turns spans into places, reading the lines of each file once.
pub(super) struct Places<'f> {
    files: &'f dyn Files,
    tables: FxHashMap<FileId, LineTable>,
}

impl<'f> Places<'f> {
    pub(super) fn new(files: &'f dyn Files) -> Self {
        Places { files, tables: FxHashMap::default() }
    }

    pub(super) fn place(&mut self, span: Span) -> Place {
        let text = self.files.text(span.file);
        let table = self.tables.entry(span.file).or_insert_with(|| LineTable::new(text));
        let point = |offset: u32| {
            let at = table.utf8(offset);
            let before =
                table.line_range(at.line, text).and_then(|line| text.get(line.start..line.start + at.column as usize));
            // A place inside a character or a line end counts its bytes.
            let column = before.map_or(at.column as usize, |before| before.chars().count());
            Point { line: at.line + 1, column: column + 1, offset }
        };
        Place { file: self.files.name(span.file), start: point(span.start), end: point(span.end) }
    }
}
