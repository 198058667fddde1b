//! Geometry worked out from the parts: the walk and its closing, outlines on each face of the walls, corners,
//! strips of wall and their areas, risers of the crawl floor, piers and beams in plan.
//!
//! Everything is total: a wall of no length, an open walk or a figure past all measure gives an answer without
//! NaN; whether the answer is of use is for the checks to say. Start at [`Plan`], then [`Strip`].

mod beam;
mod corner;
mod crossing;
mod opening;
mod outline;
mod pier;
mod plan;
mod riser;
mod strip;
mod vector;
mod walk;

#[cfg(test)]
mod tests;

pub use beam::{BeamEnd, Pocket, beam_over, dropped_top, piers_under, pockets};
pub use corner::{Corner, Turn};
pub use crossing::{Crossing, crossings};
pub use opening::{OpeningRect, opening_rect, opening_rects, reveal_area};
pub use outline::{Line, Outline};
pub use pier::Footprint;
pub use plan::{Basis, Orientation, Plan, WallLine, WallPlan, wall_thickness};
pub use riser::{Riser, risers};
pub use strip::{Rect, Strip, levels_at, net_rects, strips, total_area};
pub use walk::{ClosingGap, Walk, Wind, walk};

use uom::si::f64::Length;
use uom::si::length::millimeter;

/// What counts as no distance at all: a thousandth of a millimeter, far under what a tape reads and far over
/// what rounding leaves behind.
pub fn hair() -> Length {
    Length::new::<millimeter>(0.001)
}
