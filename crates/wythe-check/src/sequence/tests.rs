//! Sequence on unit 4: clean as planned, and one finding for each state that must not be.

use wythe_findings::{Finding, Severity};
use wythe_model::{OpeningKind, SpaceKind};
use wythe_source::Symbol;

use super::{Cover, Inspection, LayerState, Wet, check, check_logged, gate, states};
use crate::fixture::{House, UNIT_4, names};

fn of(house: &House) -> Vec<Finding> {
    let mut found = check(&house.foundation);
    found.extend(gate(&house.foundation));
    found
}

fn symbols(words: &[&str]) -> Vec<Symbol> {
    words.iter().map(|w| Symbol::new(w)).collect()
}

/// Takes a phase out of the list and puts it at another place.
fn move_phase(house: &mut House, name: &str, to: usize) {
    let at = house.foundation.phases.iter().position(|p| p.name_str() == name).unwrap();
    let phase = house.foundation.phases.remove(at);
    house.foundation.phases.insert(to, phase);
}

#[test]
fn unit_4_as_planned_is_clean() {
    assert_eq!(names(&of(&House::unit_4())), Vec::<&str>::new());
}

#[test]
fn a_plan_without_phases_is_not_judged() {
    let mut house = House::unit_4();
    house.foundation.phases.clear();
    assert_eq!(names(&of(&house)), Vec::<&str>::new());
}

#[test]
fn a_phase_that_is_not_listed_is_told_once() {
    let house = House::read(&UNIT_4.replace("@rough_in\n  hang wall_liner from", "@rouh_in\n  hang wall_liner from"));
    let found = of(&house);
    assert_eq!(names(&found), ["phase_not_listed"]);
    assert_eq!(found[0].mend.as_deref(), Some("did you mean `rough_in`?"));
}

#[test]
fn a_phase_must_not_step_back() {
    let house = House::with(
        "  tape seam_tape over laps of ground_liner\n",
        "  tape seam_tape over laps of ground_liner\n  @before_framing\n  lay build_sheet as spare by 6\n",
    );
    let found = of(&house);
    assert!(names(&found).contains(&"phase_steps_back"), "{found:#?}");
}

#[test]
fn work_of_no_phase_is_a_warning() {
    let house = House::read(&UNIT_4.replacen("  @waterproofing\n", "", 1));
    let found = of(&house);
    assert_eq!(names(&found), ["unscheduled_work"]);
    assert_eq!(found[0].severity, Severity::Warning);
}

#[test]
fn needs_must_hold_on_entry() {
    let mut house = House::unit_4();
    move_phase(&mut house, "backfill", 4);
    let found = of(&house);
    assert_eq!(names(&found), ["needs_unmet"; 2]);
    assert_eq!(found[1].title, "`before_framing` needs `graded`, and it is not so");
    assert_eq!(found[1].mend.as_deref(), Some("put `before_framing` after `backfill`"));
}

#[test]
fn the_ground_is_not_dry_without_a_phase_that_dries_it() {
    let mut house = House::unit_4();
    house.phase("dry_down").dries.clear();
    assert_eq!(names(&of(&house)), ["needs_unmet"]);
    house.phase("close_in").needs.clear();
    let found = of(&house);
    assert_eq!(names(&found), ["surface_not_ready"]);
    assert_eq!(house.at(found[0].primary.span), "lay ground_liner by 12");
}

#[test]
fn drying_needs_open_vents() {
    let mut house = House::unit_4();
    house.phase("before_framing").opens.clear();
    let found = of(&house);
    assert_eq!(names(&found), ["needs_unmet"; 2]);
    let mut none = House::unit_4();
    none.foundation.openings.retain(|o| o.kind != OpeningKind::Vent);
    assert_eq!(of(&none)[0].title, "`dry_down` needs `vent_open`, and there is no vent");
}

#[test]
fn a_floor_over_bare_soil_is_an_error() {
    let house = House::with("  @before_framing\n  lay build_sheet by 6\n", "");
    let text = house.text.replace("  remove build_sheet\n", "");
    let found = of(&House::read(&text));
    assert_eq!(names(&found), ["soil_bare_under_floor"]);
    assert_eq!(found[0].severity, Severity::Error);
    assert_eq!(found[0].primary.text, "the ground is covered only in `close_in`");
}

