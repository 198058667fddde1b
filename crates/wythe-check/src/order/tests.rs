//! Layer order on unit 4: clean as it stands, and one fault for each line broken.

use uom::si::length::inch;
use wythe_findings::{Finding, Safety};
use wythe_model::Length;

use crate::fixture::{House, UNIT_4, names};
use crate::{Ask, Need, Requirements};

fn check(house: &House) -> Vec<Finding> {
    super::check(&house.foundation, &Requirements::default())
}

/// The one finding of a house with one piece replaced.
fn only(piece: &str, other: &str) -> (House, Finding) {
    let house = House::with(piece, other);
    let mut found = check(&house);
    assert_eq!(found.len(), 1, "{found:#?}");
    let finding = found.pop().unwrap();
    (house, finding)
}

const HANG: &str = "  hang wall_liner from top - 4 to ground by 12\n";
const PIN: &str = "  fasten wall_liner with drive_pin every 24\n";
const HEADS: &str = "  tape seam_tape over heads of drive_pin\n";
const SET: &str = "  set foil_board as board from top - 4 to ground\n";
const ANCHOR: &str = "  fasten board with board_anchor by 6 per sheet\n";
const TOP: &str = "  tape foil_tape over top edge of board\n";
const SEAL: &str = "  seal urethane along top edge of board to structure bead 0.375\n";

#[test]
fn unit_4_as_it_stands_is_clean() {
    assert_eq!(names(&check(&House::unit_4())), Vec::<&str>::new());
}

#[test]
fn two_swapped_lines_give_one_finding_and_the_fix_restores_the_text() {
    let (house, finding) = only(&format!("{SET}{ANCHOR}"), &format!("{ANCHOR}{SET}"));
    assert_eq!(finding.name.as_str(), "layer_order");
    assert_eq!(finding.title, "`board` is fastened before it is set");
    assert_eq!(house.at(finding.primary.span), ANCHOR.trim());
    assert_eq!(house.at(finding.related[0].span), SET.trim());
    assert_eq!(finding.fixes[0].safety, Safety::Safe);
    assert_eq!(house.fixed(&finding.fixes[0]), UNIT_4);
}

#[test]
fn one_fault_of_a_shared_assembly_is_one_finding_with_its_places() {
    let (_, finding) = only(&format!("{SET}{ANCHOR}"), &format!("{ANCHOR}{SET}"));
    let places = &finding.related.last().unwrap().text;
    assert_eq!(places, "built so in unit_4: south, east, north, inner, porch and west");
    assert_eq!(finding.item, "unit_4.stem_wall.inside");
}

#[test]
fn two_calls_of_one_buildup_with_the_same_fault_are_one_finding() {
    let mut house = House::with(&format!("{SET}{ANCHOR}"), &format!("{ANCHOR}{SET}"));
    let mut second = house.foundation.assemblies[0].as_ref().clone();
    second.call.start += 500;
    second.call.end += 500;
    house.foundation.assemblies.push(second.into());
    let id = wythe_model::AssemblyId(house.foundation.assemblies.len() as u32 - 1);
    house.foundation.walls[3].assembly = Some(id);
    let found = check(&house);
    assert_eq!(found.len(), 1);
    let built = found[0].related.iter().filter(|l| l.text.starts_with("built so")).count();
    assert_eq!(built, 2);
}

#[test]
fn a_board_set_before_its_liner_is_one_finding_and_the_fix_restores_the_text() {
    let (house, finding) = only(&format!("{HANG}{PIN}{HEADS}{SET}"), &format!("{SET}{HANG}{PIN}{HEADS}"));
    assert_eq!(finding.name.as_str(), "board_before_liner");
    assert_eq!(house.at(finding.primary.span), SET.trim());
    assert_eq!(house.at(finding.related[0].span), HANG.trim());
    assert_eq!(house.fixed(&finding.fixes[0]), UNIT_4);
}

#[test]
fn a_board_made_fast_before_its_liner_has_no_one_line_to_move() {
    let (_, finding) = only(&format!("{HANG}{PIN}{HEADS}{SET}{ANCHOR}"), &format!("{SET}{ANCHOR}{HANG}{PIN}{HEADS}"));
    assert_eq!(finding.name.as_str(), "board_before_liner");
    assert!(finding.fixes.is_empty());
}

