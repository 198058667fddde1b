//! Columns: the only module that turns bytes into positions of the protocol and back.

use tower_lsp::lsp_types::{Position, PositionEncodingKind, Range};
use wythe_source::{LineColumn, LineTable};

/// How a client counts columns.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) enum Encoding {
    /// In bytes.
    Utf8,
    /// In UTF-16 units.
    #[default]
    Utf16,
    /// In characters.
    Utf32,
}

impl Encoding {
    /// Bytes where the client can; what every client must be able to else.
    pub(crate) fn choose(offered: Option<&[PositionEncodingKind]>) -> Encoding {
        let can = |kind| offered.is_some_and(|all| all.contains(&kind));
        if can(PositionEncodingKind::UTF8) {
            Encoding::Utf8
        } else if can(PositionEncodingKind::UTF32) && !can(PositionEncodingKind::UTF16) {
            Encoding::Utf32
        } else {
            Encoding::Utf16
        }
    }

    /// As the protocol calls it.
    pub(crate) fn kind(self) -> PositionEncodingKind {
        match self {
            Encoding::Utf8 => PositionEncodingKind::UTF8,
            Encoding::Utf16 => PositionEncodingKind::UTF16,
            Encoding::Utf32 => PositionEncodingKind::UTF32,
        }
    }

    /// The position of a byte.
    pub(crate) fn position(self, table: &LineTable, text: &str, offset: u32) -> Position {
        let at = match self {
            Encoding::Utf8 => table.utf8(offset),
            Encoding::Utf16 => table.utf16(offset, text),
            Encoding::Utf32 => {
                let at = table.utf8(offset);
                let start = offset.min(text.len() as u32) - at.column;
                let before = text.get(start as usize..).unwrap_or("").char_indices();
                let column = before.take_while(|(byte, _)| *byte < at.column as usize).count() as u32;
                LineColumn { line: at.line, column }
            }
        };
        Position::new(at.line, at.column)
    }

    /// The byte of a position, drawn back into the text where it lies outside.
    pub(crate) fn offset(self, table: &LineTable, text: &str, position: Position) -> u32 {
        let at = LineColumn { line: position.line, column: position.character };
        match self {
            Encoding::Utf8 => table.offset_utf8(at, text),
            Encoding::Utf16 => table.offset_utf16(at, text),
            Encoding::Utf32 => {
                let Some(range) = table.line_range(at.line, text) else { return text.len() as u32 };
                let line = text.get(range.clone()).unwrap_or("");
                let byte = line.char_indices().nth(at.column as usize).map_or(line.len(), |(byte, _)| byte);
                (range.start + byte) as u32
            }
        }
    }

    /// The range of bytes of a range; its ends in order whatever the client says.
    pub(crate) fn bytes(self, table: &LineTable, text: &str, range: Range) -> std::ops::Range<usize> {
        let a = self.offset(table, text, range.start) as usize;
        let b = self.offset(table, text, range.end) as usize;
        a.min(b)..a.max(b)
    }

    /// How many columns a piece of text takes.
    pub(crate) fn width(self, text: &str) -> u32 {
        match self {
            Encoding::Utf8 => text.len() as u32,
            Encoding::Utf16 => text.encode_utf16().count() as u32,
            Encoding::Utf32 => text.chars().count() as u32,
        }
    }
}

#[cfg(test)]
mod tests {
    use wythe_source::LineTable;

    use super::Encoding;

    #[test]
    fn every_character_goes_there_and_back_in_every_count() {
        let text = "½ in 😀 x\r\n\nlet a = \"é\"";
        let table = LineTable::new(text);
        for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
            for (byte, c) in text.char_indices().filter(|(_, c)| !matches!(c, '\r' | '\n')) {
                let at = encoding.position(&table, text, byte as u32);
                assert_eq!(encoding.offset(&table, text, at), byte as u32, "{c} in {encoding:?}");
            }
            assert_eq!(encoding.offset(&table, text, tower_lsp::lsp_types::Position::new(0, 99)), 12);
        }
        let after = text.find('x').unwrap() as u32;
        let column = |encoding: Encoding| encoding.position(&table, text, after).character;
        assert_eq!([Encoding::Utf8, Encoding::Utf16, Encoding::Utf32].map(column), [11, 8, 7]);
    }
}
