//! The edit that names something of another file in a `use` line.

use wythe_findings::Edit;
use wythe_project::{LIBRARIES, Project, SourcePath, library_folder};
use wythe_sema::DefId;
use wythe_source::{FileId, Span};
use wythe_syntax::ast::UseTarget;

/// The edit that makes a file know a public name of another file of the repository.
pub fn import_edit(project: &Project, file: FileId, def: DefId) -> Option<Edit> {
    let program = project.program();
    let data = program.module(file)?;
    let name = program.name_of(def);
    for (used, target) in data.module.uses.iter().zip(&data.uses) {
        if let (UseTarget::File { imports, .. }, Some(target)) = (&used.target, target)
            && *target == def.file
            && let Some(last) = imports.last()
        {
            let end = last.local().span.end;
            return Some(Edit { span: Span::new(file, end, end), text: format!(", {name}") });
        }
    }
    let from = &project.entry(file)?.path;
    let to = &project.entry(def.file)?.path;
    let line = format!("use \"{}\": {name}\n", relative(from, to));
    // After the last `use` line of a file; else after the opening remarks.
    let at = match data
        .module
        .uses
        .iter()
        .rev()
        .find(|u| matches!(u.target, UseTarget::File { .. }))
        .or(data.module.uses.first())
    {
        Some(last) => line_after(&data.text, last.span.end),
        None => after_remarks(&data.text),
    };
    let begun = at > 0 && !data.text.get(..at as usize).is_some_and(|t| t.ends_with('\n'));
    let text = if begun { format!("\n{}", line.trim_end()) } else { line };
    Some(Edit { span: Span::new(file, at, at), text })
}

/// A path as a `use` line writes it: that of a library begins with the library's name.
pub(crate) fn relative(from: &SourcePath, to: &SourcePath) -> String {
    let library = library_folder(to);
    if library.is_some() && library != library_folder(from) {
        let inside = to.as_str().strip_prefix(LIBRARIES).and_then(|rest| rest.strip_prefix('/'));
        return inside.unwrap_or(to.as_str()).to_owned();
    }
    let folder = from.folder();
    let here: Vec<&str> = folder.as_str().split('/').filter(|p| !p.is_empty()).collect();
    let there: Vec<&str> = to.as_str().split('/').collect();
    let shared = here.iter().zip(&there[..there.len().saturating_sub(1)]).take_while(|(a, b)| a == b).count();
    let mut parts = vec![".."; here.len() - shared];
    parts.extend(&there[shared..]);
    parts.join("/")
}

fn line_after(text: &str, offset: u32) -> u32 {
    let rest = text.get(offset as usize..).unwrap_or("");
    rest.find('\n').map_or(text.len() as u32, |n| offset + n as u32 + 1)
}

/// Past the remarks a file opens with, where an empty line ends them.
fn after_remarks(text: &str) -> u32 {
    let mut at = 0;
    for line in text.split_inclusive('\n') {
        if line.trim().is_empty() && at > 0 {
            return at as u32 + line.len() as u32;
        }
        if !line.trim_start().starts_with("//") {
            break;
        }
        at += line.len();
    }
    0
}
