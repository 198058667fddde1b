//! What a release needs: a changelog for the version, licenses that go with ours, one registry, hooks that run.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use wythe_tests::libraries::of_the_command;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn read(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// The licenses that `deny.toml` allows.
fn allowed() -> BTreeSet<String> {
    let deny = read("deny.toml");
    let list = deny.split("allow = [").nth(1).unwrap().split(']').next().unwrap();
    list.split('"').skip(1).step_by(2).map(str::to_owned).collect()
}

/// Whether an SPDX expression can be met by allowed licenses: one of each `OR`, all of each `AND`.
fn may_be_used(license: &str, allowed: &BTreeSet<String>) -> bool {
    let plain = license.replace(['(', ')'], "");
    plain.split(" AND ").all(|all| all.split(" OR ").any(|one| allowed.contains(one.trim())))
}

#[test]
fn every_library_may_be_used_and_comes_from_the_registry() {
    let allowed = allowed();
    assert!(allowed.contains("MIT"));
    assert!(may_be_used("(MIT OR Apache-2.0) AND Unicode-3.0", &allowed) && !may_be_used("GPL-3.0-only", &allowed));
    let libraries = of_the_command().unwrap();
    assert!(libraries.len() > 50, "{} libraries", libraries.len());
    for library in libraries {
        assert!(may_be_used(&library.license, &allowed), "{} is under `{}`", library.name, library.license);
        assert!(library.source.starts_with("registry+"), "{} comes from {}", library.name, library.source);
    }
}

#[test]
fn the_changelog_tells_of_the_version() {
    let version = format!("\n## {}\n", env!("CARGO_PKG_VERSION"));
    assert!(read("CHANGELOG.md").contains(&version), "CHANGELOG.md says nothing of {version}");
}

#[test]
fn the_hooks_offered_are_those_a_new_repository_gets() {
    let lines = |text: &str| -> Vec<String> {
        let kept = text.lines().map(|line| line.trim().trim_start_matches("- ").to_owned());
        let keys = ["id: ", "entry: ", "language: ", "files: ", "pass_filenames: "];
        kept.filter(|line| keys.iter().any(|key| line.starts_with(key))).collect()
    };
    assert_eq!(lines(&read(".pre-commit-hooks.yaml")), lines(&read("examples/ci/pre-commit-config.yaml")));
}

#[test]
fn the_container_builds_what_is_here() {
    let recipe = read("examples/ci/Containerfile");
    let place = recipe.split("--path /source/").nth(1).unwrap().split_whitespace().next().unwrap();
    assert!(root().join(place).join("Cargo.toml").is_file(), "{place}");
    let workflow = read("examples/ci/github.yml");
    assert!(workflow.contains(place), "the workflow installs from elsewhere");
}
