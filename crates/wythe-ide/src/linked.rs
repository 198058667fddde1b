//! Names that are typed together: every place that names what a declaration of the same file keeps to itself.

use wythe_project::Project;
use wythe_sema::Target;
use wythe_source::{FileId, Span};

use crate::occurrence;

/// The places that name what stands at an offset, where all of them stand in this file: a parameter, a value bound on
/// the way, a declaration that is not public. Nothing for what other files may name.
pub fn linked(project: &Project, file: FileId, offset: u32) -> Option<Vec<Span>> {
    let program = project.program();
    let all = occurrence::occurrences(program, file);
    let (here, target) = all.iter().filter(|(span, _)| span.touches(offset)).min_by_key(|(s, _)| s.end - s.start)?;
    let own = match target {
        Target::Local(span) => span.file == file,
        Target::Def(def) => def.file == file && program.decl(*def).is_some_and(|decl| !decl.public),
        Target::Part(..) => false,
    };
    if !own {
        return None;
    }
    let text = project.text(file);
    let name = here.text(text);
    let places: Vec<Span> =
        all.iter().filter(|(span, t)| t == target && span.text(text) == name).map(|(span, _)| *span).collect();
    (places.len() > 1).then_some(places)
}
