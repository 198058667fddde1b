//! The other places of a file where the name under the cursor is named.

use wythe_project::Project;
use wythe_source::{FileId, Span};

use crate::occurrence;

/// A place where the name stands, and whether it is declared there.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Highlight {
    /// The place.
    pub span: Span,
    /// Whether it is declared there.
    pub declares: bool,
}

/// The places of a file where the name at an offset is named.
pub fn highlights(project: &Project, file: FileId, offset: u32) -> Vec<Highlight> {
    let program = project.program();
    let Some((_, target)) = occurrence::at(program, file, offset) else { return Vec::new() };
    let declared = occurrence::declared_at(program, target);
    let all = occurrence::occurrences(program, file).into_iter().filter(|(_, t)| *t == target);
    all.map(|(span, _)| Highlight { span, declares: Some(span) == declared }).collect()
}
