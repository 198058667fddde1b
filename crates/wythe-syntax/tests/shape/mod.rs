//! What a text says, without places: for comparing trees before and after formatting.
#![allow(dead_code, reason = "each test file uses its own part")]

use wythe_source::FileId;
use wythe_syntax::ast::{ExprId, ExprKind, Module};
use wythe_syntax::parse;

/// The files that must read without a finding.
pub fn good_files() -> Vec<(String, String)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/good");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder of good files is there")
        .flatten()
        .filter(|e| e.path().extension().is_some_and(|x| x == "wythe"))
        .map(|e| {
            let name = e.path().file_stem().map(|s| s.to_string_lossy().into_owned()).unwrap_or_default();
            (name, std::fs::read_to_string(e.path()).expect("readable"))
        })
        .collect();
    files.sort();
    assert!(files.len() >= 9, "the good files are missing");
    files
}

/// The tree of a text as words: spans left out, expressions put in the place of their numbers.
pub fn shape(text: &str) -> String {
    let module = parse(FileId(0), text).module;
    let mut out = String::new();
    for line in &module.uses {
        out.push_str(&resolved(&format!("{:?}\n", line.target), &module, text));
    }
    for decl in &module.decls {
        out.push_str(&format!("{} {} ", decl.public, decl.docs.map_or("", |d| d.text(text))));
        out.push_str(&resolved(&format!("{:?}\n", decl.kind), &module, text));
    }
    out
}

fn expr(id: ExprId, module: &Module, text: &str) -> String {
    let expr = &module[id];
    match &expr.kind {
        ExprKind::Number { figure, unit } => {
            format!("{} {}", figure.text(text), resolved(&format!("{unit:?}"), module, text))
        }
        ExprKind::Length | ExprKind::RValue | ExprKind::Date | ExprKind::Lumber => {
            expr.span.text(text).split_whitespace().collect()
        }
        kind => resolved(&format!("{kind:?}"), module, text),
    }
}

/// Puts expressions for `ExprId(n)` and nothing for spans such as `0:12..15`.
fn resolved(debug: &str, module: &Module, text: &str) -> String {
    let mut out = String::new();
    let mut rest = debug;
    while let Some(c) = rest.chars().next() {
        if let Some(after) = rest.strip_prefix("ExprId(") {
            let (number, after) = after.split_once(')').expect("a number in brackets");
            out.push_str(&expr(ExprId(number.parse().expect("a number")), module, text));
            rest = after;
        } else if rest.starts_with("0:") && !out.ends_with(|c: char| c.is_ascii_digit()) {
            rest = rest[2..].trim_start_matches(|c: char| c.is_ascii_digit() || c == '.');
        } else {
            out.push(c);
            rest = &rest[c.len_utf8()..];
        }
    }
    out
}
