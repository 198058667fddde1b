//! Hostile plans are stopped soon and in little memory, by a finding or a refusal that says so.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::time::{Duration, Instant};

use wythe_project::{Memory, Project, SourcePath, run};
use wythe_tests::houses;

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

/// The names of what is found in a generated house after a change.
fn check_house(change: impl Fn(String) -> String) -> Vec<&'static str> {
    let start = Instant::now();
    let text = change(houses::house(1));
    let found = run(1, || {
        let mut files = houses::LIBRARY.to_vec();
        files.push(("houses/block_01/house_1.wythe", text.as_str()));
        let mut project = Project::open(Memory::new(files));
        project.add(SourcePath::resolve(&SourcePath::root(), "houses/block_01/house_1.wythe").unwrap());
        project.check_affected();
        project.findings().iter().map(|f| f.name.as_str()).collect::<Vec<_>>()
    });
    assert!(start.elapsed() < PATIENCE, "it took {:?}", start.elapsed());
    memory();
    found
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

#[test]
fn a_file_of_more_than_sixteen_mebibytes() {
    let large = "// \n".repeat((16 << 20) / 4 + 1);
    assert_eq!(check(&large), ["file_too_large"]);
}

#[test]
fn brackets_that_nest_without_end() {
    for count in [65, 100_000] {
        assert!(check(&format!("let a = {}1{}\n", "(".repeat(count), ")".repeat(count))).contains(&"nested_too_deep"));
        assert!(check(&format!("let a = {}", "[".repeat(count))).contains(&"nested_too_deep"));
    }
}

#[test]
fn a_unit_of_many_names() {
    let names = "W m kg s h K yd mm cm lb psf Pa J min day ft N";
    assert_eq!(names.split(' ').count(), 17);
    assert!(!check(&format!("let a = 1 {names}\n")).is_empty());
    assert!(!check(&format!("let a = 1 {}\n", vec!["ft"; 100_000].join(" "))).is_empty());
}

#[test]
fn a_grid_of_more_piers_than_a_house_has() {
    assert!(check_house(|text| text).iter().all(|name| *name != "impossible_value"));
    for grid in ["grid: 21 x 20", "grid: 1_000_000 x 1_000_000", "grid: 400 x 2"] {
        let found = check_house(|text| text.replace("grid: 2 x 2", grid));
        assert!(found.contains(&"impossible_value"), "{grid}: {found:?}");
    }
}

#[test]
fn lengths_that_no_site_has() {
    for length in ["5_281'", "1_000_000_000_000'"] {
        let wall = check_house(|text| {
            text.replacen("wall south_0 runs east 1", &format!("wall south_0 runs east {length} + 1"), 1)
        });
        assert!(wall.contains(&"impossible_value"), "{length}: {wall:?}");
        let pier = check_house(|text| text.replace("size: 16\" x 16\"", &format!("size: {length} x 16\"")));
        assert!(pier.contains(&"impossible_value"), "{length}: {pier:?}");
    }
}

#[test]
fn a_rule_that_goes_through_every_combination() {
    let rule = "\nrule every_four {\n    title: \"four walls\"\n    for each a in walls\n    for each b in walls\n    \
                for each c in walls\n    for each d in walls\n    for each e in walls\n    require a.length > 1 in\n    \
                otherwise \"{a.name}\"\n}\n";
    let found = check_house(|text| text + rule);
    assert!(found.contains(&"rule_failed_to_run") || found.contains(&"too_deep"), "{found:?}");
}

#[test]
fn a_baseline_and_a_lock_file_that_never_end() {
    let long = format!("form = 1\n# {}\n", "x".repeat(17 << 20));
    let start = Instant::now();
    let manifest = "[library.stock]\npath = \"../stock\"\n";
    let mut project = Project::open(Memory::new([("wythe.toml", manifest), ("wythe.lock", &long)]));
    project.check_affected();
    assert_eq!(project.findings().iter().map(|f| f.name.as_str()).collect::<Vec<_>>(), ["library_missing"]);
    let mut project = Project::open(Memory::new([("wythe.toml", long.as_str())]));
    project.check_affected();
    assert!(!project.findings().is_empty());
    assert!(start.elapsed() < PATIENCE);
}

#[test]
fn text_from_files_commands_no_terminal() {
    let text = "let a = \u{1b}[2Jlost\nlet b = \"\u{1b}]0;owned\u{7}\" + 1 in\n// \u{202e}\nlet c = \u{9b}31m\n";
    let found = run(1, || {
        let mut project = Project::open(Memory::new([("a\u{1b}[31m.wythe", text)]));
        project.add(SourcePath::resolve(&SourcePath::root(), "a\u{1b}[31m.wythe").unwrap());
        project.check_affected();
        let findings = project.findings();
        assert!(!findings.is_empty());
        let files = Named(&project);
        let mut sheets = wythe_render::terminal::Sheets::new(&files);
        let style = wythe_render::terminal::Style { color: false, width: 100 };
        let mut out = Vec::new();
        for finding in &findings {
            wythe_render::terminal::write_finding(finding, &mut sheets, style, &mut out).unwrap();
        }
        let checked = [wythe_render::ci::Checked { findings: &findings, files: &files, checked: &[] }];
        wythe_render::ci::github(&checked, &mut out).unwrap();
        out.extend(wythe_render::ci::junit("check", &wythe_render::ci::suites_of(&checked)).unwrap().into_bytes());
        String::from_utf8(out).unwrap()
    });
    let bad = found.chars().find(|c| c.is_control() && *c != '\n' || ('\u{202a}'..='\u{202e}').contains(c));
    assert_eq!(bad, None, "{found}");
}

/// The files of a project, by their names.
struct Named<'p>(&'p Project);

impl wythe_render::Files for Named<'_> {
    fn name(&self, file: wythe_source::FileId) -> String {
        self.0.name(file)
    }

    fn text(&self, file: wythe_source::FileId) -> &str {
        self.0.text(file)
    }
}
