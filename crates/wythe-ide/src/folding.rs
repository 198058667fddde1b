//! What can be folded: blocks, runs of comments, runs of `use` lines.

use wythe_project::Project;
use wythe_source::{FileId, LineTable};
use wythe_syntax::{Kind, tokens};

/// What a fold holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FoldKind {
    /// A block.
    Region,
    /// Comments.
    Comment,
    /// `use` lines.
    Uses,
}

/// A run of lines that can be folded, both ends included.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Fold {
    /// First line, from nought.
    pub first: u32,
    /// Last line, from nought.
    pub last: u32,
    /// What it holds.
    pub kind: FoldKind,
}

/// What can be folded in a file, by place.
pub fn folds(project: &Project, file: FileId) -> Vec<Fold> {
    let text = project.text(file);
    let lines = LineTable::new(text);
    let lexed = tokens(file, text);
    let mut out = Vec::new();
    let mut open = Vec::new();
    for token in &lexed.tokens {
        match token.kind {
            Kind::BraceOpen => open.push(lines.line_of(token.start)),
            Kind::BraceClose => {
                let last = lines.line_of(token.start);
                if let Some(first) = open.pop()
                    && first < last
                {
                    out.push(Fold { first, last, kind: FoldKind::Region });
                }
            }
            _ => {}
        }
    }
    let own_lines = lexed.comments.iter().filter(|c| c.own_line).map(|c| lines.line_of(c.start));
    runs(own_lines, FoldKind::Comment, &mut out);
    if let Some(parsed) = project.parsed(file) {
        runs(parsed.module.uses.iter().map(|u| lines.line_of(u.span.start)), FoldKind::Uses, &mut out);
    }
    out.sort_by_key(|f| (f.first, f.last));
    out
}

fn runs(numbers: impl Iterator<Item = u32>, kind: FoldKind, out: &mut Vec<Fold>) {
    let mut run: Option<(u32, u32)> = None;
    for line in numbers.map(Some).chain([None]) {
        match (run, line) {
            (Some((first, last)), Some(line)) if line <= last + 1 => run = Some((first, line)),
            (ended, line) => {
                if let Some((first, last)) = ended.filter(|(first, last)| first < last) {
                    out.push(Fold { first, last, kind });
                }
                run = line.map(|l| (l, l));
            }
        }
    }
}
