//! Embeds the code packs under `codes/`: one entry a file, in order of name.

use std::fmt::Write as _;
use std::path::PathBuf;
use std::{env, fs};

fn main() {
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").expect("cargo sets the manifest folder"));
    let folder = root.join("codes");
    println!("cargo::rerun-if-changed={}", folder.display());
    let mut packs: Vec<PathBuf> = fs::read_dir(&folder)
        .into_iter()
        .flatten()
        .flatten()
        .map(|entry| entry.path())
        .filter(|path| path.extension().is_some_and(|e| e == "wythe"))
        .collect();
    packs.sort();
    let mut out = format!("static PACKS: [(&str, &str); {}] = [", packs.len());
    for path in &packs {
        let name = path.file_stem().and_then(|s| s.to_str()).expect("a pack has a plain name");
        let _ = write!(out, "({name:?}, include_str!({path:?})), ");
    }
    out.push_str("];\n");
    let target = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets the output folder")).join("packs.rs");
    fs::write(target, out).expect("the output folder is writable");
}
