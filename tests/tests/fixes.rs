//! The fixes that findings offer, over every example: what `mend` keeps is gone and brings nothing new, and what is
//! offered as safe does what it says by itself.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::fs;
use std::path::{Path, PathBuf};

use wythe_findings::{Finding, Safety, Severity, apply_edits};
use wythe_project::{Disk, Project, SourcePath, mend};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../examples")
}

/// Every example that offers a fix, by path.
fn examples() -> Vec<String> {
    let mut found = Vec::new();
    for folder in ["mistakes", "packs"] {
        let mut open = vec![root().join(folder)];
        while let Some(folder) = open.pop() {
            for entry in fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    open.push(path);
                } else if path.extension().is_some_and(|e| e == "wythe") {
                    found.push(path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/"));
                }
            }
        }
    }
    found.sort();
    found
}

fn open(here: &str) -> (Project, SourcePath) {
    let mut project = Project::open(Disk::new(&root()).unwrap());
    let path = SourcePath::resolve(&SourcePath::root(), here).unwrap();
    project.add(path.clone());
    project.check_affected();
    (project, path)
}

/// The names of the errors, in order, each as often as it stands.
fn errors(findings: &[Finding]) -> Vec<&'static str> {
    let mut names: Vec<_> =
        findings.iter().filter(|f| f.severity == Severity::Error).map(|f| f.name.as_str()).collect();
    names.sort_unstable();
    names
}

/// What stands in the first list more often than in the second.
fn beyond<'n>(after: &[&'n str], before: &[&'n str]) -> Vec<&'n str> {
    let mut left = before.to_vec();
    let more = after.iter().filter(|name| match left.iter().position(|known| known == *name) {
        Some(at) => {
            left.swap_remove(at);
            false
        }
        None => true,
    });
    more.copied().collect()
}

#[test]
fn each_safe_fix_mends_what_it_is_offered_for_and_nothing_else_breaks() {
    let mut tried = 0;
    let mut wrong = Vec::new();
    for here in examples() {
        let (mut project, path) = open(&here);
        let before = project.findings();
        let file = project.find(&path).unwrap();
        let old = project.text(file).to_owned();
        for finding in before.iter().filter(|f| f.primary.span.file == file) {
            for fix in finding.fixes.iter().filter(|fix| fix.safety == Safety::Safe) {
                let edits = fix.resolve(|file| Some(project.text(file))).unwrap();
                let new = apply_edits(&old, &edits).unwrap();
                project.set_text(path.clone(), new);
                project.check_affected();
                let after = project.findings();
                let count = |all: &[Finding]| all.iter().filter(|f| f.name == finding.name).count();
                let new = beyond(&errors(&after), &errors(&before));
                if count(&after) >= count(&before) || !new.is_empty() {
                    wrong.push(format!("{here}: {} `{}`: {new:?} came", finding.name.as_str(), fix.title));
                }
                tried += 1;
                project.set_text(path.clone(), old.as_str());
                project.check_affected();
            }
        }
    }
    assert!(tried >= 6, "{tried} fixes");
    assert!(wrong.is_empty(), "{} of {tried} fixes\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn what_is_mended_is_gone_and_brings_nothing_new() {
    let mut made = 0;
    for here in examples() {
        let (mut project, _) = open(&here);
        let before = errors(&project.findings());
        let mended = mend(&mut project, true);
        let left = project.findings();
        let after = errors(&left);
        // A safe edit that is still offered would be one that was not made although it works, or works not.
        let offers = |f: &&Finding| f.fixes.iter().any(|fix| fix.safety == Safety::Safe);
        let open: Vec<_> = left.iter().filter(offers).map(|f| format!("{}: {}", f.name.as_str(), f.title)).collect();
        assert!(open.is_empty(), "{here}: {open:?} is still offered an edit");
        let new = beyond(&after, &before);
        assert!(new.is_empty(), "{here}: {new:?} came");
        made += mended.iter().map(|m| m.count).sum::<usize>();
        if !mended.is_empty() {
            assert_eq!(mend(&mut project, true), [], "{here}: a second run finds more to do");
        }
    }
    assert!(made >= 25, "{made} fixes made");
}

/// Numbers every line that has no comment of its own yet.
fn numbered(text: &str) -> String {
    let line = |(at, line): (usize, &str)| match line.trim() {
        "" | "}" => line.to_owned(),
        said if said.contains("//") || said.contains('"') && !said.ends_with(['"', '{', '}']) => line.to_owned(),
        _ => format!("{line} // line {at}"),
    };
    text.lines().enumerate().map(line).collect::<Vec<_>>().join("\n") + "\n"
}

/// The statement beside each number.
fn beside(text: &str) -> Vec<(&str, &str)> {
    let mut all: Vec<_> = text.lines().filter_map(|line| line.split_once(" // line ")).collect();
    for pair in &mut all {
        pair.0 = pair.0.trim();
    }
    all.sort_by_key(|(_, number)| number.parse::<usize>().unwrap_or(usize::MAX));
    all
}

#[test]
fn a_comment_stays_beside_the_layer_it_speaks_of() {
    let mut moves = 0;
    for here in examples() {
        let (mut project, path) = open(&here);
        let file = project.find(&path).unwrap();
        let text = numbered(project.text(file));
        project.set_text(path.clone(), text.as_str());
        project.check_affected();
        for finding in project.findings().iter().filter(|f| f.primary.span.file == file) {
            for fix in finding.fixes.iter().filter(|fix| !fix.moves.is_empty()) {
                let new = apply_edits(&text, &fix.resolve(|file| Some(project.text(file))).unwrap()).unwrap();
                assert_ne!(new, text, "{here}: `{}` does nothing", fix.title);
                assert_eq!(beside(&new), beside(&text), "{here}: `{}`", fix.title);
                moves += 1;
            }
        }
    }
    assert!(moves >= 4, "{moves} moves");
}