#[test]
fn a_liner_covered_before_its_pins_is_told_and_mended_step_by_step() {
    let (house, finding) = only(&format!("{PIN}{HEADS}{SET}"), &format!("{SET}{PIN}{HEADS}"));
    assert_eq!(finding.name.as_str(), "unfixed_cover");
    assert_eq!(finding.title, "`wall_liner` is covered before it is fastened");
    let pinned = House::read(&house.fixed(&finding.fixes[0]));
    let found = check(&pinned);
    assert_eq!(names(&found), ["out_of_reach"]);
    assert_eq!(pinned.fixed(&found[0].fixes[0]), UNIT_4);
}

#[test]
fn a_liner_without_pins_is_covered_loose() {
    let (_, finding) = only(&format!("{PIN}{HEADS}"), "");
    assert_eq!(finding.name.as_str(), "unfixed_cover");
    assert_eq!(
        finding.mend.as_deref(),
        Some("put `fasten wall_liner with board_anchor` every 24 in or less before `set foil_board as board`")
    );
}

#[test]
fn a_board_without_anchors_hangs_on_nothing() {
    let text = UNIT_4.replace(ANCHOR, "").replace("  tape foil_tape over heads of board_anchor\n", "");
    let house = House::read(&text);
    let found = check(&house);
    assert_eq!(names(&found), ["never_fastened"]);
    assert_eq!(found[0].title, "`board` is set and never fastened");
}

#[test]
fn a_short_anchor_says_what_is_due() {
    let text = UNIT_4.replace("board_anchor", "drive_pin");
    let found = check(&House::read(&text));
    assert_eq!(names(&found), ["fastener_too_short"]);
    // Board 1-1/2 in, liner 0.012 in, coating 0.06 in where it laps behind: 1.572 in; with a bite of 3/4 in 2.322 in.
    assert_eq!(found[0].title, "`drive_pin` is 1-1/4 in long; 2-5/16 in is due here");
}

#[test]
fn heads_never_taped_are_open() {
    let (house, finding) = only(HEADS, "");
    assert_eq!(finding.name.as_str(), "unsealed_piercing");
    assert_eq!(finding.title, "heads of `drive_pin` through wall_cap and wall_liner are never closed");
    assert_eq!(house.at(finding.primary.span), PIN.trim());
}

#[test]
fn heads_taped_later_and_before_close_in_are_closed() {
    let late = UNIT_4
        .replace("  tape foil_tape over heads of board_anchor\n", "")
        .replace(SEAL, &format!("{SEAL}  @dry_down\n  tape foil_tape over heads of board_anchor\n"));
    assert_eq!(names(&check(&House::read(&late))), Vec::<&str>::new());
}

#[test]
fn heads_taped_by_a_joint_are_closed() {
    let text = UNIT_4
        .replacen("  tape foil_tape over heads of board_anchor\n", "", 1)
        .replace("joint pier_to_ground", "  tape foil_tape over heads of board_anchor\njoint pier_to_ground");
    assert_eq!(names(&check(&House::read(&text))), Vec::<&str>::new());
}

#[test]
fn foil_on_foil_holds_and_poly_on_foil_does_not() {
    let (house, finding) = only("tape foil_tape over joints of board", "tape seam_tape over joints of board");
    assert_eq!(finding.name.as_str(), "facing_mismatch");
    assert_eq!(finding.title, "`seam_tape` does not hold on foil");
    assert_eq!(house.fixed(&finding.fixes[0]), UNIT_4);
}

#[test]
fn a_joint_tape_is_judged_too() {
    let (_, finding) =
        only("tape seam_tape over top edge of ground_liner", "tape foil_tape over top edge of ground_liner");
    assert_eq!(finding.name.as_str(), "facing_mismatch");
    assert_eq!(finding.item, "unit_4.wall_to_ground");
}

