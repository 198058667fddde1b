//! An outline in plan: area, perimeter, what lies inside it, and how long a line runs inside it.

use geo::{Area as _, Contains as _, Coord, Distance as _, Euclidean, LineString, Polygon};
use uom::si::f64::{Area, Length};

use super::vector::{area, coord, length, meters, norm};
use crate::Point;

/// A closed outline; the last point joins the first.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Outline {
    /// The points in order.
    pub points: Vec<Point>,
}

/// A straight line in plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Its start.
    pub from: Point,
    /// Its end.
    pub to: Point,
}

impl Line {
    /// Its length.
    pub fn length(&self) -> Length {
        self.from.distance_to(self.to)
    }
}

impl Outline {
    /// The area inside, whichever way round the points go.
    pub fn area(&self) -> Area {
        area(self.signed_square_meters().abs())
    }

    /// The length of its edges.
    pub fn perimeter(&self) -> Length {
        length(self.edges().map(|(a, b)| norm(b - a)).sum())
    }

    /// Whether a point lies inside; on an edge is outside.
    pub fn contains(&self, point: Point) -> bool {
        self.polygon().contains(&coord(point))
    }

    /// The distance from a point to the nearest edge; nothing for an outline without points.
    pub fn distance_to_edge(&self, point: Point) -> Option<Length> {
        let at = geo::Point::from(coord(point));
        let nearest = self.edges().map(|(a, b)| Euclidean.distance(&at, &geo::Line::new(a, b))).reduce(f64::min)?;
        Some(length(nearest))
    }

    /// The southwest and the northeast corner of the smallest upright rectangle round it.
    pub fn bounds(&self) -> Option<(Point, Point)> {
        let fold =
            |pick: fn(Length, Length) -> Length, of: fn(&Point) -> Length| self.points.iter().map(of).reduce(pick);
        let low = Point { x: fold(Length::min, |p| p.x)?, y: fold(Length::min, |p| p.y)? };
        let high = Point { x: fold(Length::max, |p| p.x)?, y: fold(Length::max, |p| p.y)? };
        Some((low, high))
    }

    /// The pieces of the line running east at this distance north that lie inside, west to east.
    pub fn chords_at_north(&self, north: Length) -> Vec<Line> {
        let y = meters(north);
        let mut crossings: Vec<f64> = self
            .edges()
            // Half-open, so that a corner on the line counts once.
            .filter(|(a, b)| (a.y <= y) != (b.y <= y))
            .map(|(a, b)| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
            .collect();
        crossings.sort_by(f64::total_cmp);
        let at = |x: f64| Point { x: length(x), y: north };
        crossings.chunks_exact(2).map(|pair| Line { from: at(pair[0]), to: at(pair[1]) }).collect()
    }

    /// The same outline with east and north changed for one another.
    #[must_use]
    pub fn turned(&self) -> Outline {
        Outline { points: self.points.iter().map(|p| Point { x: p.y, y: p.x }).collect() }
    }

    pub(crate) fn signed_square_meters(&self) -> f64 {
        self.polygon().signed_area()
    }

    pub(crate) fn edges(&self) -> impl Iterator<Item = (Coord, Coord)> + '_ {
        let next = self.points.iter().cycle().skip(1);
        self.points.iter().zip(next).map(|(&a, &b)| (coord(a), coord(b)))
    }

    fn polygon(&self) -> Polygon {
        let line: LineString = self.points.iter().map(|&p| coord(p)).collect();
        Polygon::new(line, Vec::new())
    }
}

#[cfg(test)]
mod tests {
    use uom::si::area::square_foot;
    use uom::si::length::foot;

    use super::Outline;
    use crate::fixture::{at_ft, ft_in};

    fn ell() -> Outline {
        let points = [(0.0, 0.0), (42.0, 0.0), (42.0, 28.5), (22.0, 28.5), (22.0, 20.0), (0.0, 20.0)];
        Outline { points: points.into_iter().map(|(x, y)| at_ft(x, y)).collect() }
    }

    #[test]
    fn area_perimeter_inside_and_chords_of_an_l() {
        let l = ell();
        assert!((l.area().get::<square_foot>() - 1010.0).abs() < 1e-9);
        assert!((l.perimeter().get::<foot>() - 141.0).abs() < 1e-9);
        assert!(l.contains(at_ft(30.0, 25.0)) && !l.contains(at_ft(10.0, 25.0)));
        assert!((l.distance_to_edge(at_ft(30.0, 25.0)).unwrap().get::<foot>() - 3.5).abs() < 1e-9);
        let chord =
            |north: f64| l.chords_at_north(ft_in(north, 0.0)).iter().map(|c| c.length().get::<foot>()).sum::<f64>();
        assert!((chord(10.0) - 42.0).abs() < 1e-9);
        assert!((chord(24.0) - 20.0).abs() < 1e-9);
        assert!(l.chords_at_north(ft_in(30.0, 0.0)).is_empty());
        assert!((l.turned().area().get::<square_foot>() - 1010.0).abs() < 1e-9);
    }

    #[test]
    fn an_outline_without_points_is_nothing() {
        let none = Outline::default();
        assert!(
            none.area().value.abs() < 1e-12
                && none.bounds().is_none()
                && none.distance_to_edge(at_ft(0.0, 0.0)).is_none()
        );
    }
}
