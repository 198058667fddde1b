//! Definition, references, rename, symbols, folds, selections, links, calls.

use wythe_ide::linked::linked;
use wythe_ide::moves::moved;
use wythe_ide::{calls, folding, highlight, links, navigate, rename, selection, symbols};

use crate::fixture::{Fixture, in_file, path, probe};

fn house(mark: &str, into: usize) -> Fixture {
    in_file("houses/unit_4.wythe", mark, into)
}

#[test]
fn a_definition_lies_in_another_file() {
    let f = house("stem_wall(board", 2);
    let span = navigate::definition(&f.project, f.file, f.offset).unwrap();
    insta::assert_snapshot!("definition", f.drawn(span));
    let f = house("south at 10'", 1);
    insta::assert_snapshot!("definition_of_wall", f.drawn(navigate::definition(&f.project, f.file, f.offset).unwrap()));
    let f = house("access; build", 1);
    insta::assert_snapshot!(
        "type_definition",
        f.drawn(navigate::type_definition(&f.project, f.file, f.offset).unwrap())
    );
}

#[test]
fn references_reach_every_file() {
    let f = in_file("library/phases.wythe", "rough_in {", 1);
    let all = navigate::references(&f.project, f.file, f.offset, true);
    let files: std::collections::BTreeSet<String> = all.iter().map(|s| f.project.name(s.file)).collect();
    assert!(files.len() > 1, "{files:?}");
    assert_eq!(all.len(), navigate::references(&f.project, f.file, f.offset, false).len() + 1);
    let f = house("south runs", 1);
    let here = highlight::highlights(&f.project, f.file, f.offset);
    assert!(here.len() >= 3 && here.iter().filter(|h| h.declares).count() == 1, "{here:?}");
}

#[test]
fn a_rename_reaches_every_file_and_refuses_conflicts() {
    let f = house("stem_wall(board", 2);
    let (_, old) = rename::prepare(&f.project, f.file, f.offset).unwrap();
    assert_eq!(old, "stem_wall");
    let edits = rename::rename(&f.project, f.file, f.offset, "lined_wall").unwrap();
    let files: std::collections::BTreeSet<_> = edits.iter().map(|e| e.span.file).collect();
    assert!(files.len() > 2, "{}", files.len());
    assert!(f.after(&edits).contains("build: lined_wall(board: foil_board_2in, gap: 4\")"));
    assert!(rename::rename(&f.project, f.file, f.offset, "pier_skirt").unwrap_err().contains("already"));
    assert!(rename::rename(&f.project, f.file, f.offset, "set").unwrap_err().contains("word of the language"));
    assert!(rename::rename(&f.project, f.file, f.offset, "Lined").is_err());
    let f = house("supply_air", 1);
    assert!(rename::prepare(&f.project, f.file, f.offset).unwrap_err().contains("belongs to the language"));
}

#[test]
fn the_outline_of_a_house() {
    let f = house("pub", 0);
    fn lines(all: &[symbols::Outline], depth: usize, out: &mut Vec<String>) {
        for s in all {
            out.push(format!("{}{} ({:?}) {}", "  ".repeat(depth), s.name, s.kind, s.detail));
            lines(&s.children, depth + 1, out);
        }
    }
    let mut out = Vec::new();
    lines(&symbols::document(&f.project, f.file), 0, &mut out);
    insta::assert_snapshot!("outline", out.join("\n"));
    let found = symbols::workspace(&f.project, "stmwall");
    assert_eq!(found[0].name, "stem_wall");
}

#[test]
fn folds_selections_and_links() {
    let f = house("pub", 0);
    let folds = folding::folds(&f.project, f.file);
    assert!(folds.iter().any(|x| x.kind == folding::FoldKind::Uses) && folds.len() >= 4, "{folds:?}");
    let f = house("42'", 1);
    let grown: Vec<String> = selection::selection(&f.project, f.file, f.offset).iter().map(|s| f.drawn(*s)).collect();
    insta::assert_snapshot!("selection", grown.join("\n\n"));
    let all = links::links(&f.project, f.file);
    assert!(all.len() >= 5, "{}", all.len());
    let f = in_file("houses/cedar_row.wythe", "monthly", 0);
    assert!(
        links::links(&f.project, f.file)
            .iter()
            .any(|l| matches!(&l.to, links::LinkTarget::Data(p) if p.as_str().ends_with(".csv")))
    );
}

#[test]
fn calls_of_a_build_up() {
    let f = house("stem_wall(board", 2);
    let item = calls::prepare(&f.project, f.file, f.offset).unwrap();
    let from: Vec<_> = calls::incoming(&f.project, item.def).into_iter().map(|c| c.item.name).collect();
    assert!(from.contains(&"unit_4".to_owned()), "{from:?}");
    let to: Vec<_> = calls::outgoing(&f.project, item.def).into_iter().map(|c| c.item.name).collect();
    assert!(to.contains(&"wall_liner".to_owned()) && to.contains(&"rough_in".to_owned()), "{to:?}");
}

#[test]
fn a_broken_declaration_leaves_the_others_alone() {
    let f = probe("let broken = (3' +\n\nlet good = 4'\nlet other = go$0od\n");
    let span = navigate::definition(&f.project, f.file, f.offset).unwrap();
    assert_eq!(f.drawn(span), "let good = 4'\n    ^^^^");
}

#[test]
fn use_lines_follow_a_file_that_moves() {
    let f = in_file("houses/unit_4.wythe", "use \"", 0);
    let edits = moved(&f.project, &[(path("library/phases.wythe"), path("library/order/steps.wythe"))]);
    assert!(edits.len() > 2, "{edits:?}");
    let here = f.after(&edits);
    assert!(here.contains("use \"../library/order/steps.wythe\""), "{here}");
    // The file that moves leads to the others from where it will be.
    let edits = moved(&f.project, &[(path("houses/unit_4.wythe"), path("unit_4.wythe"))]);
    let here = f.after(&edits);
    assert!(here.contains("use \"library/products.wythe\""), "{here}");
    // A folder that moves takes its files along: what stands in it keeps leading to its neighbors as it does.
    let edits = moved(&f.project, &[(path("library"), path("shared/library"))]);
    assert!(edits.iter().all(|e| e.text.contains("shared/library") || e.span.file != f.file), "{edits:?}");
    assert!(f.after(&edits).contains("use \"../shared/library/products.wythe\""));
    assert_eq!(moved(&f.project, &[(path("nowhere.wythe"), path("else.wythe"))]), Vec::new());
}

#[test]
fn a_name_of_one_file_is_typed_in_all_its_places_at_once() {
    let f = probe("let de$0pth = 3'\nlet twice = depth * 2\npub let other = depth\n");
    let places = linked(&f.project, f.file, f.offset).unwrap();
    assert_eq!(places.len(), 3);
    assert!(places.iter().all(|place| place.text(f.project.text(f.file)) == "depth"));
    // What other files may name is for a rename.
    let f = probe("pub let de$0pth = 3'\nlet twice = depth * 2\n");
    assert_eq!(linked(&f.project, f.file, f.offset), None);
    let f = probe("fn area(wi$0de: Length) -> Area { give wide * wide }\n");
    assert_eq!(linked(&f.project, f.file, f.offset).map(|p| p.len()), Some(3));
}
