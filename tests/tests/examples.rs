//! Every file under `examples/`: the first line of each names the findings it must give, and it gives those and no other.
//!
//! The first line is `// finds: NAME @ LINE, NAME @ LINE` or `// finds: nothing`. A finding in another file is named by
//! that file: `NAME @ FILE.wythe`. Information counts only where the line names it. Set `EXAMPLES` to a part of a path
//! to try some files only.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use wythe_findings::{Finding, Severity, all_pages};
use wythe_project::{Disk, Project, SourcePath, built_in_packs};
use wythe_source::LineTable;

/// Codes that no single source can show; the crates that give them show each in a test of their own. Those of the
/// folders `bill` and `climate` are not given by a check alone, and are shown where a house is taken off or assessed.
const NOT_BY_A_FILE: [&str; 8] = [
    "baseline_expired",
    "baseline_unmatched",
    "baseline_unreadable",
    "file_too_large",
    "file_unreadable",
    "internal_error",
    "link_outside",
    "too_many_findings",
];

fn examples() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().join("examples")
}

/// Files with an ending below a folder, in order.
fn files(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display())) {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else if path.to_string_lossy().ends_with(ending) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// What a first line names.
fn expected(path: &Path) -> Result<Vec<String>, String> {
    let bytes = fs::read(path).map_err(|e| e.to_string())?;
    let text = String::from_utf8_lossy(&bytes);
    let first = text.lines().next().unwrap_or_default();
    let list = first.split_once("finds: ").ok_or_else(|| "the first line does not say `// finds: …`".to_owned())?.1;
    let mut names: Vec<String> =
        if list == "nothing" { Vec::new() } else { list.split(", ").map(str::to_owned).collect() };
    names.sort();
    Ok(names)
}

/// A finding as a first line names it.
fn named(project: &Project, finding: &Finding, here: &str) -> String {
    let span = finding.primary.span;
    let file = project.name(span.file);
    if file == here {
        let text = match project.text(span.file) {
            "" => String::from_utf8_lossy(&fs::read(examples().join(here)).unwrap_or_default()).into_owned(),
            text => text.to_owned(),
        };
        return format!("{} @ {}", finding.name.as_str(), LineTable::new(&text).line_of(span.start) + 1);
    }
    format!("{} @ {}", finding.name.as_str(), file.rsplit('/').next().unwrap_or(&file))
}

/// Checks a project and compares; what differs, in words.
fn compare(project: &mut Project, here: &str, mut due: Vec<String>) -> Option<String> {
    project.check_affected();
    let all = project.findings();
    let mut found = Vec::new();
    for finding in &all {
        let name = named(project, finding, here);
        if finding.severity != Severity::Information || due.contains(&name) {
            found.push(name);
        }
    }
    found.sort();
    due.sort();
    (found != due).then(|| {
        let said: Vec<String> = all.iter().map(|f| format!("    {}: {}", named(project, f, here), f.title)).collect();
        format!("{here}\n  due:   {}\n  found: {}\n{}", due.join(", "), found.join(", "), said.join("\n"))
    })
}

fn differences(paths: &[PathBuf]) -> Vec<String> {
    let root = examples();
    let part = std::env::var("EXAMPLES").unwrap_or_default();
    let mut out = Vec::new();
    for path in paths.iter().filter(|p| p.to_string_lossy().contains(&part)) {
        let here = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
        let due = match expected(path) {
            Ok(due) => due,
            Err(why) => {
                out.push(format!("{here}: {why}"));
                continue;
            }
        };
        let mut project = Project::open(Disk::new(&root).unwrap());
        project.add(SourcePath::resolve(&SourcePath::root(), &here).unwrap());
        out.extend(compare(&mut project, &here, due));
    }
    out
}

fn hold(differences: &[String]) {
    assert!(differences.is_empty(), "{} files differ\n{}", differences.len(), differences.join("\n"));
}

#[test]
fn each_mistake_gives_its_finding_and_no_other() {
    let root = examples().join("mistakes");
    let plain: Vec<PathBuf> =
        files(&root, ".wythe").into_iter().filter(|p| p.parent() == Some(root.as_path())).collect();
    assert!(plain.len() >= 80, "{} mistakes", plain.len());
    hold(&differences(&plain));
}

#[test]
fn each_clean_file_gives_none() {
    hold(&differences(&files(&examples().join("clean"), ".wythe")));
}

#[test]
fn each_rule_passes_and_fails_as_it_should() {
    hold(&differences(&files(&examples().join("packs"), ".wythe")));
}

#[test]
fn each_faulty_manifest_gives_its_finding() {
    for manifest in files(&examples().join("mistakes").join("manifests"), "wythe.toml") {
        let mut project = Project::open(Disk::new(manifest.parent().unwrap()).unwrap());
        project.add_all();
        let due = expected(&manifest).unwrap();
        hold(&compare(&mut project, "wythe.toml", due).into_iter().collect::<Vec<_>>());
    }
}

#[test]
fn cedar_row_is_clean() {
    let mut project = Project::open(Disk::new(&examples().join("cedar_row")).unwrap());
    project.add_all();
    project.check_affected();
    assert!(project.roots().count() >= 16);
    let grave: Vec<String> = project
        .findings()
        .iter()
        .filter(|f| f.severity != Severity::Information)
        .map(|f| format!("{}: {} {}", project.name(f.primary.span.file), f.name.as_str(), f.title))
        .collect();
    hold(&grave);
}

#[test]
fn every_code_has_a_mistake() {
    let root = examples().join("mistakes");
    let mut shown = BTreeSet::new();
    for path in files(&root, ".wythe").iter().chain(&files(&root, "wythe.toml")) {
        let due = expected(path).unwrap_or_default();
        shown.extend(due.iter().filter_map(|d| d.split(' ').next()).map(str::to_owned));
    }
    let missing: Vec<&str> = all_pages()
        .filter(|p| p.area != "bill")
        .map(|p| p.name)
        .filter(|n| !shown.contains(*n) && !NOT_BY_A_FILE.contains(n))
        .collect();
    assert!(missing.is_empty(), "no mistake shows: {}", missing.join(", "));
}

/// The rules of a pack, and the amendments that ask for something else.
fn rules_of(text: &str) -> Vec<&str> {
    let mut rules = Vec::new();
    for declaration in text.split("\n}") {
        let asks = declaration.contains("\n    require ");
        let head = declaration.lines().filter(|line| line.ends_with('{')).find_map(|line| {
            let rule = line.strip_prefix("pub rule ").or_else(|| line.strip_prefix("rule "));
            rule.or_else(|| line.strip_prefix("amend ").filter(|_| asks))
        });
        rules.extend(head.map(|h| h.trim_end_matches('{').trim()));
    }
    rules
}

#[test]
fn every_rule_has_a_passing_and_a_failing_file() {
    let mut missing = Vec::new();
    for (pack, text) in built_in_packs() {
        for rule in rules_of(text) {
            for verdict in ["pass", "fail"] {
                let path = examples().join("packs").join(pack).join(format!("{rule}.{verdict}.wythe"));
                match expected(&path) {
                    Err(why) => missing.push(format!("{pack}/{rule}.{verdict}: {why}")),
                    Ok(due) => {
                        let said = due.iter().any(|d| d.split(' ').next() == Some(rule));
                        if said != (verdict == "fail") {
                            missing.push(format!("{pack}/{rule}.{verdict}: names its rule: {said}"));
                        }
                    }
                }
            }
        }
    }
    assert!(missing.is_empty(), "{}", missing.join("\n"));
}
