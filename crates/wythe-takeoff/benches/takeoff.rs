//! A house's nesting and roll layout (target under 100 ms) and a 60-house subdivision ordered
//! together (target under 5 s with a gap of at most 1 %, checked here).

use uom::si::f64::Length;
use uom::si::length::{foot, inch};
use uom::si::ratio::percent;
use wythe_takeoff::nest::cover::{self, CoverRules, JointEdge, Run};
use wythe_takeoff::nest::{CutPlan, LeastOffcut, Sheet};
use wythe_takeoff::roll::{self, Floor, Point, Roll, RollLayout, RollRules};

fn main() {
    divan::main();
}

fn feet(v: f64) -> Length {
    Length::new::<foot>(v)
}

fn inches(v: f64) -> Length {
    Length::new::<inch>(v)
}

/// An L-shaped house with a stepped floor, lengths and heights varied by its number.
fn walls(house: usize) -> Vec<Run> {
    let more = (house % 7) as f64;
    let drop = (house % 5) as f64 * 2.0;
    [
        ("south", 42.0 + more, 28.0 + drop),
        ("east", 16.0, 28.0 + drop),
        ("east low", 12.5, 44.0),
        ("north", 20.0, 44.0),
        ("inner", 8.5, 28.0 + drop),
        ("porch", 22.0 + more, 28.0 + drop),
        ("west", 20.0, 20.0 + drop),
    ]
    .map(|(name, length, height)| Run {
        name: format!("unit {house} {name}"),
        length: feet(length),
        height: inches(height),
        no_joint_at: vec![feet(4.0), feet(11.0)],
    })
    .to_vec()
}

fn board(runs: &[Run]) -> CutPlan {
    let rules = CoverRules {
        kerf: inches(0.125),
        least_piece: inches(8.0),
        least_offcut: LeastOffcut { short: inches(6.0), long: inches(12.0) },
        turn: true,
        joints: JointEdge::Any,
        joint_clearance: inches(2.0),
    };
    let sheet = Sheet { length: feet(8.0), width: feet(4.0) };
    cover::plan(sheet, runs, &rules, &[]).expect("valid stock")
}

fn liner() -> RollLayout {
    let corner = |x: f64, y: f64| Point { x: feet(x), y: feet(y) };
    let outline = [(0.0, 0.0), (42.0, 0.0), (42.0, 28.5), (22.0, 28.5), (22.0, 20.0), (0.0, 20.0)];
    let pier = |x: f64, y: f64| {
        [(0.0, 0.0), (1.33, 0.0), (1.33, 1.33), (0.0, 1.33)].map(|(dx, dy)| corner(x + dx, y + dy)).to_vec()
    };
    let piers: Vec<Vec<Point>> =
        (0..6).map(|i| pier(10.5 * f64::from(i % 3 + 1) - 0.67, 6.67 * f64::from(i / 3 + 1) - 0.67)).collect();
    let floor = Floor::new(&outline.map(|(x, y)| corner(x, y)), &piers).expect("a valid floor");
    let rules = RollRules { lap: inches(12.0), turn_up: inches(6.0), piece_to_save: true, direction: None };
    roll::plan(&floor, Roll { width: feet(12.0), length: feet(100.0) }, &rules).expect("a layout")
}

#[divan::bench]
fn house_nesting() -> CutPlan {
    board(&walls(4))
}

#[divan::bench]
fn house_rolls() -> RollLayout {
    liner()
}

#[divan::bench]
fn house_nesting_and_rolls() -> (CutPlan, RollLayout) {
    (board(&walls(4)), liner())
}

#[divan::bench(sample_count = 5, sample_size = 1)]
fn sixty_houses_ordered_together() -> CutPlan {
    let runs: Vec<Run> = (0..60).flat_map(walls).collect();
    let plan = board(&runs);
    let gap = plan.gap().get::<percent>();
    assert!(plan.is_complete() && gap <= 1.0, "gap {gap} %, {} over {}", plan.bought, plan.bound);
    plan
}
