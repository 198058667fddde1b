//! The floor: a simple polygon with holes, checked, and seen along any direction.

use geo::{Area as _, BooleanOps, BoundingRect, Buffer, Coord, LineString, MultiPolygon, Polygon, Validation};
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length};
use uom::si::length::meter;

/// A point in plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// East.
    pub x: Length,
    /// North.
    pub y: Length,
}

/// What is wrong with a floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum FloorError {
    /// A coordinate is not a number or is past 100 km.
    #[error("a point of the floor is not a place")]
    NotAPlace,
    /// Fewer than three points.
    #[error("an outline needs at least three corners")]
    TooFewCorners,
    /// Nothing within the outline.
    #[error("the outline encloses no area")]
    NoArea,
    /// The outline crosses itself, or a hole leaves it.
    #[error("the outline crosses itself or a hole is not inside it")]
    NotSimple,
}

/// A floor to cover, with the piers and pads that stand in it as holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Floor {
    polygon: Polygon<f64>,
}

/// Farthest coordinate accepted, in meters.
const FARTHEST: f64 = 100_000.0;

impl Floor {
    /// Checks and takes the corners in order, either way round.
    pub fn new(outline: &[Point], holes: &[Vec<Point>]) -> Result<Self, FloorError> {
        let exterior = ring(outline)?;
        let interiors = holes.iter().map(|h| ring(h)).collect::<Result<Vec<_>, _>>()?;
        let polygon = Polygon::new(exterior, interiors);
        if polygon.unsigned_area() <= 0.0 {
            return Err(FloorError::NoArea);
        }
        if !polygon.is_valid() {
            return Err(FloorError::NotSimple);
        }
        Ok(Self { polygon })
    }

    /// Area less holes.
    pub fn area(&self) -> Area {
        Area::new::<square_meter>(self.polygon.unsigned_area())
    }

    /// Directions worth trying, in radians within half a turn: along every edge of the outline and
    /// along both axes, without repeats.
    pub(super) fn directions(&self) -> Vec<f64> {
        let half = std::f64::consts::PI;
        let mut found = vec![0.0, half / 2.0];
        for line in self.polygon.exterior().lines() {
            let angle = line.dy().atan2(line.dx()).rem_euclid(half);
            let known = found.iter().any(|&a: &f64| {
                let apart = (a - angle).abs();
                apart.min(half - apart) < 1e-6
            });
            if !known {
                found.push(angle);
            }
        }
        found
    }

    /// The floor turned so that `direction` lies along x, grown by the turn-up at every edge.
    pub(super) fn along(&self, direction: f64, turn_up: f64) -> View {
        let turned = turn(&self.polygon, direction);
        let grown = if turn_up > 0.0 {
            let style = geo::buffer::BufferStyle::new(turn_up).line_join(geo::buffer::LineJoin::Miter(0.2));
            turned.buffer_with_style(style)
        } else {
            MultiPolygon::new(vec![turned.clone()])
        };
        View { net: turned, grown }
    }
}

fn ring(points: &[Point]) -> Result<LineString<f64>, FloorError> {
    let mut coords = Vec::with_capacity(points.len());
    for p in points {
        let (x, y) = (p.x.get::<meter>(), p.y.get::<meter>());
        if !(x.abs() <= FARTHEST && y.abs() <= FARTHEST) {
            return Err(FloorError::NotAPlace);
        }
        coords.push(Coord { x, y });
    }
    coords.dedup();
    if coords.len() > 1 && coords.first() == coords.last() {
        coords.pop();
    }
    if coords.len() < 3 {
        return Err(FloorError::TooFewCorners);
    }
    Ok(LineString::new(coords))
}

/// Turned by minus `direction`; a quarter turn is exact.
fn turn(polygon: &Polygon<f64>, direction: f64) -> Polygon<f64> {
    use geo::MapCoords;
    polygon.map_coords(|c| to_view(direction, c.x, c.y).into())
}

/// From plan to view.
pub(super) fn to_view(direction: f64, x: f64, y: f64) -> (f64, f64) {
    let (sin, cos) = sine_cosine(direction);
    (x * cos + y * sin, y * cos - x * sin)
}

