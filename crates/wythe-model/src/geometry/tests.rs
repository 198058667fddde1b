//! The plan against hand calculations and against properties every plan must have.

use std::sync::Arc;

use proptest::prelude::*;
use uom::si::area::{square_foot, square_meter};
use uom::si::f64::Length;
use uom::si::length::{foot, inch, meter};

use super::*;
use crate::fixture::{at_ft, ft_in, levels, rectangle, rectangle_of, unit_4};
use crate::{Foundation, MeasuredFace, Stretch};

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

fn faces(f: &Foundation) -> [(f64, f64); 3] {
    let plan = Plan::of(f, Basis::Design);
    [MeasuredFace::Outside, MeasuredFace::Center, MeasuredFace::Inside]
        .map(|face| (plan.perimeter(face).get::<foot>(), plan.area(face).get::<square_foot>()))
}

/// Common practice: a house of 28 by 40 ft in 8 in nominal block has 136 ft and 1120 ft² outside, 130 ft 8 in and
/// 1031 ft² inside. By hand: 26' 8" x 38' 8" = 1031.11 ft². Of actual 7-5/8" block: 26' 8.75" x 38' 8.75".
#[test]
fn a_rectangle_on_each_face() {
    let f = rectangle_of(ft_in(40.0, 0.0), ft_in(28.0, 0.0), ft_in(0.0, 8.0));
    let [outside, center, inside] = faces(&f);
    assert!(near(outside.0, 136.0) && near(outside.1, 1120.0));
    assert!(near(center.0, 2.0 * (27.0 + 4.0 / 12.0 + 39.0 + 4.0 / 12.0)));
    assert!(near(inside.0, 130.0 + 8.0 / 12.0) && near(inside.1, (26.0 + 8.0 / 12.0) * (38.0 + 8.0 / 12.0)));
    let [_, _, inside] = faces(&rectangle(ft_in(40.0, 0.0), ft_in(28.0, 0.0)));
    assert!(near(inside.1, (26.0 + 8.75 / 12.0) * (38.0 + 8.75 / 12.0)));
}

#[test]
fn a_walk_on_the_inside_or_the_middle_gives_the_same_house() {
    let t = 8.0 / 12.0;
    let mut f = rectangle_of(ft_in(40.0 - 2.0 * t, 0.0), ft_in(28.0 - 2.0 * t, 0.0), ft_in(0.0, 8.0));
    f.measured = MeasuredFace::Inside;
    assert!(near(faces(&f)[0].1, 1120.0) && near(faces(&f)[2].0, 130.0 + 8.0 / 12.0));
    let mut f = rectangle_of(ft_in(40.0 - t, 0.0), ft_in(28.0 - t, 0.0), ft_in(0.0, 8.0));
    f.measured = MeasuredFace::Center;
    assert!(near(faces(&f)[0].1, 1120.0));
}

/// Walk 42 + 28.5 + 20 + 8.5 + 22 + 20 = 141 ft; 42 x 28.5 − 22 x 8.5 = 1010 ft². Inside, each wall loses
/// 7-5/8" at an outer corner and gains as much at the inner one, between `inner` and `porch`.
#[test]
fn unit_4_on_each_face() {
    let f = unit_4();
    let [outside, _, inside] = faces(&f);
    assert!(near(outside.0, 141.0) && near(outside.1, 1010.0));
    let t = 7.625 / 12.0;
    assert!(near(inside.0, 141.0 - 8.0 * t));
    assert!(near(inside.1, 1010.0 - 141.0 * t + 4.0 * t * t));

    let plan = Plan::of(&f, Basis::Design);
    let insides: Vec<f64> = plan.walls.iter().map(|w| w.inside.length().get::<foot>()).collect();
    for (found, due) in insides.iter().zip([42.0 - 2.0 * t, 28.5 - 2.0 * t, 20.0 - 2.0 * t, 8.5, 22.0, 20.0 - 2.0 * t])
    {
        assert!(near(*found, due), "{found} {due}");
    }
    let turns: Vec<Turn> = plan.corners.iter().map(|c| c.turn).collect();
    use Turn::{Convex, Reentrant};
    assert_eq!(turns, [Convex, Convex, Convex, Convex, Reentrant, Convex]);
    assert_eq!(plan.corners[4].owner(), 3);
}

#[test]
fn heads_on_the_miter_add_up_to_the_ring() {
    let f = unit_4();
    let plan = Plan::of(&f, Basis::Design);
    let heads: f64 = plan.walls.iter().map(|w| w.head_area.get::<square_foot>()).sum();
    let ring = plan.area(MeasuredFace::Outside) - plan.area(MeasuredFace::Inside);
    assert!(near(heads, ring.get::<square_foot>()));
}

