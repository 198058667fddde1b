//! Cases a crew meets, with the answer worked out by hand.

use super::check::{drawing, inches, sheet};
use wythe_takeoff::nest::LeastOffcut;
use wythe_takeoff::nest::cover::{self, CoverRules, JointEdge, Run};

fn rules(turn: bool) -> CoverRules {
    CoverRules {
        kerf: inches(0.0),
        least_piece: inches(6.0),
        least_offcut: LeastOffcut { short: inches(6.0), long: inches(12.0) },
        turn,
        joints: JointEdge::Any,
        joint_clearance: inches(2.0),
    }
}

fn run(name: &str, feet: f64, height: f64) -> Run {
    Run { name: name.into(), length: inches(feet * 12.0), height: inches(height), no_joint_at: vec![] }
}

/// 24 in high: two rows a sheet, 16 ft a sheet, 42 ft is 2.625 sheets.
#[test]
fn two_rows_a_sheet() {
    let plan = cover::plan(sheet(96.0, 48.0), &[run("south", 42.0, 24.0)], &rules(false), &[]).expect("valid");
    drawing(&plan, inches(0.0));
    assert_eq!((plan.bought, plan.bound), (3, 3));
}

/// 28 in high: one row of 8 ft a sheet along it; with strips cut across, one row of 8 ft and
/// three of the 20 in left over give 13 ft (12 ft without mixing). 130 ft: 17 sheets or 10.
#[test]
fn strips_across_save_sheets() {
    let walls = [run("south", 65.0, 28.0), run("north", 65.0, 28.0)];
    let along = cover::plan(sheet(96.0, 48.0), &walls, &rules(false), &[]).expect("valid");
    assert_eq!((along.bought, along.bound), (17, 17));
    let turned = cover::plan(sheet(96.0, 48.0), &walls, &rules(true), &[]).expect("valid");
    drawing(&turned, inches(0.0));
    assert_eq!(turned.bound, 10);
    assert!(turned.bought <= 11, "{}", turned.bought);
}

/// 140 ft of 36 in wall: 13.125 sheets by area, 14 at least; along the sheet one row each is 17.5,
/// so 18. Across: two of 36 in in 96 in is 8 ft, no better alone; a row of 36 in along leaves
/// 12 in by 96 in, which turned gives two pieces of 12 in: 10 ft a sheet, 14 sheets.
#[test]
fn the_area_figure_is_not_the_order() {
    let walls = [run("a", 70.0, 36.0), run("b", 70.0, 36.0)];
    let along = cover::plan(sheet(96.0, 48.0), &walls, &rules(false), &[]).expect("valid");
    assert_eq!((along.bought, along.bound), (18, 18));
    let turned = cover::plan(sheet(96.0, 48.0), &walls, &rules(true), &[]).expect("valid");
    drawing(&turned, inches(0.0));
    assert_eq!(turned.bound, 14);
    assert!(turned.bought <= 15, "{}", turned.bought);
}

/// Stepped heights share sheets: 20 in and 28 in rows together fill the 48 in.
#[test]
fn stepped_heights_share_a_sheet() {
    let walls = [run("low", 40.0, 20.0), run("high", 40.0, 28.0)];
    let plan = cover::plan(sheet(96.0, 48.0), &walls, &rules(false), &[]).expect("valid");
    drawing(&plan, inches(0.0));
    assert_eq!((plan.bought, plan.bound), (5, 5));
}

/// Factory edges at joints, 30 ft wall of 48 in board: three whole sheets and one cut piece of 6 ft.
#[test]
fn factory_edges_meet_at_joints() {
    let plan = cover::plan(
        sheet(96.0, 48.0),
        &[run("south", 30.0, 48.0)],
        &CoverRules { joints: JointEdge::Factory, ..rules(true) },
        &[],
    )
    .expect("valid");
    drawing(&plan, inches(0.0));
    assert_eq!((plan.bought, plan.bound), (4, 4));
    let cut: Vec<_> = plan.pieces().filter(|(_, p)| p.along < inches(95.9)).collect();
    assert_eq!(cut.len(), 1);
    assert!((cut[0].1.along - inches(72.0)).abs() < inches(0.001));
}

/// The same order gives the same cut list, piece by piece.
#[test]
fn the_same_order_is_cut_the_same_way() {
    let walls: Vec<Run> = (0..12)
        .map(|i| run(&format!("wall {i}"), 9.0 + f64::from(i * 5 % 17), 20.0 + f64::from(i % 4) * 3.5))
        .collect();
    let plan = || cover::plan(sheet(96.0, 48.0), &walls, &rules(true), &[]).expect("valid");
    assert_eq!(plan(), plan());
}

