//! Input that is damaged, hostile or out of reach gives a clear error with its place, soon, and never a breakdown.

use std::fs;
use std::time::{Duration, Instant};

use crate::plans::{Plans, Run};

/// Long enough for a slow machine, and far too short for anything that runs away.
const PATIENCE: Duration = Duration::from_secs(60);

fn check(plans: &Plans) -> Run {
    let start = Instant::now();
    let run = plans.run(&["check"]);
    assert!(start.elapsed() < PATIENCE, "it took {:?}", start.elapsed());
    assert!(!run.err.contains("panicked") && run.code != 101, "{}", run.shown());
    assert!(!run.out.contains("W0290"), "{}", run.out);
    assert!(run.out.len() < 1_000_000, "{} bytes of output", run.out.len());
    run
}

/// What a file of these bytes gives: the exit code and the codes found.
fn found(bytes: &[u8]) -> (i32, Vec<String>) {
    let plans = Plans::new(&[]);
    plans.write("a.wythe", bytes);
    let run = check(&plans);
    let codes = run.out.lines().filter_map(|l| l.strip_prefix('[')?.split_once(']').map(|(code, _)| code.to_owned()));
    let mut codes: Vec<String> = codes.collect();
    codes.dedup();
    (run.code, codes)
}

fn one(code: i32, name: &str) -> (i32, Vec<String>) {
    (code, vec![wythe_findings::find_page(name).unwrap().number.to_owned()])
}

#[test]
fn files_that_are_no_text() {
    assert_eq!(found(b""), (0, vec![]));
    assert_eq!(found(b"\xef\xbb\xbflet a = 3 in\r\n"), (0, vec![]));
    assert_eq!(found(b"let a = \"\xff\"\n"), one(2, "not_text"));
    assert_eq!(found(b"let a = \"\xed\xa0\x80\"\n"), one(2, "not_text"));
    assert_eq!(found(&[0x7f, b'E', b'L', b'F', 0, 1, 2, 0xff, 0xfe]), one(2, "not_text"));
    assert_eq!(found(b"let a = 3 \x00 in\n").0, 1);
}

#[test]
fn a_file_of_50_megabytes_is_not_read() {
    let plans = Plans::new(&[]);
    fs::File::create(plans.path("a.wythe")).unwrap().set_len(50 << 20).unwrap();
    let run = check(&plans);
    assert_eq!(run.code, 2);
    assert!(run.out.contains("the file is too large") && run.out.contains("52428800 bytes"), "{}", run.out);
}

#[test]
fn deep_nesting_is_a_finding() {
    let deep = |open: &str, close: &str| format!("let a = {}1{}\n", open.repeat(10_000), close.repeat(10_000));
    for (open, close) in [("(", ")"), ("[", "]"), ("if true then ", " else 2")] {
        assert_eq!(found(deep(open, close).as_bytes()), one(1, "nested_too_deep"), "{open}");
    }
    for (open, close) in [("{ a ", "}"), ("-", ""), ("not ", ""), ("(", ""), ("\"{", "")] {
        assert_eq!(found(deep(open, close).as_bytes()).0, 1, "{open}");
    }
    assert_eq!(found(format!("let a = 1{}\n", " + 1".repeat(100_000)).as_bytes()), one(1, "expression_too_long"));
}

#[test]
fn figures_beyond_all_measure_are_findings() {
    assert_eq!(found(format!("let a = 1{} in\n", "0".repeat(100_000)).as_bytes()).0, 1);
    assert_eq!(found(b"let a = 1 / 0\n"), one(1, "division_by_zero"));
    let doubling: String = (1..2_000).map(|n| format!("let a{n} = a{} * a{}\n", n - 1, n - 1)).collect();
    assert_eq!(found(format!("let a0 = 10\n{doubling}").as_bytes()), one(1, "figure_too_large"));
}

#[test]
fn a_name_of_a_megabyte_does_not_fill_the_screen() {
    let plans = Plans::new(&[]);
    plans.write("a.wythe", format!("let a = {}\n", "x".repeat(1 << 20)));
    let run = check(&plans);
    assert!(run.code == 1 && run.out.len() < 5_000, "{} bytes", run.out.len());
}

