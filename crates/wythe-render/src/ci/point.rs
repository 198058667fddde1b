//! Lines and columns of places, counted as each form counts them.

use rustc_hash::FxHashMap;
use wythe_source::{FileId, LineTable, Span};

use crate::Files;

/// A point in a file, everything counted from one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Point {
    pub line: u32,
    /// In characters.
    pub column: usize,
    /// In bytes.
    pub byte: usize,
}

/// The ends of a place.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Region {
    pub start: Point,
    /// One past the last character.
    pub end: Point,
}

/// Turns spans into regions, reading the lines of each file once.
pub(super) struct Regions<'f> {
    files: &'f dyn Files,
    tables: FxHashMap<FileId, LineTable>,
}

impl<'f> Regions<'f> {
    pub(super) fn new(files: &'f dyn Files) -> Self {
        Regions { files, tables: FxHashMap::default() }
    }

    pub(super) fn region(&mut self, span: Span) -> Region {
        let text = self.files.text(span.file);
        let table = self.tables.entry(span.file).or_insert_with(|| LineTable::new(text));
        let point = |offset: u32| {
            let at = table.utf8(offset);
            let bytes = at.column as usize;
            let line = table.line_range(at.line, text).map_or(0, |line| line.start);
            // A place inside a line end counts its bytes.
            let column = text.get(line..line + bytes).map_or(bytes, |before| before.chars().count());
            Point { line: at.line + 1, column: column + 1, byte: bytes + 1 }
        };
        Region { start: point(span.start), end: point(span.end.max(span.start)) }
    }
}
