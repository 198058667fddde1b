//! A baseline holds old findings and no new ones, over lines that move, and says what of it is stale.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use jiff::civil::date;
use wythe_findings::Finding;
use wythe_project::{Baseline, Grant, Memory, Project, SourcePath};
use wythe_source::FileId;

const FAULTY: &str = "unit sheet\nlet a = 1 / 0\nlet b = 2 / 0\n";

fn check(text: &str) -> (Project, Vec<Finding>) {
    let mut project = Project::open(Memory::new([("a.wythe", text)]));
    project.add(SourcePath::resolve(&SourcePath::root(), "a.wythe").unwrap());
    project.check_affected();
    let findings = project.findings();
    (project, findings)
}

fn names(findings: &[Finding]) -> Vec<&'static str> {
    findings.iter().map(|f| f.name.as_str()).collect()
}

fn taken(text: &str, grant: &Grant) -> Baseline {
    let (project, findings) = check(text);
    Baseline::default().rewritten(&findings, |f| project.name(f), grant)
}

fn held(baseline: &Baseline, text: &str, today: Option<jiff::civil::Date>) -> Vec<&'static str> {
    let (project, findings) = check(text);
    names(&baseline.apply(findings, |f: FileId| project.name(f), |_| true, today))
}

#[test]
fn old_findings_are_held_when_lines_move_and_new_ones_are_not() {
    let baseline = taken(FAULTY, &Grant::default());
    assert_eq!(names(&check(FAULTY).1), ["division_by_zero"; 2]);
    assert_eq!(held(&baseline, &format!("// one more line\n\n{FAULTY}"), None), [""; 0]);
    assert_eq!(held(&baseline, &format!("{FAULTY}let c = 3 / 0\n"), None), ["division_by_zero"]);
}

#[test]
fn the_file_says_what_the_baseline_says() {
    let grant =
        Grant { because: "a \"quoted\"\nreason".into(), who: "site lead".into(), until: Some(date(2026, 9, 30)) };
    let baseline = taken(FAULTY, &grant);
    let text = baseline.text();
    let read = Baseline::read(&text).unwrap();
    assert_eq!(read.text(), text);
    assert_eq!(held(&read, FAULTY, Some(date(2026, 9, 30))), [""; 0]);
}

#[test]
fn what_no_longer_stands_and_what_has_run_out_is_found() {
    let grant = Grant { until: Some(date(2026, 9, 30)), ..Grant::default() };
    let baseline = Baseline::read(&taken(FAULTY, &grant).text()).unwrap();
    assert_eq!(held(&baseline, "let a = 1 / 0\n", None), ["baseline_unmatched"]);
    let after = held(&baseline, FAULTY, Some(date(2026, 10, 1)));
    assert_eq!(after.iter().filter(|n| **n == "division_by_zero").count(), 2);
    assert!(after.contains(&"baseline_expired"), "{after:?}");
    let (project, findings) = check("let a = 1 / 0\n");
    let pruned = baseline.pruned(&findings, |f| project.name(f));
    assert_eq!(held(&pruned, "let a = 1 / 0\n", None), [""; 0]);
    assert_eq!(pruned.entries().count(), 1);
    // A reason once given outlives a new writing.
    let again = baseline.rewritten(&findings, |f| project.name(f), &Grant::default());
    assert!(again.entries().all(|(_, entry)| entry.until == Some(date(2026, 9, 30))));
}

#[test]
fn a_fault_that_leaves_the_meaning_in_doubt_is_not_taken() {
    assert_eq!(taken("let a = lost\n", &Grant::default()).entries().count(), 0);
}

#[test]
fn a_broken_baseline_is_a_finding_at_its_place() {
    for (text, word) in [
        ("form = 2\n", "form 1"),
        ("form = 1\n[[finding]]\nname = \"a\"\nfile = \"b\"\n", "title"),
        ("form = 1\nforn = 1\n", "forn"),
        ("form = \n", ""),
        ("form = 1\n[[finding]]\nname=\"a\"\nfile=\"b\"\ntitle=\"c\"\nuntil=2026-03-01T08:00:00\n", "day"),
    ] {
        let fault = Baseline::read(text).unwrap_err();
        assert_eq!(fault.name.as_str(), "baseline_unreadable");
        assert!(fault.primary.text.contains(word), "{text}: {}", fault.primary.text);
        assert!(text.get(fault.primary.span.range()).is_some());
    }
}
