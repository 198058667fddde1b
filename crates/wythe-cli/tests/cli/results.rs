//! `wythe results` and `wythe why`, on a house of Cedar Row.

use std::path::{Path, PathBuf};

use crate::plans::{Plans, Run};

pub fn cedar_row(arguments: &[&str]) -> Run {
    let folder: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/cedar_row");
    Plans::new(&[]).run_in(&folder, arguments, b"")
}

/// Outline and lengths as `tests/hand` works them out: 141 ft around, 1010 ft² of floor.
#[test]
fn the_results_of_a_house_agree_with_the_hand() {
    let run = cedar_row(&["results", "houses/unit_4.wythe"]);
    assert_eq!(run.code, 0, "{}", run.out);
    for figure in ["141'", "1010 ft2", "40' 8-3/4\"", "R-12.94", "Control lines", "crawl_wall_insulation"] {
        assert!(run.out.contains(figure), "{figure} is not in\n{}", run.out);
    }
    let json: serde_json::Value =
        serde_json::from_str(&cedar_row(&["results", "unit_4", "--format", "json"]).out).unwrap();
    assert!(json.is_object());
    assert_eq!(cedar_row(&["results", "no_such_house"]).code, 2);
}

#[test]
fn a_value_tells_where_it_comes_from() {
    let run = cedar_row(&["why", "houses/unit_4.wythe", "unit_4.wall(south).resistance(board_band)"]);
    assert_eq!(run.code, 0, "{}", run.out);
    assert!(run.out.contains("library/products.wythe:"), "{}", run.out);
    let json = cedar_row(&["why", "houses/unit_4.wythe", "unit_4.perimeter", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(json["value"], "141'");
    assert_eq!(json["parts"].as_array().map(Vec::len), Some(6));
}

#[test]
fn a_question_that_makes_no_sense_is_told_as_a_finding() {
    let run = cedar_row(&["why", "houses/unit_4.wythe", "unit_4.perimeter + R-10"]);
    assert_eq!(run.code, 1);
    assert!(run.out.contains("[W0220]"), "{}", run.out);
}

#[test]
fn remarks_are_counted_and_drawn_on_request() {
    let quiet = cedar_row(&["check"]);
    assert_eq!(quiet.code, 0, "{}", quiet.out);
    assert_eq!(quiet.out.lines().count(), 1, "{}", quiet.out);
    assert!(quiet.out.ends_with("--remarks draws the remarks\n"), "{}", quiet.out);
    let told = cedar_row(&["check", "--remarks"]);
    assert!(told.out.contains("a bare band of 4 in"), "{}", told.out);
}

#[test]
fn a_house_is_drawn_whole() {
    let plans = Plans::new(&[]);
    let into = plans.path("drawings");
    let run = cedar_row(&["draw", "unit_4", "--into", into.to_str().unwrap(), "--theme", "print"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let names: Vec<&str> = run.out.lines().filter_map(|line| line.rsplit('/').next()).collect();
    for name in ["unit_4_plan.svg", "unit_4_section_south.svg", "unit_4_sequence.svg", "unit_4_control_lines.svg"] {
        assert!(names.contains(&name), "{names:?}");
        assert!(plans.read(&format!("drawings/{name}")).contains("<svg"));
    }
    let blocked = cedar_row(&["draw", "unit_4", "--into", "wythe.toml/no"]);
    assert_eq!(blocked.code, 2);
}
