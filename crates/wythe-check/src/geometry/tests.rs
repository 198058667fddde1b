//! Each fault made on purpose in a sound house, and found where it is.

use uom::si::angle::degree;
use uom::si::f64::Angle;
use wythe_findings::{Finding, Severity};
use wythe_model::fixture::{at_ft, ft_in, levels, rectangle, unit_4};
use wythe_model::{Foundation, Length, OpeningKind, Stretch};

fn found(f: &Foundation) -> Vec<Finding> {
    let mut out = Vec::new();
    super::check(f, &mut out);
    out
}

fn names(f: &Foundation) -> Vec<&'static str> {
    found(f).iter().map(|x| x.name.as_str()).collect()
}

/// The one finding of that name.
fn only(f: &Foundation, name: &str) -> Finding {
    let mut all: Vec<Finding> = found(f).into_iter().filter(|x| x.name.as_str() == name).collect();
    assert_eq!(all.len(), 1, "{name}: {all:#?}");
    let one = all.remove(0);
    assert!(!one.primary.text.is_empty() && !one.title.is_empty() && one.item.starts_with(f.name.as_str()), "{one:#?}");
    assert!(one.mend.is_some() || one.severity == Severity::Information, "{one:#?}");
    one
}

fn graver_than_information(f: &Foundation) -> Vec<&'static str> {
    found(f).iter().filter(|x| x.severity > Severity::Information).map(|x| x.name.as_str()).collect()
}

#[test]
fn sound_houses_give_information_only() {
    assert_eq!(names(&unit_4()), ["pocket_missing", "pocket_missing"]);
    assert_eq!(names(&rectangle(ft_in(40.0, 0.0), ft_in(28.0, 0.0))), ["ground_below_grade"]);
}

#[test]
fn a_wall_a_foot_short() {
    let mut f = unit_4();
    f.walls[5].length = ft_in(19.0, 0.0);
    let one = only(&f, "walk_open");
    assert_eq!(one.primary.span, f.walls[5].length_origin);
    assert_eq!(one.primary.text, "ends 1' north of its start");
    assert_eq!(one.related[0].span, f.walls[0].origin);
    let texts: Vec<(&str, wythe_source::Span)> =
        one.fixes.iter().map(|x| (x.edits[0].text.as_str(), x.edits[0].span)).collect();
    assert_eq!(
        texts,
        [
            ("20'", f.walls[5].length_origin),
            ("9' 6\"", f.walls[3].length_origin),
            ("27' 6\"", f.walls[1].length_origin)
        ]
    );
    assert_eq!(graver_than_information(&f), ["walk_open"]);
}

#[test]
fn a_gap_aslant_is_closed_by_two_walls_and_the_fix_closes_it() {
    let mut f = unit_4();
    f.walls[4].length = ft_in(21.0, 0.0);
    f.walls[5].length = ft_in(19.0, 6.0);
    let one = only(&f, "walk_open");
    assert_eq!(one.primary.text, "ends 6\" north and 1' east of its start");
    assert_eq!(one.fixes.len(), 1);
    let edits: Vec<&str> = one.fixes[0].edits.iter().map(|e| e.text.as_str()).collect();
    assert_eq!(edits, ["22'", "20'"]);
    f.walls[4].length = ft_in(22.0, 0.0);
    f.walls[5].length = ft_in(20.0, 0.0);
    assert_eq!(graver_than_information(&f), [""; 0]);
}

#[test]
fn a_half_inch_is_information() {
    let mut f = unit_4();
    f.walls[5].length = ft_in(19.0, 11.5);
    let one = only(&f, "closing_error");
    assert_eq!(one.title, "the walk closes to 1/2\"");
    assert_eq!(graver_than_information(&f), [""; 0]);
    f.closing_tolerance = ft_in(0.0, 0.25);
    assert_eq!(graver_than_information(&f), ["walk_open"]);
}

#[test]
fn a_walk_that_crosses_itself() {
    let mut f = unit_4();
    f.walls[3].length = ft_in(38.5, 0.0);
    f.walls[5].length = ft_in(10.0, 0.0);
    f.walls[5].bearing = Angle::new::<degree>(90.0);
    let one = only(&f, "walk_crosses");
    assert_eq!(one.primary.span, f.walls[3].origin);
    assert_eq!(one.related[0].span, f.walls[0].origin);
    assert_eq!(one.primary.text, "they meet 22' east and 0\" north of the start");
}

