//! The `test` blocks of plans are run, chosen, listed and reported.

use crate::plans::Plans;

const TESTS: &str = "let a = 3 in\n\
                     test \"a is three\" { expect a == 3 in }\n\
                     test \"a is four\" { expect a == 4 in; expect a < 5 in }\n";

fn plans() -> Plans {
    Plans::new(&[("houses/a.wythe", TESTS)])
}

#[test]
fn a_failure_shows_both_values() {
    let run = plans().run(&["test"]);
    assert_eq!(run.code, 1, "{}", run.shown());
    assert!(run.out.contains("houses/a.wythe: a is four\n"), "{}", run.out);
    assert!(run.out.contains("3 in came out, not == 4 in") && run.out.contains("houses/a.wythe:3:"), "{}", run.out);
    assert!(run.out.ends_with("1 of 2 tests failed\n"), "{}", run.out);
}

#[test]
fn both_values_are_in_the_unit_that_the_test_is_written_in() {
    let test = "let a = 3 in\ntest \"t\" {\n    expect a == 4 cm\n    expect a + 1 ft == 2.5 ft\n    expect 3 ft2 > 1 m2\n    \
                expect a == 3.1 in within 0.01 in\n    expect a == 4\"\n}\n";
    let run = Plans::new(&[("a.wythe", test)]).run(&["test"]);
    let said: Vec<&str> = run.out.lines().filter_map(|line| line.strip_prefix("[W0267] error: ")).collect();
    let due = [
        "7.62 cm came out, not == 4 cm",
        "1.25 ft came out, not == 2.5 ft",
        "0.279 m2 came out, not > 1 m2",
        "3 in came out, not == 3.1 in",
        "3\" came out, not == 4\"",
    ];
    assert_eq!(said, due);
}

#[test]
fn tests_are_chosen_by_title_and_listed() {
    let plans = plans();
    let run = plans.run(&["test", "--filter", "three"]);
    assert_eq!((run.code, run.out.as_str()), (0, "1 test passed\n"));
    let list = plans.run(&["test", "--list", "houses"]);
    assert_eq!((list.code, list.out.as_str()), (0, "houses/a.wythe: a is three\nhouses/a.wythe: a is four\n"));
    let none = plans.run(&["test", "--filter", "five"]);
    assert_eq!((none.code, none.err.as_str()), (2, "wythe: no test has `five` in its title\n"));
}

#[test]
fn reports_for_programs_say_the_same() {
    let plans = plans();
    let junit = plans.run(&["test", "--format", "junit"]);
    assert_eq!(junit.code, 1);
    assert!(junit.out.contains("<testsuites name=\"wythe test\" tests=\"2\" failures=\"1\">"), "{}", junit.out);
    assert!(junit.out.contains("<testcase classname=\"houses/a.wythe\" name=\"a is three\"/>"), "{}", junit.out);
    let json: serde_json::Value = serde_json::from_str(&plans.run(&["test", "--format", "json"]).out).unwrap();
    assert_eq!((json["passed"].as_u64(), json["failed"].as_u64()), (Some(1), Some(1)));
    assert_eq!(json["tests"][1]["failures"][0]["line"], 3);
    let schema = include_str!("../../../../spec/schema/tests.schema.json");
    let validator = jsonschema::validator_for(&serde_json::from_str(schema).unwrap()).unwrap();
    let faults: Vec<_> = validator.iter_errors(&json).map(|e| format!("{}: {e}", e.instance_path)).collect();
    assert_eq!(faults, [""; 0]);
    let mut wrong = json.clone();
    wrong["tests"][0]["line"] = 0.into();
    assert!(!validator.is_valid(&wrong), "the schema is strict enough to refuse what is not so");
    assert_eq!(plans.run(&["test", "--format", "json", "--output", "tests.json"]).out, "");
    assert_eq!(serde_json::from_str::<serde_json::Value>(&plans.read("tests.json")).unwrap(), json);
    assert_eq!((json["tests"][1]["line"].as_u64(), json["tests"][1]["met"].as_u64()), (Some(3), Some(1)));
}

#[test]
fn a_file_that_cannot_be_understood_is_no_success() {
    let plans = Plans::new(&[("a.wythe", "let a = lost\ntest \"t\" { expect 1 == 1 }\n")]);
    let run = plans.run(&["test"]);
    assert_eq!((run.code, run.out.as_str()), (1, "1 test passed\n"));
    assert!(run.err.contains("a.wythe: 1 errors; `wythe check` shows them"), "{}", run.err);
    // What a test expects of its own lines is no fault.
    let plans = Plans::new(&[("a.wythe", "test \"t\" { expect finding unknown_name; let b = lost }\n")]);
    assert_eq!(plans.run(&["test", "--today", "2026-03-01"]).code, 0, "{}", plans.run(&["test"]).shown());
}
