//! `wythe format`

use std::fs;

use crate::plans::Plans;

const LOOSE: &str = "let   a=3 in // kept\n\n\n\nlet b   =  a\n";
const TIDY: &str = "let a = 3 in // kept\n\nlet b = a\n";

#[test]
fn files_are_put_in_order_once() {
    let plans = Plans::new(&[("a.wythe", LOOSE), ("b.wythe", TIDY)]);
    let run = plans.run(&["format"]);
    assert_eq!((run.code, run.out.as_str(), run.err.as_str()), (0, "a.wythe\n", ""));
    assert_eq!(plans.read("a.wythe"), TIDY);
    let run = plans.run(&["format"]);
    assert_eq!((run.code, run.out.as_str()), (0, ""));
    let left: Vec<_> = fs::read_dir(plans.root()).unwrap().collect();
    assert_eq!(left.len(), 3, "{left:?}");
}

#[test]
fn a_check_names_and_writes_nothing() {
    let plans = Plans::new(&[("a.wythe", LOOSE), ("b.wythe", TIDY)]);
    let run = plans.run(&["format", "--check"]);
    assert_eq!((run.code, run.out.as_str()), (1, "a.wythe\n"));
    assert_eq!(plans.read("a.wythe"), LOOSE);
    assert_eq!(plans.run(&["format", "--check", "b.wythe"]).code, 0);
    let run = plans.run(&["format", "--check", "--format", "json", "--threads", "2"]);
    let named: serde_json::Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(named, serde_json::json!({ "form": 1, "changed": ["a.wythe"], "unreadable": [] }));
}

#[test]
fn a_difference_is_shown_and_not_written() {
    let plans = Plans::new(&[("a.wythe", LOOSE)]);
    insta::assert_snapshot!(plans.run(&["format", "--diff"]).shown());
    assert_eq!(plans.read("a.wythe"), LOOSE);
}

#[test]
fn standard_input_goes_to_standard_output() {
    let plans = Plans::new(&[]);
    let here = plans.root();
    for (input, expected) in [(LOOSE, TIDY), (TIDY, TIDY), ("", "")] {
        let run = plans.run_in(&here, &["format", "-"], input.as_bytes());
        assert_eq!((run.code, run.out.as_str()), (0, expected));
    }
    assert_eq!(plans.run_in(&here, &["format", "-", "--check"], LOOSE.as_bytes()).code, 1);
    assert_eq!(plans.run_in(&here, &["format", "-", "--check"], TIDY.as_bytes()).code, 0);
    let run = plans.run_in(&here, &["format", "-"], b"\xff\xfe");
    assert_eq!((run.code, run.out.as_str()), (2, ""));
    assert!(run.err.contains("not UTF-8"), "{}", run.err);
    assert_eq!(plans.run(&["format", "-", "a.wythe"]).code, 2);
}

#[test]
fn a_file_that_cannot_be_read_or_written_stops_no_other() {
    let plans = Plans::new(&[("a.wythe", LOOSE), ("z.wythe", LOOSE)]);
    plans.write("m.wythe", b"\xff");
    let mut closed = fs::metadata(plans.path("a.wythe")).unwrap().permissions();
    closed.set_readonly(true);
    fs::set_permissions(plans.path("a.wythe"), closed).unwrap();
    let run = plans.run(&["format"]);
    assert_eq!(run.code, 2);
    assert!(
        run.err.contains("m.wythe: the file is not UTF-8") && run.err.contains("a.wythe: not written"),
        "{}",
        run.err
    );
    assert_eq!((plans.read("a.wythe").as_str(), plans.read("z.wythe").as_str()), (LOOSE, TIDY));
}
