//! Between typed lengths and the plain coordinates that general geometry works on, in meters.

use geo::Coord;
use uom::si::f64::{Angle, Area, Length};
use uom::si::{angle::radian, area::square_meter, length::meter};

use crate::Point;

/// Nothing on earth is longer; larger figures are drawn back so that areas stay finite.
const LONGEST: f64 = 1.0e9;

/// A length in meters, always finite.
pub(crate) fn meters(length: Length) -> f64 {
    let value = length.get::<meter>();
    if value.is_nan() { 0.0 } else { value.clamp(-LONGEST, LONGEST) }
}

/// A length from meters.
pub(crate) fn length(value: f64) -> Length {
    Length::new::<meter>(value)
}

/// An area from square meters.
pub(crate) fn area(value: f64) -> Area {
    Area::new::<square_meter>(value)
}

/// A point as plain coordinates.
pub(crate) fn coord(point: Point) -> Coord {
    Coord { x: meters(point.x), y: meters(point.y) }
}

/// Plain coordinates as a point.
pub(crate) fn point(coord: Coord) -> Point {
    Point { x: length(coord.x), y: length(coord.y) }
}

/// The unit vector of a bearing. The eight winds come out without the dust of rounding.
pub(crate) fn heading(bearing: Angle) -> Coord {
    let angle = bearing.get::<radian>();
    if !angle.is_finite() {
        return Coord { x: 1.0, y: 0.0 };
    }
    let snap = |v: f64| {
        let near = v.round();
        if (v - near).abs() < 1e-12 { near } else { v }
    };
    let (sin, cos) = angle.sin_cos();
    Coord { x: snap(cos), y: snap(sin) }
}

pub(crate) fn dot(a: Coord, b: Coord) -> f64 {
    a.x * b.x + a.y * b.y
}

pub(crate) fn cross(a: Coord, b: Coord) -> f64 {
    a.x * b.y - a.y * b.x
}

pub(crate) fn norm(a: Coord) -> f64 {
    a.x.hypot(a.y)
}

impl Point {
    /// The distance to another point.
    pub fn distance_to(self, other: Point) -> Length {
        length(norm(coord(other) - coord(self)))
    }

    /// The point a length away on a bearing, counterclockwise from east.
    #[must_use]
    pub fn go(self, bearing: Angle, along: Length) -> Point {
        point(coord(self) + heading(bearing) * meters(along))
    }
}