#[test]
fn a_floor_over_bare_soil_until_the_next_phase_is_no_error() {
    let house = House::with("  @before_framing\n  lay build_sheet", "  @dry_in\n  lay build_sheet");
    let found = of(&house);
    assert_eq!(names(&found), ["soil_bare_under_floor"]);
    assert_eq!(found[0].severity, Severity::Information);
}

#[test]
fn a_cap_after_the_rain_is_too_late() {
    let text = UNIT_4.replace(
        "  tape foil_tape over top edge of board\n  tape foil_tape over joints of board\n",
        "  tape foil_tape over joints of board\n  @dry_down\n  tape foil_tape over top edge of board\n",
    );
    let found = of(&House::read(&text));
    assert_eq!(names(&found), ["edge_open_to_rain"]);
    assert_eq!(found[0].title, "the top edge of `board` stands open to rain after `rough_in`");
}

#[test]
fn a_permanent_liner_before_framing_is_too_soon() {
    let text = UNIT_4.replace("  lay build_sheet by 6\n  @close_in\n  remove build_sheet\n", "");
    let found = of(&House::read(&text));
    assert_eq!(names(&found), ["tail_missing", "ground_layer_too_soon"]);
    let found = &found[1..];
    assert_eq!(found[0].title, "`ground_liner` is laid in `before_framing`, before `wet_trades`");
    assert_eq!(
        found[0].mend.as_deref(),
        Some("lay it in `close_in` at the earliest, and a sacrificial sheet until then")
    );
}

#[test]
fn a_tough_liner_used_as_the_working_surface_is_no_finding() {
    let text = UNIT_4
        .replace("  lay build_sheet by 6\n  @close_in\n  remove build_sheet\n", "")
        .replace("ground_liner", "tough_liner")
        .replace("ready graded drained dry", "ready graded drained")
        .replace("  @before_framing\n  lay tough_liner by 12\n", "  @rough_in\n  lay tough_liner by 12\n");
    assert_eq!(names(&of(&House::read(&text))), Vec::<&str>::new());
}

#[test]
fn backfill_in_the_phase_of_the_hold_hides_the_work() {
    let mut house = House::unit_4();
    house.phase("waterproofing").covers = symbols(&["outside_below_grade"]);
    let found = of(&house);
    assert_eq!(names(&found), ["covered_before_seen"]);
    assert_eq!(found[0].title, "`wall_membrane` is backfilled in `waterproofing` before it is seen");
}

#[test]
fn a_log_shows_what_was_covered_unseen() {
    let house = House::unit_4();
    let passed = symbols(&["rough_in"]);
    let found = check_logged(&house.foundation, Some(&passed));
    assert_eq!(names(&found), ["covered_before_seen"; 2]);
    assert_eq!(found[0].title, "`wall_membrane` is backfilled in `backfill` before it is seen");
    assert_eq!(found[1].title, "`wall_cap` is covered in `rough_in` before it is seen");
    let all = symbols(&["waterproofing", "rough_in"]);
    assert_eq!(names(&check_logged(&house.foundation, Some(&all))), Vec::<&str>::new());
}

#[test]
fn what_one_visit_covers_of_its_own_work_is_not_judged() {
    // The liner is hung and covered by the board within `rough_in`, whose hold falls at its end.
    let house = House::unit_4();
    let passed = symbols(&["waterproofing"]);
    assert_eq!(names(&check_logged(&house.foundation, Some(&passed))), Vec::<&str>::new());
}

#[test]
fn outside_work_after_the_backfill_is_too_late() {
    let house =
        House::with("  drain footing_drain along footing\n", "  @rough_in\n  drain footing_drain along footing\n");
    let found = of(&house);
    assert_eq!(names(&found), ["backfilled_too_soon"]);
    assert_eq!(found[0].title, "backfilled in `backfill` before `footing_drain` is laid");
}

#[test]
fn a_pier_wants_a_tail_before_the_liner() {
    let house = House::with(
        "hang wall_liner as skirt from ground + 8 to ground by 12",
        "hang wall_liner as skirt from ground + 8 to ground",
    );
    assert_eq!(names(&of(&house)), ["tail_missing"]);
}