#[test]
fn a_walk_clockwise_gives_the_same_areas() {
    let f = unit_4();
    let mut g = f.clone();
    g.walls.reverse();
    for w in &mut g.walls {
        w.bearing += uom::si::f64::Angle::new::<uom::si::angle::degree>(180.0);
    }
    assert_eq!(Plan::of(&g, Basis::Design).orientation, Orientation::Clockwise);
    for (a, b) in faces(&f).iter().zip(faces(&g)) {
        assert!(near(a.0, b.0) && near(a.1, b.1));
    }
}

#[test]
fn as_built_lengths_are_taken_on_request() {
    let mut f = rectangle(ft_in(40.0, 0.0), ft_in(28.0, 0.0));
    for (wall, feet) in [(0, 40.25), (2, 40.25)] {
        f.walls[wall].as_built_length = Some(ft_in(feet, 0.0));
    }
    let area = |basis| Plan::of(&f, basis).area(MeasuredFace::Outside).get::<square_foot>();
    assert!(near(area(Basis::Design), 1120.0) && near(area(Basis::AsBuilt), 1127.0));
}

#[test]
fn walls_in_one_line_of_two_thicknesses_make_a_jog() {
    let mut f = rectangle_of(ft_in(40.0, 0.0), ft_in(28.0, 0.0), ft_in(0.0, 8.0));
    let mut second = f.walls[0].clone();
    f.walls[0].length = ft_in(16.0, 0.0);
    second.length = ft_in(24.0, 0.0);
    let mut thick = (*f.assemblies[0]).clone();
    let mut block = (**thick.structure.as_ref().unwrap()).clone();
    block.thickness = Some(ft_in(0.0, 12.0));
    thick.structure = Some(Arc::new(block));
    f.assemblies.push(Arc::new(thick));
    second.assembly = Some(crate::AssemblyId(f.assemblies.len() as u32 - 1));
    f.walls.insert(1, second);
    let plan = Plan::of(&f, Basis::Design);
    assert_eq!(plan.corners[1].turn, Turn::Straight);
    let t = 8.0 / 12.0;
    let due = (40.0 - 2.0 * t) * (28.0 - 2.0 * t) - (24.0 - t) * (1.0 - t);
    assert!(near(plan.area(MeasuredFace::Inside).get::<square_foot>(), due));
}

#[test]
fn a_house_thinner_than_its_walls_has_no_inside() {
    let f = rectangle_of(ft_in(1.0, 0.0), ft_in(1.0, 0.0), ft_in(0.0, 8.0));
    let plan = Plan::of(&f, Basis::Design);
    assert_eq!(plan.squeezed(), [0, 1, 2, 3]);
    assert!(near(plan.area(MeasuredFace::Inside).get::<square_foot>(), 0.0));
    assert!(near(plan.perimeter(MeasuredFace::Inside).get::<foot>(), 0.0));
}

#[test]
fn no_walls_no_plan() {
    let mut f = unit_4();
    f.walls.clear();
    f.openings.clear();
    let plan = Plan::of(&f, Basis::Design);
    assert!(plan.walls.is_empty() && near(plan.area(MeasuredFace::Inside).get::<square_meter>(), 0.0));
    assert!(risers(&f, &plan).is_empty() && pockets(&f, &plan).is_empty());
}

/// Outside face of `east`, top to footing: 16' of 3' 4" and 12' 6" of 4' 8"; its vent takes 16" x 8".
#[test]
fn a_stepped_wall_less_its_vent() {
    let f = unit_4();
    let plan = Plan::of(&f, Basis::Design);
    let strips = strips(&f.walls[1], &plan.walls[1].outside);
    assert_eq!(strips.len(), 2);
    let rects = net_rects(&strips, &opening_rects(&f, 1), |l| (l.footing, l.top));
    let due = 16.0 * (40.0 / 12.0) + 12.5 * (56.0 / 12.0) - 128.0 / 144.0;
    assert!(near(total_area(&rects).get::<square_foot>(), due));
    assert!(opening_rects(&f, 1)[0].sill_assumed);
}

#[test]
fn openings_that_overlap_are_taken_off_once() {
    let mut f = unit_4();
    let mut again = f.openings[0].clone();
    again.at += ft_in(1.0, 0.0);
    f.openings.push(again);
    let plan = Plan::of(&f, Basis::Design);
    let area = |openings: &[OpeningRect]| {
        total_area(&net_rects(&strips(&f.walls[0], &plan.walls[0].inside), openings, |l| (l.ground, l.top)))
            .get::<square_foot>()
    };
    let both: Vec<OpeningRect> = opening_rects(&f, 0).into_iter().filter(|o| o.opening != 1).collect();
    assert!(near(area(&[]) - area(&both), 44.0 / 12.0 * (20.0 / 12.0)));
}

