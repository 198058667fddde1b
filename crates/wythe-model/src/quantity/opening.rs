//! Work on openings, and the seats of beam pockets.

use uom::si::f64::Length;

use super::fastener::{patches, whole_number, whole_up};
use super::line::{Book, Lack, Part, Role, WorkOf};
use super::measure::{How, Measure};
use super::placing;
use crate::geometry::levels_at;
use crate::geometry::{hair, opening_rect, reveal_area, wall_thickness};
use crate::{Act, Class, EdgeName, Face, Foundation, Opening, OpeningKind, SurfaceKind, Work};

/// The parts of a work on an opening: panels by number, boards and sheets by the opening's area, coatings by its
/// reveals, everything along an edge by its perimeter.
pub(crate) fn measure(f: &Foundation, opening: &Opening, face: &Face, number: usize) -> Result<Vec<Part>, Lack> {
    let work = face.works.get(number).ok_or(Lack::Layer)?;
    let round: Length = (opening.width + opening.height) * 2.0;
    let size = || How::say("opening").length(opening.width).and("x").length(opening.height);
    let along = |role: Role| vec![(role, Measure::Length(round), size().and("all round"))];
    match work.act {
        Act::Set if work.product.as_ref().is_none_or(|p| p.class != Class::Board) => {
            Ok(vec![(Role::Pieces, Measure::Count(1), How::say("one"))])
        }
        Act::Set | Act::Hang | Act::Lay => {
            Ok(vec![(Role::Surface, Measure::Area(opening.width * opening.height), size())])
        }
        Act::Remove => {
            placing(face, work.layer, number).ok_or(Lack::Layer)?;
            Ok(vec![(Role::Removed, Measure::Area(opening.width * opening.height), size())])
        }
        Act::Coat => {
            let area = reveal_area(f, opening).ok_or(Lack::Thickness)?;
            Ok(vec![(Role::Surface, Measure::Area(area), size().and("all round, x wall thickness: the reveals"))])
        }
        Act::Fasten => {
            let how = size().and("all round");
            Ok(vec![(Role::Fasteners, Measure::Count(pieces(work, round)?), how)])
        }
        Act::Tape if work.place.is_some_and(|p| p.edge == EdgeName::Heads) => {
            let fastener = work.place.and_then(|p| p.of).ok_or(Lack::Layer)?;
            let named =
                |w: &&Work| w.product.as_ref().is_some_and(|p| p.name == fastener && p.class == Class::Fastener);
            let fasten = face.works.iter().take(number).rev().find(named).ok_or(Lack::Layer)?;
            let head = fasten.product.as_ref().and_then(|p| p.head);
            Ok(vec![patches(pieces(fasten, round)?, head, work.product.as_ref().and_then(|p| p.width))])
        }
        Act::Seal => Ok(along(Role::Bead)),
        Act::Tape | Act::Cap | Act::Lap => Ok(along(Role::Edge)),
        Act::Drain | Act::Fill => Err(Lack::EdgeHere),
    }
}

fn pieces(work: &Work, round: Length) -> Result<u64, Lack> {
    match (work.each, work.every) {
        (Some((each, _)), _) => whole_number(each.ceil()).ok_or(Lack::Spacing),
        (None, Some(every)) => whole_up(round, every).ok_or(Lack::Spacing),
        (None, None) => Err(Lack::Spacing),
    }
}

/// The seats of a wall's beam pockets take what goes over the head. Where a pocket is open at the top, its seat
/// stands in for the head above it, which is counted already.
pub(crate) fn seats(f: &Foundation, book: &mut Book, wall: usize, of: WorkOf, face: &Face) {
    let Some(thickness) = f.walls.get(wall).and_then(|w| wall_thickness(f, w)) else { return };
    for (index, opening) in f.openings.iter().enumerate() {
        if opening.wall != Some(wall) || opening.kind != OpeningKind::BeamPocket {
            continue;
        }
        let closed_above = || {
            let rect = opening_rect(f, index)?.rect;
            let top = levels_at(f.walls.get(wall)?, rect.from)?.top;
            Some(rect.high + hair() < top)
        };
        if closed_above() != Some(true) {
            continue;
        }
        for (number, work) in face.works.iter().enumerate() {
            let over_head =
                work.act.places() && work.extent.is_none() && work.place.is_some_and(|p| p.edge == EdgeName::Head);
            if over_head {
                let how = How::say("seat").length(opening.width).and("x wall thickness").length(thickness);
                let part = (Role::Surface, Measure::Area(opening.width * thickness), how);
                book.part(opening.name, SurfaceKind::Opening, of, face, number, part);
            }
        }
    }
}
