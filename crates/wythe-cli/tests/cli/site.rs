//! `wythe sheet` and `wythe ask`: what people on site hold, and what they are told.

use std::path::Path;

use crate::plans::{Plans, Run};
use crate::results::cedar_row;

fn ask(arguments: &[&str]) -> Run {
    cedar_row(&[&["ask"], arguments].concat())
}

#[test]
fn the_ten_questions_have_answers() {
    let questions: [&[&str]; 14] = [
        &["wall", "unit_4", "south"],
        &["left", "unit_4"],
        &["next", "unit_4", "south"],
        &["next", "unit_2", "ground"],
        &["may", "unit_4", "cover"],
        &["may", "unit_4", "frame"],
        &["may", "unit_2", "close-vents"],
        &["cut", "unit_4", "12"],
        &["lap", "unit_4"],
        &["lap", "unit_4", "ground_liner"],
        &["fix", "unit_4", "board", "--piece", "3"],
        &["inspector", "unit_4"],
        &["change", "unit_4", "board=foil_board_1_5in"],
        &["rain", "unit_4", "--log", "unit_4_progress", "--today", "2026-03-14"],
    ];
    let mut all = String::new();
    for question in questions {
        let run = ask(question);
        assert_eq!(run.code, 0, "{question:?}: {}", run.err);
        all += &format!("> wythe ask {}\n{}\n", question.join(" "), run.out);
    }
    insta::assert_snapshot!(all);
}

#[test]
fn answers_come_in_spanish_as_json_and_with_a_drawing() {
    let run = ask(&["wall", "unit_4", "south", "--language", "es"]);
    assert!(run.out.starts_with("Muro south: 40' 8-3/4\" de largo por dentro"), "{}", run.out);
    let json: serde_json::Value =
        serde_json::from_str(&ask(&["may", "unit_4", "frame", "--format", "json"]).out).unwrap();
    assert_eq!(json["question"], "may");
    assert!(json["answer"][0].as_str().unwrap().starts_with("NO."));
    let plans = Plans::new(&[]);
    for question in [
        &["wall", "unit_4", "south"][..],
        &["cut", "unit_4", "1"],
        &["lap", "unit_4"],
        &["fix", "unit_4", "--piece", "3"],
    ] {
        let path = plans.path("drawing.svg");
        let run = ask(&[question, &["--drawing", path.to_str().unwrap()]].concat());
        assert_eq!(run.code, 0, "{}", run.err);
        assert!(plans.read("drawing.svg").starts_with("<svg"));
    }
    let none = ask(&["left", "unit_4", "--drawing", "nowhere.svg"]);
    assert_eq!((none.code, none.err.as_str()), (2, "wythe: this answer has no drawing\n"));
}

#[test]
fn what_is_not_there_is_said_with_what_is() {
    let lost = [
        (&["wall", "unit_4", "sud"][..], "south"),
        (&["next", "unit_4", "p99"], "p1 to p6"),
        (&["cut", "unit_4", "99"], "12"),
        (&["lap", "unit_4", "paint"], "wall liner"),
        (&["fix", "unit_4", "paint"], "wall liner"),
        (&["fix", "unit_4", "board", "--piece", "99"], "38"),
        (&["change", "unit_4", "nothing=1"], "nothing"),
        (&["change", "unit_4", "gap=3\",4\""], "what-if"),
        (&["change", "unit_4", "gap=3\"", "--prices", "none_such"], "none_such"),
        (&["left", "houses"], "name one foundation"),
        (&["left", "unit_4", "--log", "none_such"], "no log `none_such`"),
    ];
    for (question, said) in lost {
        let run = ask(question);
        assert!(run.err.contains(said), "{question:?}: {} {}", run.out, run.err);
    }
}

