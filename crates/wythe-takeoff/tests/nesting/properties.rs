//! Properties of every plan, and bad input.

use super::check::{drawing, inches, sheet};
use proptest::prelude::*;
use std::collections::BTreeMap;
use uom::si::f64::Length;
use uom::si::length::inch;
use wythe_takeoff::nest::cover::{self, CoverRules, JointEdge, Run};
use wythe_takeoff::nest::pieces::{self, Piece, PieceRules};
use wythe_takeoff::nest::{CutPlan, LeastOffcut, NestError, OnHand, Sheet, UnplacedReason};

fn cover_rules(kerf: f64, least: f64, turn: bool, joints: JointEdge) -> CoverRules {
    CoverRules {
        kerf: inches(kerf),
        least_piece: inches(least),
        least_offcut: LeastOffcut { short: inches(6.0), long: inches(12.0) },
        turn,
        joints,
        joint_clearance: inches(2.0),
    }
}

fn run(name: usize, length: f64, height: f64, lines: &[f64]) -> Run {
    Run {
        name: format!("wall {name}"),
        length: inches(length),
        height: inches(height),
        no_joint_at: lines.iter().map(|&l| inches(l)).collect(),
    }
}

fn eighths(range: std::ops::Range<i32>) -> impl Strategy<Value = f64> {
    range.prop_map(|v| f64::from(v) / 8.0)
}

