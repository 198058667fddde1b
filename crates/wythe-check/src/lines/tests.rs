//! Control lines on unit 4: whole as it stands, and one finding for each line cut.
//!
//! The cases written out by hand stand in `tests/hand/lines/`, one file for each line, two cases in each.

use wythe_findings::{Finding, Severity};
use wythe_model::{Control, OpeningKind, SpaceKind, SurfaceKind};
use wythe_source::Symbol;

use super::{Status, Trace, check};
use crate::fixture::{House, UNIT_4, inches, names};
use crate::{Ask, Need, Requirements};

fn of(house: &House) -> (Vec<Finding>, Vec<Trace>) {
    check(&house.foundation, &Requirements::default())
}

/// Findings but for the price of the bare band, which every house with an inspection band has.
fn faults(house: &House) -> Vec<Finding> {
    of(house).0.into_iter().filter(|f| f.name.as_str() != "bare_band").collect()
}

fn only(piece: &str, other: &str) -> (House, Finding) {
    let house = House::with(piece, other);
    let mut found = faults(&house);
    assert_eq!(found.len(), 1, "{found:#?}");
    let finding = found.pop().unwrap();
    (house, finding)
}

fn trace<'t>(traces: &'t [Trace], control: Control, place: &str) -> &'t Trace {
    traces.iter().find(|t| t.control == control && t.places.contains(&Symbol::new(place))).unwrap()
}

#[test]
fn every_line_of_unit_4_is_whole() {
    let house = House::unit_4();
    assert_eq!(names(&faults(&house)), Vec::<&str>::new());
    let (_, traces) = of(&house);
    for control in Control::ALL {
        assert!(traces.iter().any(|t| t.control == control), "no trace for {control:?}");
    }
    assert!(traces.iter().all(|t| matches!(t.status, Status::Proven | Status::NotAsked)), "{traces:#?}");
}

#[test]
fn equal_sections_are_one_proof_with_their_places() {
    let (_, traces) = of(&House::unit_4());
    let walls = traces.iter().filter(|t| t.control == Control::Vapor && t.kind == SurfaceKind::Wall).count();
    assert_eq!(walls, 2, "high and low grade");
    let high = trace(&traces, Control::Vapor, "south");
    assert_eq!(high.places, ["south", "east", "inner", "porch", "west"].map(Symbol::new));
}

#[test]
fn the_trace_of_the_vapor_line_says_how_each_layer_is_joined() {
    // tests/hand/lines/vapor.md, case 1.
    let (_, traces) = of(&House::unit_4());
    let steps: Vec<_> =
        trace(&traces, Control::Vapor, "south").steps.iter().map(|s| (s.layer.as_str(), s.joined.as_str())).collect();
    assert_eq!(
        steps,
        [
            ("wall_cap", "reaches the top of the masonry"),
            ("wall_liner", "contact 4 in, taped or sealed"),
            ("ground_liner", "lap 12 in (6 in due), taped or sealed"),
        ]
    );
}

#[test]
fn a_lap_of_4_in_at_the_foot_is_too_short() {
    // tests/hand/lines/vapor.md, case 2.
    let (house, finding) = only("lap ground_liner over wall_liner by 12", "lap ground_liner over wall_liner by 4");
    assert_eq!(finding.name.as_str(), "lap_short");
    assert_eq!(finding.title, "the vapor and air lines break at the wall foot");
    assert_eq!(finding.primary.text, "lap 4 in found, 6 in due");
    assert_eq!(finding.mend.as_deref(), Some("lap `ground_liner` over by 6 in: extend it 2 in"));
    assert_eq!(house.at(finding.primary.span), "lap ground_liner over wall_liner by 4");
    assert_eq!(finding.item, "unit_4.wall_to_ground");
    assert!(finding.related.last().unwrap().text.ends_with("so in unit_4: south, east, inner, porch, west and north"));
}

#[test]
fn the_tail_bounds_the_lap() {
    let (_, finding) =
        only("hang wall_liner from top - 4 to ground by 12", "hang wall_liner from top - 4 to ground by 5");
    assert_eq!(finding.name.as_str(), "lap_short");
    assert_eq!(finding.mend.as_deref(), Some("lengthen the tail of `wall_liner` by 1 in"));
}

