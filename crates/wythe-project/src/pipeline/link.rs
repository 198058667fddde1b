//! Where the `use` lines of a file lead.

use std::collections::BTreeMap;

use wythe_findings::{Finding, codes};
use wythe_source::{FileId, Span, Symbol};
use wythe_syntax::ast::{Module, Use, UseTarget};

use crate::library::{LIBRARIES, folder_of, library_folder};
use crate::{FileEntry, Manifest, Origin, ReadFault, SourcePath, built_in};

/// Where the `use` lines of a file lead, in order.
#[derive(Clone, PartialEq, Debug, Default)]
pub(crate) struct Links {
    pub uses: Vec<Option<FileId>>,
    pub findings: Vec<Finding>,
}

/// What is known of a file a line may lead to.
pub(crate) enum Found {
    Present(FileId),
    Absent(ReadFault),
}

/// Where `use` lines look.
#[derive(Clone, Copy)]
pub(crate) struct Shelves<'a> {
    pub manifest: &'a Manifest,
    /// The folders that the files of a library look in, by the library's folder.
    pub of_libraries: &'a BTreeMap<SourcePath, Vec<SourcePath>>,
}

/// The files a `use` line of `from` may mean, the likeliest first. None where the path leads outside.
pub(crate) fn candidates(from: &FileEntry, line: &Use, shelves: Shelves<'_>) -> Vec<FileEntry> {
    match &line.target {
        UseTarget::Code(name) => code_candidates(from.origin, name.name),
        UseTarget::File { path, .. } => {
            let near = SourcePath::resolve(&from.path.folder(), path);
            match from.origin {
                Origin::BuiltIn => near.map(FileEntry::built_in).into_iter().collect(),
                Origin::Repository => in_repository(from, path, near, shelves),
            }
        }
    }
}

/// The files of the repository that a path may mean: near the file, then in the folders of libraries, then in the
/// library package that its first part names. What stands in a library reaches no file of the houses.
fn in_repository(from: &FileEntry, path: &str, near: Option<SourcePath>, shelves: Shelves<'_>) -> Vec<FileEntry> {
    let own = library_folder(&from.path);
    let inside_own = |found: &SourcePath| own.as_ref().is_none_or(|own| found.is_in(own));
    let near = near.filter(inside_own);
    let folders = match &own {
        None => Some(&shelves.manifest.libraries),
        Some(own) => shelves.of_libraries.get(own),
    };
    let far = folders.into_iter().flatten().filter_map(|folder| SourcePath::resolve(folder, path)).filter(inside_own);
    let named = path.split(['/', '\\']).next().unwrap_or("");
    let package = shelves.manifest.packages.iter().find(|library| library.name == named);
    let inside = package.and_then(|_| {
        let folder = SourcePath::resolve(&SourcePath::root(), LIBRARIES)?;
        SourcePath::resolve(&folder, path).filter(|found| library_folder(found) == folder_of(named))
    });
    near.into_iter().chain(far).chain(inside).map(FileEntry::repository).collect()
}

/// The files a code pack may stand in: the repository's own folder, then those that come with Wythe.
pub(crate) fn code_candidates(origin: Origin, name: Symbol) -> Vec<FileEntry> {
    let own = (origin == Origin::Repository)
        .then(|| SourcePath::resolve(&SourcePath::root(), &format!("codes/{name}.wythe")))
        .flatten()
        .map(FileEntry::repository);
    let built_in = SourcePath::resolve(&SourcePath::root(), &format!("{name}.wythe")).map(FileEntry::built_in);
    own.into_iter().chain(built_in).collect()
}

/// Leads each `use` line of a module to its file. `find` says what is known of a file.
pub(crate) fn link(
    from: &FileEntry,
    module: &Module,
    shelves: Shelves<'_>,
    find: impl Fn(&FileEntry) -> Found,
) -> Links {
    let mut links = Links::default();
    for line in &module.uses {
        let mut fault = None;
        let mut target = None;
        for candidate in candidates(from, line, shelves) {
            match find(&candidate) {
                Found::Present(file) => {
                    target = Some(file);
                    break;
                }
                // Of several faults, the one that is more than a mere absence is worth telling.
                Found::Absent(new) if fault.as_ref().is_none_or(|old| *old == ReadFault::NotFound) => fault = Some(new),
                Found::Absent(_) => {}
            }
        }
        links.uses.push(target);
        if target.is_none() {
            links.findings.push(nowhere(from, line, fault));
        }
    }
    links
}

fn nowhere(from: &FileEntry, line: &Use, fault: Option<ReadFault>) -> Finding {
    let (written, place) = match &line.target {
        UseTarget::Code(name) => return unknown_pack(name.name, name.span),
        UseTarget::File { path, path_span, .. } => (path, *path_span),
    };
    match fault {
        None if library_folder(&from.path).is_some() => {
            Finding::new(codes::USE_OUTSIDE, place, "this path leaves the library")
                .label("a library sees itself and other libraries, and no house")
                .mend("name a file of the library, or begin the path with the name of another")
        }
        None => Finding::new(codes::USE_OUTSIDE, place, "this path leaves the repository")
            .label("it leads above the repository's folder")
            .mend("bring the file into the repository, or name its folder as a library in `wythe.toml`; where this folder is part of a larger one, put a `wythe.toml` at its top"),
        Some(ReadFault::Outside) => Finding::new(codes::USE_OUTSIDE, place, "this path leaves the repository")
            .label("a link on the path leads outside")
            .mend("put the file itself in the place of the link"),
        Some(ReadFault::NotFound) => Finding::new(codes::USE_NOT_FOUND, place, format!("there is no file `{written}`"))
            .label("looked for from the folder of this file")
            .mend("correct the path, or add the file"),
        Some(fault) => Finding::new(codes::FILE_UNREADABLE, place, format!("`{written}` cannot be read"))
            .label(fault.to_string())
            .mend("give leave to read it, or put a plain file in its place"),
    }
}

/// Says that there is no such code pack.
pub(crate) fn unknown_pack(name: Symbol, place: Span) -> Finding {
    let mut known: Vec<&str> = built_in::built_in_packs().map(|(name, _)| name).collect();
    known.sort_unstable();
    let mut finding = Finding::new(codes::UNKNOWN_PACK, place, format!("there is no code pack `{name}`"))
        .label("neither in the repository's `codes` folder nor among those that come with Wythe");
    if let Some(near) = wythe_sema::closest(name.as_str(), known.iter().copied()) {
        finding = finding.mend(format!("did you mean `{near}`?")).fix(wythe_findings::Fix::needs_consent(
            format!("write `{near}`"),
            place,
            near,
        ));
    } else if !known.is_empty() {
        finding = finding.mend(format!("these come with Wythe: {}", known.join(", ")));
    }
    finding
}