#[test]
fn use_lines_that_lead_nowhere_or_outside() {
    let use_line = |path: &str| found(format!("use \"{path}\"\n").as_bytes());
    assert_eq!(use_line("lost.wythe"), one(1, "use_not_found"));
    assert_eq!(use_line("../out.wythe"), one(1, "use_outside"));
    assert_eq!(use_line("/etc/hostname"), one(1, "use_outside"));
    assert_eq!(use_line("a/../../../out.wythe"), one(1, "use_outside"));
    assert_eq!(found(b"use code no_such_pack\n"), one(1, "unknown_pack"));
}

#[cfg(unix)]
#[test]
fn links_that_leave_are_not_followed() {
    use std::os::unix::fs::symlink;

    let plans = Plans::new(&[("a.wythe", "use \"far/secret.wythe\"\nuse \"link.wythe\"\n")]);
    let far = plans.root().parent().unwrap().join("far");
    fs::create_dir(&far).unwrap();
    fs::write(far.join("secret.wythe"), "let password = lost\n").unwrap();
    symlink(&far, plans.path("far")).unwrap();
    symlink(far.join("secret.wythe"), plans.path("link.wythe")).unwrap();
    for arguments in
        [&["check"][..], &["check", "link.wythe"], &["check", "far/secret.wythe"], &["format", "--diff", "."]]
    {
        let run = plans.run(arguments);
        assert!(!run.shown().contains("password"), "{arguments:?}: {}", run.shown());
        assert_eq!(run.code, 2, "{arguments:?}: {}", run.shown());
    }
    let run = plans.run(&["check", "a.wythe"]);
    assert_eq!(run.out.matches("this path leaves the repository").count(), 2, "{}", run.out);
}

#[cfg(unix)]
#[test]
fn what_is_no_plain_file_or_may_not_be_read() {
    use std::os::unix::fs::PermissionsExt as _;

    let plans = Plans::new(&[("good.wythe", "let a = 1 in\n"), ("closed.wythe", "let a = 1 in\n")]);
    let made = std::process::Command::new("mkfifo").arg(plans.path("pipe.wythe")).status().unwrap();
    assert!(made.success());
    fs::set_permissions(plans.path("closed.wythe"), fs::Permissions::from_mode(0o000)).unwrap();
    // Who may read everything, may read this too.
    let refused = usize::from(fs::read(plans.path("closed.wythe")).is_err());
    let run = check(&plans);
    assert_eq!(run.code, 2);
    assert_eq!(run.out.matches("the file cannot be read").count(), 1 + refused, "{}", run.out);
    assert!(run.out.contains("it is not a file"), "{}", run.out);
}

#[test]
fn paths_that_are_not_there() {
    let plans = Plans::new(&[("a.wythe", "let a = 1 in\n")]);
    fs::create_dir(plans.path("empty")).unwrap();
    let run = plans.run(&["check", "lost.wythe", "a.wythe"]);
    assert_eq!((run.code, run.err.as_str()), (2, "wythe: lost.wythe: no such file or folder\n"));
    let run = plans.run(&["check", "empty"]);
    assert_eq!((run.code, run.err.as_str()), (2, "wythe: empty: no source files there\n"));
}

#[test]
fn nothing_in_a_file_commands_the_terminal() {
    let plans = Plans::new(&[]);
    plans.write("a.wythe", "let a = lost // \u{1b}[2J\u{9b}31m\u{202e}\nlet b = \"\u{1b}]0;x\u{7}\" + 1\n");
    plans.write("wythe.toml", "[severity]\n\"\\u001b[2J\" = \"off\"\n");
    let run = check(&plans);
    assert!(run.code == 1 && run.out.contains("lost"), "{}", run.out);
    for banned in ['\u{1b}', '\u{9b}', '\u{202e}', '\u{7}'] {
        assert!(!run.out.contains(banned), "{banned:?} in {:?}", run.out);
    }
    let run = plans.run(&["format", "--diff"]);
    assert!(!run.out.contains('\u{1b}'), "{:?}", run.out);
}
