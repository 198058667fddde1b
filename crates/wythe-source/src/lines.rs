//! Lines and columns of a text, in bytes and in UTF-16 units. The only module that converts positions.

use std::ops::Range;

/// A line and a column, both counted from nought.
#[derive(Clone, Copy, PartialEq, Eq, Debug, PartialOrd, Ord)]
pub struct LineColumn {
    /// The line, from nought.
    pub line: u32,
    /// The column, from nought, in the unit of the call that made it.
    pub column: u32,
}

/// Where each line of a text begins.
#[derive(Clone, Debug)]
pub struct LineTable {
    starts: Vec<u32>,
    length: u32,
}

impl LineTable {
    /// Reads the lines of a text. `\n` ends a line; a `\r` before it belongs to the line end.
    pub fn new(text: &str) -> Self {
        let mut starts = vec![0];
        starts.extend(text.bytes().enumerate().filter(|(_, b)| *b == b'\n').map(|(i, _)| i as u32 + 1));
        LineTable { starts, length: text.len() as u32 }
    }

    /// How many lines there are: at least one.
    pub fn count(&self) -> u32 {
        self.starts.len() as u32
    }

    /// The line that holds a byte offset; past the end, the last line.
    pub fn line_of(&self, offset: u32) -> u32 {
        self.starts.partition_point(|&start| start <= offset) as u32 - 1
    }

    /// The bytes of a line without its line end; `None` past the last line.
    pub fn line_range(&self, line: u32, text: &str) -> Option<Range<usize>> {
        let start = *self.starts.get(line as usize)? as usize;
        let next = self.starts.get(line as usize + 1).map_or(self.length as usize, |&n| n as usize);
        let body = text.get(start..next)?;
        Some(start..start + body.trim_end_matches('\n').trim_end_matches('\r').len())
    }

    /// Line and column in bytes.
    pub fn utf8(&self, offset: u32) -> LineColumn {
        let offset = offset.min(self.length);
        let line = self.line_of(offset);
        LineColumn { line, column: offset - self.starts[line as usize] }
    }

    /// Line and column in UTF-16 units. An offset inside a character counts as its start.
    pub fn utf16(&self, offset: u32, text: &str) -> LineColumn {
        let at = self.utf8(offset);
        let start = self.starts[at.line as usize] as usize;
        let mut end = start + at.column as usize;
        while end > start && !text.is_char_boundary(end) {
            end -= 1;
        }
        let column = text.get(start..end).unwrap_or("").encode_utf16().count() as u32;
        LineColumn { line: at.line, column }
    }

    /// The byte offset of a line and a column in bytes, drawn back into the text where it lies outside.
    pub fn offset_utf8(&self, at: LineColumn, text: &str) -> u32 {
        let Some(range) = self.line_range(at.line, text) else { return self.length };
        let mut offset = (range.start + at.column as usize).min(range.end);
        while !text.is_char_boundary(offset) {
            offset -= 1;
        }
        offset as u32
    }

    /// The byte offset of a line and a column in UTF-16 units, drawn back into the text where it
    /// lies outside; half a pair of surrogates counts as the start of its character.
    pub fn offset_utf16(&self, at: LineColumn, text: &str) -> u32 {
        let Some(range) = self.line_range(at.line, text) else { return self.length };
        let mut left = at.column;
        let mut offset = range.start;
        for c in text.get(range).unwrap_or("").chars() {
            let width = c.len_utf16() as u32;
            if left < width {
                break;
            }
            left -= width;
            offset += c.len_utf8();
        }
        offset as u32
    }
}

#[cfg(test)]
mod tests {
    use super::{LineColumn, LineTable};

    const TEXT: &str = "at 52 °F\r\n½ in 😀 x\nend";

    #[test]
    fn every_boundary_goes_there_and_back() {
        let table = LineTable::new(TEXT);
        for (offset, _) in TEXT.char_indices().filter(|(_, c)| !matches!(c, '\r' | '\n')) {
            let offset = offset as u32;
            assert_eq!(table.offset_utf16(table.utf16(offset, TEXT), TEXT), offset);
            assert_eq!(table.offset_utf8(table.utf8(offset), TEXT), offset);
        }
    }

    #[test]
    fn a_place_outside_is_drawn_back() {
        let table = LineTable::new(TEXT);
        assert_eq!(table.offset_utf16(LineColumn { line: 0, column: 99 }, TEXT), 9);
        assert_eq!(table.offset_utf16(LineColumn { line: 9, column: 0 }, TEXT), TEXT.len() as u32);
        let half = LineColumn { line: 1, column: 6 };
        assert_eq!(table.utf16(table.offset_utf16(half, TEXT), TEXT).column, 5);
    }

    #[test]
    fn an_empty_text_has_one_line() {
        let table = LineTable::new("");
        assert_eq!(table.count(), 1);
        assert_eq!(table.utf8(7), LineColumn { line: 0, column: 0 });
    }
}
