//! Lengths of the edges, joints and laps of a layer on a wall or a pier.

use uom::si::f64::Length;
use wythe_source::Symbol;

use super::fastener::{count, patches, whole_up};
use super::line::{Lack, Part, Role};
use super::measure::{How, Measure};
use super::placing;
use super::surface::Surface;
use crate::geometry::{Rect, hair};
use crate::{Class, EdgeName, Extent, Face, Place, Work};

/// The length of the edge a work runs along.
pub(crate) fn edge(surface: &Surface<'_>, face: &Face, number: usize) -> Result<Part, Lack> {
    let work = face.works.get(number).ok_or(Lack::Edge)?;
    let place = work.place.ok_or(Lack::Edge)?;
    let layer = || layer_of(face, &place, number);
    let (role, length, how) = match place.edge {
        EdgeName::TopEdge | EdgeName::BottomEdge => {
            let (extent, _) = layer()?;
            let top = place.edge == EdgeName::TopEdge;
            let length = run_at(surface, extent, top);
            let how = How::say(if top { "top edge" } else { "bottom edge" }).length(length);
            (Role::Edge, length, how.and("less what openings interrupt"))
        }
        EdgeName::EndEdges => {
            let (extent, _) = layer()?;
            let length = if surface.is_closed() { Length::default() } else { ends(surface, extent) };
            (Role::Edge, length, How::say("height at both ends of the wall, together").length(length))
        }
        EdgeName::Perimeter => {
            let (extent, _) = layer()?;
            let (top, bottom) = (run_at(surface, extent, true), run_at(surface, extent, false));
            let sides = if surface.is_closed() { Length::default() } else { ends(surface, extent) };
            let how = How::say("top").length(top).and("+ bottom").length(bottom).and("+ ends").length(sides);
            (Role::Edge, top + bottom + sides, how)
        }
        EdgeName::Joints => joints(surface, face, &place, number)?,
        EdgeName::Laps => laps(surface, face, &place, number)?,
        EdgeName::Heads => return heads(surface, face, number, &place),
        EdgeName::Head => (Role::Edge, surface.head_length, How::say("length on the middle of the head")),
        EdgeName::Footing => {
            let (along, steps) = (surface.length(), surface.footing_steps());
            let how = How::say("length at the footing").length(along).and("+ steps of the footing").length(steps);
            (Role::Edge, along + steps, how)
        }
        EdgeName::Cuts if surface.is_closed() => (Role::Edge, surface.length(), How::say("round the pier")),
        EdgeName::Layer(_) => (Role::Laps, surface.length(), How::say("length on this face")),
        EdgeName::Cuts => return Err(Lack::EdgeHere),
    };
    Ok((role, Measure::Length(length), how))
}

fn layer_of<'a>(face: &'a Face, place: &Place, number: usize) -> Result<(Extent, &'a Work), Lack> {
    let layer = place.of.ok_or(Lack::Layer)?;
    let work = placing(face, layer, number).ok_or(Lack::Layer)?;
    Ok((work.extent.ok_or(Lack::Extent)?, work))
}

/// The length of the rectangles that reach a layer's upper or lower end.
fn run_at(surface: &Surface<'_>, extent: Extent, top: bool) -> Length {
    let mut total = Length::default();
    for strip in &surface.strips {
        let (low, high) = extent.on(&strip.levels);
        let rects = crate::geometry::net_rects(std::slice::from_ref(strip), &surface.openings, |_| (low, high));
        let reaches = |r: &&Rect| if top { (r.high - high).abs() < hair() } else { (r.low - low).abs() < hair() };
        total += rects.iter().filter(reaches).map(|r| r.to - r.from).fold(Length::default(), |a, b| a + b);
    }
    total
}

fn ends(surface: &Surface<'_>, extent: Extent) -> Length {
    let height = |s: &crate::geometry::Strip| {
        let (low, high) = extent.on(&s.levels);
        high - low
    };
    surface.strips.first().map(height).unwrap_or_default() + surface.strips.last().map(height).unwrap_or_default()
}

