//! Where a walk crosses itself.

use geo::line_intersection::{LineIntersection, line_intersection};
use uom::si::f64::Length;

use super::vector::{coord, meters, norm, point};
use super::walk::Walk;
use crate::Point;

/// Two walls that meet where they should not.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// The wall that comes first in the walk.
    pub first: usize,
    /// The other.
    pub second: usize,
    /// Where they meet; where they lie on one another, the start of that.
    pub at: Point,
}

/// The places where a walk crosses or touches itself, beside the corners of neighbors. The last wall may meet the
/// first within `tolerance` of the start, since a walk need not close to a hair.
pub fn crossings(walk: &Walk, tolerance: Length) -> Vec<Crossing> {
    let starts = walk.corners.iter();
    let ends = walk.corners.iter().skip(1).chain([&walk.end]);
    let lines = starts.zip(ends).map(|(&a, &b)| geo::Line::new(coord(a), coord(b))).enumerate();
    // A wall without length meets nothing; its neighbors are neighbors of one another.
    let lines: Vec<(usize, geo::Line)> = lines.filter(|(_, l)| norm(l.delta()) > 1e-6).collect();
    let (start, reach) = (coord(walk.start), meters(tolerance.max(super::hair())));
    let at_start = |i: usize, j: usize, at: geo::Coord| i == 0 && j + 1 == lines.len() && norm(at - start) <= reach;
    let mut out = Vec::new();
    for (i, (first, a)) in lines.iter().enumerate() {
        for (j, (second, b)) in lines.iter().enumerate().skip(i + 1) {
            if apart(a, b) {
                continue;
            }
            let at = match line_intersection(*a, *b) {
                Some(LineIntersection::SinglePoint { intersection, .. })
                    if j > i + 1 && !at_start(i, j, intersection) =>
                {
                    intersection
                }
                // Neighbors share a corner; only lying on one another is a fault.
                Some(LineIntersection::Collinear { intersection }) if norm(intersection.delta()) > 1e-6 => {
                    intersection.start
                }
                _ => continue,
            };
            out.push(Crossing { first: *first, second: *second, at: point(at) });
        }
    }
    out
}

/// Whether the upright rectangles round two lines lie apart, which is quickly told.
pub(crate) fn apart(a: &geo::Line, b: &geo::Line) -> bool {
    let lies_past = |p: f64, q: f64, r: f64, s: f64| p.min(q) > r.max(s);
    lies_past(a.start.x, a.end.x, b.start.x, b.end.x)
        || lies_past(b.start.x, b.end.x, a.start.x, a.end.x)
        || lies_past(a.start.y, a.end.y, b.start.y, b.end.y)
        || lies_past(b.start.y, b.end.y, a.start.y, a.end.y)
}

#[cfg(test)]
mod tests {
    use uom::si::angle::degree;
    use uom::si::f64::{Angle, Length};

    use super::crossings;
    use crate::Point;
    use crate::fixture::ft_in;
    use crate::geometry::walk;

    fn crossed(legs: &[(f64, f64)]) -> Vec<(usize, usize)> {
        let legs: Vec<_> = legs.iter().map(|&(b, l)| (Angle::new::<degree>(b), ft_in(l, 0.0))).collect();
        crossings(&walk(&legs, Point::default()), Length::default()).iter().map(|c| (c.first, c.second)).collect()
    }

    #[test]
    fn a_square_does_not_cross_and_a_bow_tie_does() {
        assert_eq!(crossed(&[(0.0, 10.0), (90.0, 10.0), (180.0, 10.0), (270.0, 10.0)]), []);
        assert_eq!(
            crossed(&[(0.0, 10.0), (90.0, 10.0), (180.0, 5.0), (270.0, 15.0), (180.0, 5.0), (90.0, 5.0)]),
            [(0, 3)]
        );
    }

    #[test]
    fn a_wall_that_runs_back_on_its_neighbor_is_found() {
        assert_eq!(crossed(&[(0.0, 10.0), (180.0, 4.0), (90.0, 4.0)]), [(0, 1), (0, 2)]);
    }
}
