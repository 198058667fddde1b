//! The libraries that the command is built of, as the lock file has them.

use std::collections::{BTreeMap, BTreeSet};
use std::io;
use std::path::Path;
use std::process::Command;

use serde_json::Value;

/// One library of another's making.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct OutsideLibrary {
    /// Its name in the registry.
    pub name: String,
    /// Its version.
    pub version: String,
    /// Its license, as an SPDX expression.
    pub license: String,
    /// The registry it comes from.
    pub source: String,
}

/// Every library that is linked into the command on this platform, build scripts and tests left out.
///
/// # Errors
/// Where `cargo metadata` cannot be run or understood.
pub fn of_the_command() -> io::Result<Vec<OutsideLibrary>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let version = Command::new("rustc").arg("-vV").output()?;
    let version = String::from_utf8_lossy(&version.stdout);
    let host = version.lines().find_map(|line| line.strip_prefix("host: ")).unwrap_or_default();
    let done = Command::new(cargo)
        .args(["metadata", "--format-version", "1", "--locked", "--offline", "--filter-platform", host])
        .current_dir(root)
        .output()?;
    if !done.status.success() {
        return Err(io::Error::other(String::from_utf8_lossy(&done.stderr).into_owned()));
    }
    let metadata: Value = serde_json::from_slice(&done.stdout).map_err(io::Error::other)?;
    let list = |value: &Value| value.as_array().cloned().unwrap_or_default();
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let nodes: BTreeMap<String, Value> =
        list(&metadata["resolve"]["nodes"]).into_iter().map(|node| (text(&node["id"]), node)).collect();
    let packages = list(&metadata["packages"]);
    let mut open: Vec<String> = packages.iter().filter(|p| p["name"] == "wythe").map(|p| text(&p["id"])).collect();
    let mut reached: BTreeSet<String> = BTreeSet::new();
    while let Some(id) = open.pop() {
        if reached.insert(id.clone()) {
            let linked = |dep: &Value| list(&dep["dep_kinds"]).iter().any(|kind| kind["kind"].is_null());
            let deps = nodes.get(&id).map(|node| list(&node["deps"])).unwrap_or_default();
            open.extend(deps.iter().filter(|dep| linked(dep)).map(|dep| text(&dep["pkg"])));
        }
    }
    let outside = packages.iter().filter(|p| !p["source"].is_null() && reached.contains(&text(&p["id"])));
    let mut libraries: Vec<OutsideLibrary> = outside
        .map(|p| OutsideLibrary {
            name: text(&p["name"]),
            version: text(&p["version"]),
            license: text(&p["license"]).replace('/', " OR "),
            source: text(&p["source"]),
        })
        .collect();
    libraries.sort();
    Ok(libraries)
}
