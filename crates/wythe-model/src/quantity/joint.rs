//! Work in joints between two surfaces: along the line where they meet, on each wall or pier.

use uom::si::f64::Length;
use wythe_source::Symbol;

use super::line::{Book, Lack, Part, Role, WorkOf};
use super::measure::{How, Measure};
use super::surface::Surface;
use crate::geometry::Plan;
use crate::{Act, AssemblyId, EdgeName, Face, FaceKey, Foundation, Joint, SurfaceKind};

/// Measures a joint on every wall and pier whose face it joins; elements without an assembly have none.
pub(crate) fn measure(f: &Foundation, plan: &Plan, book: &mut Book, number: usize, joint: &Joint) {
    let key = [joint.first, joint.second].into_iter().find(|k| matches!(k.kind, SurfaceKind::Wall | SurfaceKind::Pier));
    let Some(key) = key else { return };
    let of = WorkOf::Joint(number);
    match key.kind {
        SurfaceKind::Wall => {
            for (index, wall) in f.walls.iter().enumerate() {
                let Some(face) = face_of(f, wall.assembly, key) else { continue };
                let Some(surface) = Surface::of_wall(f, plan, index, key.face.as_str()) else { continue };
                book.face(wall.name, key.kind, of, &joint.face, |i| part(&surface, joint, face, i));
            }
        }
        _ => {
            for pier in &f.piers {
                let Some(face) = face_of(f, pier.assembly, key) else { continue };
                let surface = Surface::of_pier(pier);
                book.face(pier.name, key.kind, of, &joint.face, |i| part(&surface, joint, face, i));
            }
        }
    }
}

fn face_of(f: &Foundation, assembly: Option<AssemblyId>, key: FaceKey) -> Option<&Face> {
    f.assemblies.get(assembly?.0 as usize)?.faces.iter().find(|x| x.name == key.face)
}

fn part(surface: &Surface<'_>, joint: &Joint, face: &Face, number: usize) -> Result<Vec<Part>, Lack> {
    let work = joint.face.works.get(number).ok_or(Lack::Layer)?;
    let run = surface.length();
    let meeting = || How::say("line where the faces meet").length(run);
    match work.act {
        Act::Lap => {
            let mut parts = vec![(Role::Laps, Measure::Length(run), meeting())];
            parts.extend(turn_up(surface, joint, face, number));
            Ok(parts)
        }
        Act::Seal => Ok(vec![(Role::Bead, Measure::Length(run), meeting())]),
        Act::Tape | Act::Cap => Ok(vec![(Role::Edge, Measure::Length(run), meeting())]),
        Act::Coat | Act::Hang | Act::Lay | Act::Set => {
            let by = work.by.ok_or(Lack::Extent)?;
            Ok(vec![(Role::Surface, Measure::Area(run * by), meeting().and("x").length(by))])
        }
        Act::Fasten => {
            let every = work.every.ok_or(Lack::Spacing)?;
            let gaps = super::fastener::whole_up(run, every).ok_or(Lack::Spacing)?;
            let pieces = if surface.is_closed() || gaps == 0 { gaps } else { gaps + 1 };
            Ok(vec![(Role::Fasteners, Measure::Count(pieces), meeting().and("every").length(every))])
        }
        Act::Drain => Ok(vec![(Role::Drain, Measure::Length(run), meeting())]),
        Act::Fill | Act::Remove => Err(Lack::EdgeHere),
    }
}

/// A lap lies on the tail of the sheet it laps, which lies on the floor and is counted there; what is wider than
/// that tail is turned up and comes on top.
fn turn_up(surface: &Surface<'_>, joint: &Joint, face: &Face, number: usize) -> Option<Part> {
    let work = joint.face.works.get(number)?;
    let over: Symbol = match work.place?.edge {
        EdgeName::Layer(layer) => layer,
        _ => work.place?.of?,
    };
    let tail = super::placing(face, over, face.works.len()).and_then(|w| w.by).unwrap_or_default();
    let up = work.by? - tail;
    if up <= Length::default() {
        return None;
    }
    let run = surface.length();
    let how = How::say("turned up beyond the tail: length").length(run).and("x").length(up);
    Some((Role::TurnUp, Measure::Area(run * up), how))
}
