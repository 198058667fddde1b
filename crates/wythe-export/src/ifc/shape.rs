//! Bodies: an outline in plan, drawn up from one height to another.

use uom::si::length::meter;
use wythe_model::{Length, Point};

use super::step::{Line, Lines, list, real};

/// What every body refers to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    /// The context of bodies.
    pub body: Line,
    /// The context of lines.
    pub axis: Line,
    /// The placement everything stands in.
    pub placement: Line,
    /// Straight up.
    pub up: Line,
}

/// An outline drawn up; nothing where it has no ground or no height.
pub(super) fn extrusion(lines: &mut Lines, frame: Frame, outline: &[Point], low: Length, high: Length) -> Option<Line> {
    let depth = (high - low).get::<meter>();
    let area = wythe_model::geometry::Outline { points: outline.to_vec() }.area();
    let sound = depth.is_finite() && depth > 1e-6 && area.value.is_finite() && area.value > 1e-9;
    if !sound || outline.len() < 3 {
        return None;
    }
    let mut points: Vec<Line> = outline.iter().map(|p| point(lines, &[p.x, p.y])).collect();
    points.push(points[0]);
    let curve = lines.add("IFCPOLYLINE", &list(&points));
    let profile = lines.add("IFCARBITRARYCLOSEDPROFILEDEF", &format!(".AREA.,$,{curve}"));
    let foot = point(lines, &[Length::default(), Length::default(), low]);
    let position = lines.add("IFCAXIS2PLACEMENT3D", &format!("{foot},$,$"));
    Some(lines.add("IFCEXTRUDEDAREASOLID", &format!("{profile},{position},{},{}", frame.up, real(depth))))
}

/// A point of two or three coordinates.
pub(super) fn point(lines: &mut Lines, of: &[Length]) -> Line {
    let all: Vec<String> = of.iter().map(|l| real(l.get::<meter>())).collect();
    lines.add("IFCCARTESIANPOINT", &format!("({})", all.join(",")))
}

/// The shape of a part made of bodies; `$` where there is none.
pub(super) fn bodies(lines: &mut Lines, frame: Frame, solids: &[Line]) -> String {
    if solids.is_empty() {
        return "$".to_owned();
    }
    let shape = lines.add("IFCSHAPEREPRESENTATION", &format!("{},'Body','SweptSolid',{}", frame.body, list(solids)));
    lines.add("IFCPRODUCTDEFINITIONSHAPE", &format!("$,$,({shape})")).to_string()
}

/// The shape of a part of which only the middle line is known.
pub(super) fn axis(lines: &mut Lines, frame: Frame, from: Point, to: Point, height: Length) -> String {
    let ends = [from, to].map(|p| point(lines, &[p.x, p.y, height]));
    let curve = lines.add("IFCPOLYLINE", &list(&ends));
    let shape = lines.add("IFCSHAPEREPRESENTATION", &format!("{},'Axis','Curve3D',({curve})", frame.axis));
    lines.add("IFCPRODUCTDEFINITIONSHAPE", &format!("$,$,({shape})")).to_string()
}