/// 28 in high from 4 x 8 sheets, no piece under 24 in: strips run across the sheet, three of 48 in each, and a strip is
/// one piece or two of exactly 24 in, since what is left beside a longer piece is too short to use. A strip along the
/// sheet costs as much as three across and bears no more pieces. So a wall takes a half strip for every 24 in begun, and
/// six half strips are a sheet: a bound that the area (and the lengths alone) fall short of.
fn least_by_halves(walls: &[f64]) -> usize {
    let halves: usize = walls.iter().map(|l| (l / 24.0 - 1e-9).ceil() as usize).sum();
    halves.div_ceil(6)
}

fn no_short_pieces() -> CoverRules {
    CoverRules { least_piece: inches(24.0), ..rules(true) }
}

#[test]
fn twelve_walls_of_seventeen_feet_take_nine_half_strips_each() {
    let walls: Vec<Run> = (0..12).map(|i| run(&format!("w{i}"), 17.0, 28.0)).collect();
    let plan = cover::plan(sheet(96.0, 48.0), &walls, &no_short_pieces(), &[]).expect("valid");
    drawing(&plan, inches(0.0));
    assert_eq!(least_by_halves(&[204.0; 12]), 18);
    assert_eq!((plan.bought, plan.bound), (18, 18));
}

/// Higher than the sheet is wide, with a vent that bars joints over 20 in of it: pieces of 48 in at most, 24 in at
/// least, and the wall is covered all the same.
#[test]
fn a_high_wall_with_a_vent_is_covered() {
    for vent in [90.0, 100.0, 110.0, 120.0] {
        let barred: Vec<_> = (0..=4).map(|i| inches(vent + f64::from(i) * 4.0)).collect();
        let high = |name: &str, length: f64, barred: Vec<_>| Run {
            name: name.into(),
            length: inches(length),
            height: inches(50.0),
            no_joint_at: barred,
        };
        let walls = [
            high("south", 147.0, barred),
            high("east", 82.0, vec![]),
            high("north", 145.0, vec![]),
            high("west", 82.0, vec![]),
        ];
        let plan = cover::plan(sheet(96.0, 48.0), &walls, &no_short_pieces(), &[]).expect("valid");
        drawing(&plan, inches(0.0));
        assert!(plan.is_complete(), "{vent}: {:?}", plan.unplaced);
        // One strip across to a sheet: 4 + 2 + 4 + 2 pieces of no more than 48 in, none two to a strip but halves.
        assert!(plan.bought <= 12 && plan.bought <= plan.bound + 1, "{} {}", plan.bought, plan.bound);
    }
}

#[test]
fn the_shortest_piece_is_part_of_the_bound() {
    let mut seed = 7_u64;
    let mut next = |sides: u64| {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (seed >> 33) % sides
    };
    for _ in 0..4 {
        let lengths: Vec<f64> = (0..6 + next(5)).map(|_| 60.0 + next(200) as f64 + next(8) as f64 / 8.0).collect();
        let walls: Vec<Run> = lengths.iter().enumerate().map(|(i, l)| run(&format!("w{i}"), l / 12.0, 28.0)).collect();
        let plan = cover::plan(sheet(96.0, 48.0), &walls, &no_short_pieces(), &[]).expect("valid");
        drawing(&plan, inches(0.0));
        let least = least_by_halves(&lengths);
        assert!(plan.bound <= least && least <= plan.bought, "{} {least} {}: {lengths:?}", plan.bound, plan.bought);
        assert!(plan.bought <= plan.bound + 1, "{} {least} {}: {lengths:?}", plan.bound, plan.bought);
        assert!(plan.is_complete());
        for (_, piece) in plan.pieces() {
            assert!(piece.length() >= inches(24.0 - 1e-3), "{piece:?}");
        }
    }
}

/// Strips hung from a roll of 4 ft by 100 ft: 40 in high ones stand alone across it, 20 in ones in pairs. 5 of 40 ft,
/// 4 of 50 ft and 10 pier wraps of 6 ft: 200 + 200 + 10 x 6 / 2 = 430 ft, so five rolls.
#[test]
fn strips_from_a_roll_stand_in_stacks() {
    let strip = |name: &str, feet: f64, width: f64, count: u32| wythe_takeoff::nest::Piece {
        name: name.into(),
        length: inches(feet * 12.0),
        width: inches(width),
        count,
    };
    let list = [strip("long", 50.0, 40.0, 4), strip("short", 40.0, 39.0, 5), strip("pier", 6.0, 20.0, 10)];
    let least = LeastOffcut { short: inches(6.0), long: inches(12.0) };
    let rules = wythe_takeoff::nest::PieceRules { kerf: inches(0.0), least_offcut: least, turn: false };
    let plan = wythe_takeoff::nest::pieces::plan(sheet(1200.0, 48.0), &list, &rules).expect("valid");
    drawing(&plan, inches(0.0));
    assert_eq!((plan.bought, plan.bound), (5, 5));
}
