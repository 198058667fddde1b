//! Edits that mend a finding.

use wythe_source::Span;

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

/// A named set of edits that belong together.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fix {
    /// What it does, as an editor lists it.
    pub title: String,
    /// The edits; they do not overlap.
    pub edits: Vec<Edit>,
    /// Whether it may be made unseen.
    pub safety: Safety,
}

impl Fix {
    /// A safe replacement of one range.
    pub fn safe(title: impl Into<String>, span: Span, text: impl Into<String>) -> Self {
        Fix { title: title.into(), edits: vec![Edit { span, text: text.into() }], safety: Safety::Safe }
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

    use super::{Edit, apply_edits};

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
}
