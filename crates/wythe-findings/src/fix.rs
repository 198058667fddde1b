//! Edits that mend a finding.

use wythe_source::{FileId, Span};

/// Whether an edit may be made without a person looking at it.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Safety {
    /// The meaning is kept, or the only sound meaning is restored.
    Safe,
    /// It changes what is built; a person decides.
    Unsafe,
}

/// A replacement of a range of text.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Edit {
    /// What is replaced; empty to insert.
    pub span: Span,
    /// What stands there afterwards.
    pub text: String,
}

/// Text that stands in one place and is put in another, for a finding that knows places and not texts.
///
/// The text under `to` is replaced by the text under `from`, as both stand before any edit is made.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Move {
    /// What is replaced.
    pub to: Span,
    /// Where the new text stands now.
    pub from: Span,
}

/// A named set of edits that belong together.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fix {
    /// What it does, as an editor lists it.
    pub title: String,
    /// The edits; they do not overlap.
    pub edits: Vec<Edit>,
    /// Texts that change places. [`Fix::resolve`] makes edits of them.
    pub moves: Vec<Move>,
    /// Whether it may be made unseen.
    pub safety: Safety,
}

impl Fix {
    /// A safe replacement of one range.
    pub fn safe(title: impl Into<String>, span: Span, text: impl Into<String>) -> Self {
        Fix {
            title: title.into(),
            edits: vec![Edit { span, text: text.into() }],
            moves: Vec::new(),
            safety: Safety::Safe,
        }
    }

    /// A set of edits.
    pub fn new(title: impl Into<String>, edits: Vec<Edit>, safety: Safety) -> Self {
        Fix { title: title.into(), edits, moves: Vec::new(), safety }
    }

    /// Takes the piece in slot `from` out and puts it in slot `to`; the pieces between close up.
    /// Line ends and indents between the slots stay where they are; a comment goes with the piece it speaks of, where
    /// every piece that moves has its lines to itself.
    ///
    /// `None` where a slot is out of range, the slots lie in different files, or nothing would move.
    pub fn reorder(title: impl Into<String>, slots: &[Span], from: usize, to: usize, safety: Safety) -> Option<Self> {
        let file = slots.first()?.file;
        if from == to || from.max(to) >= slots.len() || slots.iter().any(|s| s.file != file) {
            return None;
        }
        let mut order: Vec<usize> = (0..slots.len()).collect();
        let moved = order.remove(from);
        order.insert(to, moved);
        let moves = order.iter().enumerate().filter(|(slot, piece)| slot != *piece);
        let moves = moves.map(|(slot, &piece)| Move { to: slots[slot], from: slots[piece] }).collect();
        Some(Fix { title: title.into(), edits: Vec::new(), moves, safety })
    }

    /// The edits of the fix as plain replacements, its moves read from the text of their files.
    ///
    /// `None` where a file or a place in it is not there.
    pub fn resolve<'t>(&self, text_of: impl Fn(FileId) -> Option<&'t str>) -> Option<Vec<Edit>> {
        let mut edits = self.edits.clone();
        // The pieces that move are the slots they move to, each once.
        let alone = self.moves.iter().all(|step| {
            [step.from, step.to]
                .into_iter()
                .all(|span| text_of(span.file).is_some_and(|text| has_its_lines(text, span)))
        });
        for step in &self.moves {
            let text = text_of(step.from.file)?;
            text.get(step.from.range())?;
            text_of(step.to.file)?.get(step.to.range())?;
            let wide = |span: Span| if alone { with_comments(text_of(span.file).unwrap_or(""), span) } else { span };
            edits.push(Edit { span: wide(step.to), text: text.get(wide(step.from).range())?.to_owned() });
        }
        Some(edits)
    }

    /// A replacement of one range that a person must agree to.
    pub fn needs_consent(title: impl Into<String>, span: Span, text: impl Into<String>) -> Self {
        Fix { safety: Safety::Unsafe, ..Fix::safe(title, span, text) }
    }
}

/// Whether nothing but spaces and comments stands beside a piece on its lines.
fn has_its_lines(text: &str, piece: Span) -> bool {
    let (Some(before), Some(after)) = (text.get(..piece.range().start), text.get(piece.range().end..)) else {
        return false;
    };
    let before = before.rsplit('\n').next().unwrap_or("").trim();
    let after = after.split('\n').next().unwrap_or("").trim();
    before.is_empty() && (after.is_empty() || after.starts_with("//"))
}

