//! The branches of the lines at openings: hatches, vents, sleeves and beam pockets.
//!
//! What is set in an opening carries the line and is sealed all round. A vent may be plugged instead. A sleeve below
//! grade turns water away too. A beam pocket is lined by what lies on the head of its wall, which runs into it.

use wythe_findings::{Finding, codes};
use wythe_model::{Assembly, AssemblyId, Control, EdgeName, Foundation, Levels, Opening, OpeningKind, SurfaceKind};
use wythe_source::Span;

use super::fault::{Break, Fault, Owner};
use super::house::{House, Out, step};
use super::section::{Section, carries};
use super::trace::{Status, Step, Trace};
use crate::levels::hair;

/// Proves one line at every opening that it has to pass.
pub(crate) fn prove(house: &House, control: Control, out: &mut Out) {
    for opening in &house.foundation.openings {
        let asked = match opening.kind {
            OpeningKind::Access | OpeningKind::Vent => {
                matches!(control, Control::Vapor | Control::Air | Control::Heat)
            }
            OpeningKind::Sleeve => {
                matches!(control, Control::Vapor | Control::Air)
                    || (control == Control::BulkWater && holds_back_earth(house.foundation, opening))
            }
            OpeningKind::BeamPocket => matches!(control, Control::Vapor | Control::Air),
            // The gate before closing asks about these.
            OpeningKind::Flood => false,
        };
        // An opening that has no size or no place in its wall is told by geometry.
        if !asked || !stands(house.foundation, opening) {
            continue;
        }
        match assembly(house.foundation, opening) {
            Some((id, assembly)) => built(house, control, opening, id, assembly, out),
            None if opening.plugged => {
                out.traces.push(plain(house, control, opening, Status::Proven, "plugged and insulated for service"));
            }
            None if opening.kind == OpeningKind::BeamPocket => pocket(house, control, opening, out),
            None => unbuilt(house, control, opening, out),
        }
    }
}

fn assembly<'a>(f: &'a Foundation, opening: &Opening) -> Option<(AssemblyId, &'a Assembly)> {
    let id = opening.assembly?;
    Some((id, f.assemblies.get(id.0 as usize)?))
}

/// The levels of the wall at an opening.
pub(crate) fn levels_at(f: &Foundation, opening: &Opening) -> Option<Levels> {
    let wall = f.walls.get(opening.wall?)?;
    let at = opening.at + opening.width / 2.0;
    let stretch = wall.stretches.iter().find(|s| s.from <= at && at <= s.to).or_else(|| wall.stretches.last())?;
    Some(stretch.levels)
}

/// Whether an opening has a size, and lies within the height of its wall.
fn stands(f: &Foundation, opening: &Opening) -> bool {
    let zero = wythe_model::Length::default();
    let inside = |levels: Levels| opening.sill.is_none_or(|sill| sill + hair() >= levels.footing);
    opening.width > zero && opening.height > zero && levels_at(f, opening).is_none_or(inside)
}

/// Whether earth lies against an opening, and the crawl floor lies below outside grade.
fn holds_back_earth(f: &Foundation, opening: &Opening) -> bool {
    let (Some(levels), Some(sill)) = (levels_at(f, opening), opening.sill) else { return false };
    levels.ground + hair() < levels.grade && sill + hair() < levels.grade
}

/// An opening with a build-up: what is set in it carries the line, and its perimeter is sealed.
fn built(house: &House, control: Control, opening: &Opening, id: AssemblyId, assembly: &Assembly, out: &mut Out) {
    let levels = crate::levels::levels_of(house.foundation, id);
    let section = Section::of(id, assembly, levels, opening.name);
    let segments = section.segments(control, &["face"], house.asked);
    let panel = segments.last();
    let closed = panel.is_some_and(|p| {
        section.edge_is_closed(p, EdgeName::Perimeter) || section.edge_is_closed(p, EdgeName::EndEdges)
    });
    let (origin, label, mend) = match panel {
        Some(_) if closed || matches!(control, Control::Heat | Control::BulkWater) => {
            let steps = panel
                .map(|p| step(SurfaceKind::Opening, p, &section, "sealed all round".to_owned()))
                .into_iter()
                .collect();
            out.traces.push(house.trace(control, &section, steps, Status::Proven, Vec::new(), ""));
            return;
        }
        Some(panel) => (
            panel.origin,
            "its perimeter stays open".to_owned(),
            format!("add `seal … along perimeter of {}`", panel.name),
        ),
        None => {
            let words = control.name().replace('_', " ");
            let what = match opening.kind {
                OpeningKind::Sleeve | OpeningKind::BeamPocket => "a boot or collar",
                _ => "a panel",
            };
            (
                section.faces.first().map_or(assembly.origin, |h| h.face.origin),
                format!("nothing here controls {words}"),
                format!("{what} that controls {words}"),
            )
        }
    };
    let found = broken(control, opening, origin, label, mend, house.owner(&section, Some(0)));
    out.traces.push(house.trace(control, &section, Vec::new(), Status::Broken, vec![house.mend(&found)], ""));
    out.add(found, &section.places);
}

