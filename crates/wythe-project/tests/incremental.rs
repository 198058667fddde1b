//! What is kept between two checks never shows: after any edits, the findings are those of a fresh check.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::BTreeMap;

use wythe_findings::Finding;
use wythe_project::{Judged, Memory, Project, SourcePath, Task, run};
use wythe_source::FileId;

fn path(text: &str) -> SourcePath {
    SourcePath::resolve(&SourcePath::root(), text).unwrap()
}

/// A finding as text, free of file numbers, which depend on the order files were met in.
fn shown(project: &Project, finding: &Finding) -> String {
    let place = finding.primary.span;
    let name = project.name(place.file);
    let related: Vec<_> =
        finding.related.iter().map(|l| format!("{}:{}", project.name(l.span.file), l.span.start)).collect();
    format!("{name}:{} {} {} {related:?}", place.start, finding.name.as_str(), finding.title)
}

fn all(project: &Project) -> Vec<String> {
    project.findings().iter().map(|f| shown(project, f)).collect()
}

fn fresh(files: &BTreeMap<&str, &str>, manifest: &str) -> Vec<String> {
    let mut memory = Memory::new(files.iter().map(|(p, t)| (*p, *t)));
    memory.put(path("wythe.toml"), manifest.as_bytes().to_vec());
    let mut project = Project::open(memory);
    for name in files.keys() {
        project.add(path(name));
    }
    project.check_affected();
    all(&project)
}

const LIBRARY: &str = "pub let depth = 12 in\npub let wide: Length = 3 ft\n";
const HOUSE: &str = "use \"library.wythe\": depth, wide\nlet a = depth + wide\nlet b: Length = a\n";

/// A text given to a file, or taken away with `None`, and then another, and so on.
const EDITS: [(&str, Option<&str>); 14] = [
    ("library.wythe", Some("pub let depth = 12 psf\npub let wide: Length = 3 ft\n")),
    ("house.wythe", Some("use \"library.wythe\": depth, wide\nlet a = depth + depth\nlet b: Length = a\n")),
    ("library.wythe", Some(LIBRARY)),
    ("library.wythe", Some("// moved down\npub let wide: Length = 3 ft\nlet depth = 12 in\n")),
    ("other.wythe", Some("use \"house.wythe\"\nlet c = 3 lost\n")),
    ("library.wythe", Some("use \"house.wythe\": a\npub let depth = 12 in\npub let wide = 3 in\n")),
    ("house.wythe", Some("use \"missing.wythe\"\npub let a = 3 in\n")),
    ("missing.wythe", Some("pub let late = 1 in\n")),
    ("house.wythe", Some("use \"missing.wythe\": late\npub let a = late * 2\nlet broken = (\n")),
    ("missing.wythe", None),
    ("library.wythe", None),
    ("library.wythe", Some(LIBRARY)),
    ("other.wythe", None),
    ("house.wythe", Some(HOUSE)),
];

#[test]
fn any_edits_end_where_a_fresh_check_ends() {
    let mut files = BTreeMap::from([("house.wythe", HOUSE), ("library.wythe", LIBRARY)]);
    let mut project = Project::open(Memory::default());
    for (name, text) in &files {
        project.set_text(path(name), *text);
    }
    project.check_affected();
    assert_eq!(all(&project), [""; 0]);
    let mut ever_faulty = false;
    for (name, text) in EDITS {
        match text {
            Some(text) => {
                files.insert(name, text);
                project.set_text(path(name), text);
            }
            None => {
                files.remove(name);
                project.close(&path(name));
                project.drop_root(&path(name));
            }
        }
        let before: BTreeMap<_, _> = project.roots().map(|f| (f, project.findings_in(f))).collect();
        let reports = project.check_affected();
        assert_eq!(all(&project), fresh(&files, ""), "after {name}: {text:?}");
        for file in project.roots() {
            let differs = before.get(&file).is_some_and(|old| *old != project.findings_in(file));
            assert!(!differs || reports.iter().any(|r| r.file == file), "{} was not reported", project.name(file));
        }
        ever_faulty |= !all(&project).is_empty();
    }
    assert!(ever_faulty, "the edits bring no fault about, so that this test shows nothing");
}

/// Brings a project to rest as an editor does: what is open first, the rest bit by bit, judgements beside the project
/// from its state at the time. With `hasty`, the judgements come back only after the next change.
fn bit_by_bit(project: &mut Project, open: &[FileId], late: &mut Vec<Judged>, hasty: bool) {
    project.check_first(open);
    for judged in std::mem::take(late) {
        project.take(judged);
    }
    if hasty {
        late.extend(project.tasks(open, 1).into_iter().map(Task::run));
        return;
    }
    while project.check_more().is_continue() {}
    while project.waiting() > 0 {
        let tasks = project.tasks(open, 2);
        assert!(!tasks.is_empty(), "files wait that nobody works on");
        for task in tasks {
            project.take(task.run());
        }
    }
}

