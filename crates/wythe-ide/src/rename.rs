//! Renaming across files, refused where it would not be safe.

use wythe_findings::Edit;
use wythe_project::{Origin, Project, library_folder};
use wythe_sema::{Prelude, Target};
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::keywords::Keyword;

use crate::occurrence;

/// The name at an offset that can be renamed, and its text.
pub fn prepare(project: &Project, file: FileId, offset: u32) -> Result<(Span, String), String> {
    let program = project.program();
    let (span, target) = occurrence::at(program, file, offset).ok_or("there is no name here")?;
    let declared = occurrence::declared_at(program, target).ok_or("its declaration is not known")?;
    if declared.file == Prelude::FILE {
        return Err("it belongs to the language".into());
    }
    if project.entry(declared.file).is_some_and(|e| e.origin == Origin::BuiltIn) {
        return Err("it belongs to a code pack that comes with Wythe".into());
    }
    if project.entry(declared.file).is_some_and(|e| library_folder(&e.path).is_some()) {
        return Err("it belongs to a library, which is changed at its source".into());
    }
    Ok((span, project.text(file).get(span.range()).unwrap_or("").to_owned()))
}

/// The edits that rename what stands at an offset.
pub fn rename(project: &Project, file: FileId, offset: u32, new: &str) -> Result<Vec<Edit>, String> {
    let (span, old) = prepare(project, file, offset)?;
    let program = project.program();
    let (_, target) = occurrence::at(program, file, offset).ok_or("there is no name here")?;
    valid(&old, new)?;
    if new == old {
        return Ok(Vec::new());
    }
    if let Some(other) = conflict(project, target, Symbol::new(new)) {
        return Err(format!("`{new}` is already a name {other}"));
    }
    // A place that names it by an alias keeps the alias.
    let places = occurrence::everywhere(project, target);
    let same = places.into_iter().filter(|s| project.text(s.file).get(s.range()) == Some(old.as_str()));
    let edits: Vec<Edit> = same.map(|span| Edit { span, text: new.to_owned() }).collect();
    if !edits.iter().any(|e| e.span == span) {
        return Err("this place is not named by its own name".into());
    }
    Ok(edits)
}

fn valid(old: &str, new: &str) -> Result<(), String> {
    let plain = new.chars().all(|c| c.is_ascii_alphanumeric() || c == '_');
    let first = new.chars().next();
    let capital = old.starts_with(|c: char| c.is_ascii_uppercase());
    let fits = first.is_some_and(|c| if capital { c.is_ascii_uppercase() } else { c.is_ascii_lowercase() || c == '_' });
    if !plain || !fits {
        let due = if capital { "a capital letter" } else { "a small letter" };
        return Err(format!("a name is letters, digits and `_`, and this one begins with {due}"));
    }
    match Keyword::find(new) {
        Some(_) => Err(format!("`{new}` is a word of the language")),
        None => Ok(()),
    }
}

/// Where the new name is taken: in the declaring file, or in a file that uses what is renamed.
fn conflict(project: &Project, target: Target, new: Symbol) -> Option<String> {
    let program = project.program();
    match target {
        Target::Def(_) => {
            let files = occurrence::everywhere(project, target).into_iter().map(|s| s.file);
            for file in files {
                let data = program.module(file)?;
                if data.declared.names.contains_key(&new) {
                    return Some(format!("in {}", project.name(file)));
                }
            }
            program.prelude.def_of(new).map(|_| "of the language".to_owned())
        }
        Target::Part(def, _) => {
            let names = (0..).map_while(|i| occurrence::part(program, def, i));
            names.into_iter().any(|i| i.name == new).then(|| format!("of {}", program.name_of(def)))
        }
        Target::Local(span) => {
            let all = occurrence::occurrences(program, span.file);
            let decl = program.module(span.file)?.module.decls.iter().find(|d| d.span.holds(span))?.span;
            let taken = all.iter().any(|(s, t)| {
                decl.holds(*s) && *t != target && project.text(span.file).get(s.range()) == Some(new.as_str())
            });
            taken.then(|| "in this declaration".to_owned())
        }
    }
}