/// Every wall is covered from end to end by pieces of its height that meet at allowed places.
fn walls_are_covered(plan: &CutPlan, runs: &[Run], rules: &CoverRules) {
    let mut by_wall: BTreeMap<&str, Vec<(f64, f64, f64)>> = BTreeMap::new();
    for (_, p) in plan.pieces() {
        let at = p.at.get::<inch>();
        by_wall.entry(&p.mark).or_default().push((at, p.length().get::<inch>(), p.height().get::<inch>()));
    }
    for r in runs {
        if plan.unplaced.iter().any(|u| u.mark == r.name) {
            continue;
        }
        let mut parts = by_wall.remove(r.name.as_str()).unwrap_or_default();
        parts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut at = 0.0;
        for &(start, length, height) in &parts {
            assert!((start - at).abs() < 1e-3, "{}: gap or overlap at {at}", r.name);
            assert!((height - r.height.get::<inch>()).abs() < 1e-3);
            let whole = parts.len() == 1;
            assert!(whole || length >= rules.least_piece.get::<inch>() - 1e-3, "{}: piece of {length}", r.name);
            at += length;
            if at < r.length.get::<inch>() - 1e-3 {
                for line in &r.no_joint_at {
                    let off = (line.get::<inch>() - at).abs();
                    assert!(off >= rules.joint_clearance.get::<inch>() - 1e-3, "{}: joint at {at}", r.name);
                }
            }
        }
        assert!((at - r.length.get::<inch>()).abs() < 1e-3, "{}: covered to {at}", r.name);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn covers_are_sound(
        walls in prop::collection::vec((eighths(40..4_000), 0_usize..3, prop::collection::vec(eighths(0..4_000), 0..4)), 1..9),
        heights in prop::collection::vec(eighths(80..380), 3),
        kerf in prop::sample::select(vec![0.0, 0.125]),
        least in prop::sample::select(vec![0.0, 6.0, 12.0]),
        turn in any::<bool>(),
        factory in any::<bool>(),
    ) {
        let runs: Vec<Run> = walls.iter().enumerate().map(|(i, (l, h, lines))| run(i, *l, heights[*h], lines)).collect();
        let joints = if factory { JointEdge::Factory } else { JointEdge::Any };
        let rules = cover_rules(kerf, least, turn, joints);
        let plan = cover::plan(sheet(96.0, 48.0), &runs, &rules, &[]).expect("valid stock");
        drawing(&plan, rules.kerf);
        walls_are_covered(&plan, &runs, &rules);
        for u in &plan.unplaced {
            prop_assert_eq!(u.reason, UnplacedReason::NoPlaceForJoint);
        }
    }

    #[test]
    fn offcuts_on_hand_are_used_before_sheets(length in eighths(400..3_000), height in eighths(80..370), spare in eighths(100..700)) {
        let runs = [run(0, length, height, &[])];
        let rules = cover_rules(0.125, 6.0, true, JointEdge::Any);
        let none = cover::plan(sheet(96.0, 48.0), &runs, &rules, &[]).expect("valid stock");
        let offcut = OnHand { name: "left of unit 3".into(), size: sheet(spare, 40.0) };
        let some = cover::plan(sheet(96.0, 48.0), &runs, &rules, &[offcut]).expect("valid stock");
        drawing(&some, rules.kerf);
        walls_are_covered(&some, &runs, &rules);
        prop_assert!(some.bought <= none.bought);
    }

    #[test]
    fn fixed_pieces_are_sound(
        list in prop::collection::vec((eighths(8..800), eighths(8..800), 1_u32..9), 1..9),
        kerf in prop::sample::select(vec![0.0, 0.125]),
        turn in any::<bool>(),
    ) {
        let pieces_wanted: Vec<Piece> = list.iter().enumerate().map(|(i, &(l, w, count))| Piece {
            name: i.to_string(), length: inches(l), width: inches(w), count,
        }).collect();
        let rules = PieceRules { kerf: inches(kerf), least_offcut: LeastOffcut { short: inches(6.0), long: inches(12.0) }, turn };
        let plan = pieces::plan(sheet(96.0, 48.0), &pieces_wanted, &rules).expect("valid stock");
        drawing(&plan, rules.kerf);
        for p in &pieces_wanted {
            let cut = plan.pieces().filter(|(_, c)| c.mark == p.name).count();
            let missing = plan.unplaced.iter().filter(|u| u.mark == p.name).count();
            let expected = if missing == 0 { p.count as usize } else { 0 };
            prop_assert_eq!(cut, expected);
            for (_, c) in plan.pieces().filter(|(_, c)| c.mark == p.name) {
                prop_assert!((c.length().get::<inch>() - p.length.get::<inch>()).abs() < 1e-6);
                prop_assert!((c.height().get::<inch>() - p.width.get::<inch>()).abs() < 1e-6);
            }
        }
    }
}

#[test]
fn bad_stock_and_rules_are_errors() {
    let rules = cover_rules(0.125, 6.0, true, JointEdge::Any);
    for bad in [0.0, -96.0, f64::NAN, f64::INFINITY, 1e30] {
        let stock = Sheet { length: inches(bad), width: inches(48.0) };
        assert_eq!(cover::plan(stock, &[run(0, 100.0, 24.0, &[])], &rules, &[]), Err(NestError::SheetSize));
    }
    let odd = CoverRules { kerf: Length::new::<inch>(-1.0), ..rules };
    assert_eq!(cover::plan(sheet(96.0, 48.0), &[], &odd, &[]), Err(NestError::Rule));
}

#[test]
fn what_does_not_fit_is_named_and_the_rest_comes_out() {
    let rules = cover_rules(0.125, 6.0, false, JointEdge::Any);
    let runs =
        [run(0, 100.0, 60.0, &[]), run(1, 100.0, 24.0, &[]), run(2, -5.0, 24.0, &[]), run(3, 100.0, f64::NAN, &[])];
    let plan = cover::plan(sheet(96.0, 48.0), &runs, &rules, &[]).expect("valid stock");
    let reasons: Vec<_> = plan.unplaced.iter().map(|u| (u.mark.as_str(), u.reason)).collect();
    assert_eq!(
        reasons,
        [
            ("wall 0", UnplacedReason::LargerThanSheet),
            ("wall 2", UnplacedReason::NotPositive),
            ("wall 3", UnplacedReason::NotPositive),
        ]
    );
    walls_are_covered(&plan, &runs, &rules);
    // 100 in of 24 in rows: the kerf leaves room for one row only in 48 in, so two sheets.
    assert!(!plan.is_complete() && plan.bought == 2);
}

#[test]
fn a_wall_barred_all_along_is_named() {
    let rules = cover_rules(0.0, 6.0, false, JointEdge::Any);
    let lines: Vec<f64> = (0..200).map(f64::from).collect();
    let plan = cover::plan(sheet(96.0, 48.0), &[run(0, 200.0, 24.0, &lines)], &rules, &[]).expect("valid stock");
    assert_eq!(plan.unplaced[0].reason, UnplacedReason::NoPlaceForJoint);
    assert_eq!(plan.bought, 0);
}

#[test]
fn ten_thousand_pieces() {
    let wanted: Vec<Piece> = (0..500)
        .map(|i| Piece {
            name: i.to_string(),
            length: inches(5.0 + f64::from(i % 61)),
            width: inches(4.0 + f64::from(i % 37)),
            count: 20,
        })
        .collect();
    let rules = PieceRules {
        kerf: inches(0.125),
        least_offcut: LeastOffcut { short: inches(6.0), long: inches(12.0) },
        turn: true,
    };
    let plan = pieces::plan(sheet(96.0, 48.0), &wanted, &rules).expect("valid stock");
    assert_eq!(plan.pieces().count(), 10_000);
    assert!(plan.is_complete() && plan.bound <= plan.bought);
}

/// Too many heights to tabulate: rows, still sound and complete.
#[test]
fn two_thousand_heights() {
    let rules = cover_rules(0.125, 6.0, true, JointEdge::Any);
    let runs: Vec<Run> = (0..2_000).map(|i| run(i, 60.0 + (i % 97) as f64, 10.0 + i as f64 / 64.0, &[])).collect();
    let plan = cover::plan(sheet(96.0, 48.0), &runs, &rules, &[]).expect("valid stock");
    drawing(&plan, rules.kerf);
    walls_are_covered(&plan, &runs, &rules);
    assert!(plan.is_complete());
}

#[test]
fn a_wall_to_the_horizon_is_refused() {
    let rules = cover_rules(0.0, 0.0, false, JointEdge::Any);
    let runs = [run(0, 3_900_000.0, 0.01, &[]), run(1, 96.0, 24.0, &[])];
    let plan = cover::plan(sheet(1.0, 24.0), &runs, &rules, &[]).expect("valid stock");
    assert_eq!(plan.unplaced[0].reason, UnplacedReason::TooMany);
}

#[test]
fn odd_rules_give_no_panic() {
    for (kerf, least, turn) in [(100.0, 0.0, true), (0.0, 200.0, true), (47.9, 47.9, false), (0.0, 0.0, true)] {
        for joints in [JointEdge::Any, JointEdge::Factory] {
            let rules = cover_rules(kerf, least, turn, joints);
            let runs = [run(0, 500.0, 24.0, &[100.0]), run(1, 20.0, 48.0, &[])];
            let plan = cover::plan(sheet(96.0, 48.0), &runs, &rules, &[]).expect("valid stock");
            drawing(&plan, rules.kerf);
            walls_are_covered(&plan, &runs, &rules);
        }
    }
}
