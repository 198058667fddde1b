//! Footprints of piers and pads, and how they lie to walls and to one another.

use geo::line_intersection::line_intersection;
use uom::si::f64::{Area, Length};

use super::crossing::apart;
use super::outline::{Line, Outline};
use super::vector::{coord, cross, dot, length, meters, norm};
use crate::{Pad, Pier, Point};

/// An upright rectangle in plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Footprint {
    /// Its middle.
    pub at: Point,
    /// Its size east and west.
    pub width: Length,
    /// Its size north and south.
    pub depth: Length,
}

impl From<&Pier> for Footprint {
    fn from(p: &Pier) -> Self {
        Footprint { at: p.at, width: p.width, depth: p.depth }
    }
}

impl From<&Pad> for Footprint {
    fn from(p: &Pad) -> Self {
        Footprint { at: p.at, width: p.width, depth: p.depth }
    }
}

impl Footprint {
    /// Its area.
    pub fn area(&self) -> Area {
        self.width * self.depth
    }

    /// The length of its edges.
    pub fn perimeter(&self) -> Length {
        (self.width + self.depth) * 2.0
    }

    /// Its outline, counterclockwise from the southwest.
    pub fn outline(&self) -> Outline {
        let (w, d) = (self.width / 2.0, self.depth / 2.0);
        let at = |x: Length, y: Length| Point { x: self.at.x + x, y: self.at.y + y };
        Outline { points: vec![at(-w, -d), at(w, -d), at(w, d), at(-w, d)] }
    }

    /// Whether it shares ground with another; touching edges do not count.
    pub fn overlaps(&self, other: &Footprint) -> bool {
        let near = |a: Length, b: Length, reach: Length| (a - b).abs() + super::hair() < reach / 2.0;
        near(self.at.x, other.at.x, self.width + other.width) && near(self.at.y, other.at.y, self.depth + other.depth)
    }

    /// Whether it lies wholly inside an outline or touches it from inside.
    pub fn within(&self, outline: &Outline) -> bool {
        outline.contains(self.at) && self.cut(outline).is_none()
    }

    /// The edge of an outline that passes through it, by number.
    pub fn cut(&self, outline: &Outline) -> Option<usize> {
        let shrink = super::hair() * 2.0;
        let core = Footprint { at: self.at, width: self.width - shrink, depth: self.depth - shrink };
        let core = core.outline();
        outline.edges().position(|(a, b)| {
            let edge = geo::Line::new(a, b);
            let meets = |(c, d)| {
                let side = geo::Line::new(c, d);
                !apart(&edge, &side) && line_intersection(edge, side).is_some()
            };
            core.edges().any(meets) || core.contains(super::vector::point(a))
        })
    }

    /// The clear distance to the nearest edge of an outline; nought where an edge passes through.
    pub fn clearance(&self, outline: &Outline) -> Option<Length> {
        if self.cut(outline).is_some() {
            return Some(Length::default());
        }
        let corners = self.outline();
        let to_edges = corners.points.iter().filter_map(|&p| outline.distance_to_edge(p));
        let to_corners = outline.points.iter().filter_map(|&p| corners.distance_to_edge(p));
        to_edges.chain(to_corners).reduce(Length::min)
    }

    /// Whether a line passes over it: its middle lies within half its own size across the line, and no farther
    /// past the line's ends than half its size along it.
    pub fn lies_under(&self, line: &Line) -> bool {
        let (from, to) = (coord(line.from), coord(line.to));
        let run = norm(to - from);
        if run < 1e-9 {
            return false;
        }
        let along = (to - from) / run;
        let middle = coord(self.at) - from;
        let (w, d) = (meters(self.width) / 2.0, meters(self.depth) / 2.0);
        let half_across = w * along.y.abs() + d * along.x.abs();
        let half_along = w * along.x.abs() + d * along.y.abs();
        let (place, off) = (length(dot(middle, along)), length(cross(along, middle).abs()));
        let hair = super::hair();
        off <= length(half_across) + hair
            && place >= length(-half_along) - hair
            && place <= length(run + half_along) + hair
    }
}
