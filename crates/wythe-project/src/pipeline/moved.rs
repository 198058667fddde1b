//! Where the places of a text are after a change of it: so that what was found before stands right until it is found
//! anew.

use wythe_source::{FileId, Span};

/// One change of a text, from its first byte that differs to its last.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Moved {
    file: FileId,
    start: u32,
    old_end: u32,
    new_end: u32,
}

impl Moved {
    /// What differs between two texts of a file; nothing where they are the same.
    pub(crate) fn between(file: FileId, old: &str, new: &str) -> Option<Moved> {
        let (old, new) = (old.as_bytes(), new.as_bytes());
        let head = same(old.iter(), new.iter());
        if head == old.len() && head == new.len() {
            return None;
        }
        let tail = same(old[head..].iter().rev(), new[head..].iter().rev());
        let (start, old_end, new_end) = (head as u32, (old.len() - tail) as u32, (new.len() - tail) as u32);
        Some(Moved { file, start, old_end, new_end })
    }

    /// Where a place has got to; nothing where a part of it, or all, was written over.
    pub(crate) fn span(&self, span: Span) -> Option<Span> {
        let by = |at: u32| at - self.old_end + self.new_end;
        if span.file != self.file || span.end <= self.start {
            Some(span)
        } else if span.start >= self.old_end {
            Some(Span::new(span.file, by(span.start), by(span.end)))
        } else if span.start < self.start && span.end > self.old_end {
            Some(Span::new(span.file, span.start, by(span.end)))
        } else {
            None
        }
    }
}

/// How many bytes are the same from where two texts are read.
fn same<'t>(a: impl Iterator<Item = &'t u8>, b: impl Iterator<Item = &'t u8>) -> usize {
    a.zip(b).take_while(|(a, b)| a == b).count()
}

#[cfg(test)]
mod tests {
    use wythe_source::{FileId, Span};

    use super::Moved;

    #[test]
    fn places_follow_the_text() {
        let file = FileId(3);
        let at = |start, end| Span::new(file, start, end);
        assert_eq!(Moved::between(file, "same", "same"), None);
        // `wall` becomes `wide wall`.
        let moved = Moved::between(file, "a wall of stone", "a wide wall of stone").unwrap();
        assert_eq!(moved.span(at(0, 1)), Some(at(0, 1)));
        assert_eq!(moved.span(at(10, 15)), Some(at(15, 20)));
        assert_eq!(moved.span(at(0, 15)), Some(at(0, 20)));
        assert_eq!(moved.span(Span::new(FileId(9), 4, 5)), Some(Span::new(FileId(9), 4, 5)));
        // What is written over is gone.
        let moved = Moved::between(file, "a 20' b", "a 19 in b").unwrap();
        assert_eq!(moved.span(at(2, 5)), None);
        assert_eq!(moved.span(at(6, 7)), Some(at(8, 9)));
    }

    #[test]
    fn the_ends_of_a_text_are_places_too() {
        let file = FileId(0);
        let moved = Moved::between(file, "abc", "abcd").unwrap();
        assert_eq!(moved.span(Span::new(file, 0, 3)), Some(Span::new(file, 0, 3)));
        let moved = Moved::between(file, "abc", "").unwrap();
        assert_eq!(moved.span(Span::new(file, 1, 2)), None);
    }
}
