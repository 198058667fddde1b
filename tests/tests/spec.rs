//! Every example of the language reference, run.
//!
//! The marks of a block are told in `spec/README.md`.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use wythe_eval::{Evaluator, show};
use wythe_findings::Severity;
use wythe_project::{Memory, Project, SourcePath};
use wythe_sema::DefId;
use wythe_source::LineTable;
use wythe_syntax::ast::DeclKind;

struct Example {
    line: usize,
    marks: String,
    text: String,
}

fn examples(chapter: &str) -> Vec<Example> {
    let mut out = Vec::new();
    let mut open: Option<Example> = None;
    for (number, line) in chapter.lines().enumerate() {
        match (&mut open, line.strip_prefix("```")) {
            (None, Some(marks)) => {
                open = Some(Example { line: number + 1, marks: marks.to_owned(), text: String::new() })
            }
            (Some(_), Some(_)) => out.extend(open.take()),
            (Some(example), None) => {
                example.text.push_str(line);
                example.text.push('\n');
            }
            (None, None) => {}
        }
    }
    out.retain(|e| e.marks.split(' ').next() == Some("wythe"));
    out
}

fn mark<'a>(marks: &'a str, key: &str) -> Option<&'a str> {
    marks.split(' ').find_map(|m| m.strip_prefix(key)?.strip_prefix('='))
}

/// What an example gives: the names of its findings but information, and values that are not as stated.
fn run(files: &BTreeMap<String, String>, name: &str) -> (Vec<String>, Vec<String>) {
    let sources = Memory::new(files.iter().map(|(k, v)| (k.as_str(), v.as_str())));
    let mut project = Project::open(sources);
    let path = SourcePath::resolve(&SourcePath::root(), name).expect("the name of an example is a path");
    let file = project.add(path);
    project.check_affected();
    let found = project.findings_in(file);
    let names =
        found.iter().filter(|f| f.severity > Severity::Information).map(|f| f.name.as_str().to_owned()).collect();
    let mut wrong = Vec::new();
    let text = project.text(file).to_owned();
    let lines = LineTable::new(&text);
    let mut evaluator = Evaluator::new(project.program());
    let data = project.program().module(file).expect("the example is read");
    for (index, decl) in data.module.decls.iter().enumerate() {
        if !matches!(decl.kind, DeclKind::Let(_)) {
            continue;
        }
        let range = lines.line_range(lines.line_of(decl.span.start), &text).expect("the line is there");
        let Some((_, stated)) = text[range].split_once("// = ") else { continue };
        let value = evaluator.value(DefId { file, index: index as u32 });
        let shown = show(&value, project.program(), &Default::default());
        if shown != stated.trim() {
            wrong.push(format!("`{}` is {shown}, not {stated}", decl.name.name));
        }
    }
    (names, wrong)
}

#[test]
fn every_example_gives_what_it_says() {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../spec");
    let mut faults = Vec::new();
    let mut count = 0;
    let mut chapters: Vec<_> = fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
    chapters.sort();
    for path in chapters.iter().filter(|p| p.extension().is_some_and(|e| e == "md")) {
        let chapter = fs::read_to_string(path).unwrap();
        let mut files = BTreeMap::new();
        for example in examples(&chapter) {
            count += 1;
            let name = mark(&example.marks, "file").unwrap_or("example.wythe").to_owned();
            files.insert(name.clone(), example.text);
            let due: Vec<&str> = mark(&example.marks, "finds").map(|f| f.split(',').collect()).unwrap_or_default();
            let (found, wrong) = run(&files, &name);
            let place = format!("{}:{}", path.file_name().unwrap().to_string_lossy(), example.line);
            if found != due {
                faults.push(format!("{place} gives {found:?}, not {due:?}"));
            }
            faults.extend(wrong.into_iter().map(|w| format!("{place}: {w}")));
        }
    }
    assert!(count > 20, "only {count} examples found");
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
