//! Semantic tokens.

use wythe_ide::semantic::semantic_tokens;
use wythe_source::Span;

use crate::fixture::{Fixture, in_file, probe};

/// Each token with what it is.
fn listed(f: &Fixture, range: Span) -> String {
    let text = f.project.text(f.file);
    let all = semantic_tokens(&f.project, range);
    let line = |t: &wythe_ide::semantic::SemanticToken| {
        let marks = [(t.declares, " declares"), (t.of_language, " of the language")];
        let marks: String = marks.iter().filter(|(is, _)| *is).map(|(_, m)| *m).collect();
        format!("{} {:?}{marks}", t.span.text(text), t.kind)
    };
    all.iter().map(line).collect::<Vec<_>>().join("\n")
}

#[test]
fn every_word_is_told_apart() {
    let f = in_file("library/closed_crawl.wythe", "hang wall_liner", 0);
    let end = f.project.text(f.file)[f.offset as usize..].find("set board").unwrap() as u32;
    insta::assert_snapshot!("tokens_layers", listed(&f, Span::new(f.file, f.offset, f.offset + end - 1)));
    let f = probe(
        "/// A wall of\n/// two lines.\npub let a: Length = 3' + 40 in // remark\nfn twice(l: Length) -> Length = 2 * l\n",
    );
    insta::assert_snapshot!("tokens_values", listed(&f, f.whole()));
}

#[test]
fn tokens_are_in_order_and_do_not_overlap() {
    for name in
        ["houses/unit_4.wythe", "library/products.wythe", "codes/upland_amendments.wythe", "costs/upland_2026.wythe"]
    {
        let f = in_file(name, "", 0);
        let all = semantic_tokens(&f.project, f.whole());
        assert!(all.len() > 20);
        assert!(all.windows(2).all(|w| w[0].span.end <= w[1].span.start), "{name}");
    }
}