type Run = (Role, Length, How);

/// Joints between boards laid with their long side along the wall, strip by strip; a plain count, which a cut list
/// replaces.
fn joints(surface: &Surface<'_>, face: &Face, place: &Place, number: usize) -> Result<Run, Lack> {
    let (extent, work) = layer_of(face, place, number)?;
    let (short, long) = sheet(work)?;
    let runs = surface.runs(extent);
    let (mut pieces, mut upright, mut level) = (0, Length::default(), Length::default());
    for run in &runs {
        let along = whole_up(run.to - run.from, long).ok_or(Lack::Size)?;
        let up = whole_up(run.high - run.low, short).ok_or(Lack::Size)?;
        if along == 0 || up == 0 {
            continue;
        }
        pieces += along - 1 + up - 1;
        upright += (run.high - run.low) * (along - 1) as f64;
        level += (run.to - run.from) * (up - 1) as f64;
    }
    let shared = |pair: &[Rect]| pair[0].high.min(pair[1].high) - pair[0].low.max(pair[1].low);
    let at_steps: Vec<Length> = runs.windows(2).map(shared).filter(|h| *h > hair()).collect();
    let corner = surface.corner_joint(face.name, work.layer, extent);
    pieces += at_steps.len() as u64 + u64::from(corner > hair());
    let steps = at_steps.into_iter().fold(Length::default(), |a, b| a + b);
    let how = How::say("joints:").count(pieces).and(", upright").length(upright).and(", level").length(level);
    let how = how.and(", at steps").length(steps).and(", at the corner with the next wall").length(corner);
    Ok((Role::Joints, upright + level + steps + corner, how))
}

/// Laps of a sheet run along the wall from rolls as wide and as long as they are sold; a plain count.
fn laps(surface: &Surface<'_>, face: &Face, place: &Place, number: usize) -> Result<Run, Lack> {
    let (extent, work) = layer_of(face, place, number)?;
    let (width, roll) = sheet(work)?;
    let tail = work.by.unwrap_or_default();
    let mut total = Length::default();
    let runs = surface.runs(extent);
    for run in &runs {
        let rows = whole_up(run.high - run.low + tail, width).ok_or(Lack::Size)?;
        total += (run.to - run.from) * rows.saturating_sub(1) as f64;
    }
    let ends = whole_up(surface.length(), roll).ok_or(Lack::Size)?.saturating_sub(1);
    let height = runs.first().map(|r| r.high - r.low).unwrap_or_default();
    let at_ends = height * ends as f64;
    let how = How::say("level laps").length(total).and(", at ends of rolls").length(at_ends);
    Ok((Role::Laps, total + at_ends, how))
}

/// Short and long side of a layer's sheet.
fn sheet(work: &Work) -> Result<(Length, Length), Lack> {
    let (a, b) = work.product.as_ref().and_then(|p| p.size).ok_or(Lack::Size)?;
    Ok(if a <= b { (a, b) } else { (b, a) })
}

/// Patches over the heads of a fastener, named by its product.
fn heads(surface: &Surface<'_>, face: &Face, number: usize, place: &Place) -> Result<Part, Lack> {
    let fastener: Symbol = place.of.ok_or(Lack::Layer)?;
    let mut pieces: u64 = 0;
    let mut head = None;
    for (at, work) in face.works.iter().enumerate().take(number) {
        let Some(product) = work.product.as_ref().filter(|p| p.name == fastener && p.class == Class::Fastener) else {
            continue;
        };
        pieces = pieces.saturating_add(count(surface, face, at)?.0);
        head = product.head.or(head);
    }
    if head.is_none() && pieces == 0 {
        return Err(Lack::Layer);
    }
    Ok(patches(pieces, head, face.works.get(number).and_then(|w| w.product.as_ref()).and_then(|p| p.width)))
}