#[test]
fn coat_and_liner_must_meet_by_3_in() {
    let (_, finding) = only("as wall_cap from top to top - 8", "as wall_cap from top to top - 5");
    assert_eq!(finding.name.as_str(), "lap_short");
    assert_eq!(finding.title, "the vapor line breaks between `wall_cap` and `wall_liner`");
    assert_eq!(finding.primary.text, "contact 1 in found, 3 in due");
    assert_eq!(finding.mend.as_deref(), Some("make `wall_cap` and `wall_liner` overlap by 2 in more"));
}

#[test]
fn one_gap_is_one_fault_with_one_mend_for_both_lines() {
    let (_, finding) = only("as wall_cap from top to top - 8", "as wall_cap from top to top - 2");
    assert_eq!(finding.name.as_str(), "vapor_line_broken");
    assert_eq!(finding.title, "the vapor and air lines break between `wall_cap` and `wall_liner`");
    assert_eq!(
        finding.mend.as_deref(),
        Some(
            "make `wall_cap` and `wall_liner` overlap by 5 in more, and tape or seal the top edge of `wall_liner` to `wall_cap`"
        )
    );
}

#[test]
fn no_layer_at_all_breaks_both_lines_over_the_whole_height() {
    let text = UNIT_4
        .replace("  coat wall_membrane as wall_cap from top to top - 8\n", "")
        .replace("foil_board", "plain_board")
        .replacen("  hang wall_liner from top - 4 to ground by 12\n", "", 1)
        .replacen("  fasten wall_liner with drive_pin every 24\n  tape seam_tape over heads of drive_pin\n", "", 1);
    let found = faults(&House::read(&text));
    assert_eq!(names(&found), ["vapor_line_broken", "fire_exposed"]);
    assert_eq!(found[0].title, "the vapor and air lines break from top to ground");
}

#[test]
fn a_wall_foot_without_a_joint_is_told_with_the_joint() {
    let text = UNIT_4.replace("  lap ground_liner over wall_liner by 12\n", "");
    let found = faults(&House::read(&text));
    assert_eq!(names(&found), ["vapor_line_broken"]);
    assert_eq!(
        found[0].mend.as_deref(),
        Some("add a joint with `lap ground_liner over wall_liner by 6 in` and tape it")
    );
}

#[test]
fn two_build_ups_at_a_corner_must_be_joined() {
    let mut house = House::unit_4();
    let mut other = house.foundation.assemblies[0].as_ref().clone();
    other.name = Symbol::new("lined_otherwise");
    for work in other.faces.iter_mut().flat_map(|f| &mut f.works) {
        if let Some(product) = work.product.as_mut().filter(|p| p.name.as_str() == "wall_liner") {
            std::sync::Arc::make_mut(product).name = Symbol::new("other_liner");
        }
    }
    house.foundation.assemblies.push(other.into());
    let id = wythe_model::AssemblyId(house.foundation.assemblies.len() as u32 - 1);
    house.foundation.walls[1].assembly = Some(id);
    assert_eq!(names(&faults(&house)), ["corner_open"], "two corners, one line to change");
    let told = faults(&house);
    assert_eq!(told[0].title, "the vapor line is not joined at the corner of south and east");
}

#[test]
fn an_untaped_lap_is_open() {
    let (_, finding) = only("  tape seam_tape over top edge of ground_liner\n", "");
    assert_eq!(finding.name.as_str(), "vapor_line_broken");
    assert_eq!(finding.mend.as_deref(), Some("tape the lap of `ground_liner` and `wall_liner` in `wall_to_ground`"));
}

#[test]
fn contact_is_enough_for_vapor_and_never_for_air() {
    // tests/hand/lines/air.md, case 2.
    let (_, finding) = only("  seal urethane along top edge of board to structure bead 0.375\n", "");
    assert_eq!(finding.name.as_str(), "air_line_broken");
    assert_eq!(finding.mend.as_deref(), Some("tape or seal the top edge of `wall_liner` to `wall_cap`"));
}

#[test]
fn the_bead_over_the_board_seals_the_liner_behind_it() {
    // tests/hand/lines/air.md, case 1: the joint of board and wall lies under the bead and is no fault of its own.
    let (_, traces) = of(&House::unit_4());
    let steps: Vec<_> = trace(&traces, Control::Air, "south").steps.iter().map(|s| s.joined.as_str()).collect();
    assert_eq!(
        steps,
        ["reaches the top of the masonry", "contact 4 in, taped or sealed", "lap 12 in (6 in due), taped or sealed"]
    );
}

