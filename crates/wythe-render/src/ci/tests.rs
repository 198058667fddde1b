//! What each form makes of hostile names and texts. The whole of SARIF is held to its schema where the command is tested.

use wythe_findings::{Finding, Fix, codes};
use wythe_source::{FileId, Span, Symbol};

use super::{Checked, github, gitlab, junit, rdjson, sarif, suites_of};
use crate::Files;

const TEXT: &str = "// ½ 😀\nlet a = \"°\" + lost\nlet b = 2\n";

struct One;

impl Files for One {
    fn name(&self, _: FileId) -> String {
        "houses/a b,c:%½.wythe".into()
    }

    fn text(&self, _: FileId) -> &str {
        TEXT
    }
}

fn findings() -> Vec<Finding> {
    let at = TEXT.find("lost").unwrap() as u32;
    let span = Span::new(FileId(1), at, at + 4);
    let hostile = "a\u{1b}[2J\n::error::b & <c> \"d\" 100 %, e\u{ffff}";
    vec![
        Finding::new(codes::UNKNOWN_NAME, span, hostile)
            .label("here")
            .mend("look\ntwice")
            .item("unit_4.south")
            .related(Span::new(FileId(1), 0, TEXT.len() as u32), "all of it")
            .fix(Fix::safe("write `last`", span, "last")),
        Finding::of_rule(Symbol::new("own_rule"), wythe_findings::Severity::Information, span, "a remark"),
    ]
}

fn with<T>(body: impl FnOnce(&[Checked<'_>]) -> T) -> T {
    let findings = findings();
    let checked = ["clean.wythe".to_owned()];
    body(&[Checked { findings: &findings, files: &One, checked: &checked }])
}

#[test]
fn one_line_an_annotation_and_nothing_in_it_is_a_command() {
    let mut out = Vec::new();
    with(|checked| github(checked, &mut out)).unwrap();
    let out = String::from_utf8(out).unwrap();
    let lines: Vec<&str> = out.lines().collect();
    assert_eq!(lines.len(), 2, "{out}");
    assert!(
        lines[0].starts_with(
            "::error file=houses/a b%2Cc%3A%25½.wythe,line=2,col=15,endColumn=19,title=W0201 unknown_name::a?[2J%0A::error::b"
        ),
        "{}",
        lines[0]
    );
    assert!(lines[0].contains("100 %25") && lines[0].contains("%0AMend: look%0Atwice"), "{}", lines[0]);
    assert!(lines[1].starts_with("::notice "), "{}", lines[1]);
}

#[test]
fn junit_is_well_formed_and_names_what_failed() {
    let text = with(|checked| junit("wythe check", &suites_of(checked))).unwrap();
    let document = roxmltree::Document::parse(&text).unwrap();
    let root = document.root_element();
    assert_eq!((root.attribute("tests"), root.attribute("failures")), (Some("2"), Some("1")), "{text}");
    let suites: Vec<_> = root.children().filter(roxmltree::Node::is_element).collect();
    assert_eq!(suites[0].attribute("name"), Some("clean.wythe"));
    let failure = root.descendants().find(|n| n.has_tag_name("failure")).unwrap();
    assert_eq!(failure.attribute("type"), Some("unknown_name"));
    assert!(failure.text().unwrap().contains("a?[2J") && failure.text().unwrap().contains("& <c> \"d\""));
}

#[test]
fn places_in_bytes_and_marks_that_differ() {
    let document: serde_json::Value = serde_json::from_str(&with(rdjson).unwrap()).unwrap();
    let first = &document["diagnostics"][0];
    // The degree sign takes two bytes.
    assert_eq!(first["location"]["range"]["start"]["column"], 16);
    assert_eq!(first["suggestions"][0]["text"], "last");
    assert_eq!(first["code"]["value"], "W0201");
    let issues: serde_json::Value = serde_json::from_str(&with(gitlab).unwrap()).unwrap();
    assert_eq!(issues[0]["location"]["lines"]["begin"], 2);
    assert_ne!(issues[0]["fingerprint"], issues[1]["fingerprint"]);
}

#[test]
fn sarif_escapes_paths_and_carries_fixes() {
    let text = with(|checked| sarif(checked, "1")).unwrap();
    let document: serde_json::Value = serde_json::from_str(&text).unwrap();
    let result = &document["runs"][0]["results"][0];
    let place = &result["locations"][0]["physicalLocation"];
    assert_eq!(place["artifactLocation"]["uri"], "houses/a%20b,c%3A%25%C2%BD.wythe");
    assert_eq!(place["region"]["startColumn"], 15);
    assert_eq!(result["fixes"][0]["artifactChanges"][0]["replacements"][0]["insertedContent"]["text"], "last");
    assert!(!text.contains('\u{1b}') && !text.contains("\\u001b"));
    let at = result["ruleIndex"].as_u64().unwrap() as usize;
    assert_eq!(document["runs"][0]["tool"]["driver"]["rules"][at]["id"], result["ruleId"]);
}