#[test]
fn every_sheet_is_written_in_both_languages_and_is_never_left_half_written() {
    let plans = Plans::new(&[]);
    for which in ["crew", "order", "inspector", "before-pour", "before-cover", "handover", "label"] {
        for language in ["en", "es"] {
            let path = plans.path(&format!("{which}_{language}.html"));
            let path = path.to_str().unwrap();
            let run = cedar_row(&["sheet", which, "unit_4", "--language", language, "--output", path]);
            assert_eq!((run.code, run.out.trim()), (0, path), "{}", run.err);
            let written = std::fs::read_to_string(path).unwrap();
            assert!(written.starts_with(&format!("<!DOCTYPE html>\n<html lang=\"{language}\">")), "{which}");
            assert!(!written.contains("http://") || !written.contains("src="), "{which}");
        }
    }
    let text = cedar_row(&["sheet", "crew", "unit_4", "--format", "text"]);
    insta::assert_snapshot!(text.out);
    let one = cedar_row(&["sheet", "crew", "unit_4", "--format", "text", "--visit", "close_in"]).out;
    assert!(one.contains("VISIT: CLOSE IN") && !one.contains("VISIT: ROUGH IN"), "{one}");
    let none = cedar_row(&["sheet", "crew", "unit_4", "--visit", "close"]);
    assert!(none.code == 2 && none.err.contains("close_in"), "{}", none.err);
    assert!(cedar_row(&["sheet", "label", "unit_4", "--output", "-"]).out.contains("CLOSED CRAWL SPACE"));
    let path = plans.path("no/such/folder.html");
    let blocked = cedar_row(&["sheet", "label", "unit_4", "--output", path.to_str().unwrap()]);
    assert_eq!(blocked.code, 2);
    assert!(blocked.err.contains("not written"), "{}", blocked.err);
}

#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_is_reported() {
    if Path::new("/dev/full").exists() {
        let run = cedar_row(&["sheet", "label", "unit_4", "--output", "/dev/full"]);
        assert_eq!(run.code, 2, "{}", run.out);
        assert!(run.err.contains("not written"), "{}", run.err);
    }
}

#[test]
fn files_for_other_programs() {
    let plans = Plans::new(&[]);
    for (form, start) in [("xlsx", &b"PK"[..]), ("ifc", b"ISO-10303-21;"), ("pdf", b"%PDF-1.")] {
        let path = plans.path(&format!("unit_4.{form}"));
        let run = cedar_row(&["export", form, "unit_4", "--prices", "upland_2026", "--output", path.to_str().unwrap()]);
        assert_eq!(run.code, 0, "{}", run.err);
        assert!(std::fs::read(&path).unwrap().starts_with(start), "{form}");
    }
    let together = plans.path("row.xlsx");
    let run = cedar_row(&["export", "xlsx", "houses", "--output", together.to_str().unwrap()]);
    assert_eq!(run.code, 0, "{}", run.err);
    let run = cedar_row(&["export", "ifc", "houses"]);
    assert!(run.code == 2 && run.err.contains("name one foundation"), "{}", run.err);
    let same = [
        "--repository",
        ".",
        "--rates",
        "house_crew",
        "--today",
        "2026-04-01",
        "--as-drawn",
        "--along",
        "--factory-edges",
    ];
    let run = cedar_row(&[&["export", "ifc", "unit_4", "--output", "-"][..], &same].concat());
    assert!(run.code == 0 && run.out.ends_with("END-ISO-10303-21;\n"), "{}", run.err);
    let blocked = cedar_row(&["export", "pdf", "unit_4", "--output", "wythe.toml/no.pdf"]);
    assert!(blocked.code == 2 && blocked.err.contains("not written"), "{}", blocked.err);
}

#[test]
fn tables_as_json_keep_their_schema_and_as_csv_the_standard() {
    let schema = include_str!("../../../../spec/schema/document.schema.json");
    let validator = jsonschema::validator_for(&serde_json::from_str(schema).unwrap()).unwrap();
    let commands: [&[&str]; 6] = [
        &["takeoff", "unit_4", "--by", "wall"],
        &["cut-list", "unit_4"],
        &["order", "unit_4"],
        &["schedule", "unit_4", "--start", "2026-05-04"],
        &["progress", "unit_4"],
        &["results", "unit_4"],
    ];
    for command in commands {
        let json: serde_json::Value =
            serde_json::from_str(&cedar_row(&[command, &["--format", "json"]].concat()).out).unwrap();
        let errors: Vec<String> = validator.iter_errors(&json).map(|e| e.to_string()).collect();
        assert!(errors.is_empty(), "{command:?}: {errors:?}");
        // RFC 4180: lines end with CR LF, and every record has as many fields as the header.
        let csv = cedar_row(&[command, &["--format", "csv"]].concat()).out;
        assert!(csv.ends_with("\r\n") && csv.matches('\n').count() == csv.matches("\r\n").count(), "{command:?}");
        let mut reader = csv::ReaderBuilder::new().flexible(false).from_reader(csv.as_bytes());
        assert!(reader.records().all(|r| r.is_ok()), "{command:?}");
    }
    // The schema is strict enough to refuse what is not so.
    assert!(!validator.is_valid(&serde_json::json!({ "form": 1, "kind": "x", "title": "", "complete": true, "remarks": [], "t": [{ "a": { "shown": "1" } }] })));
}
