//! A new plans repository checks clean and explains itself; the walk in the book is walked.

use std::fs;
use std::path::{Path, PathBuf};

use crate::plans::{Plans, Run};

#[test]
fn a_new_repository_is_clean_laid_out_and_tested() {
    let plans = Plans::bare();
    let run = plans.run(&["new", "row"]);
    assert_eq!((run.code, run.err.as_str()), (0, ""));
    let row = plans.path("row");
    let in_row = |arguments: &[&str]| plans.run_in(&row, arguments, b"");
    let check = in_row(&["check", "--warnings-as-errors"]);
    assert_eq!(check.code, 0, "{}", check.shown());
    let laid = in_row(&["format", "--check"]);
    assert_eq!((laid.code, laid.out.as_str()), (0, ""), "{}", laid.shown());
    assert!(in_row(&["test"]).out.ends_with("2 tests passed\n"));
    assert_eq!(in_row(&["takeoff", "houses"]).code, 0);
    for file in run.out.lines().take_while(|line| !line.is_empty()) {
        let text = fs::read_to_string(plans.path(file)).unwrap();
        assert!(["//", "#"].iter().any(|comment| text.starts_with(comment)), "{file} does not say what it is");
        assert!(!text.contains("Cedar"), "{file} tells of somebody else's houses");
    }
}

#[test]
fn nothing_is_written_over() {
    let plans = Plans::new(&[("a.wythe", "let a = 1 in\n")]);
    let run = plans.run(&["new", "."]);
    assert_eq!((run.code, run.err.as_str()), (2, "wythe: .: there is something in it already\n"));
    assert!(!plans.path("houses").exists());
    let run = plans.run(&["new", "a.wythe"]);
    assert_eq!(run.code, 2, "{}", run.shown());
}

/// One step of the walk.
enum Step {
    /// A command, what it prints, and the exit code.
    Run { line: usize, command: String, output: String, code: i32 },
    /// Lines of a file put in the place of others.
    Edit { line: usize, file: String, old: String, new: String },
}

/// The steps of a chapter, in order.
fn steps(text: &str) -> Vec<Step> {
    let mut steps: Vec<Step> = Vec::new();
    let mut block: Option<String> = None;
    for (at, text) in text.lines().enumerate() {
        let line = at + 1;
        match (&block, text.strip_prefix("```")) {
            (None, Some(marks)) => block = Some(marks.to_owned()),
            (Some(_), Some(_)) => block = None,
            (Some(marks), None) if marks.starts_with("console") => match text.strip_prefix("$ ") {
                Some(command) => {
                    let code = marks.split_once("exit=").map_or(0, |(_, code)| code.trim().parse().unwrap());
                    steps.push(Step::Run { line, command: command.into(), output: String::new(), code });
                }
                None => {
                    let Some(Step::Run { output, .. }) = steps.last_mut() else {
                        panic!("line {line}: output of what?")
                    };
                    output.push_str(text);
                    output.push('\n');
                }
            },
            (Some(marks), None) if marks.starts_with("diff ") => {
                let file = marks.trim_start_matches("diff ").to_owned();
                if let Some(gone) = text.strip_prefix('-') {
                    let under_way = match steps.last_mut() {
                        Some(Step::Edit { old, new, file: same, .. }) if new.is_empty() && *same == file => Some(old),
                        _ => None,
                    };
                    match under_way {
                        Some(old) => old.push_str(&format!("{gone}\n")),
                        None => steps.push(Step::Edit { line, file, old: format!("{gone}\n"), new: String::new() }),
                    }
                } else if let Some(added) = text.strip_prefix('+') {
                    let Some(Step::Edit { new, .. }) = steps.last_mut() else {
                        panic!("line {line}: in place of what?")
                    };
                    new.push_str(added);
                    new.push('\n');
                }
            }
            _ => {}
        }
    }
    steps
}

/// Whether an output is as written; a line `…` stands for any lines.
fn fits(written: &str, output: &str) -> bool {
    let mut at = 0;
    let pieces: Vec<&str> = written.split("…\n").collect();
    for (number, piece) in pieces.iter().enumerate() {
        match output[at..].find(piece) {
            Some(0) => at += piece.len(),
            Some(found) if number > 0 => at += found + piece.len(),
            _ => return false,
        }
    }
    at == output.len() || written.ends_with("…\n")
}

#[test]
fn the_walk_in_the_book_goes_as_it_is_told() {
    let chapter = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../spec/14-plans-repository.md");
    let text = fs::read_to_string(chapter).unwrap();
    let plans = Plans::bare();
    let mut here: PathBuf = plans.root();
    let mut commands = 0;
    for step in steps(&text) {
        match step {
            Step::Edit { line, file, old, new } => {
                let path = here.join(&file);
                let text = fs::read_to_string(&path).unwrap();
                assert_eq!(text.matches(&old).count(), 1, "line {line}: `{old}` in {file}");
                fs::write(path, text.replace(&old, &new)).unwrap();
            }
            Step::Run { line, command, output, code } => {
                if let Some(folder) = command.strip_prefix("cd ") {
                    here = here.join(folder);
                    continue;
                }
                let arguments = command.strip_prefix("wythe ").unwrap_or_else(|| panic!("line {line}: {command}"));
                let arguments: Vec<&str> = arguments.split(' ').collect();
                let run: Run = plans.run_in(&here, &arguments, b"");
                let good = run.code == code && run.err.is_empty() && fits(&output, &run.out);
                assert!(good, "line {line}: `{command}` is told to give\n{output}and gives\n{}", run.shown());
                commands += 1;
            }
        }
    }
    assert!(commands >= 6, "{commands} commands");
}
