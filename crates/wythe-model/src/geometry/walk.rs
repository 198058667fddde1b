//! The walk round the foundation: corners from bearings and lengths, and how far it fails to close.

use uom::si::f64::{Angle, Length};

use super::vector::{coord, heading, length, meters, norm, point};
use crate::Point;

/// A walk: where each leg starts, and where the last one ends.
#[derive(Clone, Debug, PartialEq)]
pub struct Walk {
    /// Where it starts.
    pub start: Point,
    /// The start of each leg, in order.
    pub corners: Vec<Point>,
    /// The end of the last leg; the start where there is none.
    pub end: Point,
}

impl Walk {
    /// How far the end lies from the start.
    pub fn closing_gap(&self) -> ClosingGap {
        ClosingGap { east: self.end.x - self.start.x, north: self.end.y - self.start.y }
    }
}

/// Walks the legs, each a bearing counterclockwise from east and a length.
pub fn walk(legs: &[(Angle, Length)], start: Point) -> Walk {
    let mut at = coord(start);
    let mut corners = Vec::with_capacity(legs.len());
    for &(bearing, along) in legs {
        corners.push(point(at));
        at = at + heading(bearing) * meters(along);
    }
    Walk { start: point(coord(start)), corners, end: point(at) }
}

/// How far the end of a walk lies from its start.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct ClosingGap {
    /// East of the start; west is negative.
    pub east: Length,
    /// North of the start; south is negative.
    pub north: Length,
}

impl ClosingGap {
    /// The distance.
    pub fn size(&self) -> Length {
        length(norm(coord(Point { x: self.east, y: self.north })))
    }

    /// The distance taken apart by the four winds, north or south first; parts shorter than `least` are left out.
    pub fn parts(&self, least: Length) -> Vec<(Length, Wind)> {
        let zero = Length::default();
        let part = |along: Length, plus, minus| (along.abs(), if along < zero { minus } else { plus });
        [part(self.north, Wind::North, Wind::South), part(self.east, Wind::East, Wind::West)]
            .into_iter()
            .filter(|(size, _)| *size >= least && *size > zero)
            .collect()
    }
}

/// One of the four winds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Wind {
    /// Up the plan.
    North,
    /// To the right.
    East,
    /// Down the plan.
    South,
    /// To the left.
    West,
}

impl Wind {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            Wind::North => "north",
            Wind::East => "east",
            Wind::South => "south",
            Wind::West => "west",
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use uom::si::angle::degree;
    use uom::si::f64::{Angle, Length};
    use uom::si::length::meter;

    use super::{Wind, walk};
    use crate::Point;
    use crate::fixture::{ft_in, unit_4};
    use crate::geometry::hair;

    fn legs_of(f: &crate::Foundation) -> Vec<(Angle, Length)> {
        f.walls.iter().map(|w| (w.bearing, w.length)).collect()
    }

    #[test]
    fn unit_4_closes() {
        let f = unit_4();
        let w = walk(&legs_of(&f), f.start);
        assert!(w.closing_gap().size() < hair());
        assert!(w.corners[3].distance_to(Point { x: ft_in(22.0, 0.0), y: ft_in(28.0, 6.0) }) < hair());
    }

    #[test]
    fn a_foot_short_ends_a_foot_north() {
        let mut f = unit_4();
        f.walls[5].length = ft_in(19.0, 0.0);
        let parts = walk(&legs_of(&f), f.start).closing_gap().parts(hair());
        assert_eq!(parts.len(), 1);
        assert_eq!(parts[0].1, Wind::North);
        assert!((parts[0].0 - ft_in(1.0, 0.0)).abs() < hair());
    }

    #[test]
    fn nothing_and_nonsense_are_walked_without_harm() {
        assert_eq!(walk(&[], Point::default()).closing_gap().size(), Length::default());
        let odd = [(Angle::new::<degree>(f64::NAN), Length::new::<meter>(f64::INFINITY))];
        assert!(walk(&odd, Point::default()).end.x.is_finite());
    }

    proptest! {
        /// Walking there and back the same legs always closes.
        #[test]
        fn there_and_back_closes(legs in prop::collection::vec((0.0..360.0f64, 0.0..50.0f64), 0..12)) {
            let out = legs.iter().map(|&(b, l)| (Angle::new::<degree>(b), Length::new::<meter>(l)));
            let back = legs.iter().map(|&(b, l)| (Angle::new::<degree>(b + 180.0), Length::new::<meter>(l)));
            let all: Vec<_> = out.chain(back).collect();
            prop_assert!(walk(&all, Point::default()).closing_gap().size() < hair());
        }
    }
}