#[test]
fn walls_without_length_or_inside() {
    let mut f = rectangle(ft_in(40.0, 0.0), ft_in(28.0, 0.0));
    let mut stub = f.walls[1].clone();
    stub.length = Length::default();
    f.walls.insert(1, stub);
    assert_eq!(graver_than_information(&f), ["wall_without_length"]);
    let f = rectangle(ft_in(40.0, 0.0), ft_in(1.0, 0.0));
    let one = only(&f, "wall_squeezed");
    assert_eq!(one.related.len(), 2);
    let mut f = rectangle(ft_in(40.0, 0.0), ft_in(28.0, 0.0));
    f.walls[0].assembly = None;
    f.walls[2].assembly = None;
    assert_eq!(only(&f, "thickness_unknown").related.len(), 1);
}

#[test]
fn steps_past_the_end_and_out_of_order() {
    let mut f = unit_4();
    f.walls[1].stretches[1].from = ft_in(30.0, 0.0);
    let one = only(&f, "step_past_end");
    assert_eq!(one.primary.span, f.walls[1].stretches[1].origin);
    let mut f = unit_4();
    let low = f.walls[1].stretches[1];
    let origin = f.walls[0].length_origin;
    f.walls[1].stretches.push(Stretch { from: ft_in(12.0, 0.0), origin, ..low });
    let one = only(&f, "steps_out_of_order");
    assert_eq!(one.related[0].span, low.origin);
}

#[test]
fn levels_out_of_order_are_one_finding_for_all_walls_alike() {
    let mut f = unit_4();
    for wall in &mut f.walls {
        for stretch in &mut wall.stretches {
            stretch.levels = levels(16.0, 12.0, 12.0);
        }
    }
    let one = only(&f, "footing_above_grade");
    assert_eq!(one.primary.text, "footing at datum - 1', grade at datum - 1' 4\"");
    assert_eq!(one.related.len(), 6);
    let set = |l| {
        let mut f = unit_4();
        f.openings.clear();
        f.walls[0].stretches[0].levels = l;
        f
    };
    only(&set(levels(16.0, 44.0, 40.0)), "ground_below_footing");
    assert_eq!(
        only(&set(levels(0.0, 32.0, 40.0)), "grade_above_top").primary.text,
        "grade lies at the top of the masonry"
    );
    only(&set(levels(-6.0, 32.0, 40.0)), "grade_above_top");
    only(&set(levels(16.0, -2.0, -3.0)), "wall_without_height");
}

#[test]
fn a_floor_below_grade_is_noted_with_or_without_an_outlet() {
    let mut f = rectangle(ft_in(40.0, 0.0), ft_in(28.0, 0.0));
    assert!(only(&f, "ground_below_grade").mend.is_some());
    f.ground.drain_outlet = true;
    assert!(only(&f, "ground_below_grade").cause.is_some());
}

#[test]
fn an_opening_past_its_wall() {
    let mut f = unit_4();
    f.openings[0].wall = Some(4);
    f.openings[0].at = ft_in(21.0, 0.0);
    let one = only(&f, "opening_past_end");
    assert_eq!(one.primary.text, "23' 8\" needed, 22' there");
    assert_eq!(one.mend.as_deref(), Some("`at 19' 4\"` or less"));
    assert_eq!(one.fixes[0].edits[0].text, "19' 4\"");
    assert_eq!(one.related[0].span, f.walls[4].length_origin);
    f.openings[0].at = ft_in(-1.0, 0.0);
    assert_eq!(only(&f, "opening_past_end").primary.text, "1' before the wall's start");
    f.openings[0].width = ft_in(30.0, 0.0);
    assert!(only(&f, "opening_past_end").fixes.is_empty());
}

#[test]
fn an_opening_in_the_corner() {
    let mut f = unit_4();
    f.openings[1].at = ft_in(0.0, 4.0);
    let one = only(&f, "opening_in_corner");
    assert_eq!(one.primary.text, "3-5/8\" of it lies behind the next wall");
    assert_eq!((one.related[0].span, one.fixes[0].edits[0].text.as_str()), (f.walls[5].origin, "7-5/8\""));
    // At the inner corner the inside is longer, and nothing stands in the way.
    f.openings[1].at = ft_in(2.0, 6.0);
    f.openings[2].at = Length::default();
    assert_eq!(graver_than_information(&f), [""; 0]);
    f.openings[2].at = ft_in(20.0, 4.0);
    assert_eq!(only(&f, "opening_in_corner").related[0].span, f.walls[5].origin);
}

