//! Turns the pages under `pages/` into the registry: one constant and one entry a page.
//!
//! A page is the single source of its code: `explain`, the book, hover links and the output formats read it from here.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() {
    let root = PathBuf::from(env::var_os("CARGO_MANIFEST_DIR").expect("cargo sets the manifest folder"));
    let pages = root.join("pages");
    println!("cargo::rerun-if-changed={}", pages.display());
    let mut files = Vec::new();
    collect(&pages, &mut files);
    files.sort();

    let mut entries = BTreeMap::new();
    for file in &files {
        let text = fs::read_to_string(file).expect("a page is readable");
        let (head, body) =
            split(&text).unwrap_or_else(|| panic!("{}: a page opens with a head between --- lines", file.display()));
        let field = |key: &str| {
            head.lines()
                .find_map(|line| line.strip_prefix(key)?.strip_prefix(": "))
                .unwrap_or_else(|| panic!("{}: the head lacks `{key}`", file.display()))
                .trim()
                .to_owned()
        };
        let name = field("name");
        assert_eq!(
            file.file_stem().and_then(|s| s.to_str()),
            Some(name.as_str()),
            "{}: name and file differ",
            file.display()
        );
        let area = file.parent().and_then(Path::file_name).and_then(|s| s.to_str()).unwrap_or_default().to_owned();
        let entry =
            [name, area, field("title"), field("severity"), field("since"), field("fix"), body.trim().to_owned()];
        let code = field("code");
        assert!(entries.insert(code.clone(), entry).is_none(), "{}: code {code} is taken", file.display());
    }

    let mut out = String::new();
    for (index, (code, [name, _, title, ..])) in entries.iter().enumerate() {
        let _ = writeln!(out, "/// {code}: {title}.\npub const {}: Code = Code::new({index});", name.to_uppercase());
    }
    let _ = writeln!(out, "pub(crate) static PAGES: [Page; {}] = [", entries.len());
    for (code, [name, area, title, severity, since, fix, body]) in &entries {
        let severity = match severity.as_str() {
            "error" => "Error",
            "warning" => "Warning",
            "information" => "Information",
            other => panic!("{code}: no severity `{other}`"),
        };
        let fix = match fix.as_str() {
            "safe" => "Some(Safety::Safe)",
            "unsafe" => "Some(Safety::Unsafe)",
            "none" => "None",
            other => panic!("{code}: fix is safe, unsafe or none, not `{other}`"),
        };
        let _ = writeln!(
            out,
            "Page {{ number: {code:?}, name: {name:?}, area: {area:?}, title: {title:?}, severity: Severity::{severity}, since: {since:?}, fix: {fix}, body: {body:?} }},"
        );
    }
    out.push_str("];\n");
    let target = PathBuf::from(env::var_os("OUT_DIR").expect("cargo sets the output folder")).join("registry.rs");
    fs::write(target, out).expect("the output folder is writable");
}

fn collect(folder: &Path, files: &mut Vec<PathBuf>) {
    println!("cargo::rerun-if-changed={}", folder.display());
    for entry in fs::read_dir(folder).expect("the pages folder is there").flatten() {
        let path = entry.path();
        if path.is_dir() {
            collect(&path, files);
        } else if path.extension().is_some_and(|e| e == "md") {
            files.push(path);
        }
    }
}

fn split(text: &str) -> Option<(&str, &str)> {
    text.strip_prefix("---\n")?.split_once("\n---\n")
}
