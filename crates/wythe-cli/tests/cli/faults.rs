//! Killed, crowded out, short of disk or of leave: whatever happens, a file is the old one or the new one.
#![cfg(unix)]

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant, SystemTime};

use crate::plans::{Plans, command};

/// How many moments of a run it is killed at.
const MOMENTS: u32 = 24;

/// A file that the formatter lays out, too long to be written in one breath.
fn untidy(number: usize) -> String {
    let line =
        |n: usize| format!("let   a{number}_{n}=16   in // line {n} of a file that takes a while to be written\n");
    (0..400).map(line).collect()
}

fn repository(files: usize) -> Plans {
    let plans = Plans::new(&[]);
    for number in 0..files {
        plans.write(&format!("houses/h{number}.wythe"), untidy(number));
    }
    plans
}

/// Every file that people see, by path; what is hidden may be left behind by who was killed.
fn texts(root: &Path) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut open = vec![root.to_path_buf()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.strip_prefix(root).unwrap().to_string_lossy().into_owned();
            if path.is_dir() {
                open.push(path);
            } else if !name.rsplit('/').next().unwrap().starts_with(".tmp") && !name.contains(".passing-") {
                found.insert(name, fs::read_to_string(&path).unwrap());
            }
        }
    }
    found
}

/// Runs a command over and over, killed a little later each time, and holds every file to one of its two texts.
fn killed(arguments: &[&str], files: usize, prepare: impl Fn(&Plans)) {
    let whole = repository(files);
    prepare(&whole);
    let old = texts(&whole.root());
    let start = Instant::now();
    let done = whole.run(arguments);
    let length = start.elapsed();
    assert!(done.code <= 1, "{}", done.shown());
    let new = texts(&whole.root());
    assert_ne!(old, new, "{arguments:?} writes nothing");
    let (mut untouched, mut finished) = (0, 0);
    for moment in 0..MOMENTS {
        let plans = repository(files);
        prepare(&plans);
        let mut child =
            command(arguments).current_dir(plans.root()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        std::thread::sleep(length * moment / (MOMENTS - 2));
        // A run that is over already cannot be killed.
        let _ = child.kill();
        child.wait().unwrap();
        let now = texts(&plans.root());
        for (name, text) in &now {
            let known = [old.get(name), new.get(name)].contains(&Some(text));
            assert!(known, "{arguments:?} killed at {moment}: {name} is torn\n{text:.200}");
        }
        for name in old.keys() {
            assert!(now.contains_key(name), "{arguments:?} killed at {moment}: {name} is gone");
        }
        untouched += usize::from(now == old);
        finished += usize::from(now == new);
    }
    assert!(untouched + finished > 0);
}

#[test]
fn killed_while_formatting() {
    killed(&["format"], 12, |_| ());
}

#[test]
fn killed_while_mending() {
    killed(&["fix", "--write"], 1, |plans| plans.write("houses/h0.wythe", "let a = 16\"x16\"\nlet b = 12\"x12\"\n"));
}

#[test]
fn killed_while_writing_a_baseline() {
    let faulty: String = (0..300).map(|n| format!("let a{n} = 3' / 0\n")).collect();
    killed(&["baseline", "--write"], 0, |plans| plans.write("houses/h.wythe", &faulty));
}

#[test]
fn killed_while_writing_a_report() {
    let faulty: String = (0..300).map(|n| format!("let a{n} = lost{n}\n")).collect();
    killed(&["check", "--format", "sarif", "--output", "report.sarif"], 0, |plans| {
        plans.write("houses/h.wythe", &faulty);
        plans.write("report.sarif", "the report of yesterday");
    });
}

#[test]
fn killed_while_locking_libraries() {
    killed(&["library", "--fetch"], 0, |plans| {
        // Beside the houses, though in the same repository: the folder of a library may lie anywhere.
        let text: String = (0..400).map(|n| format!("pub let a{n} = {n} in\n")).collect();
        plans.write("stock/a.wythe", &text);
        plans.write("stock/b.wythe", &text);
        plans.write("wythe.toml", "sources = [\"houses\"]\n[library.stock]\npath = \"stock\"\n");
        plans.write("wythe.lock", "form = 1\n");
    });
}

#[test]
fn a_killed_fetch_is_told_and_made_good() {
    let plans =
        Plans::new(&[("stock/a.wythe", "pub let a = 1 in\n"), ("houses/h.wythe", "use \"stock/a.wythe\": a\n")]);
    plans.write("wythe.toml", "sources = [\"houses\"]\n[library.stock]\npath = \"stock\"\n");
    assert_eq!(plans.run(&["library", "--fetch"]).code, 0);
    // As a kill between two steps leaves it: the copy is set aside, and the new one has not taken its place.
    fs::create_dir(plans.path(".libraries/.passing-1")).unwrap();
    fs::rename(plans.path(".libraries/stock"), plans.path(".libraries/.passing-1/old")).unwrap();
    assert_eq!(plans.run(&["check"]).code, 1);
    assert_eq!(plans.run(&["library", "--fetch"]).code, 0);
    assert_eq!(plans.run(&["check"]).code, 0);
}

/// Runs the command from a shell that has set a limit on the size of files first.
fn short_of_disk(plans: &Plans, arguments: &str, heed: &str) -> (i32, String) {
    let script = format!("{heed} ulimit -f 8; exec \"$0\" {arguments}");
    let done = Command::new("sh")
        .args(["-c", &script, env!("CARGO_BIN_EXE_wythe")])
        .current_dir(plans.root())
        .env_remove("GITHUB_ACTIONS")
        .output()
        .unwrap();
    (done.status.code().unwrap_or(-1), String::from_utf8(done.stderr).unwrap())
}

#[test]
fn a_full_disk_is_told_and_loses_nothing() {
    // Without heed the system ends the process in the middle of the write; with it, the write fails.
    for (heed, code) in [("", -1), ("trap '' XFSZ;", 2)] {
        let plans = repository(2);
        let old = texts(&plans.root());
        let (done, said) = short_of_disk(&plans, "format", heed);
        assert_eq!(done, code, "{said}");
        assert!(code != 2 || said.contains("houses/h0.wythe: not written"), "{said}");
        assert_eq!(texts(&plans.root()), old);
        let (done, _) = short_of_disk(&plans, "baseline --write --file large.toml", heed);
        assert!(done == code || !plans.path("large.toml").exists() || plans.run(&["check"]).code == 0);
        plans.write("houses/h0.wythe", (0..300).map(|n| format!("let a{n} = lost{n}\n")).collect::<String>());
        plans.write("report.json", "old");
        assert_eq!(short_of_disk(&plans, "check --format json --output report.json", heed).0, code);
        assert_eq!(plans.read("report.json"), "old");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn an_output_that_takes_nothing_is_a_fault_of_the_run() {
    let plans = Plans::new(&[("a.wythe", "let a = lost\n")]);
    for arguments in [&["check"][..], &["check", "--format", "json"], &["explain"], &["format", "--diff"], &["manual"]]
    {
        plans.write("a.wythe", "let   a = lost\n");
        let full = fs::File::options().write(true).open("/dev/full").unwrap();
        let done = command(arguments).current_dir(plans.root()).stdout(full).output().unwrap();
        assert_eq!(done.status.code(), Some(2), "{arguments:?}");
        assert!(String::from_utf8(done.stderr).unwrap().starts_with("wythe: "), "{arguments:?}");
    }
}

#[test]
fn a_tree_that_may_not_be_written_stays_and_is_told() {
    use std::os::unix::fs::PermissionsExt as _;
    let plans = repository(1);
    plans.write("houses/g.wythe", "let a = 16\"x16\"\n");
    let old = texts(&plans.root());
    let houses = plans.path("houses");
    fs::set_permissions(&houses, fs::Permissions::from_mode(0o555)).unwrap();
    // Who may do everything is not stopped by permissions; the file's own then stand for those of the folder.
    if fs::write(houses.join("probe"), "").is_ok() {
        fs::remove_file(houses.join("probe")).unwrap();
        for file in ["h0.wythe", "g.wythe"] {
            fs::set_permissions(houses.join(file), fs::Permissions::from_mode(0o444)).unwrap();
        }
    }
    for (arguments, file) in [(&["format"][..], "h0"), (&["fix", "--write"], "g")] {
        let run = plans.run(arguments);
        assert_eq!(run.code, 2, "{}", run.shown());
        assert!(run.err.contains(&format!("houses/{file}.wythe: not written")), "{}", run.err);
        assert_eq!(texts(&plans.root()), old);
    }
    assert_eq!(plans.run(&["check", "houses/h0.wythe"]).code, 0, "reading needs no leave to write");
    fs::set_permissions(&houses, fs::Permissions::from_mode(0o755)).unwrap();
}

#[test]
fn no_clock_is_heard() {
    let plans = Plans::new(&[("houses/a.wythe", "let a = lost\n"), ("houses/b.wythe", "let b = 1 in\n")]);
    let first = plans.run(&["check", "--format", "json"]).out;
    let century = Duration::from_secs(100 * 365 * 24 * 3600);
    let now = SystemTime::now();
    for time in [SystemTime::UNIX_EPOCH, now - Duration::from_secs(5), now + century] {
        for file in ["houses/a.wythe", "houses/b.wythe", "wythe.toml"] {
            fs::File::options().write(true).open(plans.path(file)).unwrap().set_modified(time).unwrap();
        }
        assert_eq!(plans.run(&["check", "--format", "json"]).out, first);
    }
    // A file changed within the same tick of the clock is seen.
    let before = fs::metadata(plans.path("houses/b.wythe")).unwrap().modified().unwrap();
    plans.write("houses/b.wythe", "let b = 1 xx\n");
    fs::File::options().write(true).open(plans.path("houses/b.wythe")).unwrap().set_modified(before).unwrap();
    assert_ne!(plans.run(&["check", "--format", "json"]).out, first);
}

#[test]
fn two_at_once_leave_what_one_leaves() {
    let one = repository(6);
    one.run(&["format"]);
    let due = texts(&one.root());
    for _ in 0..4 {
        let plans = repository(6);
        let run = || {
            let mut command = command(&["format"]);
            command.current_dir(plans.root()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
        };
        let mut running: Vec<_> = (0..3).map(|_| run()).collect();
        for child in &mut running {
            assert_eq!(child.wait().unwrap().code(), Some(0));
        }
        assert_eq!(texts(&plans.root()), due);
        // Nothing in passing is left behind by who ends well.
        assert_eq!(fs::read_dir(plans.path("houses")).unwrap().count(), 6);
    }
}