/// A piece with the comment at the end of its last line, and with the lines of comment right above it.
fn with_comments(text: &str, piece: Span) -> Span {
    let (mut start, end) = (piece.range().start, piece.range().end);
    let tail = text.get(end..).and_then(|after| after.split('\n').next()).unwrap_or("").trim_end();
    // What stands before the piece on its own line is its indent.
    let mut at = text.get(..start).and_then(|before| before.rfind('\n')).map_or(0, |end| end + 1);
    let mut above = text.get(..at).unwrap_or("").split_inclusive('\n').rev();
    while let Some(line) = above.next().filter(|line| line.trim_start().starts_with("//")) {
        at -= line.len();
        start = at + (line.len() - line.trim_start().len());
    }
    Span::new(piece.file, start as u32, (end + tail.len()) as u32)
}

/// The text with the edits made. Edits must lie in one file; overlapping or ill-placed ones give `None`.
pub fn apply_edits(text: &str, edits: &[Edit]) -> Option<String> {
    let mut sorted: Vec<&Edit> = edits.iter().collect();
    sorted.sort_by_key(|e| (e.span.start, e.span.end));
    let mut out = String::with_capacity(text.len());
    let mut at = 0;
    for edit in sorted {
        let range = edit.span.range();
        if range.start < at {
            return None;
        }
        out.push_str(text.get(at..range.start)?);
        text.get(range.clone())?;
        out.push_str(&edit.text);
        at = range.end;
    }
    out.push_str(text.get(at..)?);
    Some(out)
}

#[cfg(test)]
mod tests {
    use wythe_source::{FileId, Span};

    use super::{Edit, Fix, Safety, apply_edits};

    fn edit(start: u32, end: u32, text: &str) -> Edit {
        Edit { span: Span::new(FileId(0), start, end), text: text.into() }
    }

    #[test]
    fn edits_apply_in_any_order() {
        let edits = [edit(6, 7, "C"), edit(0, 1, "A"), edit(3, 3, "+")];
        assert_eq!(apply_edits("a b c d", &edits).as_deref(), Some("A b+ c C"));
    }

    #[test]
    fn overlap_and_outside_are_refused() {
        assert_eq!(apply_edits("abc", &[edit(0, 2, ""), edit(1, 3, "")]), None);
        assert_eq!(apply_edits("abc", &[edit(2, 9, "")]), None);
    }

    #[test]
    fn a_piece_moves_and_the_rest_closes_up() {
        let text = "a1\n  bb // note\n  c\n";
        let span = |start, end| Span::new(FileId(0), start, end);
        let slots = [span(0, 2), span(5, 7), span(18, 19)];
        let fix = Fix::reorder("move", &slots, 0, 2, Safety::Safe).unwrap();
        let edits = fix.resolve(|file| (file == FileId(0)).then_some(text)).unwrap();
        assert_eq!(apply_edits(text, &edits).as_deref(), Some("bb // note\n  c\n  a1\n"));
        assert_eq!(Fix::reorder("move", &slots, 0, 3, Safety::Safe), None);
        assert_eq!(fix.resolve(|_| None), None);
    }

    fn moved(text: &str, pieces: &[&str], from: usize, to: usize) -> String {
        let span = |piece: &&str| {
            let at = text.find(*piece).unwrap() as u32;
            Span::new(FileId(0), at, at + piece.len() as u32)
        };
        let slots: Vec<Span> = pieces.iter().map(span).collect();
        let fix = Fix::reorder("move", &slots, from, to, Safety::Safe).unwrap();
        apply_edits(text, &fix.resolve(|_| Some(text)).unwrap()).unwrap()
    }

    #[test]
    fn a_comment_goes_with_the_piece_it_speaks_of() {
        let text = "{\n    // The nails,\n    // two feet apart.\n    pin // driven\n\n    // Apart.\n\n    tape\n}\n";
        let due = "{\n    tape\n\n    // Apart.\n\n    // The nails,\n    // two feet apart.\n    pin // driven\n}\n";
        assert_eq!(moved(text, &["pin", "tape"], 0, 1), due);
        assert_eq!(moved("a // x\nb\n", &["a", "b"], 1, 0), "b\na // x\n");
    }

    #[test]
    fn pieces_that_share_a_line_move_without_comments() {
        assert_eq!(moved("a; b // of b\nc\n", &["a", "b", "c"], 2, 0), "c; a // of b\nb\n");
        assert_eq!(moved("{ a // of a\nb }", &["a", "b"], 0, 1), "{ b // of a\na }");
    }
}