/// From view to plan.
pub(super) fn to_plan(direction: f64, x: f64, y: f64) -> Point {
    let (sin, cos) = sine_cosine(direction);
    Point { x: Length::new::<meter>(x * cos - y * sin), y: Length::new::<meter>(x * sin + y * cos) }
}

#[allow(clippy::float_cmp)] // the two axes are passed on as these very values
fn sine_cosine(direction: f64) -> (f64, f64) {
    if direction == 0.0 {
        (0.0, 1.0)
    } else if direction == std::f64::consts::FRAC_PI_2 {
        (1.0, 0.0)
    } else {
        direction.sin_cos()
    }
}

/// A floor seen along one direction: strips run along x.
pub(super) struct View {
    net: Polygon<f64>,
    grown: MultiPolygon<f64>,
}

impl View {
    /// Least and greatest y to be covered.
    pub fn extent(&self) -> Option<(f64, f64)> {
        self.grown.bounding_rect().map(|r| (r.min().y, r.max().y))
    }

    /// Greatest length a strip may have.
    pub fn longest(&self) -> f64 {
        self.grown.bounding_rect().map_or(0.0, |r| r.width())
    }

    /// The lesser of the floor's two extents, along and across, turn-ups left out.
    pub fn narrowest(&self) -> f64 {
        self.net.bounding_rect().map_or(0.0, |r| r.width().min(r.height()))
    }

    /// Area to be covered in square meters, turn-ups included.
    pub fn grown_area(&self) -> f64 {
        self.grown.unsigned_area()
    }

    /// Heights at which the outline turns: where the best place of a strip's edge can change.
    pub fn corners(&self) -> Vec<f64> {
        let mut ys: Vec<f64> = self.grown.iter().flat_map(|p| p.exterior().coords().map(|c| c.y)).collect();
        ys.sort_by(f64::total_cmp);
        ys.dedup_by(|a, b| (*a - *b).abs() < 1e-7);
        ys
    }

    /// The stretches of x that a strip between two heights must cover. Holes narrower than the
    /// strip do not part it: the strip runs on past a pier.
    pub fn stretches(&self, low: f64, high: f64) -> Vec<(f64, f64)> {
        let Some(bounds) = self.grown.bounding_rect() else {
            return Vec::new();
        };
        let band =
            geo::Rect::new(Coord { x: bounds.min().x - 1.0, y: low }, Coord { x: bounds.max().x + 1.0, y: high })
                .to_polygon();
        let mut found: Vec<(f64, f64)> = self
            .without_small_holes(high - low)
            .intersection(&band)
            .iter()
            .filter(|p| p.unsigned_area() > 1e-9)
            .filter_map(|p| p.bounding_rect().map(|r| (r.min().x, r.max().x)))
            .collect();
        found.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut merged: Vec<(f64, f64)> = Vec::new();
        for (from, to) in found {
            match merged.last_mut() {
                Some(last) if from <= last.1 + 1e-6 => last.1 = last.1.max(to),
                _ => merged.push((from, to)),
            }
        }
        merged
    }

    fn without_small_holes(&self, strip: f64) -> MultiPolygon<f64> {
        let large = |hole: &LineString<f64>| hole.bounding_rect().is_some_and(|r| r.height() >= strip - 1e-9);
        self.grown
            .iter()
            .map(|p| {
                let holes = p.interiors().iter().filter(|h| large(h)).cloned().collect();
                Polygon::new(p.exterior().clone(), holes)
            })
            .collect()
    }

    /// Length of the line at height `y` that lies on the floor, holes left out.
    pub fn length_at(&self, y: f64) -> f64 {
        let rings = std::iter::once(self.net.exterior()).chain(self.net.interiors());
        let mut crossings: Vec<f64> = rings
            .flat_map(|r| r.lines())
            .filter(|l| (l.start.y <= y) != (l.end.y <= y))
            .map(|l| l.start.x + (y - l.start.y) / (l.end.y - l.start.y) * (l.end.x - l.start.x))
            .collect();
        crossings.sort_by(f64::total_cmp);
        crossings.chunks_exact(2).map(|pair| pair[1] - pair[0]).sum()
    }
}
