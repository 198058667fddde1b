//! Capillary water, a cut proof: no wicking path from soil and footing to wood.

use wythe_model::{Act, Class, Control, EdgeName, Length, OpeningKind, Product};
use wythe_source::Span;

use super::fault::{Break, Fault, Owner};
use super::graph::{Link, lightest_cut};
use super::house::{House, Out, step};
use super::section::{Body, Section, Segment};
use super::strips::uncovered;
use super::trace::{Status, Step};
use crate::levels::{Range, hair};
use crate::order::history::History;

/// A contact between two bodies that water may climb across.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Contact {
    SoilFooting,
    FootingWall,
    SoilWallOutside,
    SoilWallInside,
    WallWood,
}

const SOIL: usize = 0;
const FOOTING: usize = 1;
const WALL: usize = 2;
const WOOD: usize = 3;

/// Capillary: soil and footing on one side, wood on the other, and what touches what between them.
pub(crate) fn prove(house: &House, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate() {
        let Some(structure) = section.assembly.structure.as_deref() else { continue };
        let wicks = wicks(structure);
        let breaks = head_break(section);
        let gasket = section.is_wall() && house.foundation.sill.gasket;
        let mut steps: Vec<Step> = breaks
            .iter()
            .map(|s| step(section.assembly.kind, s, section, "between masonry and wood".to_owned()))
            .collect();
        let cut = if wicks { cut(section, structure.thickness, breaks.is_some() || gasket) } else { Vec::new() };
        if cut.is_empty() {
            let note = match (wicks, gasket, breaks.is_some()) {
                (false, ..) => "the structure does not wick",
                (true, true, false) => "a gasket lies under the sill",
                (true, false, false) => "cut below: footing and soil contacts are broken",
                _ => "",
            };
            out.traces.push(house.trace(Control::Capillary, section, steps, Status::Proven, Vec::new(), note));
            continue;
        }
        let found = wicking(house, section, number, &cut);
        let mends = vec![house.mend(&found)];
        steps.clear();
        out.traces.push(house.trace(
            Control::Capillary,
            section,
            steps,
            Status::Broken,
            mends,
            "soil, footing, masonry, wood",
        ));
        out.add(found, &section.places);
    }
    pockets(house, out);
}

/// Beam pockets: a gasket under the sill does not reach into them, what lies on the head of the wall does.
fn pockets(house: &House, out: &mut Out) {
    for opening in house.foundation.openings.iter().filter(|o| o.kind == OpeningKind::BeamPocket) {
        let Some(wall) = opening.wall.and_then(|w| house.foundation.walls.get(w)) else { continue };
        let Some((number, section)) =
            house.sections.iter().enumerate().find(|(_, s)| s.is_wall() && s.places.contains(&wall.name))
        else {
            continue;
        };
        let Some(structure) = section.assembly.structure.as_deref() else { continue };
        let wicks = wicks(structure);
        // Where not even a gasket keeps the wood off the wall, that is told already, and mended for both.
        let told = !house.foundation.sill.gasket;
        if !wicks || told || head_break(section).is_some() || cut(section, structure.thickness, false).is_empty() {
            continue;
        }
        let lined = opening.assembly.and_then(|id| house.foundation.assemblies.get(id.0 as usize)).is_some_and(|a| {
            let works = a.faces.iter().flat_map(|face| &face.works);
            works.filter_map(|w| w.product.as_deref()).any(|p| p.controls.has(Control::Capillary))
        });
        if lined {
            continue;
        }
        let found = Break {
            whereabouts: format!("between masonry and the beam in `{}`", opening.name),
            elevation: opening.sill.unwrap_or(section.levels.top),
            origin: opening.origin,
            label: "the beam's end sits on bare masonry: the gasket under the sill does not reach it".to_owned(),
            related: house.foundation.sill.origin.map(|at| (at, "the gasket lies here".to_owned())).into_iter().collect(),
            mend: "coat the head (`coat … over head`), whose layers run into the pocket, or give the pocket a coated `build`"
                .to_owned(),
            owner: Owner::Part(opening.name),
            beyond_reach_in_old_work: opening.existing || wall.existing,
            ..wicking(house, section, number, &[Contact::WallWood])
        };
        out.add(found, &[opening.name]);
    }
}

