//! What `wythe check` keeps from one run to the next, and when it lets go of it.

use std::fs;
use std::path::PathBuf;
use std::process::Stdio;

use crate::plans::{Plans, command};

/// A repository of ten small files, one of them with a fault, and a folder for what is kept.
fn ten() -> (Plans, PathBuf) {
    let plans = Plans::bare();
    plans.write("wythe.toml", "edition = 2026\n");
    for number in 0..9 {
        plans.write(&format!("houses/{number}.wythe"), "use \"../library/a.wythe\": gap\nlet clear = gap * 2\n");
    }
    plans.write("houses/faulty.wythe", "let clear = 1 ft + 2 psf\n");
    plans.write("library/a.wythe", "pub let gap = 4 in\n");
    let cache = plans.root().parent().unwrap().join("cache");
    (plans, cache)
}

fn check(plans: &Plans, cache: &PathBuf, arguments: &[&str]) -> (i32, String) {
    let mut command = command(&[&["check"], arguments].concat());
    let output = command.current_dir(plans.root()).env("WYTHE_CACHE", cache).stdin(Stdio::null()).output().unwrap();
    (output.status.code().unwrap(), String::from_utf8(output.stdout).unwrap())
}

fn kept(cache: &PathBuf) -> Vec<PathBuf> {
    let mut kept: Vec<PathBuf> = fs::read_dir(cache).into_iter().flatten().map(|e| e.unwrap().path()).collect();
    kept.sort();
    kept
}

/// Puts a mark in the one answer kept, so that it is known when it is given; its digest made to fit.
fn mark(cache: &PathBuf) {
    let place = &kept(cache)[0];
    let text = fs::read_to_string(place).unwrap();
    let rest = format!("{}MARK\n", text.split_once('\n').unwrap().1);
    fs::write(place, format!("{}\n{rest}", blake3::hash(rest.as_bytes()))).unwrap();
}

#[test]
fn the_same_content_is_answered_from_what_is_kept_and_no_other() {
    let (plans, cache) = ten();
    let first = check(&plans, &cache, &[]);
    assert!(first.0 == 1 && first.1.contains("houses/faulty.wythe"), "{first:?}");
    assert_eq!(kept(&cache).len(), 1);
    mark(&cache);
    let marked = (1, format!("{}MARK\n", first.1));
    assert_eq!(check(&plans, &cache, &[]), marked);
    // Written again with the same bytes it is the same.
    plans.write("houses/3.wythe", plans.read("houses/3.wythe"));
    assert_eq!(check(&plans, &cache, &[]), marked);
    assert_eq!(check(&plans, &cache, &["--no-cache"]), first);
    // Other words are another question.
    assert_eq!(check(&plans, &cache, &["--warnings-as-errors"]), first);
    assert_eq!(kept(&cache).len(), 2);
}

#[test]
fn a_change_of_a_file_of_what_it_uses_or_of_the_manifest_is_worked_out() {
    for (path, text) in [
        ("houses/faulty.wythe", "let clear = 1 ft + 3 psf\n"),
        ("library/a.wythe", "pub let gap = 5 in\n"),
        ("wythe.toml", "edition = 2026\nunits = \"si\"\n"),
        ("houses/more.wythe", "let more = 1 ft\n"),
    ] {
        let (plans, cache) = ten();
        let first = check(&plans, &cache, &[]);
        mark(&cache);
        plans.write(path, text);
        let second = check(&plans, &cache, &[]);
        assert!(!second.1.contains("MARK"), "{path}: {second:?}");
        assert_eq!(second.0, first.0, "{path}");
    }
    let (plans, cache) = ten();
    check(&plans, &cache, &[]);
    mark(&cache);
    fs::remove_file(plans.path("houses/3.wythe")).unwrap();
    assert!(!check(&plans, &cache, &[]).1.contains("MARK"));
}

#[test]
fn what_is_kept_may_be_torn_wrong_or_nowhere() {
    let (plans, cache) = ten();
    let first = check(&plans, &cache, &[]);
    let place = kept(&cache)[0].clone();
    let whole = fs::read(&place).unwrap();
    for broken in [&b""[..], &whole[..whole.len() - 3], b"x\ny\nz\n", &whole[1..]] {
        fs::write(&place, broken).unwrap();
        assert_eq!(check(&plans, &cache, &[]), first);
        assert_eq!(fs::read(&place).unwrap(), whole, "it is written anew");
    }
    let nowhere = plans.path("wythe.toml").join("below_a_file");
    assert_eq!(check(&plans, &nowhere, &[]), first);
    assert_eq!(check(&plans, &PathBuf::new(), &[]), first);
}