#[test]
fn beams_find_their_piers_and_pockets() {
    let f = unit_4();
    let plan = Plan::of(&f, Basis::Design);
    assert_eq!(piers_under(&f, &f.beams[0]), [0, 1, 2]);
    assert_eq!(piers_under(&f, &f.beams[1]), [3, 4, 5]);
    let found: Vec<(usize, usize, f64)> =
        pockets(&f, &plan).iter().map(|p| (p.beam, p.wall, p.along.get::<foot>())).collect();
    let due = [(0, 5, 20.0 - 20.0 / 3.0), (0, 1, 20.0 / 3.0), (1, 5, 20.0 / 3.0), (1, 1, 40.0 / 3.0)];
    assert_eq!(found.len(), due.len());
    for (a, b) in found.iter().zip(due) {
        assert!(a.0 == b.0 && a.1 == b.1 && near(a.2, b.2), "{a:?} {b:?}");
    }
    let top = dropped_top(Length::default(), Length::default(), &f.beams[0]);
    assert!(near(top.get::<inch>(), -9.25));
    let stair = Footprint::from(&f.piers[6]);
    assert!(beam_over(&f.beams, &stair).is_none());
    // 42' less 7-5/8" inside face, less 40' 8" and half of 16".
    let clear = stair.clearance(&plan.outline(MeasuredFace::Inside)).unwrap().get::<inch>();
    assert!(near(clear, 504.0 - 7.625 - 488.0 - 8.0), "{clear}");
}

#[test]
fn a_stepped_floor_has_a_riser_from_wall_to_wall() {
    let mut f = rectangle_of(ft_in(40.0, 0.0), ft_in(28.0, 0.0), ft_in(0.0, 8.0));
    let (high, low) = (levels(16.0, 32.0, 40.0), levels(16.0, 48.0, 56.0));
    let step = |wall: &mut crate::Wall, at: f64, first, second| {
        let (from, mid, to) = (Length::default(), ft_in(at, 0.0), wall.length);
        wall.stretches = vec![
            Stretch { from, to: mid, levels: first, origin: wall.origin },
            Stretch { from: mid, to, levels: second, origin: wall.length_origin },
        ];
    };
    step(&mut f.walls[0], 25.0, high, low);
    f.walls[1].stretches[0].levels = low;
    step(&mut f.walls[2], 15.0, low, high);
    let found = risers(&f, &Plan::of(&f, Basis::Design));
    assert_eq!(found.len(), 1);
    assert!(near(found[0].line.length().get::<foot>(), 28.0 - 16.0 / 12.0));
    assert!(near(found[0].area().get::<square_foot>(), (28.0 - 16.0 / 12.0) * 16.0 / 12.0));
    assert!(near(found[0].line.from.x.get::<foot>(), 25.0) && near(found[0].line.to.x.get::<foot>(), 25.0));
    assert!(risers(&unit_4(), &Plan::of(&unit_4(), Basis::Design)).is_empty());
}

#[test]
fn footprints_overlap_and_are_cut() {
    let f = unit_4();
    let inside = Plan::of(&f, Basis::Design).outline(MeasuredFace::Inside);
    let at = |x: f64, y: f64| Footprint { at: at_ft(x, y), width: ft_in(2.0, 0.0), depth: ft_in(2.0, 0.0) };
    assert!(at(5.0, 5.0).overlaps(&at(6.9, 5.0)) && !at(5.0, 5.0).overlaps(&at(7.0, 5.0)));
    assert!(at(5.0, 5.0).within(&inside) && !at(1.0, 5.0).within(&inside) && !at(-9.0, 5.0).within(&inside));
    assert!(at(1.0, 5.0).cut(&inside).is_some() && at(-9.0, 5.0).cut(&inside).is_none());
}

/// A simple polygon with right angles, stepping up to the right and back along the top.
fn stairs() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((2.0..8.0f64, 2.0..8.0f64), 1..6)
}

fn stair_house(steps: &[(f64, f64)], thickness: f64) -> Foundation {
    let mut f = rectangle_of(ft_in(1.0, 0.0), ft_in(1.0, 0.0), Length::new::<meter>(thickness));
    let (east, north): (f64, f64) = steps.iter().fold((0.0, 0.0), |t, s| (t.0 + s.0, t.1 + s.1));
    let mut legs = vec![(0.0, east)];
    for &(run, rise) in steps {
        legs.push((90.0, rise));
        legs.push((180.0, run));
    }
    // The last run back ends over the start; close it straight down.
    legs.push((270.0, north));
    let template = f.walls[0].clone();
    f.walls = legs
        .into_iter()
        .map(|(b, l)| {
            let mut w = template.clone();
            w.bearing = uom::si::f64::Angle::new::<uom::si::angle::degree>(b);
            w.length = Length::new::<meter>(l);
            w.stretches[0].to = w.length;
            w
        })
        .collect();
    f
}

