//! `keystroke`: from a key to the findings it brings, in an editor's client that drives this server and two public ones
//! by the same kind of trace. A clock stops only when the answer says what it must.

mod client;
mod trace;

use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use std::{fs, io};

use client::{Client, address};
use trace::{Tongue, Trace, places, print};

use crate::plans;
use crate::workplace::Workplace;

const HOUSES: u64 = 1000;
const EDITS: usize = 2000;
const EDITS_OF_LONG: usize = 400;
const EDITS_OF_LIBRARY: usize = 60;
const QUESTIONS: usize = 600;
const EDITS_FOR_MEMORY: i32 = 100_000;
const STARTS: usize = 20;

const WYTHE: Tongue = Tongue { name: "wythe", unknown: &["unknown_name", "not_exported", "unknown_import"] };
const PYTHON: Tongue = Tongue { name: "python", unknown: &["F821", "unresolved-reference"] };

pub(crate) fn run(at: &Workplace) -> io::Result<()> {
    let (root, bytes) = plans::write_plans(&at.folder, HOUSES)?;
    let root = fs::canonicalize(root)?;
    let python = fs::canonicalize(plans::write_python(&at.folder, HOUSES, bytes)?)?;
    println!("{HOUSES} files, {bytes} bytes in each repository");
    let wythe = at.own("wythe");
    let own = Peer { program: wythe, arguments: &["serve"], root, tongue: &WYTHE };
    version("wythe", &own.program)?;
    house(&own)?;
    long_file(&own)?;
    library(&own)?;
    starts(&own)?;
    memory(&own)?;
    for name in ["ruff", "ty"] {
        let program = at.program(name);
        version(name, &program)?;
        module(&Peer { program, arguments: &["server"], root: python.clone(), tongue: &PYTHON })?;
    }
    Ok(())
}

/// A server, and what it is run on.
struct Peer {
    program: PathBuf,
    arguments: &'static [&'static str],
    root: PathBuf,
    tongue: &'static Tongue,
}

impl Peer {
    fn start(&self) -> io::Result<(Client, Instant)> {
        Client::start(&self.program, self.arguments, &self.root)
    }
}

fn version(name: &str, program: &Path) -> io::Result<()> {
    let told = std::process::Command::new(program).arg("--version").output();
    let told = told.map_err(|error| io::Error::other(format!("{}: {error}", program.display())))?;
    println!("-- {name}: {}", String::from_utf8_lossy(&told.stdout).trim());
    Ok(())
}

/// Waits until the server says that all files are checked.
fn at_rest(client: &mut Client) -> io::Result<Instant> {
    let rest = |message: &serde_json::Value| {
        message["method"] == "window/logMessage"
            && message["params"]["message"].as_str().is_some_and(|line| line.starts_with("checked "))
    };
    Ok(client.until(rest)?.0)
}

/// The house of a repository that is nearest to 300 lines: its address, its text, and the name it measures by.
fn a_house(own: &Peer) -> io::Result<(String, String, String)> {
    let off = |number: &u64| wythe_tests::houses::house(*number).lines().count().abs_diff(300);
    let number = (0..HOUSES).min_by_key(off).unwrap_or(0);
    let path = own.root.join(wythe_tests::houses::house_path(number));
    Ok((address(&path), fs::read_to_string(&path)?, format!("bay_{number}")))
}