#[test]
fn tails_may_lie_loose_until_the_last_phase() {
    // Wraps are hung in `rough_in`; nothing ties their tails until the joint in `close_in`, here put off once more.
    let mut house = House::read(&UNIT_4.replace("@close_in", "@service"));
    house.foundation.phases.retain(|p| p.name_str() != "close_in");
    let service = house.phase("service");
    (service.closes, service.starts) = (symbols(&["vent"]), symbols(&["conditioning"]));
    assert_eq!(names(&of(&house)), Vec::<&str>::new());
}

#[test]
fn vents_shut_without_conditioning() {
    let mut house = House::unit_4();
    house.phase("close_in").starts.clear();
    house.phase("service").starts = symbols(&["conditioning"]);
    let found = of(&house);
    assert_eq!(names(&found), ["vents_shut_unconditioned"]);
    assert_eq!(found[0].related[0].text, "conditioning starts only in `service`");
}

#[test]
fn vents_open_in_service_are_told_and_open_before_are_not() {
    let mut house = House::unit_4();
    house.phase("close_in").closes.clear();
    let found = of(&house);
    assert_eq!(names(&found), ["vent_open_in_service"]);
    assert_eq!(found[0].title, "v1 and v2 still open in service");
    house.foundation.space = SpaceKind::Vented;
    assert_eq!(names(&of(&house)), Vec::<&str>::new());
}

#[test]
fn a_plugged_vent_is_shut() {
    let mut house = House::unit_4();
    house.phase("close_in").closes.clear();
    house.foundation.openings.iter_mut().for_each(|o| o.plugged = true);
    assert!(!names(&of(&house)).contains(&"vent_open_in_service"));
}

#[test]
fn conditioning_that_dries_the_house_while_it_is_built_closes_nothing() {
    let mut house = House::unit_4();
    house.phase("dry_down").starts = symbols(&["conditioning"]);
    assert_eq!(names(&of(&house)), Vec::<&str>::new());
    // With no vents to shut, the space is closed when conditioning starts and nothing is left to dry.
    house.foundation.openings.retain(|o| o.kind != OpeningKind::Vent);
    house.phase("close_in").closes.clear();
    house.phase("dry_down").needs.clear();
    assert_eq!(names(&of(&house)), Vec::<&str>::new());
}

#[test]
fn a_wall_that_is_not_ready_is_told_at_its_first_layer() {
    let mut house = House::unit_4();
    let wall = house.foundation.walls[0].assembly.unwrap();
    let ready = ["inspected", "anchored", "clean"].map(|word| (Symbol::new(word), Default::default()));
    std::sync::Arc::make_mut(&mut house.foundation.assemblies[wall.0 as usize]).ready = ready.to_vec();
    house.phase("walls_up").leaves = symbols(&["inspected", "anchored"]);
    let found = of(&house);
    assert_eq!(names(&found), ["surface_not_ready"]);
    assert!(found[0].title.contains("`waterproofing`, and the wall is not `clean`"), "{}", found[0].title);
}

#[test]
fn conditioning_that_nobody_names() {
    let mut house = House::unit_4();
    house.foundation.conditioning.supply_air = None;
    assert_eq!(names(&of(&house)), ["conditioning_unnamed"]);
}

#[test]
fn a_sacrificial_sheet_is_taken_away_or_covered() {
    let covered = House::with("  remove build_sheet\n", "");
    assert_eq!(names(&of(&covered)), Vec::<&str>::new());
    let text = UNIT_4.replace(
        "  @close_in\n  remove build_sheet\n  lay ground_liner by 12\n  tape seam_tape over laps of ground_liner\n",
        "",
    );
    assert_eq!(names(&of(&House::read(&text))), ["sacrificial_left"]);
}

#[test]
fn heads_taped_in_service_are_too_late_and_before_are_not() {
    let line = "  tape foil_tape over heads of board_anchor\n";
    let seal = "  seal urethane along top edge of board to structure bead 0.375\n";
    let late = |phase: &str| UNIT_4.replace(line, "").replace(seal, &format!("{seal}  @{phase}\n{line}"));
    assert_eq!(names(&of(&House::read(&late("service")))), ["head_open_in_service"]);
    assert_eq!(names(&of(&House::read(&late("close_in")))), Vec::<&str>::new());
}

#[test]
fn laps_taped_in_service_are_pending() {
    let house = House::with(
        "  tape seam_tape over cuts of ground_liner\n",
        "  @service\n  tape seam_tape over cuts of ground_liner\n",
    );
    let found = of(&house);
    assert_eq!(names(&found), ["seal_pending"]);
    assert_eq!(found[0].item, "unit_4.pier_to_ground");
}

