//! Corners of the walk: which way each turns, and which wall runs through it.

use crate::Point;

/// How a corner turns, seen from the crawl space.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Turn {
    /// An outer corner: it sticks out.
    Convex,
    /// An inner corner: it points into the crawl space.
    Reentrant,
    /// The walls run on in one line.
    Straight,
    /// The second wall runs back on the first.
    Back,
}

/// A corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Corner {
    /// Where it is, on the face of measurement.
    pub at: Point,
    /// The wall that ends here.
    pub before: usize,
    /// The wall that starts here.
    pub after: usize,
    /// How it turns.
    pub turn: Turn,
}

impl Corner {
    /// The wall whose boards run through at the corner; the other's butt against them. The wall that comes
    /// first in the walk runs through (house rule; no source). It also counts the corner's vertical joint.
    pub fn owner(&self) -> usize {
        self.before
    }
}

/// `inner_side` is how far the second wall runs to the inside of the first, `forward` how far it runs on.
pub(crate) fn corner(before: usize, after: usize, at: Point, inner_side: f64, forward: f64) -> Corner {
    let turn = match (inner_side.abs() < 1e-9, inner_side > 0.0, forward > 0.0) {
        (true, _, true) => Turn::Straight,
        (true, _, false) => Turn::Back,
        (false, true, _) => Turn::Convex,
        (false, false, _) => Turn::Reentrant,
    };
    Corner { at, before, after, turn }
}