#[test]
fn what_is_checked_bit_by_bit_is_checked_all_the_same() {
    let mut files = BTreeMap::from([("house.wythe", HOUSE), ("library.wythe", LIBRARY)]);
    let mut project = Project::open(Memory::default());
    for (name, text) in &files {
        project.set_text(path(name), *text);
    }
    let mut late = Vec::new();
    for round in 0..3 {
        for (at, (name, text)) in EDITS.iter().enumerate() {
            match text {
                Some(text) => {
                    files.insert(name, text);
                    project.set_text(path(name), *text);
                }
                None => {
                    files.remove(name);
                    project.close(&path(name));
                    project.drop_root(&path(name));
                }
            }
            let open: Vec<FileId> = project.find(&path(name)).filter(|_| text.is_some()).into_iter().collect();
            let hasty = (at + round) % 3 == 0;
            bit_by_bit(&mut project, &open, &mut late, hasty);
            if !hasty {
                assert_eq!(all(&project), fresh(&files, ""), "round {round}, after {name}: {text:?}");
            }
        }
    }
}

#[test]
fn what_was_judged_stands_at_its_place_until_it_is_judged_again() {
    let text = "let a = 1 in\ntest \"t\" {\n    expect a == 2 in\n}\n";
    let mut project = Project::open(Memory::default());
    let file = project.set_text(path("h.wythe"), text);
    project.check_affected();
    let places = |project: &Project| {
        let found = project.findings_in(file);
        found.iter().map(|f| f.primary.span.text(project.text(file)).to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(places(&project), ["a == 2 in"]);
    project.set_text(path("h.wythe"), format!("// One line more.\n{text}"));
    let reports = project.check_first(&[file]);
    assert_eq!(reports.len(), 1);
    assert_eq!(places(&project), ["a == 2 in"]);
    // Written over, it is let go until it is known again.
    project.set_text(path("h.wythe"), text.replace("a == 2", "a == 3"));
    project.check_first(&[file]);
    let tasks = project.tasks(&[file], 1);
    assert_eq!(tasks.len(), 1);
    project.set_text(path("h.wythe"), text.replace("a == 2", "a == 1"));
    project.check_first(&[file]);
    for task in tasks {
        // Made of a text that is no more, so it counts for nothing.
        assert!(project.take(task.run()).is_empty());
    }
    assert_eq!(project.waiting(), 1);
    project.check_affected();
    assert_eq!(places(&project), [""; 0]);
}

#[test]
fn an_edit_rechecks_only_what_builds_on_it() {
    let mut project = Project::open(Memory::default());
    project.set_text(path("library.wythe"), LIBRARY);
    let house = project.set_text(path("house.wythe"), HOUSE);
    let apart = project.set_text(path("apart.wythe"), "let a = 1 in\n");
    project.check_affected();
    let program = project.program().clone();
    project.set_text(path("library.wythe"), "pub let depth = 13 in\npub let wide: Length = 3 ft\n");
    project.check_affected();
    let same = |file| std::sync::Arc::ptr_eq(program.checked(file).unwrap(), project.program().checked(file).unwrap());
    assert!(same(apart) && !same(house));
    assert!(program.module(house).is_some(), "a snapshot stays as it was");
}

#[test]
fn the_count_of_threads_does_not_show() {
    let files: Vec<(String, String)> = (0..40)
        .map(|n| {
            (format!("h{n}.wythe"), format!("use \"h{}.wythe\"\npub let a{n} = 1 in + {n} psf\nlet x = lost\n", n / 2))
        })
        .collect();
    let found = |threads: usize| {
        run(threads, || {
            let mut project = Project::open(Memory::new(files.iter().map(|(p, t)| (p.as_str(), t.as_str()))));
            project.add_all();
            project.check_affected();
            format!("{:?}", project.findings())
        })
    };
    let one = found(1);
    assert!(one.len() > 1_000);
    for threads in [2, 7] {
        assert_eq!(found(threads), one);
    }
}

#[test]
fn files_in_a_circle_are_named_with_every_line_of_it() {
    let mut project = Project::open(Memory::new([
        ("a.wythe", "use \"b.wythe\": b\npub let a = 1 in\n"),
        ("b.wythe", "// b\nuse \"c.wythe\": c\npub let b = 1 in\n"),
        ("c.wythe", "use \"a.wythe\": a\npub let c = 1 in\n"),
        ("self.wythe", "use \"self.wythe\"\n"),
    ]));
    project.add_all();
    project.check_affected();
    assert_eq!(
        all(&project),
        [
            r#"a.wythe:0 use_cycle files use each other in a circle ["b.wythe:5", "c.wythe:0"]"#,
            "self.wythe:0 use_cycle a file uses itself []",
        ]
    );
}

#[test]
fn the_manifest_weighs_findings_and_lends_libraries() {
    let manifest = "libraries = [\"shared\"]\ncodes = [\"local\", \"nowhere\"]\n[severity]\nunknown_unit = \"off\"\nodd = \"off\"\n";
    let files = BTreeMap::from([
        ("shared/lib.wythe", "pub let a = 1 in\n"),
        ("codes/local.wythe", "// rules\n"),
        ("h.wythe", "use \"lib.wythe\": a\nuse code local\nlet b = a + 1 in\n"),
    ]);
    assert_eq!(
        fresh(&files, manifest),
        [
            "wythe.toml:41 unknown_pack there is no code pack `nowhere` []",
            "wythe.toml:63 severity_fixed `unknown_unit` is always an error []",
            "wythe.toml:84 unknown_code no finding is called `odd` []",
        ]
    );
}