#[test]
fn a_joint_waits_for_its_layers() {
    let house = House::with("  @close_in\n  lap ground_liner over skirt", "  @rough_in\n  lap ground_liner over skirt");
    let found = of(&house);
    assert_eq!(names(&found), ["joint_too_soon"]);
    assert_eq!(found[0].related[0].text, "`ground_liner` comes only in `close_in`");
}

#[test]
fn a_word_that_means_nothing_is_told_with_the_nearest() {
    let mut house = House::unit_4();
    house.phase("backfill").leaves = symbols(&["graded", "draned", "drained"]);
    let found = of(&house);
    assert_eq!(names(&found), ["unknown_phase_word"]);
    assert_eq!(found[0].mend.as_deref(), Some("did you mean `drained`?"));
    let ready = House::with("ready graded drained dry", "ready graded draind dry");
    let found = of(&ready);
    assert_eq!(names(&found), ["unknown_phase_word"]);
    assert_eq!(ready.fixed(&found[0].fixes[0]), UNIT_4);
}

#[test]
fn the_gate_before_closing() {
    let site = |change: fn(&mut wythe_model::Site)| {
        let mut house = House::unit_4();
        change(std::sync::Arc::make_mut(&mut house.foundation.site));
        house
    };
    assert_eq!(names(&of(&site(|s| s.flood_hazard = true))), ["closed_in_flood_zone"]);
    let mut radon = site(|s| s.radon = true);
    assert_eq!(names(&of(&radon)), ["radon_noted"]);
    radon.foundation.conditioning.radon_pipe = true;
    assert_eq!(names(&of(&radon)), Vec::<&str>::new());
    let mut wet = site(|s| s.water_table = Some(Symbol::new("shallow")));
    assert_eq!(names(&of(&wet)), Vec::<&str>::new());
    wet.foundation.ground.drain_outlet = false;
    assert_eq!(names(&of(&wet)), ["standing_water"]);
    let mut draft = House::unit_4();
    draft.foundation.conditioning.natural_draft = true;
    assert_eq!(names(&of(&draft)), ["natural_draft_in_closed_space"]);
    draft.foundation.space = SpaceKind::Vented;
    assert_eq!(names(&of(&draft)), Vec::<&str>::new());
    let mut flood = House::unit_4();
    flood.foundation.openings[1].kind = OpeningKind::Flood;
    assert_eq!(names(&of(&flood)), ["closed_in_flood_zone"]);
}

#[test]
fn the_state_table_of_unit_4() {
    let house = House::unit_4();
    let table = states(&house.foundation, None);
    let phase = |name: &str| table.phases.iter().position(|p| p.as_str() == name).unwrap();
    let row = |name: &str| table.rows.iter().find(|r| r.surface == name).unwrap();
    let ground = |name: &str| &row("ground").cells[phase(name)];
    assert_eq!((ground("backfill").cover, ground("backfill").wet), (Some(Cover::Bare), Some(Wet::Damp)));
    assert_eq!((ground("framing").cover, ground("framing").wet), (Some(Cover::Sacrificial), Some(Wet::Damp)));
    assert_eq!(ground("wet_trades").wet, Some(Wet::Wet));
    assert_eq!(ground("dry_down").wet, Some(Wet::Dry));
    assert_eq!(ground("service").cover, Some(Cover::Permanent));
    let board = |name: &str| {
        let cell = &row("stem_wall.inside").cells[phase(name)];
        cell.layers.iter().find(|(n, _)| n.as_str() == "board").map(|(_, s)| *s)
    };
    assert_eq!(board("framing"), Some(LayerState::Finished));
    assert_eq!(board("waterproofing"), None);
    let outside = &row("stem_wall.outside").cells;
    assert_eq!(outside[phase("waterproofing")].seen, Inspection::Due);
    assert_eq!(outside[phase("backfill")].seen, Inspection::Passed);
    assert_eq!(outside[phase("backfill")].layers[0].1, LayerState::Covered);
    assert_eq!(ground("framing").to_string(), "sacrificial, damp");
    assert!(table.holds_assumed);
    assert_eq!(row("stem_wall.inside").places.len(), 6);
}
