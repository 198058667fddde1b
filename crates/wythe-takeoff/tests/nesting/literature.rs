//! Published cutting problems with their known optimum, through the public interface.

use super::check::{drawing, inches, sheet};
use wythe_takeoff::nest::LeastOffcut;
use wythe_takeoff::nest::pieces::{self, Piece, PieceRules};

fn rules(turn: bool) -> PieceRules {
    PieceRules { kerf: inches(0.0), least_offcut: LeastOffcut { short: inches(1.0), long: inches(1.0) }, turn }
}

fn wanted(list: &[(f64, f64, u32)]) -> Vec<Piece> {
    list.iter()
        .map(|&(length, width, count)| Piece {
            name: format!("{length} x {width}"),
            length: inches(length),
            width: inches(width),
            count,
        })
        .collect()
}

/// Chvátal, Linear Programming (1983), chapter 13: rolls 100 wide, optimum 453.
#[test]
fn chvatal_1983_is_453() {
    let list = wanted(&[(45.0, 1.0, 97), (36.0, 1.0, 610), (31.0, 1.0, 395), (14.0, 1.0, 211)]);
    let plan = pieces::plan(sheet(100.0, 1.0), &list, &rules(false)).expect("valid stock");
    drawing(&plan, inches(0.0));
    assert_eq!((plan.bought, plan.bound), (453, 453));
}

/// Two-dimensional, Christofides and Whitlock (1977) first sheet and pieces with every piece limit
/// times ten: bound and plan of our own relaxation, checked by an independent solver in
/// `tests/reference/takeoff`.
#[test]
fn christofides_whitlock_pieces_on_many_sheets() {
    let list = wanted(&[
        (8.0, 4.0, 20),
        (3.0, 7.0, 10),
        (8.0, 2.0, 30),
        (3.0, 4.0, 50),
        (3.0, 3.0, 20),
        (3.0, 2.0, 20),
        (2.0, 1.0, 10),
    ]);
    let plan = pieces::plan(sheet(15.0, 10.0), &list, &rules(false)).expect("valid stock");
    drawing(&plan, inches(0.0));
    assert!(plan.is_complete() && plan.is_proven_least(), "{} over {}", plan.bought, plan.bound);
}

/// Eight 3 by 2 and one 4 by 3... a sheet cut without any waste must be found: area is the bound.
#[test]
fn a_sheet_without_waste() {
    let list = wanted(&[(48.0, 24.0, 2), (48.0, 48.0, 1)]);
    let plan = pieces::plan(sheet(96.0, 48.0), &list, &rules(false)).expect("valid stock");
    drawing(&plan, inches(0.0));
    assert_eq!((plan.bought, plan.bound), (1, 1));
    assert!(plan.sheets[0].offcuts.is_empty());
}
