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
    /// What stands between the slots (line ends, indents, comments) stays where it is.
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
        for step in &self.moves {
            let text = text_of(step.from.file)?.get(step.from.range())?;
            edits.push(Edit { span: step.to, text: text.to_owned() });
        }
        Some(edits)
    }

    /// A replacement of one range that a person must agree to.
    pub fn needs_consent(title: impl Into<String>, span: Span, text: impl Into<String>) -> Self {
        Fix { safety: Safety::Unsafe, ..Fix::safe(title, span, text) }
    }
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
        assert_eq!(apply_edits(text, &edits).as_deref(), Some("bb\n  c // note\n  a1\n"));
        assert_eq!(Fix::reorder("move", &slots, 0, 3, Safety::Safe), None);
        assert_eq!(fix.resolve(|_| None), None);
    }
}
