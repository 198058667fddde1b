//! Regions in plan: where two outlines share ground.

use geo::{BooleanOps, Coord, LineString, Polygon};
use wythe_model::{Length, Point};

/// The parts where two outlines share ground; a figure that is no number is nought.
pub(super) fn overlap(a: &[Point], b: &[Point]) -> Vec<Vec<Point>> {
    let polygon = |points: &[Point]| {
        let finite = |v: f64| if v.is_finite() { v.clamp(-1.0e6, 1.0e6) } else { 0.0 };
        let ring: LineString = points.iter().map(|p| Coord { x: finite(p.x.value), y: finite(p.y.value) }).collect();
        Polygon::new(ring, Vec::new())
    };
    let meter = |v: f64| Length::new::<uom::si::length::meter>(v);
    let shared = polygon(a).intersection(&polygon(b));
    shared.iter().map(|p| p.exterior().coords().map(|c| Point { x: meter(c.x), y: meter(c.y) }).collect()).collect()
}
