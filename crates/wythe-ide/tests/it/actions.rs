//! Code actions and formatting.

use wythe_findings::Severity;
use wythe_ide::actions::{Action, ActionKind, actions, fix_all, organize};
use wythe_ide::formatting::{format, format_on_type, format_range};
use wythe_source::Span;

use crate::fixture::{Fixture, at, probe};

fn offered(f: &Fixture) -> Vec<Action> {
    actions(&f.project, Span::new(f.file, f.offset, f.offset))
}

fn take(f: &Fixture, title: &str) -> String {
    let all = offered(f);
    let titles: Vec<_> = all.iter().map(|a| a.title.clone()).collect();
    let action =
        all.iter().find(|a| a.title.contains(title)).unwrap_or_else(|| panic!("`{title}` is not among {titles:?}"));
    f.after(&action.edits)
}

#[test]
fn a_length_without_its_mark_gets_it() {
    let f = probe("let a = 3' $04\n");
    assert_eq!(take(&f, "3' 4\""), "let a = 3' 4\"\n");
    let all = fix_all(&f.project, f.file);
    assert!(all.is_none_or(|a| a.kind == ActionKind::FixAll));
}

#[test]
fn an_unknown_name_is_imported() {
    let f = probe("let a = $0foil_board_2in\n");
    assert_eq!(
        take(&f, "use `foil_board_2in`"),
        "use \"../library/products.wythe\": foil_board_2in\nlet a = foil_board_2in\n"
    );
}

#[test]
fn layers_in_the_wrong_order_change_places() {
    let text = std::fs::read_to_string(concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../examples/cedar_row/library/closed_crawl.wythe"
    ))
    .unwrap();
    let (set, fasten) = ("set board from top - gap to ground", "fasten board with board_anchor by 6 per sheet");
    assert!(text.contains(set) && text.contains(fasten));
    let swapped = text.replace(set, "@@").replace(fasten, set).replace("@@", &format!("$0{fasten}"));
    let f = at("library/closed_crawl.wythe", &swapped);
    let all: Vec<Action> =
        actions(&f.project, f.whole()).into_iter().filter(|a| a.kind == ActionKind::QuickFix).collect();
    let mended = all.iter().map(|a| f.after(&a.edits)).find(|t| *t == text);
    assert!(mended.is_some(), "{:?}", all.iter().map(|a| &a.title).collect::<Vec<_>>());
}

#[test]
fn uses_are_put_in_order_and_those_not_needed_left_out() {
    let f = probe(
        "use code us_residential_2021\nuse \"../library/products.wythe\": wall_liner, drive_pin\nuse \"../library/phases.wythe\": rough_in\n\nlet a = wall_liner\n",
    );
    let action = organize(&f.project, f.file).unwrap();
    assert_eq!(
        f.after(&action.edits),
        "use \"../library/products.wythe\": wall_liner\nuse code us_residential_2021\n\nlet a = wall_liner\n"
    );
}

#[test]
fn a_file_is_laid_out_and_then_left_alone() {
    let f = probe("let   a=3'\nlet b   = a+  1\"\n");
    let out = f.after(&format(&f.project, f.file));
    assert_eq!(out, "let a = 3'\nlet b = a + 1\"\n");
    let again = probe(&out);
    assert_eq!(format(&again.project, again.file), Vec::new());
    let part = format_range(&f.project, Span::new(f.file, 0, 3));
    assert_eq!(f.after(&part), "let a = 3'\nlet b   = a+  1\"\n");
}

#[test]
fn a_line_is_set_to_its_depth_as_it_is_typed() {
    let f = probe("site s {\n$0\n}\n");
    assert_eq!(f.after(&format_on_type(&f.project, f.file, f.offset, '\n')), "site s {\n    \n}\n");
    let f = probe("site s {\n    soil {\n        }$0\n}\n");
    assert_eq!(f.after(&format_on_type(&f.project, f.file, f.offset, '}')), "site s {\n    soil {\n    }\n}\n");
}

/// A file of the examples of mistakes, in Cedar Row, with the offers for its finding made one by one: for each, its
/// title, and which findings of errors and warnings there are then.
fn mended(name: &str, finding: &str) -> Vec<(String, Vec<String>)> {
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/../../examples/mistakes/");
    let text = std::fs::read_to_string(format!("{root}{name}.wythe")).unwrap();
    let text = text.replace("../cedar_row/library", "../library");
    let f = probe(&text);
    let serious = |f: &Fixture| {
        let all = f.project.findings_in(f.file).into_iter().filter(|f| f.severity != Severity::Information);
        all.map(|f| f.name.as_str().to_owned()).collect::<Vec<_>>()
    };
    assert!(serious(&f).iter().any(|name| name == finding), "{:?}", serious(&f));
    let offers = actions(&f.project, f.whole()).into_iter();
    let offers = offers.filter(|a| a.mends.as_ref().is_some_and(|mends| mends.name.as_str() == finding));
    offers.map(|a| (a.title.clone(), serious(&probe(&f.after(&a.edits))))).collect()
}

#[test]
fn work_that_is_missing_is_added_as_it_is_done_elsewhere() {
    for (name, title) in [
        ("never_fastened", "add `fasten foil_board_2in with board_anchor"),
        ("unsealed_piercing", "add `tape seam_tape over heads of drive_pin`"),
        ("missing_lap_tape", "add `tape seam_tape over laps of ground_liner`"),
        ("missing_capillary_break", "coat the head with `wall_membrane`"),
        ("lap_short", "lap by 6\""),
    ] {
        let offers = mended(name, name);
        let offer = offers.iter().find(|(offer, _)| offer.starts_with(title));
        let (_, left) = offer.unwrap_or_else(|| panic!("{name}: `{title}` is not among {offers:?}"));
        assert!(!left.iter().any(|found| found == name), "{name} is still found: {left:?}");
    }
}