/// The house in a repository of 1,000.
fn house(own: &Peer) -> io::Result<()> {
    let (url, text, bay) = a_house(own)?;
    let (mut client, _) = own.start()?;
    at_rest(&mut client)?;
    client.open(&url, own.tongue.name, &text)?;
    let lines = text.lines().count();
    let names = places(&text, &bay, |line| line.starts_with("let face_"));
    let mut trace = Trace { url: &url, tongue: own.tongue, version: 0 };
    trace.keystrokes(&mut client, &names, EDITS / 4)?;
    let mut times = trace.keystrokes(&mut client, &names, EDITS)?;
    print(&format!("key to findings, {lines} lines of {HOUSES} files"), &mut times, "p50 0.5, p99 2");
    let mut times = judged(&mut client, &mut trace, &text)?;
    print("key to what a judged house says", &mut times, "");
    let told = |answer: &serde_json::Value| answer["contents"]["value"].as_str().is_some_and(|t| t.contains(&bay));
    let mut times = trace.questions(&mut client, "textDocument/hover", &names, QUESTIONS, told)?;
    print("key to hover", &mut times, "p99 5");
    let label = format!("\"{bay}\"");
    let listed = |answer: &serde_json::Value| answer.to_string().contains(&label);
    let mut times = trace.questions(&mut client, "textDocument/completion", &names, QUESTIONS, listed)?;
    print("key to completion", &mut times, "p99 5");
    client.leave()
}

/// A wall made too long, and long enough again: found when the walk of the walls is worked out.
fn judged(client: &mut Client, trace: &mut Trace<'_>, text: &str) -> io::Result<Vec<Duration>> {
    let walls = places(text, "runs east ", |line| line.trim_start().starts_with("wall south_0 "));
    let Some(wall) = walls.first() else { return Err(io::Error::other("the house has no first wall")) };
    let mut times = Vec::new();
    for _ in 0..EDITS / 20 {
        for (stretch, text, open) in [((0, 0), "1", true), ((0, 1), "", false)] {
            trace.version += 1;
            let (line, column) = wall.after();
            let begun =
                client.change(trace.url, trace.version, line, (column + stretch.0, column + stretch.1), text)?;
            let came = client.findings(trace.url, |all| {
                all.iter().any(|d| d["code"].as_str().is_some_and(|code| code == "walk_open")) == open
            })?;
            times.push(came - begun);
        }
    }
    Ok(times)
}

/// A file of 5,000 lines.
fn long_file(own: &Peer) -> io::Result<()> {
    let house = wythe_tests::houses::house(7);
    let (head, tail) = house.split_at(house.find("/// What bay 0").unwrap_or(0));
    let mut text = head.to_owned();
    let mut copies = 0;
    while text.lines().count() < 5000 {
        text.push_str(&tail.replace("_7_", &format!("_{}_", 10_000 + copies)));
        copies += 1;
    }
    let path = own.root.join("houses/long.wythe");
    let url = address(&path);
    let (mut client, _) = own.start()?;
    at_rest(&mut client)?;
    client.open(&url, own.tongue.name, &text)?;
    let names = places(&text, "bay_7", |line| line.starts_with("let face_"));
    let mut trace = Trace { url: &url, tongue: own.tongue, version: 0 };
    trace.keystrokes(&mut client, &names, EDITS_OF_LONG / 4)?;
    let mut times = trace.keystrokes(&mut client, &names, EDITS_OF_LONG)?;
    print(&format!("key to findings, {} lines", text.lines().count()), &mut times, "p99 10");
    client.leave()
}

/// The library that every house uses, with one of the houses open too.
fn library(own: &Peer) -> io::Result<()> {
    let path = own.root.join("library/products.wythe");
    let (url, text) = (address(&path), fs::read_to_string(&path)?);
    let (house, house_text, _) = a_house(own)?;
    let (mut client, _) = own.start()?;
    at_rest(&mut client)?;
    client.open(&url, own.tongue.name, &text)?;
    client.open(&house, own.tongue.name, &house_text)?;
    let names = places(&text, "foil_board_2in", |line| line.starts_with("pub product foil_board_2in"));
    let Some(&name) = names.first() else { return Err(io::Error::other("the library has no such product")) };
    let mut trace = Trace { url: &url, tongue: own.tongue, version: 0 };
    let mut times = Vec::new();
    for _ in 0..EDITS_OF_LIBRARY / 2 {
        times.push(trace.misspell(&mut client, name, &house)?);
        times.push(trace.put_right(&mut client, name, &house)?);
    }
    print(&format!("key in a library of {HOUSES} users to a house"), &mut times, "p99 50");
    client.leave()
}