#[test]
fn openings_that_overlap_or_leave_the_wall() {
    let mut f = unit_4();
    f.openings[1].at = ft_in(11.0, 0.0);
    let one = only(&f, "openings_overlap");
    assert_eq!(one.primary.text, "1' 4\" wide and 4\" high are in both");
    assert!(one.cause.is_some());
    let mut f = unit_4();
    f.openings[0].sill = Some(ft_in(0.0, -12.0));
    assert_eq!(only(&f, "opening_above_top").primary.text, "8\" above the top of the masonry");
    f.openings[0].sill = Some(ft_in(0.0, -50.0));
    assert_eq!(only(&f, "opening_below_footing").primary.text, "10\" below the top of the footing");
    f.openings[0].sill = None;
    f.openings[0].height = ft_in(0.0, 48.0);
    assert!(only(&f, "opening_below_footing").cause.is_some());
    f.openings[0].height = Length::default();
    only(&f, "opening_without_size");
}

#[test]
fn piers_outside_in_a_wall_and_on_one_another() {
    let mut f = unit_4();
    f.piers[3].at = at_ft(10.5, 25.0);
    f.piers[4].at = at_ft(15.0, 25.0);
    let one = only(&f, "pier_outside");
    assert!(one.title.starts_with("p4 and p5 stand"), "{}", one.title);
    assert_eq!(one.related[0].span, f.walls[4].origin);
    let mut f = unit_4();
    f.piers[6].at = at_ft(41.0, 24.0);
    let one = only(&f, "pier_in_wall");
    assert_eq!(one.related[0].span, f.walls[1].origin);
    let mut f = unit_4();
    f.piers[6].at = at_ft(11.0, 7.0);
    let one = only(&f, "piers_overlap");
    assert_eq!((one.primary.span, one.related[0].span), (f.piers[6].origin, f.piers[0].origin));
    for pier in &mut f.piers[..6] {
        pier.width = ft_in(12.0, 0.0);
    }
    f.piers.truncate(6);
    only(&f, "piers_overlap");
}

#[test]
fn piers_without_height_and_beams_without_piers() {
    let mut f = unit_4();
    f.piers[0].top = ft_in(-3.0, 0.0);
    assert_eq!(only(&f, "pier_without_height").related[0].span, f.beams[0].origin);
    let mut f = unit_4();
    f.piers.clear();
    let all = found(&f);
    assert_eq!(all.iter().filter(|x| x.name.as_str() == "beam_unsupported").count(), 2);
    assert_eq!(graver_than_information(&f), [""; 0]);
}

#[test]
fn a_written_pocket_is_enough() {
    let mut f = unit_4();
    let mut pocket = f.openings[0].clone();
    pocket.kind = OpeningKind::BeamPocket;
    pocket.assembly = None;
    (pocket.width, pocket.height) = (ft_in(0.0, 4.0), ft_in(0.0, 9.25));
    pocket.sill = Some(ft_in(0.0, -9.25));
    for (wall, along) in [(5, 20.0 - 20.0 / 3.0), (1, 20.0 / 3.0)] {
        pocket.wall = Some(wall);
        pocket.at = ft_in(along, -2.0);
        f.openings.push(pocket.clone());
    }
    let one = only(&f, "pocket_missing");
    assert_eq!(one.primary.span, f.beams[1].origin);
    assert_eq!(one.primary.text, "9-1/4\" below the sill where it meets `west` at 6' 8\" and `east` at 13' 4\"");
    for beam in &mut f.beams {
        beam.drop = Length::default();
    }
    assert_eq!(names(&f), [""; 0]);
}

#[test]
fn a_pad_outside_and_walls_not_as_drawn() {
    let mut f = unit_4();
    f.pads[0].at = at_ft(10.0, 25.0);
    only(&f, "pad_outside");
    let mut f = unit_4();
    f.walls[0].as_built_length = Some(ft_in(42.0, 2.0));
    f.walls[2].as_built_length = Some(ft_in(20.0, 0.0));
    f.walls[4].as_built_length = Some(ft_in(22.0, 2.0));
    let one = only(&f, "as_built_differs");
    assert_eq!(one.title, "2 walls are not as long as drawn");
    assert_eq!(one.primary.text, "`south` is built 2\" longer than drawn");
    assert!(one.cause.as_deref().is_some_and(|c| c.ends_with("the walk as built closes")), "{:?}", one.cause);
}

#[test]
fn an_empty_foundation_and_absurd_figures_are_harmless() {
    let mut f = unit_4();
    f.walls.clear();
    let _ = found(&f);
    let mut f = unit_4();
    for (i, wall) in f.walls.iter_mut().enumerate() {
        wall.length = Length::new::<uom::si::length::meter>([f64::NAN, f64::INFINITY, 1e300, -1e300, 0.0, 1e-300][i]);
        wall.stretches.clear();
    }
    f.openings[0].wall = Some(99);
    let _ = found(&f);
}
