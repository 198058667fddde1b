//! The plan of a foundation: each wall's line on its outside, its middle and its inside.
//!
//! The walk is measured on one face; the lines on the others come from moving each edge by its own wall's
//! thickness and meeting its neighbors again. The corner rule that follows: **surfaces are cut on the miter**,
//! the line from outside corner to inside corner, so the shares of the walls add up and nothing counts twice.

use geo::Coord;
use uom::si::f64::{Angle, Area, Length};

use super::corner::{Corner, corner};
use super::outline::Outline;
use super::vector::{area, cross, dot, heading, length, meters, norm, point};
use super::walk::{Walk, walk};
use crate::{Foundation, MeasuredFace, Point, Wall};

/// Which lengths are taken.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, Default)]
pub enum Basis {
    /// As drawn.
    #[default]
    Design,
    /// As measured on site, where measured.
    AsBuilt,
}

/// Which way the walk goes round.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Orientation {
    /// The inside lies left of each wall.
    Counterclockwise,
    /// The inside lies right of each wall.
    Clockwise,
}

/// A wall's line on a face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallLine {
    /// Its start in plan.
    pub start: Point,
    /// Its end in plan.
    pub end: Point,
    /// Its start as measured along the wall from the wall's own start, on the face of measurement.
    pub from: Length,
    /// Its end, so measured.
    pub to: Length,
}

impl WallLine {
    /// Its length; nought where the neighbors leave nothing of it.
    pub fn length(&self) -> Length {
        (self.to - self.from).max(Length::default())
    }
}

/// A wall in plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallPlan {
    /// The thickness of its structure, where known; nought is drawn where it is not.
    pub thickness: Option<Length>,
    /// Its line on the outside of the structure.
    pub outside: WallLine,
    /// Its line on the middle.
    pub center: WallLine,
    /// Its line on the inside.
    pub inside: WallLine,
    /// Its share of the top of the wall, cut on the miter at both ends.
    pub head_area: Area,
}

impl WallPlan {
    /// Its line on a face.
    pub fn line(&self, face: MeasuredFace) -> &WallLine {
        match face {
            MeasuredFace::Outside => &self.outside,
            MeasuredFace::Center => &self.center,
            MeasuredFace::Inside => &self.inside,
        }
    }
}

/// The plan of a foundation.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The walk on the face of measurement.
    pub walk: Walk,
    /// Which way it goes round.
    pub orientation: Orientation,
    /// Each wall's lines, in the order of the walls.
    pub walls: Vec<WallPlan>,
    /// The corner at each wall's start, in the order of the walls.
    pub corners: Vec<Corner>,
    edges: Vec<Edge>,
}

/// An edge of the walk, with the way inward and the depth of each face below the measured one.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Edge {
    start: Coord,
    along: Coord,
    inward: Coord,
    outside: f64,
    thickness: f64,
}

/// The thickness of a wall's structure, where its assembly names one.
pub fn wall_thickness(f: &Foundation, wall: &Wall) -> Option<Length> {
    let assembly = f.assemblies.get(wall.assembly?.0 as usize)?;
    assembly.structure.as_ref()?.thickness
}

impl Plan {
    /// The plan of a foundation, from the lengths as drawn or as built.
    ///
    /// Where the walk does not close, the last wall is drawn to the start all the same.
    pub fn of(f: &Foundation, basis: Basis) -> Plan {
        let length_of = |w: &Wall| match basis {
            Basis::Design => w.length,
            Basis::AsBuilt => w.as_built_length.unwrap_or(w.length),
        };
        let legs: Vec<(Angle, Length)> = f.walls.iter().map(|w| (w.bearing, length_of(w))).collect();
        let walk = walk(&legs, f.start);
        let outline = Outline { points: walk.corners.clone() };
        let orientation =
            if outline.signed_square_meters() < 0.0 { Orientation::Clockwise } else { Orientation::Counterclockwise };
        let thicknesses: Vec<Option<Length>> = f.walls.iter().map(|w| wall_thickness(f, w)).collect();
        let edges: Vec<Edge> = outline
            .edges()
            .zip(&legs)
            .zip(&thicknesses)
            .map(|(((a, b), leg), thickness)| {
                let run = norm(b - a);
                let along = if run > 1e-9 { (b - a) / run } else { heading(leg.0) };
                let left = Coord { x: -along.y, y: along.x };
                let inward = if orientation == Orientation::Clockwise { left * -1.0 } else { left };
                let thickness = thickness.map_or(0.0, meters).max(0.0);
                let outside = match f.measured {
                    MeasuredFace::Outside => 0.0,
                    MeasuredFace::Center => -thickness / 2.0,
                    MeasuredFace::Inside => -thickness,
                };
                Edge { start: a, along, inward, outside, thickness }
            })
            .collect();

        let mut plan = Plan { walk, orientation, walls: Vec::new(), corners: Vec::new(), edges };
        let [outside, center, inside] = [MeasuredFace::Outside, MeasuredFace::Center, MeasuredFace::Inside]
            .map(|face| plan.lines(face, Length::default()));
        plan.walls = thicknesses
            .into_iter()
            .zip(outside.into_iter().zip(center).zip(inside))
            .map(|(thickness, ((outside, center), inside))| WallPlan {
                thickness,
                outside,
                center,
                inside,
                head_area: quad_area(&outside, &inside),
            })
            .collect();
        let count = plan.edges.len();
        plan.corners = (0..count)
            .map(|i| {
                let before = (i + count - 1) % count;
                let inner_side = dot(plan.edges[before].inward, plan.edges[i].along);
                corner(before, i, plan.walk.corners[i], inner_side, dot(plan.edges[before].along, plan.edges[i].along))
            })
            .collect();
        plan
    }

