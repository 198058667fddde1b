//! What a person finds out about the command and its surroundings: settings, doctor, completions, manual, watching.

use std::fs;
use std::io::{BufRead as _, BufReader};
use std::process::Stdio;
use std::sync::mpsc::channel;
use std::time::Duration;

use crate::plans::{Plans, command};

#[test]
fn settings_are_those_of_the_nearest_manifest_with_the_rest_filled_in() {
    let plans = Plans::new(&[("houses/a.wythe", "let a = 1 in\n"), ("inner/b.wythe", "let b = 1 in\n")]);
    plans.write("inner/wythe.toml", "units = \"si\"\n[severity]\nlap_short = \"warning\"\n");
    let outer = plans.run(&["settings", "houses/a.wythe"]);
    assert_eq!(outer.code, 0, "{}", outer.shown());
    assert!(outer.out.starts_with("# wythe.toml\nedition = 2026\nsources = [\".\"]\n"), "{}", outer.out);
    assert!(outer.out.contains("units = \"us\"") && outer.out.contains("# today: none"), "{}", outer.out);
    let inner = plans.run(&["settings", "inner"]).out;
    assert!(inner.starts_with("# inner/wythe.toml\n") && inner.contains("units = \"si\""), "{inner}");
    assert!(inner.ends_with("[severity]\n\"lap_short\" = \"warning\"\n"), "{inner}");
    // What is shown is a manifest that says the same.
    let shown = plans.run(&["settings", "inner"]).out;
    plans.write("inner/wythe.toml", &shown);
    assert_eq!(plans.run(&["settings", "inner"]).out, shown);
    let json: serde_json::Value =
        serde_json::from_str(&plans.run(&["settings", "--format", "json", "inner"]).out).unwrap();
    assert_eq!(json[0]["severity"]["lap_short"], "warning");
    assert_eq!(plans.run(&["settings", "--files"]).out, "houses/a.wythe\ninner/b.wythe\n");
    plans.write("wythe.toml", "units = \"cubits\"\n");
    let faulty = plans.run(&["settings", "houses"]);
    assert!(faulty.code == 1 && faulty.err.contains("wythe.toml: 1 errors"), "{}", faulty.shown());
}

#[test]
fn doctor_tells_of_the_machine_and_not_of_the_plans() {
    let plans = Plans::new(&[("a.wythe", "let cellar = lost\n")]);
    let run = plans.run(&["doctor"]);
    assert_eq!(run.code, 0, "{}", run.shown());
    for said in ["wythe 0.", "threads: ", "git: git version", "manifest: there, 0 faults", "findings: 1 errors"] {
        assert!(run.out.contains(said), "{said}: {}", run.out);
    }
    assert!(!run.out.contains("cellar"));
}

#[test]
fn shells_and_readers_of_manuals_get_theirs() {
    let plans = Plans::new(&[]);
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let run = plans.run(&["completions", shell]);
        assert!(run.code == 0 && run.out.contains("what-if") && run.out.contains("warnings-as-errors"), "{shell}");
    }
    let page = plans.run(&["manual"]);
    assert!(page.code == 0 && page.out.contains(".TH wythe 1"), "{}", page.shown());
    assert_eq!(plans.run(&["manual", "man"]).code, 0);
    let check = plans.read("man/wythe-check.1");
    assert!(check.contains("changed") && check.contains("standard input"), "{check}");
    assert!(fs::read_dir(plans.path("man")).unwrap().count() > 20);
    assert_eq!(plans.run(&["manual", "wythe.toml"]).code, 2);
}

#[test]
fn severity_decides_the_exit_code_as_asked() {
    let plans = Plans::new(&[("a.wythe", "let a = lost\n")]);
    for (severity, code) in [("error", 1), ("warning", 1), ("information", 1), ("never", 0)] {
        assert_eq!(plans.run(&["check", "--fail-on", severity]).code, code, "{severity}");
    }
    plans.write("a.wythe", "let a = 1 in\n");
    plans.write("wythe.toml", "[severity]\nno_such = \"off\"\n");
    for (severity, code) in [("error", 0), ("warning", 1), ("information", 1), ("never", 0)] {
        assert_eq!(plans.run(&["check", "--fail-on", severity]).code, code, "{severity}");
    }
    plans.write("a.wythe", b"\xff\xfe");
    assert_eq!(plans.run(&["check", "--fail-on", "never"]).code, 2);
    assert_eq!(plans.run(&["check", "--fail-on", "never", "--warnings-as-errors"]).code, 2);
}

#[test]
fn a_workflow_of_github_gets_annotations_unasked() {
    let plans = Plans::new(&[("a.wythe", "let a = lost\n")]);
    let run = |value: &str, arguments: &[&str]| {
        let done = command(arguments).current_dir(plans.root()).env("GITHUB_ACTIONS", value).output().unwrap();
        String::from_utf8(done.stdout).unwrap()
    };
    assert!(run("true", &["check"]).starts_with("::error file=a.wythe,line=1"));
    assert!(run("true", &["check", "--format", "text"]).starts_with("[W"));
    assert!(run("", &["check"]).starts_with("[W"));
}

#[test]
fn lines_of_json_are_the_findings_of_the_document() {
    let plans = Plans::new(&[("a.wythe", "let a = lost\nlet b = gone\n")]);
    let whole: serde_json::Value = serde_json::from_str(&plans.run(&["check", "--format", "json"]).out).unwrap();
    let lines = plans.run(&["check", "--format", "json-lines"]).out;
    let each: Vec<serde_json::Value> = lines.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(each.len(), 2);
    assert_eq!(whole["findings"], serde_json::Value::Array(each));
}

#[test]
fn a_watched_check_is_made_again_after_each_change() {
    let plans = Plans::new(&[("houses/a.wythe", "let a = lost\n")]);
    let mut child = command(&["check", "--watch"])
        .current_dir(plans.root())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let (send, lines) = channel();
    let out = BufReader::new(child.stdout.take().unwrap());
    let reader = std::thread::spawn(move || out.lines().map_while(Result::ok).try_for_each(|line| send.send(line)));
    let until = |end: &str| {
        let mut seen = String::new();
        while !seen.contains(end) {
            let line = lines.recv_timeout(Duration::from_secs(60));
            seen.push_str(&line.unwrap_or_else(|_| panic!("`{end}` does not come: {seen}")));
            seen.push('\n');
        }
        seen
    };
    assert!(until("1 error").contains("lost"));
    plans.write("houses/a.wythe", "let a = gone\n");
    let again = until("1 error");
    assert!(again.contains("has changed") && again.contains("gone"), "{again}");
    // A new file, and one in a new folder.
    plans.write("houses/b.wythe", "let b = away\n");
    assert!(until("2 errors").contains("away"));
    child.kill().unwrap();
    child.wait().unwrap();
    let _ = reader.join();
    assert_eq!(plans.run_in(&plans.root(), &["check", "--watch", "-"], b"").code, 2);
}
