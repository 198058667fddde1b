//! A wall's face as strips of constant levels, and the exact area of a layer on it less the openings.

use uom::si::f64::{Area, Length};

use super::hair;
use super::opening::OpeningRect;
use super::plan::WallLine;
use crate::{Levels, Wall};

/// A strip of a wall's face with constant levels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// From, as measured along the wall from its start on the face of measurement.
    pub from: Length,
    /// To, so measured.
    pub to: Length,
    /// Its levels.
    pub levels: Levels,
}

impl Strip {
    /// Its length.
    pub fn length(&self) -> Length {
        self.to - self.from
    }
}

/// An upright rectangle on a wall's face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// From, along the wall.
    pub from: Length,
    /// To, along the wall.
    pub to: Length,
    /// Its lower edge above the datum.
    pub low: Length,
    /// Its upper edge above the datum.
    pub high: Length,
}

impl Rect {
    /// Its area.
    pub fn area(&self) -> Area {
        (self.to - self.from) * (self.high - self.low)
    }
}

/// The strips of a wall on one of its lines. The first reaches back and the last on to the line's ends, so a
/// line longer or shorter than the wall's own measure is covered whole.
pub fn strips(wall: &Wall, line: &WallLine) -> Vec<Strip> {
    let last = wall.stretches.len().saturating_sub(1);
    let mut out: Vec<Strip> = Vec::with_capacity(wall.stretches.len());
    for (i, stretch) in wall.stretches.iter().enumerate() {
        let reached = out.last().map_or(line.from, |s| s.to);
        let to = if i == last { line.to } else { stretch.to.min(line.to) };
        if to > reached {
            out.push(Strip { from: reached, to, levels: stretch.levels });
        }
    }
    out
}

/// The levels at a place along a wall; past its ends, those of the nearest stretch.
pub fn levels_at(wall: &Wall, along: Length) -> Option<Levels> {
    let holding = wall.stretches.iter().find(|s| along < s.to);
    holding.or(wall.stretches.last()).map(|s| s.levels)
}

/// What is left of a layer between two elevations when the openings are cut out, as rectangles that do not
/// overlap. The elevations are given by strip, lower first; a strip whose upper end is not above its lower has nothing.
pub fn net_rects(
    strips: &[Strip],
    openings: &[OpeningRect],
    extent: impl Fn(&Levels) -> (Length, Length),
) -> Vec<Rect> {
    let mut out = Vec::new();
    for strip in strips {
        let (low, high) = extent(&strip.levels);
        // Cut at each side of each opening; between cuts the same openings hold all along.
        let sides = openings.iter().flat_map(|o| [o.rect.from, o.rect.to]);
        let mut cuts: Vec<Length> = sides.filter(|&x| x > strip.from && x < strip.to).collect();
        cuts.push(strip.to);
        cuts.sort_by(|a, b| a.value.total_cmp(&b.value));
        let mut from = strip.from;
        for to in cuts {
            if to > from {
                column(from, to, low, high, openings, &mut out);
            }
            from = to;
        }
    }
    out
}

fn column(from: Length, to: Length, low: Length, high: Length, openings: &[OpeningRect], out: &mut Vec<Rect>) {
    let middle = (from + to) / 2.0;
    let mut holes: Vec<(Length, Length)> =
        openings.iter().map(|o| o.rect).filter(|r| r.from < middle && middle < r.to).map(|r| (r.low, r.high)).collect();
    holes.sort_by(|a, b| a.0.value.total_cmp(&b.0.value));
    let mut bottom = low;
    for (hole_low, hole_high) in holes {
        let until = hole_low.min(high);
        if until > bottom + hair() {
            out.push(Rect { from, to, low: bottom, high: until });
        }
        bottom = bottom.max(hole_high);
    }
    if high > bottom + hair() {
        out.push(Rect { from, to, low: bottom, high });
    }
}

/// The sum of the areas.
pub fn total_area(rects: &[Rect]) -> Area {
    rects.iter().map(Rect::area).fold(Area::default(), |a, b| a + b)
}
