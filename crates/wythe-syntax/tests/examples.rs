//! Whole files of the language: every one must read without a finding.

use wythe_source::FileId;

fn files() -> Vec<(String, String)> {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/good");
    let mut files: Vec<_> = std::fs::read_dir(folder)
        .expect("the folder of good files is there")
        .flatten()
        .filter(|e| e.path().extension().is_some_and(|x| x == "wythe"))
        .map(|e| (e.file_name().to_string_lossy().into_owned(), std::fs::read_to_string(e.path()).expect("readable")))
        .collect();
    files.sort();
    assert!(files.len() >= 9, "the good files are missing");
    files
}

#[test]
fn every_good_file_reads_without_a_finding() {
    for (name, text) in files() {
        let parsed = wythe_syntax::parse(FileId(0), &text);
        assert!(parsed.findings.is_empty(), "{name}: {:#?}", parsed.findings);
        assert!(!parsed.module.decls.is_empty(), "{name} declares nothing");
        assert!(parsed.lost.is_empty());
    }
}
