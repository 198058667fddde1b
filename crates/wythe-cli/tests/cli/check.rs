//! `wythe check`

use crate::plans::Plans;

const LIBRARY: &str = "/// How far the liner stays below the top.\npub let gap = 4 in\n";
const FAULTY: &str = "use \"../library/sizes.wythe\": gap\nlet clear = gap + 2 psf\n";

/// A house with a waiver that ends on the first of March.
const WAIVED: &str = r#"use "rules.wythe": never
product block: Masonry { thickness: 8 in }
phase service { traffic: none }
buildup plain for wall { structure: block }
buildup floor for ground { face { } }
pub site s { climate_zone: zone_4a }
pub foundation f on s {
    phases: [service]
    walls {
        build: plain
        top: datum; grade: datum - 1'; ground: datum - 2'; footing: datum - 3'
        wall south runs east 20'
        wall east runs north 20'
        wall north runs west 20'
        wall west runs south 20'
    }
    ground { build: floor }
}
waiver of never in f { because: "b"; who: "w"; until: 2026-03-01 }
"#;

#[test]
fn clean_plans_are_passed_in_silence() {
    let plans = Plans::new(&[
        ("library/sizes.wythe", LIBRARY),
        ("houses/a.wythe", "use \"../library/sizes.wythe\": gap\nlet clear = gap + 2 in\n"),
    ]);
    for arguments in [&["check"][..], &["check", "."], &["check", "houses", "library/sizes.wythe"]] {
        let run = plans.run(arguments);
        assert_eq!((run.code, run.out.as_str(), run.err.as_str()), (0, "", ""), "{arguments:?}");
    }
}

#[test]
fn a_finding_is_drawn_with_its_place_and_mend() {
    let plans = Plans::new(&[("library/sizes.wythe", LIBRARY), ("houses/a.wythe", FAULTY)]);
    insta::assert_snapshot!(plans.run(&["check"]).shown());
}

#[test]
fn places_are_told_from_the_folder_the_command_runs_in() {
    let plans = Plans::new(&[("library/sizes.wythe", LIBRARY), ("houses/a.wythe", FAULTY)]);
    let run = plans.run_in(&plans.path("library"), &["check", "../houses/a.wythe"], b"");
    assert!(run.out.contains("../houses/a.wythe:2:17"), "{}", run.out);
}

#[test]
fn color_is_written_only_when_asked_for() {
    let plans = Plans::new(&[("a.wythe", "let a = lost\n")]);
    assert!(!plans.run(&["check"]).out.contains('\u{1b}'));
    assert!(!plans.run(&["check", "--color", "never"]).out.contains('\u{1b}'));
    assert!(plans.run(&["check", "--color", "always"]).out.contains("\u{1b}["));
}

#[test]
fn json_follows_its_schema() {
    let plans = Plans::new(&[
        ("library/sizes.wythe", LIBRARY),
        ("houses/a.wythe", FAULTY),
        ("houses/b.wythe", "// °\nlet b = clearr\nlet clear = 1 in\nlet wide = 1 fot\n"),
    ]);
    let run = plans.run(&["check", "--format", "json"]);
    assert_eq!((run.code, run.err.as_str()), (1, ""));
    let document: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    let schema = include_str!("../../../../spec/schema/findings.schema.json");
    let schema: serde_json::Value = serde_json::from_str(schema).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let faults: Vec<_> = validator.iter_errors(&document).map(|e| format!("{}: {e}", e.instance_path)).collect();
    assert_eq!(faults, [""; 0]);
    assert_eq!(document["summary"]["errors"], 3);
    let name = document["findings"].as_array().unwrap().iter().find(|f| f["name"] == "unknown_name").unwrap();
    let start = &name["place"]["start"];
    assert_eq!(
        (start["line"].as_u64(), start["column"].as_u64(), start["offset"].as_u64()),
        (Some(2), Some(9), Some(14))
    );
    assert_eq!(name["fixes"][0]["edits"][0]["text"], "clear");
    // The schema is strict enough to refuse what is not so.
    let mut wrong = document.clone();
    wrong["findings"][0]["severity"] = "grave".into();
    assert!(!validator.is_valid(&wrong));
}

