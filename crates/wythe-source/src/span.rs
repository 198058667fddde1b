//! Where something stands: a file and a half-open range of bytes.

use std::fmt;
use std::ops::Range;

/// A file of the project, numbered in the order the project met it.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug, Default)]
pub struct FileId(pub u32);

/// A half-open range of bytes in one file. Files are limited to less than 4 GiB, so `u32` is enough.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Default)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A span in `file` over the bytes `start..end`.
    pub const fn new(file: FileId, start: u32, end: u32) -> Self {
        Span { file, start, end }
    }

    /// The byte range, for slicing the text of the file.
    pub const fn range(self) -> Range<usize> {
        self.start as usize..self.end as usize
    }

    /// The smallest span that holds both. The file of `self` wins if they differ.
    pub fn to(self, other: Span) -> Span {
        Span::new(self.file, self.start.min(other.start), self.end.max(other.end))
    }

    /// Whether the byte offset lies in the span or touches its end, as a cursor does.
    pub const fn touches(self, offset: u32) -> bool {
        self.start <= offset && offset <= self.end
    }

    /// Whether `other` lies wholly inside.
    pub fn holds(self, other: Span) -> bool {
        self.file == other.file && self.start <= other.start && other.end <= self.end
    }

    /// The text it covers, or an empty text where the span does not fit.
    pub fn text(self, source: &str) -> &str {
        source.get(self.range()).unwrap_or("")
    }
}

impl fmt::Debug for Span {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}..{}", self.file.0, self.start, self.end)
    }
}
