//! Hostile plans are stopped soon and in little memory, by a finding or a refusal that says so.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::time::{Duration, Instant};

use wythe_project::{Memory, Project, SourcePath, run};

/// Long enough for a slow machine without optimisation, and far too short for anything that runs away.
const PATIENCE: Duration = Duration::from_secs(60);

/// The most memory the whole of this test may ever take.
#[cfg(target_os = "linux")]
const MOST_MEMORY: usize = 1 << 30;

/// Checks one text and gives the names of what was found.
fn check(text: &str) -> Vec<&'static str> {
    let start = Instant::now();
    let found = run(1, || {
        let mut project = Project::open(Memory::new([("a.wythe", text)]));
        project.add(SourcePath::resolve(&SourcePath::root(), "a.wythe").unwrap());
        project.check_affected();
        let findings = project.findings();
        for finding in &findings {
            let size = finding.title.len() + finding.cause.as_deref().map_or(0, str::len);
            assert!(size < 100_000, "{} says {size} bytes", finding.name.as_str());
        }
        findings.iter().map(|f| f.name.as_str()).collect::<Vec<_>>()
    });
    assert!(start.elapsed() < PATIENCE, "it took {:?}\n{}", start.elapsed(), text.get(..200).unwrap_or(text));
    assert!(!found.contains(&"internal_error"));
    memory();
    found
}

/// Holds the peak of memory of this process, as Linux tells it.
fn memory() {
    #[cfg(target_os = "linux")]
    {
        let status = std::fs::read_to_string("/proc/self/status").unwrap();
        let peak = status.lines().find_map(|line| line.strip_prefix("VmHWM:")).unwrap();
        let kilobytes: usize = peak.trim().trim_end_matches("kB").trim().parse().unwrap();
        assert!(kilobytes << 10 < MOST_MEMORY, "{kilobytes} kB");
    }
}

/// `count` declarations, each made of the one before.
fn chain(first: &str, count: usize, next: impl Fn(&str, &str) -> String) -> String {
    let mut out = format!("let a0 = {first}\n");
    for n in 1..=count {
        out.push_str(&next(&format!("a{n}"), &format!("a{}", n - 1)));
        out.push('\n');
    }
    out
}

#[test]
fn lists_that_double_with_every_line() {
    let doubled = |a: &str, b: &str| format!("let {a} = [[x for each x in {b}], [x for each x in {b}]]");
    assert!(!check(&chain("[1, 1]", 60, doubled)).is_empty());
}

#[test]
fn lists_made_of_lists_by_name() {
    let doubled = |a: &str, b: &str| format!("let {a} = [{b}, {b}, {b}, {b}, {b}, {b}, {b}, {b}, {b}, {b}]");
    let text = chain("[1]", 40, doubled);
    check(&text);
    check(&format!("{text}\ntest \"t\" {{ expect a40 == a39 }}\n"));
    check(&format!("{text}\nlet b = \"is {{a40}} long\"\n"));
}

#[test]
fn texts_that_double_with_every_line() {
    let doubled = |a: &str, b: &str| format!("let {a} = \"{{{b}}}{{{b}}}\"");
    assert!(!check(&chain("\"lol\"", 60, doubled)).is_empty());
}

#[test]
fn texts_that_are_joined() {
    check(&chain("\"lol\"", 60, |a, b| format!("let {a} = {b} + {b}")));
}

#[test]
fn nested_comprehensions() {
    let list = format!("let n = [{}]\n", vec!["1"; 500].join(", "));
    let deep =
        "let b = [1 for each a in n where count([1 for each b in n where count([1 for each c in n]) > 0]) > 0]\n";
    assert!(check(&format!("{list}{deep}")).contains(&"too_deep"));
}

#[test]
fn functions_that_call_themselves_twice() {
    let text = "fn f(n: Number) -> Number = if n < 1 then 1 else f(n: n - 1) + f(n: n - 1)\nlet a = f(n: 60)\n";
    assert!(check(text).contains(&"too_deep"));
}

#[test]
fn functions_that_double_a_list_at_each_call() {
    let text = "fn f(l: [Number], n: Number) -> [Number] = \
                if n < 1 then l else f(l: [x for each x in l], n: n - 1)\n\
                let a = count(f(l: [1, 2], n: 150))\n";
    check(text);
}

#[test]
fn units_of_units() {
    let text = chain("1 in", 0, |_, _| String::new())
        + &(1..200)
            .fold("unit u0 = 1_000_000 ft\n".to_owned(), |out, n| format!("{out}unit u{n} = 1_000_000 u{}\n", n - 1))
        + "let far = 1 u199\n";
    assert!(!check(&text).is_empty());
}

#[test]
fn thousands_of_mistakes_are_counted_and_not_all_told() {
    let text: String = (0..20_000).map(|n| format!("let a{n} = lost{n}\n")).collect();
    let found = check(&text);
    assert!(found.len() == 1_001 && found.contains(&"too_many_findings"), "{}", found.len());
}

#[test]
fn a_wide_file_of_everything() {
    let text: String = (0..3_000).map(|n| format!("let a{n} = [{}]\n", vec!["1 in"; 40].join(", "))).collect();
    check(&text);
}
