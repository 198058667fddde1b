//! The vapor and the air line of a wall: from the top of the masonry down to the liner of the ground.
//!
//! Segments are nodes, joints between them links; a link that is met weighs nothing, one that must be mended
//! weighs its mend. The lightest way is the proof where it weighs nothing, and else the shortest mend. The air line
//! takes what the vapor line must mend as mended, so that one gap is one fault with one mend for both.

use wythe_model::{Control, SurfaceKind};
use wythe_source::Symbol;

use super::fault::{Break, Fault};
use super::graph::lightest;
use super::house::{House, Out, step};
use super::link::{Joint, links};
use super::section::{Section, Segment, is_unsure};
use super::trace::{Status, Step};
use super::wall_break::{Broken, met};

/// Proves both lines on every wall.
pub(crate) fn prove(house: &House, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate().filter(|(_, s)| s.is_wall()) {
        wall(house, number, section, out);
    }
}

/// A link that must be mended, known by what it joins.
struct Open {
    key: Key,
    fault: Fault,
    found: Break,
}

/// What a link joins, by the names of layers: the same for both lines, whose segments are not.
type Key = (u8, Symbol, Option<Symbol>);

fn wall(house: &House, number: usize, section: &Section, out: &mut Out) {
    let mut open = walk(house, number, section, Control::Vapor, &[], out);
    for air in walk(house, number, section, Control::Air, &open, out) {
        match open.iter_mut().find(|vapor| vapor.key == air.key) {
            Some(vapor) => {
                *vapor = Open { found: Break { controls: vec![Control::Vapor, Control::Air], ..air.found }, ..air };
            }
            None => open.push(air),
        }
    }
    for one in open {
        out.add(one.found, &section.places);
    }
}

/// Proves one line, leaves its trace, and gives what must be mended. What `mended` names weighs nothing.
fn walk(
    house: &House,
    number: usize,
    section: &Section,
    control: Control,
    mended: &[Open],
    out: &mut Out,
) -> Vec<Open> {
    let segments = section.segments(control, &["head", "inside"], house.asked);
    let (start, end) = (segments.len(), segments.len() + 1);
    let mut links = links(house, section, control, &segments);
    for link in links.iter_mut().filter(|l| mended.iter().any(|m| m.key == key(&l.what.0, &segments))) {
        link.weight = 0.0;
    }
    let broken = Broken { house, section, number, control };
    let Some(way) = lightest(segments.len() + 2, &links, start, end) else {
        let found = broken.nothing(&segments);
        let mends = vec![house.mend(&found)];
        out.traces.push(house.trace(control, section, Vec::new(), Status::Broken, mends, ""));
        return vec![Open { key: (u8::MAX, section.assembly.name, None), fault: found.fault, found }];
    };
    let (mut steps, mut mends, mut open, mut unsure) = (Vec::new(), Vec::new(), Vec::new(), None);
    let mut at = start;
    for link in way.into_iter().map(|index| &links[index]) {
        at = if link.a == at { link.b } else { link.a };
        let (joint, fault) = &link.what;
        let joined = if fault.is_met() {
            met(house, section, &segments, *joint, control)
        } else {
            super::fault::measure(fault, house.asked)
        };
        match segments.get(at) {
            Some(segment) => {
                steps.push(step(SurfaceKind::Wall, segment, section, joined));
                if control == Control::Vapor && is_unsure(segment.product, house.asked) {
                    unsure.get_or_insert(*segment);
                }
            }
            None => steps.extend(ground_step(house, section, control, joined)),
        }
        if !fault.is_met() {
            let key = key(joint, &segments);
            let fault = mended.iter().find(|m| m.key == key).map_or(*fault, |m| m.fault.and(*fault));
            let found = broken.link(&segments, *joint, fault);
            mends.push(house.mend(&found));
            open.push(Open { key, fault, found });
        }
    }
    let status = match (mends.is_empty(), unsure) {
        (false, _) => Status::Broken,
        (true, Some(_)) => Status::Unsure,
        (true, None) => Status::Proven,
    };
    let note = match house.foundation.sill.origin {
        Some(_) => "",
        None => "to the top of the masonry; nothing is said of the rim",
    };
    out.traces.push(house.trace(control, section, steps, status, mends, note));
    if let Some(segment) = unsure.filter(|_| status == Status::Unsure) {
        super::told::unsure(house, section, &segment, out);
    }
    open
}

fn key(joint: &Joint, segments: &[Segment]) -> Key {
    match *joint {
        Joint::Top(i) => (0, segments[i].name, None),
        Joint::Between(i, j) => (1, segments[i].name, Some(segments[j].name)),
        Joint::Foot(i, lap) => (2, segments[i].name, Some(lap.joint.name)),
        Joint::Unlapped(i) => (3, segments[i].name, None),
        Joint::Bare(i) => (4, segments[i].name, None),
    }
}

/// The last step of a wall: the layer of the ground that it comes down to.
fn ground_step(house: &House, section: &Section, control: Control, joined: String) -> Option<Step> {
    let (layer, origin) = house.ground_layer(control)?;
    let (level, face) = (section.levels.ground, Symbol::new("face"));
    Some(Step { layer, element: SurfaceKind::Ground, face, from: level, to: level, origin, joined })
}
