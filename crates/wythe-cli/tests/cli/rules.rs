//! `wythe rules` and `wythe states`, on houses of Cedar Row.

use std::path::{Path, PathBuf};

use crate::plans::{Plans, Run};

fn cedar_row(arguments: &[&str]) -> Run {
    let folder: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/cedar_row");
    Plans::new(&[]).run_in(&folder, arguments, b"")
}

fn json(run: &Run) -> serde_json::Value {
    serde_json::from_str(&run.out).unwrap()
}

/// The liner of unit 4 goes from 4 in under the top of the wall, at 0, to the crawl floor at -2' 8": 28 in of it.
#[test]
fn a_rule_that_is_met_says_by_which_layer_and_which_value() {
    let run = cedar_row(&["rules", "unit_4", "--rule", "closed_turn_up"]);
    assert_eq!(run.code, 0, "{}", run.err);
    for part in [
        "closed_turn_up: met",
        "IRC 2021 R408.3 item 1",
        "south, east, north, inner, porch, west",
        "l.above_ground >= 6 in",
        "2' 4\" >= 6\"",
        "wall_liner at library/closed_crawl.wythe:24",
    ] {
        assert!(run.out.contains(part), "no `{part}` in\n{}", run.out);
    }
}

#[test]
fn every_rule_is_accounted_for_in_json() {
    let all = json(&cedar_row(&["rules", "unit_4", "--format", "json"]));
    let rules = all["houses"][0]["rules"].as_array().unwrap();
    assert!(rules.len() > 30);
    for rule in rules {
        let cases = rule["cases"].as_array().unwrap();
        assert!(!cases.is_empty() || rule["verdict"] == "not_applicable", "{rule}");
        for case in cases {
            assert!(!case["evidence"].as_array().unwrap().is_empty(), "{rule}");
            assert!(case["place"].as_str().unwrap().contains(".wythe:"), "{case}");
        }
    }
    // Restated by the amendment of the state, which is named with its line.
    let access = rules.iter().find(|r| r["rule"] == "access_size").unwrap();
    assert_eq!(access["amended"].as_array().unwrap().len(), 1);
    assert!(access["amended"][0].as_str().unwrap().starts_with("codes/upland_amendments.wythe:"));
}

#[test]
fn a_waived_rule_says_who_waived_it_and_until_when() {
    let house = "waived_in_time.wythe";
    let folder: PathBuf = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/clean");
    let plans = Plans::new(&[]);
    let run = plans.run_in(&folder, &["rules", house, "--verdict", "waived", "--today", "2026-04-01"], b"");
    assert_eq!(run.code, 0, "{}", run.out);
    assert!(run.out.contains("waived until 2026-"), "{}", run.out);
    let late = plans.run_in(&folder, &["rules", house, "--verdict", "broken", "--today", "2036-04-01"], b"");
    assert_eq!(late.code, 1, "{}", late.out);
}

#[test]
fn what_nobody_asks_is_told() {
    let run = cedar_row(&["rules", "unit_4", "--verdict", "not-applicable"]);
    assert!(run.out.contains("does not apply") && run.out.contains("left out: "), "{}", run.out);
    let run = cedar_row(&["rules", "unit_4", "--rule", "no_such_rule"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert_eq!(cedar_row(&["rules", "unit_4", "--repository", "houses", "--rule", "access_size"]).code, 0);
}

#[test]
fn the_state_table_shows_each_surface_by_phase() {
    let text = cedar_row(&["states", "unit_4"]);
    assert_eq!(text.code, 0, "{}", text.err);
    for part in
        ["State of unit_4 after each phase", "The house", "waterproofing", "stem_wall.inside", "`unit_4_progress`"]
    {
        assert!(text.out.contains(part), "no `{part}` in\n{}", text.out);
    }
    let planned = json(&cedar_row(&["states", "unit_4", "--as-planned", "--repository", ".", "--format", "json"]));
    let surfaces = planned["surfaces"].as_array().unwrap();
    let at = |surface: &str, phase: &str| {
        surfaces.iter().find(|s| s["surface"] == surface && s["phase"] == phase).cloned().unwrap()
    };
    assert_eq!(at("ground", "before_framing")["state"], "sacrificial, damp");
    assert_eq!(at("ground", "service")["state"], "permanent, dry");
    assert_eq!(at("stem_wall.outside", "backfill")["inspection"], "passed");
    let house = planned["house"].as_array().unwrap();
    assert_eq!(house.len(), 12);
    assert_eq!(house.last().unwrap()["vents"], "shut");
}