#[test]
fn a_porous_edge_must_be_capped_before_rain_ends_and_a_closed_one_need_not() {
    let (_, finding) = only(TOP, "");
    assert_eq!(finding.name.as_str(), "uncapped_edge");
    let closed = House::read(&UNIT_4.replace(TOP, "").replace("foil_board", "plain_board"));
    assert!(!names(&check(&closed)).contains(&"uncapped_edge"));
}

#[test]
fn a_porous_edge_set_under_the_roof_needs_no_cap() {
    let text = UNIT_4.replace(TOP, "").replace(SET, &format!("  @dry_down\n{SET}"));
    assert_eq!(names(&check(&House::read(&text))), Vec::<&str>::new());
}

#[test]
fn a_bead_before_the_tape_on_its_edge_moves_behind_it() {
    let text = UNIT_4.replace(SEAL, "").replace(TOP, &format!("{SEAL}{TOP}"));
    let house = House::read(&text);
    let found = check(&house);
    assert_eq!(names(&found), ["sealed_too_soon"]);
    let mended = House::read(&house.fixed(&found[0].fixes[0]));
    assert_eq!(names(&check(&mended)), Vec::<&str>::new());
}

#[test]
fn a_bead_before_the_board_is_too_soon() {
    let house = House::read(&UNIT_4.replace(SEAL, "").replace(SET, &format!("{SEAL}{SET}")));
    let found = check(&house);
    assert_eq!(names(&found), ["sealed_too_soon"]);
    assert_eq!(found[0].title, "sealed before the top edge of `board` is taped");
    let mended = House::read(&house.fixed(&found[0].fixes[0]));
    assert_eq!(names(&check(&mended)), Vec::<&str>::new());
}

#[test]
fn a_bead_that_holds_on_wood_only_bonds_to_neither_side() {
    let house = House::with("seal urethane along top edge", "seal wood_glue along top edge");
    assert_eq!(names(&check(&house)), ["sealant_bond"]);
    assert_eq!(check(&house)[0].title, "`wood_glue` does not bond to foil or masonry");
}

#[test]
fn a_wrong_name_is_told_once_with_the_right_one() {
    let (house, finding) = only("fasten wall_liner with", "fasten wall_linr with");
    assert_eq!(finding.name.as_str(), "unknown_layer");
    assert_eq!(finding.mend.as_deref(), Some("did you mean `wall_liner`?"));
    assert_eq!(house.fixed(&finding.fixes[0]), UNIT_4);
}

#[test]
fn a_product_renamed_goes_by_its_new_name() {
    let (house, finding) =
        only("  tape seam_tape over top edge of skirt\n", "  tape seam_tape over top edge of wall_liner\n");
    assert_eq!(finding.name.as_str(), "unknown_layer");
    assert_eq!(finding.mend.as_deref(), Some("call it `skirt`"));
    assert_eq!(house.at(finding.primary.span), "top edge of wall_liner");
}

#[test]
fn taking_away_a_permanent_layer_is_told() {
    let house = House::with(
        "  tape seam_tape over laps of ground_liner\n",
        "  tape seam_tape over laps of ground_liner\n  remove ground_liner\n",
    );
    assert_eq!(names(&check(&house)), ["remove_permanent"]);
}

#[test]
fn open_laps_of_the_permanent_liner_are_told_and_of_the_sacrificial_sheet_not() {
    let (house, finding) = only("  tape seam_tape over laps of ground_liner\n", "");
    assert_eq!(finding.name.as_str(), "missing_lap_tape");
    assert_eq!(house.at(finding.primary.span), "lay ground_liner by 12");
}

#[test]
fn a_film_cannot_span_open_cells_and_a_cap_closes_them() {
    let mut house = House::unit_4();
    let open = |house: &mut House| {
        let assembly = std::sync::Arc::make_mut(&mut house.foundation.assemblies[0]);
        std::sync::Arc::make_mut(assembly.structure.as_mut().unwrap()).open_cells = true;
    };
    open(&mut house);
    let found = check(&house);
    assert_eq!(names(&found), ["cell_open_under_coating"]);
    let mut capped = House::with(
        "  coat wall_membrane as head_coat",
        "  cap solid_block over head\n  coat wall_membrane as head_coat",
    );
    open(&mut capped);
    assert_eq!(names(&check(&capped)), Vec::<&str>::new());
}

