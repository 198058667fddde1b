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
    assert!(run.out.contains("3\" came out, not == 4\"") && run.out.contains("houses/a.wythe:3:"), "{}", run.out);
    assert!(run.out.ends_with("1 of 2 tests failed\n"), "{}", run.out);
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
