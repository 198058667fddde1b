//! How far does this lap, over or under?

use wythe_model::{Act, EdgeName, Face, Relation, SurfaceKind};
use wythe_source::Symbol;

use super::{Answer, unknown};
use crate::House;
use crate::words::say;

/// The answer for a layer or a product, or for all sheets of the house.
///
/// # Errors
/// In words, where nothing of that name laps.
pub fn lap(house: &House<'_>, asked: Option<&str>) -> Result<Answer, String> {
    let (w, f, telling) = (house.words, house.f(), house.telling());
    let faces = f.assemblies.iter().flat_map(|a| a.faces.iter().map(move |face| (a.kind, face)));
    let joints = f.joints.iter().map(|j| {
        let kind = if j.first.kind == SurfaceKind::Ground { j.second.kind } else { j.first.kind };
        (kind, &j.face)
    });
    let mut lines: Vec<String> = Vec::new();
    let mut drawing = None;
    let mut known: Vec<Symbol> = Vec::new();
    let wanted = |layer: Symbol, face: &Face, known: &mut Vec<Symbol>| {
        let product = telling.product_of(Some(face), layer).map(|p| p.name);
        for name in [Some(layer), product].into_iter().flatten() {
            if !known.contains(&name) {
                known.push(name);
            }
        }
        asked.is_none_or(|a| layer.as_str() == a || product.is_some_and(|p| p.as_str() == a))
    };
    let place_of = |kind: SurfaceKind, face: &Face| {
        let in_joint = f.joints.iter().any(|j| std::ptr::eq(&j.face, face));
        if in_joint { telling.joint(kind) } else { telling.face(kind, face.name) }
    };
    for (kind, face) in faces.chain(joints) {
        for work in &face.works {
            let what = telling.layer(Some(face), work.layer);
            let line = match (work.act, work.by, work.place) {
                (Act::Lap, by, Some(place)) => {
                    let EdgeName::Layer(other) = place.edge else { continue };
                    let mine = wanted(work.layer, face, &mut known) | wanted(other, face, &mut known);
                    if !mine {
                        continue;
                    }
                    let other = telling.layer(Some(face), other);
                    let by = by.map_or_else(String::new, |b| telling.span(b));
                    let (over, under) = if place.relation == Relation::Under { (other, what) } else { (what, other) };
                    drawing = drawing.or_else(|| Some(crate::small::lap(house, &over, &under, &by)));
                    say!(w, "ask-lap-over", over = over, under = under, by = by, place = place_of(kind, face))
                }
                (Act::Lay, Some(by), _) if wanted(work.layer, face, &mut known) => {
                    let by = telling.span(by);
                    drawing = drawing.or_else(|| Some(crate::small::lap(house, &what, &what, &by)));
                    say!(w, "ask-lap-strips", what = what, by = by)
                }
                (Act::Hang, by, _) if wanted(work.layer, face, &mut known) => {
                    let side = telling.span(house.job.terms.hung_lap);
                    match by {
                        Some(by) => say!(w, "ask-lap-hung-tail", what = what, side = side, tail = telling.span(by)),
                        None => say!(w, "ask-lap-hung", what = what, side = side),
                    }
                }
                _ => continue,
            };
            if !lines.contains(&line) {
                lines.push(line);
            }
        }
    }
    match (lines.is_empty(), asked) {
        (true, Some(name)) => Err(unknown(house, name, &known)),
        (true, None) => Ok(Answer::of(vec![say!(w, "ask-lap-none")])),
        _ => Ok(Answer { lines, drawing }),
    }
}
