//! A check that lets files go finds what a check that keeps them finds.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use wythe_project::{Memory, Project};

fn plans() -> Vec<(String, String)> {
    let mut files = vec![
        ("library.wythe".to_owned(), "pub let gap = 3 in\nlet private = 1 in\n".to_owned()),
        ("used.wythe".to_owned(), "use \"library.wythe\": gap\npub let twice = gap * 2 + 1 s\n".to_owned()),
    ];
    for number in 0..300 {
        let text = match number % 3 {
            0 => format!("use \"library.wythe\": gap\nlet a{number} = gap + 1 in\n"),
            1 => format!("use \"library.wythe\": private\nlet b{number} = lost_{number}\n"),
            _ => format!("use \"used.wythe\": twice\nlet c{number} = twice + R-10\n"),
        };
        files.push((format!("houses/h{number:03}.wythe"), text));
    }
    files
}

#[test]
fn what_is_let_go_is_checked_all_the_same() {
    let files = plans();
    let open = || Project::open(Memory::new(files.iter().map(|(path, text)| (path.as_str(), text.as_str()))));
    let mut kept = open();
    kept.add_all();
    kept.check_affected();
    let mut let_go = open();
    let_go.add_all();
    let found = let_go.check_in_turn();
    let shown = |project: &Project, findings: &[wythe_findings::Finding]| -> Vec<String> {
        let line = |f: &wythe_findings::Finding| {
            let span = f.primary.span;
            format!("{} {:?} {} {}", project.name(span.file), span.range(), f.name, f.title)
        };
        findings.iter().map(line).collect()
    };
    assert_eq!(shown(&let_go, &found), shown(&kept, &kept.findings()));
    assert!(found.len() > 200, "{}", found.len());
    assert_eq!(let_go.roots().count(), kept.roots().count());
    for finding in &found {
        assert!(!let_go.text(finding.primary.span.file).is_empty(), "{finding:?}");
    }
}
