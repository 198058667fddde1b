//! Files and folders that are about to be moved: the `use` lines that must lead elsewhere.

use std::collections::BTreeMap;

use wythe_findings::Edit;
use wythe_project::{Origin, Project, SourcePath};
use wythe_source::{FileId, Span};
use wythe_syntax::ast::UseTarget;

use crate::complete::relative;

/// The edits that make every `use` line lead where it led, once each path has become the one beside it. A path may be
/// that of a folder. The edits are of the files as they stand, before the move.
pub fn moved(project: &Project, moves: &[(SourcePath, SourcePath)]) -> Vec<Edit> {
    let program = project.program();
    let mut now: BTreeMap<FileId, SourcePath> = BTreeMap::new();
    for file in program.files() {
        let Some(entry) = project.entry(file).filter(|entry| entry.origin == Origin::Repository) else { continue };
        if let Some(path) = moves.iter().find_map(|(from, to)| entry.path.moved(from, to)) {
            now.insert(file, path);
        }
    }
    let mut edits = Vec::new();
    for file in program.files() {
        let (Some(data), Some(entry)) = (program.module(file), project.entry(file)) else { continue };
        if entry.origin != Origin::Repository {
            continue;
        }
        for (used, target) in data.module.uses.iter().zip(&data.uses) {
            let (UseTarget::File { path, path_span, .. }, Some(target)) = (&used.target, target) else { continue };
            let Some(there) = project.entry(*target).filter(|entry| entry.origin == Origin::Repository) else {
                continue;
            };
            if !now.contains_key(&file) && !now.contains_key(target) {
                continue;
            }
            let new_here = now.get(&file).unwrap_or(&entry.path);
            let new_there = now.get(target).unwrap_or(&there.path);
            let near = SourcePath::resolve(&entry.path.folder(), path).is_some_and(|near| near == there.path);
            // A path taken from a library's folder stays one, as long as the file stays in it.
            let lender = project.manifest().libraries.iter().find(|folder| {
                !near
                    && new_there.is_in(folder)
                    && SourcePath::resolve(folder, path).is_some_and(|far| far == there.path)
            });
            let text = match lender {
                Some(folder) => new_there.as_str()[folder.as_str().len()..].trim_start_matches('/').to_owned(),
                None => relative(new_here, new_there),
            };
            if text != *path {
                edits.push(Edit { span: inner(*path_span), text });
            }
        }
    }
    edits
}

/// The text between the quotation marks.
const fn inner(quoted: Span) -> Span {
    Span::new(quoted.file, quoted.start + 1, quoted.end.saturating_sub(1))
}
