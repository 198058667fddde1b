//! Risers of a stepped crawl floor: where the inside ground changes height between one wall and another.

use uom::si::f64::{Area, Length};

use super::outline::Line;
use super::plan::Plan;
use super::strip::strips;
use super::vector::{coord, length, meters, norm, point};
use crate::{Foundation, Point};

/// A riser: a step of the crawl floor, straight from where one wall shows it to where another does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Riser {
    /// Its line in plan.
    pub line: Line,
    /// The ground below it, above the datum.
    pub low: Length,
    /// The ground above it.
    pub high: Length,
}

impl Riser {
    /// Its area.
    pub fn area(&self) -> Area {
        self.line.length() * (self.high - self.low)
    }
}

/// The risers. Going round the inside once, every rise of the ground is met by a fall; the two ends of a step
/// are a rise and the next fall through the same heights, as contour lines close on a hill.
pub fn risers(f: &Foundation, plan: &Plan) -> Vec<Riser> {
    let mut round: Vec<(Point, Length)> = Vec::new();
    for (wall, wall_plan) in f.walls.iter().zip(&plan.walls) {
        let line = &wall_plan.inside;
        let (start, end) = (coord(line.start), coord(line.end));
        let run = norm(end - start);
        for strip in strips(wall, line) {
            let along = meters(strip.from - line.from);
            let at = if run > 1e-9 { start + (end - start) / run * along } else { start };
            round.push((point(at), strip.levels.ground));
        }
    }
    let Some(lowest) = (0..round.len()).min_by(|&a, &b| round[a].1.value.total_cmp(&round[b].1.value)) else {
        return Vec::new();
    };
    round.rotate_left(lowest);

    let mut open: Vec<(Point, Length, Length)> = Vec::new();
    let mut out = Vec::new();
    let mut ground = round[0].1;
    for (at, next) in round.iter().copied().skip(1).chain([round[0]]) {
        if next > ground + super::hair() {
            open.push((at, ground, next));
        }
        while next + super::hair() < ground {
            let Some((rise, low, high)) = open.pop() else { break };
            let foot = low.max(next);
            out.push(Riser { line: Line { from: rise, to: at }, low: foot, high });
            if foot > low {
                open.push((rise, low, foot));
            }
            ground = foot;
        }
        ground = next;
    }
    out.retain(|r| r.line.length() > length(0.0));
    out
}