proptest! {
    /// The area by shoelace is the sum of upright strips between corners.
    #[test]
    fn area_is_the_sum_of_strips(steps in stairs()) {
        let f = stair_house(&steps, 0.2);
        let plan = Plan::of(&f, Basis::Design);
        let mut left: f64 = steps.iter().map(|s| s.0).sum();
        let mut by_strips = 0.0;
        for (run, rise) in &steps {
            by_strips += left * rise;
            left -= run;
        }
        prop_assert!((plan.area(MeasuredFace::Outside).get::<square_meter>() - by_strips).abs() < 1e-9);
    }

    /// Moving the outline inward by t takes off P·t less t² for each outer corner beyond the inner ones:
    /// A_in = A − P·t + (convex − reentrant)·t² on right angles.
    #[test]
    fn offsets_agree_with_steiner(steps in stairs(), t in 0.05..0.4f64) {
        let f = stair_house(&steps, t);
        let plan = Plan::of(&f, Basis::Design);
        let (a, p) = (plan.area(MeasuredFace::Outside).value, plan.perimeter(MeasuredFace::Outside).value);
        let count = |turn| plan.corners.iter().filter(|c| c.turn == turn).count();
        prop_assert_eq!(count(Turn::Convex), count(Turn::Reentrant) + 4);
        prop_assert!((plan.area(MeasuredFace::Inside).value - (a - p * t + 4.0 * t * t)).abs() < 1e-9);
        prop_assert!((plan.perimeter(MeasuredFace::Inside).value - (p - 8.0 * t)).abs() < 1e-9);
        prop_assert!(crossings(&plan.walk, hair()).is_empty());
    }

    /// Any legs at all give finite figures.
    #[test]
    fn any_walk_gives_finite_figures(legs in prop::collection::vec((any::<f64>(), any::<f64>()), 0..8)) {
        let mut f = rectangle(ft_in(10.0, 0.0), ft_in(10.0, 0.0));
        let template = f.walls[0].clone();
        f.walls = legs.iter().map(|&(b, l)| {
            let mut w = template.clone();
            w.bearing = uom::si::f64::Angle::new::<uom::si::angle::radian>(b);
            w.length = Length::new::<meter>(l);
            w
        }).collect();
        let plan = Plan::of(&f, Basis::Design);
        for face in [MeasuredFace::Outside, MeasuredFace::Center, MeasuredFace::Inside] {
            prop_assert!(plan.area(face).value.is_finite() && plan.perimeter(face).value.is_finite());
        }
        prop_assert!(risers(&f, &plan).iter().all(|r| r.area().value.is_finite()));
    }

    /// What is left of a wall is what a count of its unit squares leaves, however the openings lie.
    #[test]
    fn net_area_is_a_count_of_squares(
        steps in prop::collection::vec((1..6u32, 1..9i32), 1..4),
        holes in prop::collection::vec((-2..14i32, 1..6i32, -2..9i32, 1..5i32), 0..5),
    ) {
        let at = |n: i32| Length::new::<meter>(f64::from(n));
        let mut strips = Vec::new();
        let mut from = 0;
        for &(run, height) in &steps {
            let to = from + run as i32;
            let levels = crate::Levels { top: at(height), sill: at(height), ..levels(0.0, 0.0, 0.0) };
            strips.push(Strip { from: at(from), to: at(to), levels });
            from = to;
        }
        let openings: Vec<OpeningRect> = holes
            .iter()
            .enumerate()
            .map(|(opening, &(x, w, y, h))| {
                let rect = Rect { from: at(x), to: at(x + w), low: at(y), high: at(y + h) };
                OpeningRect { opening, rect, sill_assumed: false }
            })
            .collect();
        let mut squares = 0;
        let mut x = 0;
        for &(run, height) in &steps {
            for _ in 0..run {
                let open = |y: i32| holes.iter().any(|&(hx, w, hy, h)| hx <= x && x < hx + w && hy <= y && y < hy + h);
                squares += (0..height).filter(|&y| !open(y)).count();
                x += 1;
            }
        }
        let rects = net_rects(&strips, &openings, |l| (Length::default(), l.top));
        prop_assert!((total_area(&rects).get::<square_meter>() - squares as f64).abs() < 1e-9);
    }
}
