//! Faulty files: what is said, where, and how many times.

use std::fmt::Write as _;
use std::path::Path;

use wythe_findings::Finding;
use wythe_source::{FileId, LineTable};

/// A finding as a reader sees it: place, code, title, labels, mend and fixes.
fn shown(text: &str, finding: &Finding) -> String {
    let lines = LineTable::new(text);
    let at = lines.utf8(finding.primary.span.start);
    let mut out = format!("{}:{} {}: {}\n", at.line + 1, at.column + 1, finding.name.as_str(), finding.title);
    let quoted = |span: wythe_source::Span| span.text(text).replace('\n', "⏎");
    let _ = writeln!(out, "    `{}` {}", quoted(finding.primary.span), finding.primary.text);
    for label in &finding.related {
        let at = lines.utf8(label.span.start);
        let _ = writeln!(out, "    {}:{} `{}` {}", at.line + 1, at.column + 1, quoted(label.span), label.text);
    }
    for line in finding.cause.iter() {
        let _ = writeln!(out, "    cause: {line}");
    }
    for line in finding.mend.iter() {
        let _ = writeln!(out, "    mend: {line}");
    }
    for fix in &finding.fixes {
        let edits: Vec<_> =
            fix.edits.iter().map(|e| format!("`{}` -> `{}`", quoted(e.span), e.text.replace('\n', "⏎"))).collect();
        let _ = writeln!(out, "    fix: {} ({})", fix.title, edits.join(", "));
    }
    out
}

fn all_shown(text: &str) -> String {
    wythe_syntax::parse(FileId(0), text).findings.iter().map(|f| shown(text, f)).collect()
}

#[test]
fn faulty_files_say_what_is_wrong() {
    insta::glob!("faults/*.wythe", |path: &Path| {
        let text = std::fs::read_to_string(path).expect("readable");
        insta::assert_snapshot!(all_shown(&text));
    });
}

/// The folder of faulty files, by name.
fn fixtures() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/faults");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder of faulty files is there")
        .flatten()
        .map(|e| {
            let name = e.path().file_stem().map(|s| s.to_string_lossy().into_owned()).unwrap_or_default();
            (name, std::fs::read_to_string(e.path()).expect("readable"))
        })
        .collect();
    files.sort();
    files
}

#[test]
fn every_code_of_the_front_end_is_made_by_a_file() {
    let mut made: Vec<&str> = fixtures()
        .iter()
        .flat_map(|(_, text)| wythe_syntax::parse(FileId(0), text).findings)
        .map(|f| f.name.as_str())
        .collect();
    // Too large to keep as files; made by tests of their own below.
    made.extend(["file_too_large", "not_text", "too_many_findings"]);
    for page in wythe_findings::all_pages().filter(|p| p.area == "syntax") {
        assert!(made.contains(&page.name), "no file makes {}", page.name);
    }
}

#[test]
fn a_file_of_ten_mistakes_gives_one_finding_each() {
    let (_, text) = fixtures().into_iter().find(|(name, _)| name == "ten_mistakes").expect("the file is there");
    let lines = LineTable::new(&text);
    let places: Vec<_> = wythe_syntax::parse(FileId(0), &text)
        .findings
        .iter()
        .map(|f| lines.line_of(f.primary.span.start) + 1)
        .collect();
    assert_eq!(places, [2, 2, 6, 13, 16, 19, 21, 24, 24, 25, 28]);
}

#[test]
fn a_fix_takes_its_finding_away_and_makes_no_other() {
    for (name, text) in fixtures() {
        let before = wythe_syntax::parse(FileId(0), &text).findings;
        for finding in &before {
            for fix in &finding.fixes {
                let mended = wythe_findings::apply_edits(&text, &fix.edits).expect("the edits fit");
                let after = wythe_syntax::parse(FileId(0), &mended).findings;
                assert!(after.len() < before.len(), "{name}: {} leaves {:#?}", fix.title, after);
            }
        }
    }
}

#[test]
fn the_declarations_around_a_fault_are_kept() {
    let (_, text) = fixtures().into_iter().find(|(name, _)| name == "ten_mistakes").expect("the file is there");
    let parsed = wythe_syntax::parse(FileId(0), &text);
    let names: Vec<_> = parsed.module.decls.iter().map(|d| d.name.name.as_str()).collect();
    assert_eq!(names, ["set", "inspection_gap", "unit_4", "cedar_row"]);
    let lost = wythe_syntax::parse(FileId(0), "foundation f site_1 { walls { top: } }\nlet a = 1\n");
    assert_eq!(lost.lost.iter().map(|n| n.name.as_str()).collect::<Vec<_>>(), ["f"]);
    assert_eq!(lost.findings.len(), 2, "the header and the line in its block");
    assert_eq!(lost.module.decls.len(), 1);
}

#[test]
fn limits_are_findings() {
    use wythe_syntax::{decode, limits, parse};
    let large = " ".repeat(limits::MAX_FILE_BYTES + 1);
    assert_eq!(parse(FileId(0), &large).findings[0].name.as_str(), "file_too_large");
    assert_eq!(decode(FileId(0), large.as_bytes()).expect_err("too large").name.as_str(), "file_too_large");
    let binary = decode(FileId(3), b"let a = 1\n\xff\xfe").expect_err("not text");
    assert_eq!(
        (binary.name.as_str(), binary.primary.span.start, binary.primary.span.file),
        ("not_text", 10, FileId(3))
    );
    // A lone surrogate, encoded the way no UTF-8 text does.
    assert_eq!(decode(FileId(0), b"\xed\xa0\x80").expect_err("not text").name.as_str(), "not_text");
    assert_eq!(decode(FileId(0), "let a = 1".as_bytes()).expect("text"), "let a = 1");
    let many = parse(FileId(0), &"$ 1\n".repeat(5000)).findings;
    assert_eq!(many.len(), limits::MAX_FINDINGS + 1);
    assert_eq!(many.last().map(|f| f.name.as_str()), Some("too_many_findings"));
}

#[test]
fn nesting_is_bounded_however_it_is_made() {
    for (open, inner, close) in [
        ("let a = ", "(", ")"),
        ("let a = ", "[", "]"),
        ("let a = ", "f(", ")"),
        ("let a = ", "if a then b else ", ""),
        ("let a: ", "[", "]"),
        ("site s ", "{ a ", "}"),
        ("site s ", "{ a { b } junk ", "}"),
        ("let a = \"", "{(", ")}\""),
    ] {
        for depth in [10, 60, 70, 10_000] {
            let text = format!("{open}{}1{}\nlet after = 1\n", inner.repeat(depth), close.repeat(depth));
            let parsed = wythe_syntax::parse(FileId(0), &text);
            let last = parsed.module.decls.last().map(|d| d.name.name.as_str());
            assert_eq!(last, Some("after"), "{inner} {depth}");
            let too_deep = parsed.findings.iter().filter(|f| f.name.as_str() == "nested_too_deep").count();
            assert!(too_deep <= 1);
            if depth > 64 && !inner.contains('"') && !open.contains('"') {
                assert_eq!(too_deep, 1, "{inner} {depth}");
            }
        }
    }
}
