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
}

impl Encoding {
    /// Bytes where the client can; what every client must be able to else.
    pub(crate) fn choose(offered: Option<&[PositionEncodingKind]>) -> Encoding {
        let bytes = offered.is_some_and(|all| all.contains(&PositionEncodingKind::UTF8));
        if bytes { Encoding::Utf8 } else { Encoding::Utf16 }
    }

    /// As the protocol calls it.
    pub(crate) fn kind(self) -> PositionEncodingKind {
        match self {
            Encoding::Utf8 => PositionEncodingKind::UTF8,
            Encoding::Utf16 => PositionEncodingKind::UTF16,
        }
    }

    /// The position of a byte.
    pub(crate) fn position(self, table: &LineTable, text: &str, offset: u32) -> Position {
        let at = match self {
            Encoding::Utf8 => table.utf8(offset),
            Encoding::Utf16 => table.utf16(offset, text),
        };
        Position::new(at.line, at.column)
    }

    /// The byte of a position, drawn back into the text where it lies outside.
    pub(crate) fn offset(self, table: &LineTable, text: &str, position: Position) -> u32 {
        let at = LineColumn { line: position.line, column: position.character };
        match self {
            Encoding::Utf8 => table.offset_utf8(at, text),
            Encoding::Utf16 => table.offset_utf16(at, text),
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
        }
    }
}
