//! Beams in plan: the piers under them, and where their ends go into walls.

use uom::si::f64::Length;

use super::outline::Line;
use super::pier::Footprint;
use super::plan::Plan;
use super::vector::{coord, cross, dot, length, norm};
use crate::{Beam, Foundation, Point};

impl Beam {
    /// Its line in plan.
    pub fn line(&self) -> Line {
        Line { from: self.from, to: self.to }
    }
}

/// The first beam over a footprint, in the order declared.
pub fn beam_over<'a>(beams: &'a [Beam], footprint: &Footprint) -> Option<&'a Beam> {
    beams.iter().find(|b| footprint.lies_under(&b.line()))
}

/// The top of a pier under a beam: as declared, or at the underside of the beam where that is lower.
pub fn dropped_top(declared: Length, sill: Length, beam: &Beam) -> Length {
    declared.min(sill - beam.drop)
}

/// The piers under a beam, by number, in the order declared.
pub fn piers_under(f: &Foundation, beam: &Beam) -> Vec<usize> {
    let line = beam.line();
    let under = f.piers.iter().enumerate().filter(|(_, p)| Footprint::from(*p).lies_under(&line));
    under.map(|(i, _)| i).collect()
}

/// One of a beam's ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum BeamEnd {
    /// Where it starts.
    From,
    /// Where it ends.
    To,
}

/// Where a beam's end goes into a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pocket {
    /// The beam, by number.
    pub beam: usize,
    /// Which end.
    pub end: BeamEnd,
    /// The wall, by number.
    pub wall: usize,
    /// The middle of the pocket from the wall's start, on the face of measurement.
    pub along: Length,
    /// How far the beam's underside lies below the sill there.
    pub drop: Length,
}

/// The pockets a foundation's beams make: an end that lies in a wall or touches one of its faces.
pub fn pockets(f: &Foundation, plan: &Plan) -> Vec<Pocket> {
    let mut out = Vec::new();
    for (number, beam) in f.beams.iter().enumerate() {
        for (end, at) in [(BeamEnd::From, beam.from), (BeamEnd::To, beam.to)] {
            if let Some((wall, along)) = wall_at(plan, at) {
                out.push(Pocket { beam: number, end, wall, along, drop: beam.drop });
            }
        }
    }
    out
}

/// The wall a point lies in, and how far along; at a corner, the wall that comes first in the walk.
fn wall_at(plan: &Plan, at: Point) -> Option<(usize, Length)> {
    let hair = super::hair();
    plan.walls.iter().enumerate().find_map(|(i, wall)| {
        let (start, end) = (coord(wall.outside.start), coord(wall.outside.end));
        let run = norm(end - start);
        if run < 1e-9 {
            return None;
        }
        let along = (end - start) / run;
        let to_point = coord(at) - start;
        let depth = cross(along, to_point);
        let inside_depth = cross(along, coord(wall.inside.start) - start);
        let (low, high) = (depth.min(0.0).min(inside_depth), inside_depth.max(0.0));
        let in_thickness = depth >= inside_depth.min(0.0) - hair.value && depth <= high + hair.value && low <= high;
        let place = length(dot(to_point, along));
        let in_length = place >= -hair && place <= wall.outside.length() + hair;
        (in_thickness && in_length).then(|| (i, wall.outside.from + place))
    })
}
