//! Old findings are held, new ones fail, and what is stale is told.

use crate::plans::Plans;

const OLD: &str = "let a = 1 / 0\n";

fn plans() -> Plans {
    Plans::new(&[("houses/a.wythe", OLD)])
}

#[test]
fn what_stood_before_is_passed_over_and_what_is_new_is_not() {
    let plans = plans();
    let run = plans.run(&[
        "baseline",
        "--write",
        "--because",
        "before our time",
        "--who",
        "site lead",
        "--until",
        "2026-09-30",
    ]);
    assert_eq!((run.code, run.out.as_str()), (0, "1 findings held, 0 before\n"), "{}", run.err);
    let text = plans.read("baseline.toml");
    assert!(text.contains("because = \"before our time\"") && text.contains("until = 2026-09-30"), "{text}");
    let check = |arguments: &[&str]| plans.run(&[&["check", "--baseline", "baseline.toml"], arguments].concat());
    assert_eq!((check(&[]).code, check(&[]).out.as_str()), (0, ""));
    plans.write("houses/a.wythe", format!("// moved\n\n{OLD}"));
    assert_eq!(check(&[]).code, 0);
    plans.write("houses/a.wythe", format!("{OLD}let b = 2 / 0\n"));
    assert_eq!((check(&[]).code, check(&[]).out.matches("[W0").count()), (1, 1));
    // The last day is still held, the next is not.
    plans.write("houses/a.wythe", OLD);
    assert_eq!(check(&["--today", "2026-09-30"]).code, 0);
    let after = check(&["--today", "2026-10-01"]);
    assert!(after.code == 1 && after.out.contains("baseline.toml:"), "{}", after.out);
    assert!(after.out.contains("ran out on 2026-09-30") && after.out.contains("before our time"), "{}", after.out);
}

#[test]
fn what_is_mended_is_pruned() {
    let plans = plans();
    plans.run(&["baseline", "--write", "--file", "old.toml"]);
    plans.write("houses/a.wythe", "let a = 1 in\n");
    let check = |arguments: &[&str]| plans.run(&[&["check", "--baseline", "old.toml"], arguments].concat());
    let stale = check(&[]);
    assert!(stale.code == 0 && stale.out.contains("no longer stands"), "{}", stale.out);
    assert_eq!(check(&["--warnings-as-errors"]).code, 1);
    // Of a file that was not asked for, nothing is known.
    plans.write("houses/b.wythe", "let b = 1 in\n");
    assert_eq!(check(&["houses/b.wythe"]).out, "");
    let pruned = plans.run(&["baseline", "--prune", "--file", "old.toml"]);
    assert_eq!((pruned.code, pruned.out.as_str()), (0, "0 findings held, 1 before\n"));
    assert_eq!(check(&[]).out, "");
}

#[test]
fn a_baseline_that_cannot_be_used_is_told() {
    let plans = plans();
    let lost = plans.run(&["check", "--baseline", "lost.toml"]);
    assert_eq!((lost.code, lost.err.as_str()), (2, "wythe: lost.toml: no such file\n"));
    plans.write("bad.toml", "form = 1\nforn = 2\n");
    let bad = plans.run(&["check", "--baseline", "bad.toml"]);
    assert!(bad.code == 1 && bad.out.contains("bad.toml:2:1") && bad.out.contains("division"), "{}", bad.out);
    assert_eq!(plans.run(&["baseline", "--prune", "--file", "bad.toml"]).code, 2);
    assert_eq!(plans.run(&["baseline"]).code, 2);
    // Nobody knows what a file means that cannot be understood: that is not held.
    plans.write("houses/a.wythe", "let a = lost\n");
    assert_eq!(plans.run(&["baseline", "--write"]).code, 1);
}