#[test]
fn a_ground_sheet_over_the_limit_carries_no_vapor_line() {
    let house = House::read(&UNIT_4.replace("ground_liner", "thin_sheet"));
    let found = faults(&house);
    assert_eq!(names(&found), ["vapor_line_broken"]);
    assert!(
        found[0].primary.text.starts_with("`thin_sheet` passes 0.40 perm; 0.10 perm is the most"),
        "{}",
        found[0].primary.text
    );
}

#[test]
fn a_sacrificial_sheet_is_not_held_to_the_standard_of_the_liner() {
    let (findings, traces) = of(&House::unit_4());
    assert!(findings.iter().all(|f| !f.title.contains("build_sheet")));
    assert!(traces.iter().all(|t| t.steps.iter().all(|s| s.layer.as_str() != "build_sheet")));
}

#[test]
fn a_pier_without_a_lap_is_told_once_for_all_piers() {
    let (_, finding) = only("  lap ground_liner over skirt by 8\n", "");
    assert_eq!(finding.name.as_str(), "vapor_line_broken");
    assert_eq!(finding.title, "the vapor and air lines break at the pier");
    assert!(finding.related.last().unwrap().text.contains("p1, p2, p3, p4, p5 and p6"));
}

#[test]
fn a_low_wrap_says_how_much_higher() {
    let (_, finding) = only("as skirt from ground + 8 to ground", "as skirt from ground + 3 to ground");
    assert_eq!(finding.name.as_str(), "lap_short");
    assert_eq!(finding.mend.as_deref(), Some("carry `skirt` up by 1 in more"));
}

#[test]
fn an_open_hatch_perimeter_is_told() {
    let (_, finding) = only("  seal urethane along perimeter of hatch_panel\n", "");
    assert_eq!(finding.title, "the vapor and air lines break at `hatch`");
}

#[test]
fn the_head_breaks_the_capillary_path() {
    // tests/hand/lines/capillary.md, cases 1 and 2.
    let line = "  coat wall_membrane as head_coat over head\n";
    let mut house = House::with(line, "");
    house.foundation.sill.gasket = false;
    let found = faults(&house);
    assert_eq!(names(&found), ["missing_capillary_break"]);
    assert_eq!(found[0].mend.as_deref(), Some("coat the head (`coat … over head`), or a gasket under the sill"));
    assert_eq!(names(&faults(&House::with(line, ""))), Vec::<&str>::new(), "a gasket breaks it too");
}

#[test]
fn a_pier_head_is_judged_too_and_a_gasket_of_the_sill_does_not_help_it() {
    let (_, finding) = only("  coat wall_membrane as pier_cap over head\n", "");
    assert_eq!(finding.name.as_str(), "missing_capillary_break");
    assert_eq!(finding.title, "no capillary break between masonry and beam");
}

#[test]
fn a_strip_bare_to_the_soil_is_a_way_for_water() {
    // tests/hand/lines/bulk_water.md, case 2.
    let (_, finding) = only("coat wall_membrane from top to footing", "coat wall_membrane from top to footing + 6");
    assert_eq!(finding.name.as_str(), "bulk_water_path");
    assert_eq!(finding.primary.text, "bare to the soil for 6 in");
}

#[test]
fn two_skins_must_lap_the_right_way() {
    let two = |lines: &str| House::read(&UNIT_4.replace("  coat wall_membrane from top to footing\n", lines));
    let good = two(
        "  coat wall_membrane as low from top - 20 to footing\n  coat wall_membrane as high from top to top - 23\n",
    );
    assert_eq!(names(&faults(&good)), Vec::<&str>::new());
    let short = two(
        "  coat wall_membrane as low from top - 20 to footing\n  coat wall_membrane as high from top to top - 21\n",
    );
    let found = faults(&short);
    assert_eq!(names(&found), ["lap_short"]);
    assert_eq!(found[0].primary.text, "lap 1 in found, 2 in due");
    let wrong = two(
        "  coat wall_membrane as high from top to top - 23\n  coat wall_membrane as low from top - 20 to footing\n",
    );
    let found = faults(&wrong);
    assert_eq!(names(&found), ["bulk_water_path"]);
    assert_eq!(found[0].mend.as_deref(), Some("put `low` on first, then `high` over it"));
}

