//! The two cut proofs: no wicking path from soil to wood, no way down for water to the inside face.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class, Control, EdgeName, Length, SurfaceKind};
use wythe_source::Span;

use super::continuous::level;
use super::fault::{Break, Fault};
use super::graph::{Link, lightest_cut};
use super::house::{House, Out, step};
use super::section::{Body, Section, Segment};
use super::strips::uncovered;
use super::trace::{Status, Step};
use crate::Inches;
use crate::levels::{Range, hair};
use crate::order::history::History;
use crate::requirement::Need;

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
pub(crate) fn capillary(house: &House, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate() {
        let Some(structure) = section.assembly.structure.as_deref() else { continue };
        let wicks = (structure.wicks || matches!(structure.class, Class::Masonry | Class::Concrete))
            && !structure.controls.has(Control::Capillary);
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
        section: Some(number),
    }
}

/// Bulk water: a wall that holds earth above the crawl floor must turn it away down to the footing, to a drain.
pub(crate) fn bulk(house: &House, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate().filter(|(_, s)| s.is_wall()) {
        let l = &section.levels;
        if l.ground + hair() >= l.grade {
            let note = "the crawl floor does not lie below outside grade";
            out.traces.push(house.trace(Control::BulkWater, section, Vec::new(), Status::NotAsked, Vec::new(), note));
            continue;
        }
        let segments = section.segments(Control::BulkWater, &["outside"], house.asked);
        let skins: Vec<Segment> = segments.into_iter().filter(|s| s.product.class != Class::Drain).collect();
        let ranges: Vec<Range> = skins.iter().map(|s| s.range).collect();
        let mut found: Vec<Break> = uncovered(Range { low: l.footing, high: l.grade }, &ranges)
            .into_iter()
            .map(|gap| leak(house, section, number, &skins, gap))
            .collect();
        found.extend(laps_that_leak(house, section, number, &skins));
        drain(house, section, &skins, out);
        let steps = skins.iter().map(|s| step(SurfaceKind::Wall, s, section, String::new())).collect();
        let status = if found.is_empty() { Status::Proven } else { Status::Broken };
        let mends = found.iter().map(|b| house.mend(b)).collect();
        out.traces.push(house.trace(Control::BulkWater, section, steps, status, mends, ""));
        for b in found {
            out.add(b, &section.places);
        }
    }
}

fn leak(house: &House, section: &Section, number: usize, skins: &[Segment], gap: Range) -> Break {
    let near =
        skins.iter().find(|s| (s.range.low - gap.high).abs() < hair() || (s.range.high - gap.low).abs() < hair());
    let outside = section.face("outside");
    let (from, to) = (level(section, gap.high), level(section, gap.low));
    let mend = match near {
        Some(skin) => format!("carry `{}` from {from} to {to}: {} more", skin.name, Inches(gap.height())),
        None => format!("coat the outside from {from} to {to}"),
    };
    Break {
        controls: vec![Control::BulkWater],
        fault: Fault { short: Some((-gap.height(), Need::WaterLap)), open: false },
        whereabouts: format!("from {from} to {to}"),
        elevation: gap.high,
        origin: near.map_or_else(|| outside.map_or(section.assembly.origin, |(_, h)| h.face.origin), |s| s.origin),
        label: format!("bare to the soil for {}", Inches(gap.height())),
        related: Vec::new(),
        mend,
        owner: house.owner(section, outside.map(|(i, _)| i)),
        section: Some(number),
    }
}

/// Where two skins meet below grade, the upper must lie outside the lower and lap it.
fn laps_that_leak(house: &House, section: &Section, number: usize, skins: &[Segment]) -> Vec<Break> {
    let mut out = Vec::new();
    for (i, a) in skins.iter().enumerate() {
        for b in skins.iter().skip(i + 1).filter(|b| a.name != b.name) {
            let (upper, lower) = if a.range.high >= b.range.high { (a, b) } else { (b, a) };
            let shared = upper.range.shared(lower.range);
            let ends_on_it = upper.range.low > lower.range.low + hair() && lower.range.high < upper.range.high - hair();
            let bridged = skins.iter().any(|s| {
                s.name != upper.name
                    && s.name != lower.name
                    && s.range.holds(Range { low: upper.range.low, high: lower.range.high.max(upper.range.low) })
            });
            if !ends_on_it || shared < -hair() || upper.range.low >= section.levels.grade || bridged {
                continue;
            }
            let outside = upper.origin == b.origin;
            let short = Fault::measured(shared, Need::WaterLap, house.asked);
            if short.is_met() && outside {
                continue;
            }
            let mend = if outside {
                let missing = house.asked.length(Need::WaterLap) - shared;
                format!("carry `{}` down over `{}` by {} more", upper.name, lower.name, Inches(missing))
            } else {
                format!("put `{}` on first, then `{}` over it", lower.name, upper.name)
            };
            let fault = if outside { short } else { Fault::NONE };
            out.push(Break {
                controls: vec![Control::BulkWater],
                fault,
                whereabouts: format!("between `{}` and `{}`", upper.name, lower.name),
                elevation: upper.range.low,
                origin: upper.origin,
                label: if outside {
                    super::fault::measure(&fault, house.asked)
                } else {
                    "laps behind the lower one: water runs in".to_owned()
                },
                related: vec![(lower.origin, format!("`{}` is the lower one", lower.name))],
                mend,
                owner: house.owner(section, upper.face),
                section: Some(number),
            });
        }
    }
    out
}

fn drain(house: &House, section: &Section, skins: &[Segment], out: &mut Out) {
    let Some((face, history)) = section.face("outside") else { return };
    let reach = house.asked.length(Need::DrainReach);
    let foot = skins.iter().map(|s| s.range.low).fold(section.levels.grade, |low, at| low.min(at));
    let drains = history.lives.iter().filter(|l| l.act == Act::Drain && l.stays());
    let near = drains
        .into_iter()
        .find(|d| (d.range.low - foot).abs() <= reach + hair() || (d.range.high - foot).abs() <= reach + hair());
    match near {
        Some(drain) if !house.foundation.ground.drain_outlet => {
            let finding = Finding::new(
                codes::DRAIN_WITHOUT_OUTLET,
                history.works()[drain.work].origin,
                format!("`{}` ends nowhere", drain.name),
            )
            .label("no outlet or sump is named")
            .related(house.foundation.ground.origin, "`drain_outlet` is not said here")
            .mend("name the outlet or sump: `drain_outlet: true` in `ground`");
            out.findings.push(super::told::on(house, section, Some(face), finding));
        }
        Some(_) => {}
        None if !skins.is_empty() => {
            let finding = Finding::new(
                codes::DRAIN_MISSING,
                history.face.origin,
                "no drain at the foot of the waterproofing".to_owned(),
            )
            .label(format!("water that is turned away stands at {}", level(section, foot)))
            .cause(format!("a drain within {} is due ({})", Inches(reach), house.asked.source(Need::DrainReach)))
            .mend("add `drain … along footing` and stone around it");
            out.findings.push(super::told::on(house, section, Some(face), finding));
        }
        None => {}
    }
}