#[test]
fn pins_cannot_be_taped_behind_the_board() {
    let house = House::read(&UNIT_4.replacen(HEADS, "", 1).replace(SET, &format!("{SET}{HEADS}")));
    let found = check(&house);
    assert_eq!(names(&found), ["out_of_reach"]);
    assert_eq!(house.fixed(&found[0].fixes[0]), UNIT_4);
}

#[test]
fn tape_on_a_loose_board_is_a_warning() {
    let house = House::read(&UNIT_4.replace(&format!("{ANCHOR}{TOP}"), &format!("{TOP}{ANCHOR}")));
    let found = check(&house);
    assert_eq!(names(&found), ["taped_before_fixed"]);
    assert_eq!(house.fixed(&found[0].fixes[0]), UNIT_4);
}

#[test]
fn extents_are_judged_on_every_part() {
    let house = House::with("as wall_cap from top to top - 8", "as wall_cap from top to ground + 32");
    let found = check(&house);
    assert_eq!(names(&found), ["extent_empty"]);
    let house = House::with("as wall_cap from top to top - 8", "as wall_cap from top - 20 to footing + 30");
    let found = check(&house);
    assert_eq!(names(&found), ["extent_inverted"]);
    assert!(found[0].primary.text.starts_with("on south, east, inner, porch and west: "), "{}", found[0].primary.text);
    let house = House::with("coat wall_membrane from top to footing", "coat wall_membrane from top + 3 to footing - 2");
    assert_eq!(names(&check(&house)), ["extent_off_wall"]);
}

#[test]
fn a_requirement_may_be_another() {
    let mut asked = Requirements::default();
    asked.set(Ask::Length(Need::LinerSpacing, Length::new::<inch>(16.0)), "a pack", None);
    let house = House::unit_4();
    let found = super::check(&house.foundation, &asked);
    assert_eq!(names(&found), ["fastener_spacing"]);
    assert_eq!(found[0].cause.as_deref(), Some("required: 16 in (a pack)"));
}

#[test]
fn a_drain_wants_stone() {
    let house = House::with("  fill drain_stone from footing to footing + 12\n", "");
    assert_eq!(names(&check(&house)), ["drain_without_stone"]);
}

#[test]
fn a_second_liner_of_one_name_is_told_and_a_second_coat_is_not() {
    let house = House::with(
        "  coat wall_membrane as wall_cap",
        "  coat wall_membrane as wall_cap from top to top - 8\n  coat wall_membrane as wall_cap",
    );
    assert_eq!(names(&check(&house)), Vec::<&str>::new());
    let house = House::with("  lay ground_liner by 12\n", "  lay ground_liner by 12\n  lay ground_liner by 12\n");
    assert!(names(&check(&house)).contains(&"placed_twice"));
}

#[test]
fn verbs_take_their_own_classes() {
    let house = House::with("set foil_board as board", "set wall_liner as board");
    assert!(names(&check(&house)).contains(&"verb_mismatch"));
}

#[test]
fn a_coating_over_the_liner_does_not_hold() {
    let text = UNIT_4.replace(PIN, &format!("{PIN}  coat wall_membrane as late_coat from top - 6 to top - 20\n"));
    assert_eq!(names(&check(&House::read(&text))), ["wrong_base"]);
}

#[test]
fn boards_that_alone_carry_vapor_need_their_joints_taped() {
    let text = UNIT_4
        .replace("  tape foil_tape over joints of board\n", "")
        .replacen("  hang wall_liner from top - 4 to ground by 12\n", "", 1)
        .replacen(&format!("{PIN}{HEADS}"), "", 1)
        .replace("over wall_liner by 12", "over board by 12");
    let found = check(&House::read(&text));
    assert_eq!(names(&found), ["open_board_joints"]);
}

#[test]
fn an_empty_foundation_and_empty_faces_are_quiet() {
    let mut house = House::unit_4();
    house.foundation.walls.clear();
    assert_eq!(names(&check(&house)), Vec::<&str>::new());
    house.foundation.assemblies.clear();
    house.foundation.joints.clear();
    assert_eq!(names(&check(&house)), Vec::<&str>::new());
}