    /// Each wall's line at a distance inward of a face; outward is negative.
    pub fn lines(&self, face: MeasuredFace, inward: Length) -> Vec<WallLine> {
        (0..self.edges.len()).filter_map(|wall| self.line(wall, face, inward)).collect()
    }

    /// A wall's line at a distance inward of a face; outward is negative. Nothing for a wall that is not there.
    pub fn line(&self, wall: usize, face: MeasuredFace, inward: Length) -> Option<WallLine> {
        let depth = |e: &Edge| {
            let face = match face {
                MeasuredFace::Outside => 0.0,
                MeasuredFace::Center => e.thickness / 2.0,
                MeasuredFace::Inside => e.thickness,
            };
            e.outside + face + meters(inward)
        };
        let count = self.edges.len();
        let edge = self.edges.get(wall)?;
        let (before, after) = (self.edges.get((wall + count - 1) % count)?, self.edges.get((wall + 1) % count)?);
        let (_, start) = meet(before, depth(before), edge, depth(edge));
        let (end, _) = meet(edge, depth(edge), after, depth(after));
        let along = |c: Coord| length(dot(c - edge.start, edge.along));
        Some(WallLine { start: point(start), end: point(end), from: along(start), to: along(end) })
    }

    /// The outline on a face.
    pub fn outline(&self, face: MeasuredFace) -> Outline {
        let mut points: Vec<Point> = Vec::with_capacity(self.walls.len());
        for line in self.walls.iter().map(|w| w.line(face)) {
            for p in [line.start, line.end] {
                if points.last().is_none_or(|last| last.distance_to(p) > super::hair()) {
                    points.push(p);
                }
            }
        }
        if points.len() > 1
            && points.first().zip(points.last()).is_some_and(|(a, b)| a.distance_to(*b) <= super::hair())
        {
            points.pop();
        }
        Outline { points }
    }

    /// The sum of the walls' lengths on a face.
    pub fn perimeter(&self, face: MeasuredFace) -> Length {
        self.walls.iter().map(|w| w.line(face).length()).fold(Length::default(), |a, b| a + b)
    }

    /// The area within a face; nought where the walls leave no room.
    pub fn area(&self, face: MeasuredFace) -> Area {
        if !self.squeezed().is_empty() && face != MeasuredFace::Outside {
            return Area::default();
        }
        let signed = self.outline(face).signed_square_meters();
        area(if self.orientation == Orientation::Clockwise { -signed } else { signed }.max(0.0))
    }

    /// The walls that have no inside left between their neighbors, though they have a length.
    pub fn squeezed(&self) -> Vec<usize> {
        let none_left = |w: &WallPlan| w.inside.to <= w.inside.from && w.outside.length() > super::hair();
        self.walls.iter().enumerate().filter(|(_, w)| none_left(w)).map(|(i, _)| i).collect()
    }
}

/// Where two neighbors' lines meet, each at its own depth: the end of the first and the start of the second.
/// They are one point except where the walls run in one line at two depths, which leaves a jog.
fn meet(a: &Edge, a_depth: f64, b: &Edge, b_depth: f64) -> (Coord, Coord) {
    let (on_a, on_b) = (b.start + a.inward * a_depth, b.start + b.inward * b_depth);
    let turn = cross(a.along, b.along);
    if turn.abs() < 1e-9 {
        return (on_a, on_b);
    }
    // on_a + a.along·t lies on the line of b where its distance across b is nought.
    let t = cross(on_b - on_a, b.along) / turn;
    let at = on_a + a.along * t;
    (at, at)
}

fn quad_area(outside: &WallLine, inside: &WallLine) -> Area {
    Outline { points: vec![outside.start, outside.end, inside.end, inside.start] }.area()
}
