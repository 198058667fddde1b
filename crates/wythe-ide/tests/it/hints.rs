//! Inlay hints and lenses.

use wythe_ide::hints::hints;
use wythe_ide::lens::lenses;

use crate::fixture::{Fixture, in_file, probe};

/// The text with its hints in guillemets.
fn with_hints(f: &Fixture) -> String {
    let mut out = f.project.text(f.file).to_owned();
    for hint in hints(&f.project, f.whole()).into_iter().rev() {
        out.insert_str(hint.offset as usize, &format!(" «{}»", hint.text));
    }
    out
}

#[test]
fn a_house_shows_r_u_lengths_areas_and_totals() {
    insta::assert_snapshot!("hints_house", with_hints(&in_file("houses/unit_4.wythe", "pub", 0)));
}

#[test]
fn products_show_units_of_the_repository_and_lets_their_value() {
    insta::assert_snapshot!(
        "hints_values",
        with_hints(&probe("let a = 900 mm\nlet b = a + 1'\nlet c = 12'\nlet d = RSI-1.76\nlet e = U-0.06\n"))
    );
}

#[test]
fn lenses_tell_of_houses_build_ups_and_tests() {
    let shown = |f: &Fixture| {
        let all = lenses(&f.project, f.file);
        all.iter()
            .map(|l| format!("{} [{}]", l.title, l.span.text(f.project.text(f.file))))
            .collect::<Vec<_>>()
            .join("\n")
    };
    let house = shown(&in_file("houses/unit_4.wythe", "pub", 0));
    assert!(house.contains("141' around, 922.02 ft2 inside [unit_4]\nopen the drawing [unit_4]"), "{house}");
    let library = shown(&in_file("library/closed_crawl.wythe", "pub", 0));
    assert!(library.contains("open the section [stem_wall]\nused "), "{library}");
    let tests = shown(&in_file("houses/units_test.wythe", "test", 0));
    assert!(tests.contains("run the test (5 met) [\"outline and areas of unit 1\"]"), "{tests}");
}
