//! Laps that joints make between the ground and a wall or pier.

use wythe_model::{Act, EdgeName, Foundation, Joint, Length, SurfaceKind, Work};
use wythe_source::Symbol;

/// A lap between a layer of the ground and one of a wall or pier.
#[derive(Clone, Copy)]
pub(crate) struct Lap<'a> {
    /// The joint.
    pub joint: &'a Joint,
    /// The line that makes it.
    pub work: &'a Work,
    /// The layer of the ground.
    pub ground: Symbol,
    /// The layer of the wall or pier.
    pub other: Symbol,
    /// Its width as written; nought where none is.
    pub by: Length,
    /// Whether the joint tapes or seals it.
    pub closed: bool,
}

/// Joints between the crawl floor and a face of a kind of element.
pub(crate) fn joints<'a>(f: &'a Foundation, kind: SurfaceKind, face: &'a str) -> impl Iterator<Item = &'a Joint> {
    f.joints.iter().map(|j| &**j).filter(move |j| {
        let is = |key: wythe_model::FaceKey| key.kind == kind && key.face.as_str() == face;
        let ground = |key: wythe_model::FaceKey| key.kind == SurfaceKind::Ground;
        (is(j.first) && ground(j.second)) || (is(j.second) && ground(j.first))
    })
}

/// The laps of those joints that name a layer of the ground.
pub(crate) fn laps<'a>(
    f: &'a Foundation,
    kind: SurfaceKind,
    face: &'a str,
    is_ground: impl Fn(Symbol) -> bool + 'a,
) -> impl Iterator<Item = Lap<'a>> {
    joints(f, kind, face).flat_map(move |joint| {
        let lines = joint.face.works.iter().filter(|w| w.act == Act::Lap);
        let mut out = Vec::new();
        for work in lines {
            let Some(EdgeName::Layer(onto)) = work.place.map(|p| p.edge) else { continue };
            let (ground, other) = if is_ground(work.layer) {
                (work.layer, onto)
            } else if is_ground(onto) {
                (onto, work.layer)
            } else {
                continue;
            };
            let by = work.by.unwrap_or_default();
            out.push(Lap { joint, work, ground, other, by, closed: is_closed(joint, ground, other) });
        }
        out
    })
}

/// Whether a joint tapes or seals an edge of one of two layers.
fn is_closed(joint: &Joint, a: Symbol, b: Symbol) -> bool {
    joint.face.works.iter().any(|w| {
        let of = w.place.and_then(|p| match p.edge {
            EdgeName::Layer(name) => Some(name),
            EdgeName::Heads => None,
            _ => p.of.or(Some(a)),
        });
        matches!(w.act, Act::Tape | Act::Seal) && of.is_some_and(|of| of == a || of == b)
    })
}
