//! Every subcommand and flag has a word of help, an example, and a test.

use std::fs;
use std::path::Path;

use crate::plans::Plans;

/// The text of all tests of the command.
fn tests() -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
    let mut open = vec![folder];
    let mut all = String::new();
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|e| e == "rs") {
                all.push_str(&fs::read_to_string(path).unwrap());
            }
        }
    }
    all
}

fn subcommands(plans: &Plans) -> Vec<String> {
    let help = plans.run(&["--help"]);
    assert_eq!(help.code, 0);
    let list = help.out.split("Commands:\n").nth(1).unwrap().split("\n\n").next().unwrap().to_owned();
    // A description that runs on to a second line is indented further.
    let own = list.lines().filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    let names = own.filter_map(|line| line.split_whitespace().next().map(str::to_owned));
    names.filter(|name| name != "help").collect()
}

#[test]
fn each_subcommand_shows_examples_and_each_flag_is_tested() {
    let plans = Plans::new(&[]);
    let tests = tests();
    let names = subcommands(&plans);
    assert!(names.contains(&"check".to_owned()), "{names:?}");
    for name in names {
        let help = plans.run(&[&name, "--help"]).out;
        assert!(help.contains("Examples:\n  wythe "), "`{name}` shows no example");
        assert!(tests.contains(&format!("\"{name}\"")), "`{name}` has no test");
        let options = help.split("Examples:").next().unwrap();
        let flags = options.split_whitespace().filter(|word| word.starts_with("--") && *word != "--help");
        for flag in flags.map(|flag| flag.trim_end_matches([',', ']', '`'])) {
            assert!(tests.contains(&format!("\"{flag}\"")), "`{name} {flag}` has no test");
        }
    }
}

#[test]
fn wrong_usage_is_told_on_standard_error() {
    let plans = Plans::new(&[]);
    for arguments in [&["chek"][..], &["check", "--lost"], &["check", "--color", "red"], &[]] {
        let run = plans.run(arguments);
        assert_eq!((run.code, run.out.as_str()), (2, ""), "{arguments:?}");
        assert!(run.err.contains("Usage:") || run.err.contains("possible values"), "{}", run.err);
    }
    assert_eq!(plans.run(&["--version"]).out, format!("wythe {}\n", env!("CARGO_PKG_VERSION")));
}