/// A pocket with no build-up of its own: the layers of the head run into it.
fn pocket(house: &House, control: Control, opening: &Opening, out: &mut Out) {
    let Some(wall) = opening.wall.and_then(|w| house.foundation.walls.get(w)) else { return };
    let section = house.sections.iter().find(|s| s.is_wall() && s.places.contains(&wall.name));
    let lined = section.and_then(|section| {
        let (face, history) = section.face("head")?;
        let life =
            history.lives.iter().find(|l| l.stays() && l.product.is_some_and(|p| carries(p, control, house.asked)))?;
        Some(Step {
            layer: life.name,
            element: SurfaceKind::Opening,
            face: section.faces[face].face.name,
            from: opening.sill.unwrap_or_default() + opening.height,
            to: opening.sill.unwrap_or_default(),
            origin: history.works()[life.work].origin,
            joined: "runs into the pocket from the head".to_owned(),
        })
    });
    match lined {
        Some(step) => {
            let trace = plain(house, control, opening, Status::Proven, "");
            out.traces.push(Trace { steps: vec![step], ..trace });
        }
        None => unsaid(house, control, opening, "nothing on the head of the wall runs into the pocket", out),
    }
}

/// An opening with nothing in it.
fn unbuilt(house: &House, control: Control, opening: &Opening, out: &mut Out) {
    match opening.kind {
        OpeningKind::Sleeve => {
            let label = match control {
                Control::BulkWater => "earth lies against it, and nothing turns water away",
                _ => "nothing closes the gap around what goes through",
            };
            let mend = "give it a `build`: a boot or collar, and a bead along its perimeter";
            let owner = Owner::Part(opening.name);
            let found = broken(control, opening, opening.origin, label.to_owned(), mend.to_owned(), owner);
            let trace = plain(house, control, opening, Status::Broken, label);
            out.traces.push(Trace { mends: vec![house.mend(&found)], ..trace });
            out.add(found, &[opening.name]);
        }
        // Where no phase shuts the vents, the sequence says so.
        OpeningKind::Vent => unsaid(house, control, opening, "a shut vent is not a sealed one", out),
        _ => unsaid(house, control, opening, "nothing says what closes it", out),
    }
}

fn unsaid(house: &House, control: Control, opening: &Opening, label: &str, out: &mut Out) {
    out.traces.push(plain(house, control, opening, Status::Unsaid, label));
    // Once for an opening, whichever lines end there.
    if control != Control::Vapor {
        return;
    }
    let f = house.foundation;
    out.findings.push(
        Finding::new(
            codes::LINE_UNSAID,
            opening.origin,
            format!("the lines end at `{}`: no build-up is told", opening.name),
        )
        .label(label)
        .mend("give it a `build` that is sealed all round, or `plugged: true`")
        .item(format!("{}.{}", f.name, opening.name)),
    );
}

fn broken(control: Control, opening: &Opening, origin: Span, label: String, mend: String, owner: Owner) -> Break {
    Break {
        controls: vec![control],
        fault: Fault::NONE.with_open(true),
        whereabouts: format!("at `{}`", opening.name),
        elevation: opening.sill.unwrap_or_default(),
        origin,
        label,
        related: vec![(opening.origin, format!("`{}` is {}", opening.name, kind(opening.kind)))],
        mend,
        owner,
        beyond_reach_in_old_work: opening.existing,
        section: None,
    }
}

const fn kind(kind: OpeningKind) -> &'static str {
    match kind {
        OpeningKind::Access => "an access opening",
        OpeningKind::Vent => "a vent",
        OpeningKind::Flood => "an opening for flood water",
        OpeningKind::BeamPocket => "a beam pocket",
        OpeningKind::Sleeve => "a sleeve",
    }
}

/// A trace of an opening that has no section of its own.
fn plain(house: &House, control: Control, opening: &Opening, status: Status, note: &str) -> Trace {
    let zero = wythe_model::Length::default();
    let none = Levels { top: zero, sill: zero, grade: zero, ground: zero, footing: zero };
    Trace {
        control,
        kind: SurfaceKind::Opening,
        places: vec![opening.name],
        assembly: None,
        levels: levels_at(house.foundation, opening).unwrap_or(none),
        steps: Vec::new(),
        status,
        mends: Vec::new(),
        note: note.to_owned(),
    }
}
