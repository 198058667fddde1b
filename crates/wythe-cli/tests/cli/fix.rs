//! Fixes are shown first, written when asked, and unsafe ones only on request.

use crate::plans::Plans;

const GLUED: &str = "let a = 16\"x16\"\n";

#[test]
fn a_fix_is_shown_and_then_made() {
    let plans = Plans::new(&[("a.wythe", GLUED), ("b.wythe", "let b = 1 in\n")]);
    let shown = plans.run(&["fix"]);
    assert_eq!(shown.code, 1, "{}", shown.shown());
    assert!(shown.out.contains("-let a = 16\"x16\"\n+let a = 16\" x 16\"\n"), "{}", shown.out);
    assert!(shown.out.ends_with("1 fix in 1 file to make; --write makes them\n"), "{}", shown.out);
    assert_eq!(plans.read("a.wythe"), GLUED);
    assert_eq!(plans.run(&["fix", "--diff"]).out, shown.out);
    let made = plans.run(&["fix", "--write", "."]);
    assert_eq!((made.code, plans.read("a.wythe").as_str()), (0, "let a = 16\" x 16\"\n"), "{}", made.shown());
    let again = plans.run(&["fix"]);
    assert_eq!((again.code, again.out.as_str()), (0, ""));
    assert_eq!(plans.run(&["fix", "--diff", "--write"]).code, 2);
}

#[test]
fn what_a_person_must_agree_to_is_made_on_request_only() {
    let plans = Plans::new(&[("a.wythe", "let length = 3 in\nlet b = lenght\n")]);
    assert_eq!((plans.run(&["fix", "--write"]).code, plans.run(&["check"]).code), (0, 1));
    assert_eq!(plans.run(&["fix", "--write", "--unsafe"]).code, 0);
    assert_eq!(plans.read("a.wythe"), "let length = 3 in\nlet b = length\n");
    assert_eq!(plans.run(&["check"]).code, 0);
}

#[test]
fn fixes_are_made_one_after_another_while_each_leaves_less_to_do() {
    let plans = Plans::bare();
    plans.run(&["new", "."]);
    let library = plans.read("library/closed_crawl.wythe");
    let pin = "            fasten wall_liner with drive_pin every 24\"\n";
    let anchor = "            fasten board with board_anchor";
    plans.write("library/closed_crawl.wythe", library.replace(pin, "").replace(anchor, &format!("{pin}{anchor}")));
    assert_eq!(plans.run(&["check"]).code, 1);
    let before = plans.run(&["check"]).out;
    assert!(before.contains("5 errors, 2 remarks in 6 files"), "{before}");
    let made = plans.run(&["fix", "--write"]);
    assert!(made.out.ends_with("2 fixes in 1 file made\n"), "{}", made.shown());
    // What is left offers no edit, and nothing else has come.
    let after = plans.run(&["check"]).out;
    assert!(
        after.contains("[W0401]") && after.ends_with("1 error, 2 remarks in 6 files; --remarks draws the remarks\n"),
        "{after}"
    );
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_written_is_told_and_stays() {
    use std::os::unix::fs::PermissionsExt as _;
    let plans = Plans::new(&[("a.wythe", GLUED)]);
    std::fs::set_permissions(plans.path("a.wythe"), std::fs::Permissions::from_mode(0o444)).unwrap();
    let run = plans.run(&["fix", "--write"]);
    assert!(run.code == 2 && run.err.contains("a.wythe: not written"), "{}", run.shown());
    assert_eq!(plans.read("a.wythe"), GLUED);
}