/// From the start of the server to the first finding in the file opened, and to the last in the repository.
fn starts(own: &Peer) -> io::Result<()> {
    let (url, text, bay) = a_house(own)?;
    let broken = text.replacen(&format!("= {bay} *"), "= bay_q *", 1);
    let (mut first, mut all) = (Vec::new(), Vec::new());
    for _ in 0..STARTS {
        let (mut client, begun) = own.start()?;
        client.open(&url, own.tongue.name, &broken)?;
        let unknown = |d: &serde_json::Value| d["code"].as_str().is_some_and(|c| own.tongue.unknown.contains(&c));
        first.push(client.findings(&url, |found| found.iter().any(unknown))? - begun);
        all.push(at_rest(&mut client)? - begun);
        client.leave()?;
    }
    print("start to first findings", &mut first, "max 50");
    print(&format!("start to the findings of {HOUSES} files"), &mut all, "max 1000");
    Ok(())
}

/// Memory before and after many edits.
fn memory(own: &Peer) -> io::Result<()> {
    let (url, text, bay) = a_house(own)?;
    let (mut client, _) = own.start()?;
    at_rest(&mut client)?;
    client.open(&url, own.tongue.name, &text)?;
    let names = places(&text, &bay, |line| line.starts_with("let face_"));
    let mut trace = Trace { url: &url, tongue: own.tongue, version: 0 };
    trace.keystrokes(&mut client, &names, 200)?;
    let before = client.memory();
    let begun = Instant::now();
    // A name that is new each time, so that what is kept of old names shows.
    let name = names[0].after();
    for number in 0..EDITS_FOR_MEMORY / 2 {
        let word = format!("q{number}");
        trace.version += 2;
        client.change(&url, trace.version - 1, name.0, (name.1, name.1), &word)?;
        let end = name.1 + word.len() as u32;
        client.change(&url, trace.version, name.0, (name.1, end), "")?;
        if number % 50 == 0 {
            let params = serde_json::json!({ "textDocument": { "uri": url } });
            client.request("textDocument/foldingRange", &params)?;
        }
    }
    trace.keystrokes(&mut client, &names, 10)?;
    let taken = begun.elapsed().as_secs_f64();
    if let (Some(before), Some(after)) = (before, client.memory()) {
        println!(
            "{:>44}: {before:.1} MiB before and {after:.1} MiB after {EDITS_FOR_MEMORY} edits in {taken:.1} s (aim: under 100, flat)",
            "memory"
        );
    }
    client.leave()
}

/// The same kind of trace for a public server: a module of its language, of as many bytes as a house.
fn module(peer: &Peer) -> io::Result<()> {
    let path = peer.root.join("module_7.py");
    let (url, text) = (address(&path), fs::read_to_string(&path)?);
    let (mut client, begun) = peer.start()?;
    let broken = text.replacen("= length * height", "= lengthq * height", 1);
    client.open(&url, peer.tongue.name, &broken)?;
    let unknown = |d: &serde_json::Value| d["code"].as_str().is_some_and(|c| peer.tongue.unknown.contains(&c));
    let first = client.findings(&url, |found| found.iter().any(unknown))? - begun;
    println!("{:>44}: {:.1} ms", "start to first findings", first.as_secs_f64() * 1000.0);
    client.leave()?;
    let (mut client, _) = peer.start()?;
    client.open(&url, peer.tongue.name, &text)?;
    let lines = text.lines().count();
    let names = places(&text, "length", |line| line.contains("= length * height"));
    let mut trace = Trace { url: &url, tongue: peer.tongue, version: 0 };
    trace.keystrokes(&mut client, &names, EDITS / 4)?;
    let mut times = trace.keystrokes(&mut client, &names, EDITS)?;
    print(&format!("key to findings, {lines} lines of {HOUSES} files"), &mut times, "");
    if let Some(memory) = client.memory() {
        println!("{:>44}: {memory:.1} MiB", "memory");
    }
    client.leave()
}