#[test]
fn bulk_water_is_not_asked_where_the_crawl_floor_is_not_below_grade() {
    // tests/hand/lines/bulk_water.md, case 1.
    let text = UNIT_4.replace("  coat wall_membrane from top to footing\n  drain footing_drain along footing\n  fill drain_stone from footing to footing + 12\n", "");
    let mut house = House::read(&text);
    for wall in &mut house.foundation.walls {
        wall.stretches.iter_mut().for_each(|s| s.levels.grade = s.levels.ground);
    }
    assert_eq!(names(&faults(&house)), Vec::<&str>::new());
    let (_, traces) = of(&house);
    assert_eq!(trace(&traces, Control::BulkWater, "south").status, Status::NotAsked);
}

#[test]
fn a_drain_needs_a_place_to_end_and_the_waterproofing_a_drain() {
    let mut house = House::unit_4();
    house.foundation.ground.drain_outlet = false;
    assert_eq!(names(&faults(&house)), ["drain_without_outlet"]);
    let bare = House::with("  drain footing_drain along footing\n", "");
    assert_eq!(names(&faults(&bare)), ["drain_missing"]);
}

#[test]
fn the_inspection_band_is_information_with_its_price() {
    // tests/hand/lines/heat.md, case 1.
    let (findings, traces) = of(&House::unit_4());
    let band: Vec<_> = findings.iter().filter(|f| f.name.as_str() == "bare_band").collect();
    assert_eq!(band.len(), 1, "{band:#?}");
    assert_eq!(band[0].severity, Severity::Information);
    assert_eq!(band[0].title, "a bare band of 4 in from top to top - 4 in: 45 % of the wall's loss");
    assert_eq!(trace(&traces, Control::Heat, "south").status, Status::Proven);
}

#[test]
fn a_board_that_ends_short_is_told_how_far_to_go() {
    // tests/hand/lines/heat.md, case 2.
    let (_, finding) = only("as board from top - 4 to ground", "as board from top - 4 to grade");
    assert_eq!(finding.name.as_str(), "heat_line_broken");
    assert_eq!(finding.mend.as_deref(), Some("carry `board` down 16 in more, to ground"));
}

#[test]
fn two_boards_apart_leave_a_cold_strip_and_edge_to_edge_none() {
    let two = |low: &str| {
        let lines = format!(
            "  set foil_board as board from top - 4 to top - 16\n  set foil_board as lower from {low} to ground\n"
        );
        House::read(&UNIT_4.replace("  set foil_board as board from top - 4 to ground\n", &lines))
    };
    let found = faults(&two("top - 17"));
    assert_eq!(names(&found), ["heat_line_broken"]);
    assert_eq!(found[0].mend.as_deref(), Some("close the 1 in between `board` and `lower`"));
    assert_eq!(names(&faults(&two("top - 16.125"))), Vec::<&str>::new());
}

#[test]
fn foam_that_needs_a_barrier_is_exposed_until_it_is_behind_one() {
    // tests/hand/lines/fire.md, cases 1 and 2.
    let bare = House::read(&UNIT_4.replace("foil_board", "plain_board"));
    let found = faults(&bare);
    assert_eq!(names(&found), ["fire_exposed"]);
    let with = |to: &str| {
        let set =
            format!("  set plain_board as board from top - 4 to ground\n  set barrier_board from top - 4 to {to}\n");
        House::read(&UNIT_4.replace("  set foil_board as board from top - 4 to ground\n", &set))
    };
    assert_eq!(names(&faults(&with("ground"))), Vec::<&str>::new());
    assert_eq!(names(&faults(&with("ground + 6"))), ["fire_exposed"]);
}

#[test]
fn foam_on_the_outside_face_is_not_judged_by_the_inside_rule() {
    let text = UNIT_4.replace(
        "  drain footing_drain",
        "  set plain_board as drain_board from grade to footing\n  drain footing_drain",
    );
    assert_eq!(names(&faults(&House::read(&text))), Vec::<&str>::new());
}

