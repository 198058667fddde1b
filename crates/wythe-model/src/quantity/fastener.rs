//! Counts of fasteners, and the tape over their heads.

use uom::si::area::square_meter;
use uom::si::f64::Length;
use uom::si::length::{inch, meter};

use super::line::{Lack, Part, Role};
use super::measure::{How, Measure};
use super::placing;
use super::surface::Surface;
use crate::Face;
use crate::geometry::{hair, total_area};

/// How many steps no longer than `step` a length takes; nought for no length, nothing for no step.
pub(crate) fn whole_up(length: Length, step: Length) -> Option<u64> {
    if step <= hair() || !step.is_finite() || !length.is_finite() {
        return None;
    }
    // A hair over a whole number is rounding, not another piece.
    let steps = ((length.max(Length::default()) - hair()) / step).value.ceil();
    whole_number(steps)
}

/// A figure that is whole already, as a count; nothing where it is past all counting.
pub(crate) fn whole_number(value: f64) -> Option<u64> {
    (value.is_finite() && value < 1e15).then_some(value.max(0.0) as u64)
}

/// The fasteners of a work, and how they were counted.
///
/// By spacing: columns stand at both ends and no farther apart than the spacing (round a pier, no farther apart
/// all round); in each column the first is at the layer's upper edge and one follows for each whole spacing
/// below it. Those that fall into an opening are left out. By number a sheet: the number times the layer's area
/// over a sheet's, rounded up on each wall; a cut list replaces it. Both are house rules; no source.
pub(crate) fn count(surface: &Surface<'_>, face: &Face, number: usize) -> Result<(u64, How), Lack> {
    let work = face.works.get(number).ok_or(Lack::Layer)?;
    let layer = placing(face, work.layer, number).ok_or(Lack::Layer)?;
    let extent = layer.extent.ok_or(Lack::Extent)?;
    if let Some((each, _)) = work.each {
        let (a, b) = layer.product.as_ref().and_then(|p| p.size).ok_or(Lack::Size)?;
        let (net, sheet) = (total_area(&surface.rects(extent)), a * b);
        if !(sheet.get::<square_meter>() > 0.0 && each >= 0.0) {
            return Err(Lack::Size);
        }
        let share = (net / sheet).value * each;
        let pieces = whole_number((share - 1e-9).ceil()).ok_or(Lack::Spacing)?;
        let how = How::say("area").area(net).and("over a sheet of").area(sheet);
        return Ok((pieces, how.and("times the number a sheet, rounded up")));
    }
    let every = work.every.ok_or(Lack::Spacing)?;
    let length = surface.length();
    let gaps = whole_up(length, every).ok_or(Lack::Spacing)?;
    if gaps == 0 {
        return Ok((0, How::say("no length")));
    }
    // More than this is a slip of the pen, not a wall.
    if gaps > 100_000 {
        return Err(Lack::Spacing);
    }
    let columns = if surface.is_closed() { gaps } else { gaps + 1 };
    let start = surface.strips.first().map(|s| s.from).unwrap_or_default();
    let mut pieces: u64 = 0;
    for column in 0..columns {
        let along = start + length * (column as f64 / gaps as f64);
        let Some(strip) = surface.strips.iter().find(|s| along < s.to).or(surface.strips.last()) else { break };
        let (low, high) = extent.on(&strip.levels);
        if high - low <= hair() {
            continue;
        }
        let rows = whole_number(((high - low + hair()) / every).value.floor()).unwrap_or(0).min(100_000) + 1;
        let in_opening = |up: Length| {
            let holes = surface.openings.iter().map(|o| o.rect);
            holes.into_iter().any(|r| {
                let beside = along <= r.from + hair() || along + hair() >= r.to;
                !beside && up > r.low + hair() && up <= r.high + hair()
            })
        };
        pieces += (0..rows).filter(|&row| !in_opening(high - every * row as f64)).count() as u64;
    }
    let how = How::say("columns:").count(columns).and(", no farther apart than").length(every);
    Ok((pieces, how.and(", rows from the upper edge down as far apart")))
}

/// The tape over a number of heads: a patch reaches an inch past the head on each side, and is at least as long as
/// the tape is wide (common practice, no source).
pub(crate) fn patches(pieces: u64, head: Option<Length>, width: Option<Length>) -> Part {
    let past = head.unwrap_or_default() + Length::new::<inch>(2.0);
    let patch = past.max(width.unwrap_or_default());
    let patch = if patch.get::<meter>().is_finite() { patch } else { past };
    let how = How::say("patches:").count(pieces).and("of").length(patch);
    (Role::Heads, Measure::Length(patch * pieces as f64), how)
}
