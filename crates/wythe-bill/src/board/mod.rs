//! Board on the walls of real houses: runs with their true lengths and heights, the cut list, and what follows from
//! the pieces really cut: joints to tape, anchors to drive.

mod anchors;
mod joints;
mod patterns;
mod plan;
mod runs;

pub use anchors::anchors_in_piece;
pub use joints::{JointLength, joint_lengths};
pub use patterns::{CutPattern, cut_patterns};
pub use plan::{BoardPlan, plans};
pub use runs::{BoardRun, Notch, runs};
