//! The Cedar Row repository in memory, with one file written for the test. `$0` marks the cursor.

use std::path::Path;

use wythe_findings::Edit;
use wythe_project::{Memory, Project, SourcePath};
use wythe_source::{FileId, LineTable, Span};

/// A checked repository and a place in it.
pub struct Fixture {
    pub project: Project,
    pub file: FileId,
    pub offset: u32,
}

/// A path of the repository.
pub fn path(text: &str) -> SourcePath {
    SourcePath::resolve(&SourcePath::root(), text).unwrap()
}

/// Cedar Row with `houses/probe.wythe` as given.
pub fn probe(text: &str) -> Fixture {
    at("houses/probe.wythe", text)
}

/// Cedar Row with a file as given.
pub fn at(name: &str, text: &str) -> Fixture {
    let offset = text.find("$0").unwrap_or(0);
    let text = text.replacen("$0", "", 1);
    let mut project = Project::open(cedar_row());
    project.add_all();
    let file = project.set_text(path(name), text);
    project.check_affected();
    Fixture { project, file, offset: offset as u32 }
}

/// Cedar Row as it stands, with the cursor before the first place where `mark` stands in a file, plus `into` bytes.
pub fn in_file(name: &str, mark: &str, into: usize) -> Fixture {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/cedar_row");
    let text = std::fs::read_to_string(root.join(name)).unwrap();
    let offset = text.find(mark).unwrap_or_else(|| panic!("`{mark}` stands in {name}")) + into;
    let mut project = Project::open(cedar_row());
    project.add_all();
    let file = project.set_text(path(name), text);
    project.check_affected();
    Fixture { project, file, offset: offset as u32 }
}

fn cedar_row() -> Memory {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/cedar_row");
    let mut memory = Memory::default();
    add(&root, &root, &mut memory);
    memory
}

fn add(root: &Path, folder: &Path, memory: &mut Memory) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let entry = entry.unwrap().path();
        if entry.is_dir() {
            add(root, &entry, memory);
        } else {
            memory.put(SourcePath::below(root, &entry).unwrap(), std::fs::read(&entry).unwrap());
        }
    }
}

impl Fixture {
    /// The whole file as a range.
    pub fn whole(&self) -> Span {
        Span::new(self.file, 0, self.project.text(self.file).len() as u32)
    }

    /// A span drawn under its line.
    pub fn drawn(&self, span: Span) -> String {
        let text = self.project.text(span.file);
        let lines = LineTable::new(text);
        let line = lines.line_of(span.start);
        let range = lines.line_range(line, text).unwrap();
        let from = text[range.start..span.start as usize].chars().count();
        let until = (span.end as usize).min(range.end);
        let width = text[span.start as usize..until].chars().count().max(1);
        let more = if span.end as usize > range.end { "…" } else { "" };
        let name = if span.file == self.file { String::new() } else { format!("{}:\n", self.project.name(span.file)) };
        format!("{name}{}\n{}{}{more}", &text[range], " ".repeat(from), "^".repeat(width))
    }

    /// The text of a file with edits made.
    pub fn after(&self, edits: &[Edit]) -> String {
        let here: Vec<Edit> = edits.iter().filter(|e| e.span.file == self.file).cloned().collect();
        wythe_findings::apply_edits(self.project.text(self.file), &here).expect("the edits do not overlap")
    }
}