#[test]
fn a_vented_space_is_asked_for_water_and_fire_only() {
    let mut house = House::read(&UNIT_4.replace("  lap ground_liner over wall_liner by 12\n", ""));
    house.foundation.space = SpaceKind::Vented;
    assert_eq!(names(&of(&house).0), Vec::<&str>::new());
}

#[test]
fn the_rim_and_old_walls_are_told_as_unsaid() {
    let mut house = House::unit_4();
    house.foundation.sill = Default::default();
    house.foundation.walls[5].assembly = None;
    house.foundation.walls[5].existing = true;
    let found = faults(&house);
    let mut told = names(&found);
    told.sort_unstable();
    assert_eq!(told, ["line_unsaid", "rim_unsaid"]);
    assert!(found.iter().all(|f| f.severity == Severity::Information));
}

#[test]
fn what_old_work_puts_out_of_reach_is_information_and_what_is_new_work_an_error() {
    let text = UNIT_4
        .replace("  coat wall_membrane from top to footing\n", "")
        .replace("  coat wall_membrane as wall_cap from top to top - 8\n", "")
        .replace("over wall_liner by 12", "over wall_liner by 4");
    let mut house = House::read(&text);
    house.foundation.walls.iter_mut().for_each(|w| w.existing = true);
    let graves: Vec<_> = faults(&house).into_iter().map(|f| (f.name.as_str(), f.severity)).collect();
    assert!(graves.contains(&("lap_short", Severity::Error)), "{graves:?}");
    assert!(graves.contains(&("bulk_water_path", Severity::Information)), "{graves:?}");
    assert!(graves.contains(&("vapor_line_broken", Severity::Information)), "{graves:?}");
}

#[test]
fn a_coat_that_ends_in_the_stone_of_the_drain_is_no_lap_the_wrong_way() {
    let mut house = House::with("coat wall_membrane from top to footing", "coat wall_membrane from top to footing + 6");
    let assembly = std::sync::Arc::make_mut(&mut house.foundation.assemblies[0]);
    for work in assembly.faces.iter_mut().flat_map(|f| &mut f.works) {
        if let Some(stone) = work.product.as_mut().filter(|p| p.name.as_str() == "drain_stone") {
            std::sync::Arc::make_mut(stone).controls = Control::BulkWater.into();
        }
    }
    assert_eq!(names(&faults(&house)), Vec::<&str>::new());
}

#[test]
fn a_rim_that_is_not_sealed_is_told() {
    let mut house = House::unit_4();
    house.foundation.sill.rim_sealed = false;
    assert_eq!(names(&faults(&house)), ["air_line_broken"]);
}

#[test]
fn a_spread_across_the_limit_is_unsure() {
    let mut house = House::unit_4();
    let spread = |f: &mut wythe_model::Face| {
        for work in &mut f.works {
            if let Some(product) = work.product.as_mut().filter(|p| p.name.as_str() == "wall_liner") {
                let perm = std::sync::Arc::make_mut(product).permeance.as_mut().unwrap();
                perm.high = perm.mid * 5.0;
            }
        }
    };
    let assembly = std::sync::Arc::make_mut(&mut house.foundation.assemblies[0]);
    assembly.faces.iter_mut().for_each(spread);
    let (found, traces) = of(&house);
    assert!(names(&found).contains(&"vapor_unsure"));
    assert_eq!(trace(&traces, Control::Vapor, "south").status, Status::Unsure);
}

#[test]
fn a_pack_may_ask_for_more() {
    let mut asked = Requirements::default();
    asked.set(Ask::Length(Need::VaporLap, inches(14.0)), "Upland (invented)", None);
    let house = House::unit_4();
    let (found, _) = check(&house.foundation, &asked);
    let wall = found.iter().find(|f| f.item == "unit_4.wall_to_ground").unwrap();
    assert_eq!(wall.cause.as_deref(), Some("found 12 in, required 14 in (Upland (invented))"));
}

