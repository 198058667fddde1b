//! Openings as rectangles on the face of their wall, and the area of their reveals.

use uom::si::f64::{Area, Length};

use super::plan::wall_thickness;
use super::strip::{Rect, levels_at};
use crate::{Foundation, Opening};

/// An opening on its wall's face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpeningRect {
    /// Its number in the foundation.
    pub opening: usize,
    /// The rectangle, along the wall and above the datum.
    pub rect: Rect,
    /// Whether its height on the wall is assumed, because no sill is given.
    pub sill_assumed: bool,
}

/// An opening's rectangle. Without a sill its upper edge is taken to lie at the top of the masonry, where vents
/// are set (common practice, no source). Nothing where its wall is not known or has no levels.
pub fn opening_rect(f: &Foundation, number: usize) -> Option<OpeningRect> {
    let opening = f.openings.get(number)?;
    let wall = f.walls.get(opening.wall?)?;
    let levels = levels_at(wall, opening.at + opening.width / 2.0)?;
    let low = opening.sill.unwrap_or(levels.top - opening.height);
    let rect = Rect { from: opening.at, to: opening.at + opening.width, low, high: low + opening.height };
    Some(OpeningRect { opening: number, rect, sill_assumed: opening.sill.is_none() })
}

/// The openings of a wall, in the order declared.
pub fn opening_rects(f: &Foundation, wall: usize) -> Vec<OpeningRect> {
    let in_wall = f.openings.iter().enumerate().filter(|(_, o)| o.wall == Some(wall));
    in_wall.filter_map(|(i, _)| opening_rect(f, i)).collect()
}

/// The area of an opening's four reveals, through the structure's whole thickness.
pub fn reveal_area(f: &Foundation, opening: &Opening) -> Option<Area> {
    let wall = f.walls.get(opening.wall?)?;
    let round: Length = (opening.width + opening.height) * 2.0;
    Some(round * wall_thickness(f, wall)?)
}
