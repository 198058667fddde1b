//! `wythe explain`

use crate::plans::Plans;

#[test]
fn a_code_is_explained_by_number_and_by_name() {
    let plans = Plans::new(&[]);
    let by_name = plans.run(&["explain", "use_cycle"]);
    insta::assert_snapshot!(by_name.shown());
    assert_eq!(plans.run(&["explain", "w0206"]).out, by_name.out);
}

#[test]
fn every_code_is_listed_and_can_be_explained() {
    let plans = Plans::new(&[]);
    let run = plans.run(&["explain"]);
    assert_eq!(run.code, 0);
    let numbers: Vec<&str> = run.out.lines().filter_map(|line| line.split_whitespace().next()).collect();
    assert_eq!(numbers.len(), wythe_findings::all_pages().count());
    assert!(numbers.is_sorted());
    let all: serde_json::Value = serde_json::from_str(&plans.run(&["explain", "--format", "json"]).out).unwrap();
    for (listed, number) in all.as_array().unwrap().iter().zip(&numbers) {
        assert_eq!(listed["code"], *number);
        assert!(listed["meaning"].as_str().is_some_and(|text| !text.is_empty()));
    }
    let one: serde_json::Value =
        serde_json::from_str(&plans.run(&["explain", numbers[0], "--format", "json"]).out).unwrap();
    assert_eq!(one, all[0]);
}

#[test]
fn an_unknown_code_is_refused_with_the_nearest() {
    let plans = Plans::new(&[]);
    let run = plans.run(&["explain", "use_cycel"]);
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert_eq!(run.err, "wythe: no code is called `use_cycel`; did you mean `use_cycle`?\n");
    let run = plans.run(&["explain", "\u{1b}[2J"]);
    assert_eq!(run.err, "wythe: no code is called `?[2J`; `wythe explain` lists all of them\n");
}

#[test]
fn a_reader_that_leaves_early_is_no_fault() {
    let mut child = crate::plans::command(&["explain"]).stdout(std::process::Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    assert_eq!(child.wait().unwrap().code(), Some(0));
}