#[test]
fn the_sketch_shows_the_section_and_the_break() {
    let (_, finding) = only("as wall_cap from top to top - 8", "as wall_cap from top to top - 5");
    let sketch = finding.sketch.unwrap();
    let drawn = [
        "                ====  head: head_coat",
        "        top    A####D",
        " top - 4 in    A####DEF  <-- contact 1 in found, 3 in due",
        " top - 5 in    A#### EF",
        "      grade    A#### EF",
        "top - 28 in  c A#### EF",
        "     ground  c A####_____ ground_liner",
        "top - 36 in  cbA####",
        "    footing     ----",
        "A wall_membrane, b footing_drain, c drain_stone, D wall_cap, E wall_liner, F board",
        "capitals: carries the vapor line",
        "",
    ];
    assert_eq!(sketch.to_string(), drawn.join("\n"));
}

/// The fixture's hatch and vents are built alike; here the vents have nothing in them.
fn with_bare_vents() -> House {
    let mut house = House::unit_4();
    for opening in house.foundation.openings.iter_mut().filter(|o| o.kind == OpeningKind::Vent) {
        opening.assembly = None;
    }
    house
}

#[test]
fn each_opening_is_a_branch_of_the_lines() {
    let (found, traces) = of(&House::unit_4());
    assert_eq!(names(&found), ["bare_band"]);
    for control in [Control::Vapor, Control::Air, Control::Heat] {
        assert_eq!(trace(&traces, control, "v1").status, Status::Proven, "{control:?}");
    }
    let mut house = with_bare_vents();
    let (found, traces) = of(&house);
    assert_eq!(names(&found), ["line_unsaid"; 2].iter().chain(&["bare_band"]).copied().collect::<Vec<_>>());
    assert_eq!(trace(&traces, Control::Air, "v2").status, Status::Unsaid);
    house.foundation.openings.iter_mut().for_each(|o| o.plugged = true);
    assert_eq!(faults(&house).len(), 0);
}

#[test]
fn a_sleeve_must_be_closed_against_air_and_below_grade_against_water() {
    let mut house = House::unit_4();
    let mut sleeve = house.foundation.openings[1].clone();
    (sleeve.name, sleeve.kind, sleeve.assembly) = (Symbol::new("pipe"), OpeningKind::Sleeve, None);
    house.foundation.openings.push(sleeve);
    let told = faults(&house);
    assert_eq!(names(&told), ["bulk_water_path"]);
    assert_eq!(told[0].title, "water can get in at `pipe`; the vapor and air lines break there too");
    // Above grade only air and vapor are asked; grade lies 16 in under the datum.
    house.foundation.openings[3].sill = Some(inches(-10.0));
    assert_eq!(names(&faults(&house)), ["vapor_line_broken"]);
    // The panel of the hatch carries both and is sealed all round.
    house.foundation.openings[3].assembly = house.foundation.openings[0].assembly;
    assert_eq!(faults(&house).len(), 0);
}

#[test]
fn a_gasket_under_the_sill_does_not_reach_into_a_beam_pocket() {
    let with_pocket = |text: &str| {
        let mut house = House::read(text);
        let mut pocket = house.foundation.openings[1].clone();
        (pocket.name, pocket.kind, pocket.assembly) = (Symbol::new("seat"), OpeningKind::BeamPocket, None);
        house.foundation.openings.push(pocket);
        faults(&house)
    };
    assert_eq!(with_pocket(UNIT_4).len(), 0);
    let bare = UNIT_4.replace("  coat wall_membrane as head_coat over head\n", "");
    let found = with_pocket(&bare);
    let told = found.iter().find(|f| f.name.as_str() == "missing_capillary_break").unwrap();
    assert_eq!(told.title, "no capillary break between masonry and the beam in `seat`");
}

#[test]
fn nothing_given_is_nothing_proven_and_no_panic() {
    let mut house = House::unit_4();
    house.foundation.ground.assembly = None;
    house.foundation.joints.clear();
    house.foundation.phases.clear();
    let (found, _) = of(&house);
    assert_eq!(names(&found).iter().filter(|n| **n == "line_unsaid").count(), 1, "{found:#?}");
    house.foundation.walls.clear();
    house.foundation.piers.clear();
    house.foundation.openings.clear();
    house.foundation.assemblies.clear();
    let _ = of(&house);
    let mut odd = House::unit_4();
    for wall in &mut odd.foundation.walls {
        for s in &mut wall.stretches {
            s.levels.top = inches(f64::NAN);
            s.levels.ground = inches(f64::INFINITY);
        }
    }
    let _ = of(&odd);
}
