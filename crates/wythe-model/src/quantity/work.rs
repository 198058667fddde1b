//! One piece of work on a wall or a pier, measured.

use uom::si::f64::{Length, Volume};
use uom::si::length::inch;

use super::edge::edge;
use super::fastener::count;
use super::line::{Lack, Part, Role};
use super::measure::{How, Measure};
use super::placing;
use super::surface::Surface;
use crate::geometry::total_area;
use crate::{Act, Class, EdgeName, Extent, Face, Work};

/// The parts of a work on a wall or a pier.
pub(crate) fn measure(surface: &Surface<'_>, face: &Face, number: usize) -> Result<Vec<Part>, Lack> {
    let work = face.works.get(number).ok_or(Lack::Layer)?;
    match work.act {
        Act::Coat | Act::Hang | Act::Lay | Act::Set => cover(surface, face, number, work),
        Act::Drain => {
            let (_, length, how) = edge(surface, face, number)?;
            Ok(vec![(Role::Drain, length, how)])
        }
        Act::Fill => fill(surface, face, work),
        Act::Fasten => {
            let (pieces, how) = count(surface, face, number)?;
            Ok(vec![(Role::Fasteners, Measure::Count(pieces), how)])
        }
        Act::Seal => {
            let (_, length, how) = edge(surface, face, number)?;
            Ok(vec![(Role::Bead, length, how)])
        }
        Act::Tape | Act::Cap | Act::Lap => Ok(vec![edge(surface, face, number)?]),
        Act::Remove => {
            let placed = placing(face, work.layer, number).ok_or(Lack::Layer)?;
            let (_, area, how) = area(surface, placed.extent.ok_or(Lack::Extent)?);
            Ok(vec![(Role::Removed, area, how)])
        }
    }
}

fn cover(surface: &Surface<'_>, face: &Face, number: usize, work: &Work) -> Result<Vec<Part>, Lack> {
    if let Some(place) = work.place.filter(|_| work.extent.is_none()) {
        if place.edge == EdgeName::Head {
            let how = How::say("top of the wall or pier, cut on the miter at corners");
            return Ok(vec![(Role::Surface, Measure::Area(surface.head_area), how)]);
        }
        return Ok(vec![edge(surface, face, number)?]);
    }
    let Some(extent) = work.extent else {
        let whole = work.act == Act::Set && work.product.as_ref().is_none_or(|p| p.class != Class::Board);
        return if whole { Ok(vec![(Role::Pieces, Measure::Count(1), How::say("one"))]) } else { Err(Lack::Extent) };
    };
    let mut parts = vec![area(surface, extent)];
    if let Some(tail) = work.by.filter(|by| work.act == Act::Hang && *by > Length::default()) {
        let strips = surface.strips_off(tail / 2.0);
        let run = strips.iter().map(|s| s.length()).fold(Length::default(), |a, b| a + b);
        let how = How::say("tail: length on its middle line").length(run).and("x").length(tail);
        parts.push((Role::Tail, Measure::Area(run * tail), how));
    }
    Ok(parts)
}

fn area(surface: &Surface<'_>, extent: Extent) -> Part {
    let (gross, net) = (surface.gross(extent), total_area(&surface.rects(extent)));
    let mut how = How::default();
    for (i, strip) in surface.strips.iter().enumerate() {
        let (low, high) = extent.on(&strip.levels);
        let start = if i == 0 { How::say("length") } else { How::say("+ length") };
        how = how.then(start.length(strip.length()).and("x height").length(high - low));
    }
    if gross > net {
        how = how.and("less openings").area(gross - net);
    }
    (Role::Surface, Measure::Area(net), how)
}

/// Fill beside the wall: the work's own width, or 12 in where it says none (International Residential Code R405.1:
/// stone at least 1 ft beyond the outside edge of the footing), less the drain that lies in it.
fn fill(surface: &Surface<'_>, face: &Face, work: &Work) -> Result<Vec<Part>, Lack> {
    let extent = work.extent.ok_or(Lack::Extent)?;
    let width = work.by.unwrap_or_else(|| Length::new::<inch>(12.0));
    let mut volume = Volume::default();
    let mut how = How::default();
    for (i, strip) in surface.strips_off(width / 2.0).iter().enumerate() {
        let (low, high) = extent.on(&strip.levels);
        volume += strip.length() * (high - low) * width;
        let start = if i == 0 { How::say("length on the middle of the trench") } else { How::say("+ length") };
        how = how.then(start.length(strip.length()).and("x height").length(high - low));
    }
    how = how.and("x width").length(width);
    let drain = face.works.iter().find(|w| w.act == Act::Drain).and_then(|w| w.product.as_ref()?.diameter);
    if let Some(diameter) = drain {
        let pipe = surface.length() * diameter * diameter * std::f64::consts::FRAC_PI_4;
        volume = (volume - pipe).max(Volume::default());
        how = how.and("less the drain").volume(pipe);
    }
    Ok(vec![(Role::Fill, Measure::Volume(volume), how)])
}
