//! Cutting board: pieces and wall runs from whole sheets, with the proven least number of sheets
//! beside the plan found. `cover` plans walls of free joints; `pieces` cuts fixed rectangles.

mod assign;
pub(crate) mod bars;
pub mod cover;
mod factory;
mod guillotine;
mod knapsack;
mod layout;
mod list;
mod master;
pub mod pieces;
mod plan;
mod strips;

pub use cover::{CoverRules, JointEdge, Run};
pub use pieces::{Piece, PieceRules};
pub use plan::{
    CutPiece, CutPlan, LeastOffcut, NestError, Offcut, OnHand, Sheet, SheetLayout, SheetSource, Unplaced,
    UnplacedReason,
};
