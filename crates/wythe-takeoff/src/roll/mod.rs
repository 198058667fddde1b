//! Laying sheet goods from rolls over a floor of any outline: which way the strips run and where the
//! first one starts, so that least material and then the shortest seam is used.

mod layout;
mod outline;
mod unroll;

pub use layout::{RollError, RollLayout, RollNote, RollRules, Seam, SeamKind, StripOfRoll, plan};
pub use outline::{Floor, FloorError, Point};
pub use unroll::{PieceOfRoll, Roll};
