//! Hover.

use wythe_ide::hover::hover;

use crate::fixture::{Fixture, in_file, probe};

fn told(f: &Fixture) -> String {
    let hover = hover(&f.project, f.file, f.offset).expect("something is told here");
    // How many findings a house has is not for these tests.
    let lines = hover
        .text
        .lines()
        .filter(|l| !l.ends_with("finding") && !l.ends_with("findings") && !l.contains("nothing found"));
    format!("{}\n\n{}", f.drawn(hover.span), lines.collect::<Vec<_>>().join("\n"))
}

#[test]
fn a_wall_tells_its_inside_length_and_where_the_board_lands() {
    let text = told(&in_file("houses/unit_4.wythe", "south runs", 1));
    // 42 ft outside less 7-5/8 in of block at both ends.
    assert!(text.contains("40' 8-3/4\" inside"), "{text}");
    assert!(text.contains("2' 8\" high inside"), "{text}");
    assert!(text.contains("4\" below the top of the masonry"), "{text}");
    insta::assert_snapshot!("wall", text);
}

#[test]
fn a_stepped_wall_is_told_stretch_by_stretch() {
    insta::assert_snapshot!("stepped_wall", told(&in_file("houses/unit_4.wythe", "east runs north", 1)));
}

#[test]
fn a_layer_tells_what_fixes_it_and_what_goes_on_next() {
    let text = told(&in_file("library/closed_crawl.wythe", "set board from", 1));
    assert!(text.contains("fixed with board_anchor 6 per sheet"), "{text}");
    assert!(text.contains("taped with foil_tape: top edge of board"), "{text}");
    assert!(text.contains("next: `fasten board"), "{text}");
    insta::assert_snapshot!("layer", text);
}

#[test]
fn the_last_layer_of_a_visit_tells_what_must_be_seen() {
    insta::assert_snapshot!(
        "layer_before_hold",
        told(&in_file("library/closed_crawl.wythe", "coat wall_membrane as wall_cap", 1))
    );
}

#[test]
fn a_fastening_tells_how_many() {
    insta::assert_snapshot!("fastening", told(&in_file("library/closed_crawl.wythe", "fasten board with", 1)));
}

#[test]
fn a_build_up_is_told_layer_by_layer_with_sources() {
    let text = told(&in_file("houses/unit_4.wythe", "stem_wall(board", 2));
    assert!(text.contains("| foil_board_2in |") || text.contains("foil_board_2in"), "{text}");
    insta::assert_snapshot!("buildup_at_call", text);
    insta::assert_snapshot!("buildup_declared", told(&in_file("library/closed_crawl.wythe", "stem_wall(", 2)));
}

#[test]
fn products_phases_sites_and_rules() {
    insta::assert_snapshot!("product", told(&in_file("library/products.wythe", "wall_membrane: Coating", 2)));
    insta::assert_snapshot!("phase", told(&in_file("library/phases.wythe", "rough_in {", 2)));
    insta::assert_snapshot!("foundation", told(&in_file("houses/unit_4.wythe", "unit_4 on", 2)));
    insta::assert_snapshot!("pier_grid", told(&in_file("houses/unit_4.wythe", "p {\n        grid", 0)));
    insta::assert_snapshot!("opening", told(&in_file("houses/unit_4.wythe", "hatch in south", 1)));
    insta::assert_snapshot!("property", told(&in_file("houses/unit_4.wythe", "supply_air", 1)));
    insta::assert_snapshot!("member", told(&in_file("houses/unit_4.wythe", "access; build", 1)));
    insta::assert_snapshot!("parameter", told(&in_file("library/closed_crawl.wythe", "gap: Length", 1)));
}

#[test]
fn a_value_tells_where_it_comes_from() {
    let text = told(&probe("use \"unit_4.wythe\": unit_4\n\nlet run = 3 * 4'\nlet total$0 = run + unit_4.perimeter\n"));
    assert!(text.contains("= **153'**"), "{text}");
    insta::assert_snapshot!("value", text);
}

#[test]
fn figures_are_told_in_both_systems() {
    insta::assert_snapshot!("length", told(&probe("let a = 3' 4-$01/2\"\n")));
    insta::assert_snapshot!("conductivity", told(&probe("let a = 0.022$0 W per m K\n")));
    insta::assert_snapshot!("r_value", told(&probe("let a = R-1$00\n")));
    insta::assert_snapshot!("temperature", told(&probe("let a = 52 $0°F\n")));
}

#[test]
fn words_and_nothing() {
    insta::assert_snapshot!("keyword", told(&probe("p$0ub let a = 3'\n")));
    let comment = probe("// a remark $0here\nlet a = 3'\n");
    assert_eq!(hover(&comment.project, comment.file, comment.offset), None);
    let empty = probe("$0");
    assert_eq!(hover(&empty.project, empty.file, 0), None);
}

/// Hover never breaks down, wherever the cursor stands.
#[test]
fn every_offset_of_a_house_can_be_asked() {
    let f = in_file("houses/unit_4.wythe", "pub", 0);
    let text = f.project.text(f.file).to_owned();
    let told = (0..=text.len() as u32).step_by(7).filter(|o| hover(&f.project, f.file, *o).is_some()).count();
    assert!(told > 200, "{told} of {} places are told", text.len() / 7);
}
