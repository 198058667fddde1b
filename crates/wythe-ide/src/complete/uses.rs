//! `use` lines: paths, code packs, and the public names of the file named.

use wythe_project::{LIBRARIES, Origin, Project, SourcePath, built_in_packs};
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::Kind;

use super::import::relative;
use super::{Asked, Completion, Item, ItemKind, expression};

/// The paths that may stand in the text a `use` line begins with; nothing where the cursor is elsewhere.
pub(super) fn path(project: &Project, file: FileId, text: &str, offset: u32) -> Option<Completion> {
    let before = text.get(..offset as usize)?;
    let line = &before[before.rfind('\n').map_or(0, |n| n + 1)..];
    let rest = line.strip_prefix("use \"")?;
    if rest.contains('"') {
        return None;
    }
    let from = &project.entry(file)?.path;
    let items = project.program().files().into_iter().filter(|other| *other != file).filter_map(|other| {
        let entry = project.entry(other)?;
        (entry.origin == Origin::Repository).then(|| Item::new(relative(from, &entry.path), ItemKind::File, 0))
    });
    let mut items: Vec<Item> = items.filter(|i| super::fits(&i.label, rest)).collect();
    items.sort_by(|a, b| a.label.cmp(&b.label));
    Some(Completion { replaces: Span::new(file, offset - rest.len() as u32, offset), items })
}

/// After `use`: packs; after the colon: names.
pub(super) fn names(asked: &Asked<'_>) -> Vec<Item> {
    let statement = asked.cursor.statement();
    match statement.get(1) {
        None => vec![
            Item::new("code", ItemKind::Keyword, 0).inserts("code $0").docs("a code pack by its name"),
            Item::new("\"path\"", ItemKind::File, 0).inserts("\"$1\": $0").docs("names of another file"),
        ],
        Some(code) if code.kind == Kind::Name => packs(asked.project),
        Some(_) if statement.iter().any(|t| t.kind == Kind::Colon) => public(asked),
        Some(_) => Vec::new(),
    }
}

fn packs(project: &Project) -> Vec<Item> {
    let mut names: Vec<String> = built_in_packs().map(|(name, _)| name.to_owned()).collect();
    for file in project.program().files() {
        if let Some(entry) = project.entry(file)
            && entry.path.folder().as_str().split('/').any(|part| part == "codes")
        {
            names.push(entry.path.stem().to_owned());
        }
    }
    names.sort();
    names.dedup();
    names.into_iter().map(|n| Item::new(n, ItemKind::File, 0).detail("code pack")).collect()
}

fn public(asked: &Asked<'_>) -> Vec<Item> {
    let program = asked.project.program();
    let statement = asked.cursor.statement();
    let written = statement.get(1).map_or("", |t| asked.cursor.text_of(t)).trim_matches('"');
    let Some(target) = target(asked, written) else { return Vec::new() };
    let taken: Vec<_> = statement.iter().skip(2).map(|t| Symbol::new(asked.cursor.text_of(t))).collect();
    let Some(other) = program.module(target) else { return Vec::new() };
    let mut out = Vec::new();
    for (name, &index) in &other.declared.names {
        if !other.module.decls[index as usize].public || taken.contains(name) {
            continue;
        }
        let def = wythe_sema::DefId { file: target, index };
        let mut item =
            expression::named(asked, *name, def).unwrap_or_else(|| Item::new(name.as_str(), ItemKind::Declaration, 0));
        item.insert = name.to_string();
        item.snippet = false;
        out.push(item);
    }
    out
}

/// The file a path leads to from the file at hand, or from the folders of libraries.
fn target(asked: &Asked<'_>, written: &str) -> Option<FileId> {
    let from = asked.project.entry(asked.file)?.path.folder();
    let folders = std::iter::once(&from).chain(&asked.project.manifest().libraries);
    let library = SourcePath::resolve(&SourcePath::root(), LIBRARIES);
    let folders = folders.chain(&library);
    let mut found = folders.filter_map(|f| asked.project.find(&SourcePath::resolve(f, written)?));
    found.find(|file| asked.project.program().module(*file).is_some())
}