fn wicks(structure: &Product) -> bool {
    (structure.wicks || matches!(structure.class, Class::Masonry | Class::Concrete))
        && !structure.controls.has(Control::Capillary)
}

/// The contacts to break, by the lightest cut over the bodies.
fn cut(section: &Section, thickness: Option<Length>, head_is_broken: bool) -> Vec<Contact> {
    let l = &section.levels;
    let thick = thickness.map_or(0.2, |t| t.value).max(0.01);
    let mut links: Vec<Link<Contact>> = Vec::new();
    let mut add = |a, b, weight: f64, what| {
        if weight > hair().value {
            links.push(Link { a, b, weight, what });
        }
    };
    add(SOIL, FOOTING, f64::INFINITY, Contact::SoilFooting);
    let under = section.faces.iter().any(|h| layer_at(h, EdgeName::Footing).is_some());
    add(FOOTING, WALL, if under { 0.0 } else { thick }, Contact::FootingWall);
    let bare = |face: &str, top: Length| {
        let covers: Vec<Range> = section.face(face).map_or(Vec::new(), |(_, h)| {
            let breaks =
                h.lives.iter().filter(|l| l.stays() && l.product.is_some_and(|p| p.controls.has(Control::Capillary)));
            breaks.map(|l| l.range).collect()
        });
        uncovered(Range { low: l.footing, high: top.max(l.footing) }, &covers)
            .iter()
            .map(|r| r.height().value)
            .sum::<f64>()
    };
    let inside = if section.is_wall() { "inside" } else { "face" };
    add(SOIL, WALL, bare("outside", l.grade), Contact::SoilWallOutside);
    add(SOIL, WALL, bare(inside, l.ground), Contact::SoilWallInside);
    add(WALL, WOOD, if head_is_broken { 0.0 } else { thick }, Contact::WallWood);
    lightest_cut(4, &links, SOIL, WOOD).into_iter().map(|i| links[i].what).collect()
}

/// A layer at the head that water does not climb through.
fn head_break<'a>(section: &Section<'a>) -> Option<Segment<'a>> {
    section.faces.iter().enumerate().find_map(|(face, history)| {
        let (at, origin) = layer_at(history, EdgeName::Head)?;
        let life = &history.lives[at];
        Some(Segment {
            name: life.name,
            face: Some(face),
            life: at,
            body: Body::Film,
            range: life.range,
            origin,
            product: life.product?,
        })
    })
}

/// A layer that controls capillary water and lies on the head or the footing.
fn layer_at(history: &History, edge: EdgeName) -> Option<(usize, Span)> {
    let head_face = edge == EdgeName::Head && history.face.name.as_str() == "head";
    history.lives.iter().enumerate().filter(|(_, l)| l.stays()).find_map(|(at, life)| {
        let work = &history.works()[life.work];
        let there = work.place.is_some_and(|p| p.edge == edge) || head_face;
        let drain = work.act == Act::Drain;
        (there && !drain && life.product.is_some_and(|p| p.controls.has(Control::Capillary)))
            .then_some((at, work.origin))
    })
}

fn wicking(house: &House, section: &Section, number: usize, cut: &[Contact]) -> Break {
    let wood = if section.is_wall() { "sill" } else { "beam" };
    let at_head = cut.contains(&Contact::WallWood);
    let mend = if at_head && section.is_wall() {
        "coat the head (`coat … over head`), or a gasket under the sill".to_owned()
    } else if at_head {
        "coat the head of the pier: `coat … over head`".to_owned()
    } else {
        "coat the footing and the masonry in contact with soil".to_owned()
    };
    let head = section.face("head").or_else(|| section.faces.first().map(|h| (0, h)));
    let origin = section.assembly.structure_origin.unwrap_or(section.assembly.origin);
    let treated = section.is_wall() && house.foundation.sill.treated;
    let mut related = Vec::new();
    if treated && let Some(at) = house.foundation.sill.origin {
        related.push((at, "a treated plate resists decay; it does not stop water".to_owned()));
    }
    Break {
        controls: vec![Control::Capillary],
        fault: Fault::NONE,
        whereabouts: format!("between masonry and {wood}"),
        elevation: section.levels.top,
        origin,
        label: format!("soil, footing, masonry, {wood}: water climbs all the way"),
        related,
        mend,
        owner: house.owner(section, head.map(|(i, _)| i)),
        beyond_reach_in_old_work: true,
        section: Some(number),
    }
}
