//! The plans the damage starts from, and the texts kept from earlier failures.

use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

fn texts(folder: &Path) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(folder) = open.pop() {
        for entry in fs::read_dir(&folder).unwrap_or_else(|e| panic!("{}: {e}", folder.display())) {
            let path = entry.unwrap().path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|e| e == "wythe")
                && let Ok(text) = fs::read_to_string(&path)
            {
                found.push((path.file_name().unwrap().to_string_lossy().into_owned(), text));
            }
        }
    }
    found.sort();
    found
}

/// Every source under `examples/` that is text.
pub fn all() -> Vec<String> {
    texts(&root().join("examples")).into_iter().map(|(_, text)| text).collect()
}

/// What once broke something, by name.
pub fn corpus() -> Vec<(String, String)> {
    texts(&root().join("tests/fuzz/corpus"))
}

/// Files the damaged texts may use, by path and text.
pub fn library() -> Vec<(String, String)> {
    let texts = texts(&root().join("examples/cedar_row/library"));
    texts.into_iter().map(|(name, text)| (format!("library/{name}"), text)).collect()
}