#[test]
fn json_of_clean_plans_is_a_document_too() {
    let plans = Plans::new(&[("a.wythe", "let a = 1 in\n")]);
    insta::assert_snapshot!(plans.run(&["check", "--format", "json"]).shown());
}

#[test]
fn warnings_fail_on_request_only() {
    let plans = Plans::new(&[("a.wythe", "let a = 1 in\n")]);
    plans.write("wythe.toml", "[severity]\nno_such_rule = \"off\"\n");
    let run = plans.run(&["check"]);
    assert_eq!(run.code, 0, "{}", run.shown());
    assert!(run.out.contains("warning: no finding is called `no_such_rule`"));
    assert!(run.out.ends_with("1 warning in 1 file\n"));
    assert_eq!(plans.run(&["check", "--warnings-as-errors"]).code, 1);
}

#[test]
fn standard_input_stands_for_a_file_of_the_repository() {
    let plans = Plans::new(&[("library/sizes.wythe", LIBRARY)]);
    let here = plans.root();
    let run = plans.run_in(&here, &["check", "-", "--name", "houses/new.wythe"], FAULTY.as_bytes());
    assert_eq!(run.code, 1);
    assert!(run.out.contains("houses/new.wythe:2:17"), "{}", run.out);
    let clean = FAULTY.replace("psf", "in");
    let run = plans.run_in(&here, &["check", "-", "--name", "houses/new.wythe"], clean.as_bytes());
    assert_eq!((run.code, run.out.as_str()), (0, ""));
    let run = plans.run_in(&here, &["check", "-"], b"let a = lost\n");
    assert!(run.out.contains("stdin.wythe:1:9"), "{}", run.out);
    let run = plans.run_in(&here, &["check", "-", "--name", "../out.wythe"], b"");
    assert_eq!((run.code, run.err.as_str()), (2, "wythe: --name leads out of the repository\n"));
}

#[test]
fn findings_beyond_the_limit_are_counted() {
    let plans = Plans::new(&[("a.wythe", "let a = lost\nlet b = lost\nlet c = lost\n")]);
    let run = plans.run(&["check", "--limit", "1"]);
    assert_eq!(run.out.matches("[W0201]").count(), 1);
    assert!(run.out.ends_with("2 more are not drawn; --limit draws more\n3 errors in 1 file\n"), "{}", run.out);
}

#[test]
fn the_day_of_the_check_can_be_given() {
    let rule = "pub rule never { require 1 in > 2 in; otherwise \"never\"; because: \"b\"; source: \"s\" }\n";
    let plans = Plans::new(&[("rules.wythe", rule), ("a.wythe", WAIVED)]);
    let expired = |day: &str| plans.run(&["check", "--today", day, "a.wythe"]).out.contains("has run out");
    assert!(!expired("2026-03-01") && expired("2026-03-02"));
    let run = plans.run(&["check", "--today", "2026-13-01"]);
    assert_eq!(run.code, 2);
}

#[test]
fn the_count_of_threads_does_not_show() {
    let files: Vec<(String, String)> =
        (0..30).map(|n| (format!("h{n}.wythe"), format!("let a = lost{n}\nlet b = 1 in + {n} psf\n"))).collect();
    let files: Vec<(&str, &str)> = files.iter().map(|(p, t)| (p.as_str(), t.as_str())).collect();
    let plans = Plans::new(&files);
    let one = plans.run(&["check", "--threads", "1", "--format", "json"]);
    assert_eq!(plans.run(&["check", "--threads", "5", "--format", "json"]).out, one.out);
    assert_eq!(plans.run(&["check", "--format", "json"]).out, one.out);
}

#[test]
fn several_repositories_are_checked_each_by_its_manifest() {
    let plans = Plans::new(&[("a.wythe", "let a = lost\n"), ("inner/b.wythe", "use \"../a.wythe\"\n")]);
    plans.write("inner/wythe.toml", "");
    let run = plans.run(&["check"]);
    assert!(run.out.contains("a.wythe:1:9") && run.out.contains("inner/b.wythe:1:5"), "{}", run.out);
    assert!(run.out.contains("this path leaves the repository"), "{}", run.out);
}
