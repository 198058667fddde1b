//! The vapor and the air line of a wall: from the top of the masonry down to the liner of the ground.
//!
//! Segments are nodes, joints between them links; a link that is met weighs nothing, one that must be mended
//! weighs its mend. The lightest way is the proof where it weighs nothing, and else the shortest mend.

use wythe_model::{Control, SurfaceKind};
use wythe_source::Symbol;

use super::graph::lightest;
use super::house::{House, Out, step};
use super::link::links;
use super::section::{Section, is_unsure};
use super::trace::{Status, Step};
use super::wall_break::{Broken, met};

/// Proves one line on every wall.
pub(crate) fn prove(house: &House, control: Control, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate().filter(|(_, s)| s.is_wall()) {
        wall(house, number, section, control, out);
    }
}

fn wall(house: &House, number: usize, section: &Section, control: Control, out: &mut Out) {
    let segments = section.segments(control, &["head", "inside"], house.asked);
    let (start, end) = (segments.len(), segments.len() + 1);
    let links = links(house, section, control, &segments);
    let broken = Broken { house, section, number, control };
    let Some(way) = lightest(segments.len() + 2, &links, start, end) else {
        let found = broken.nothing(&segments);
        let mends = vec![house.mend(&found)];
        out.traces.push(house.trace(control, section, Vec::new(), Status::Broken, mends, ""));
        out.add(found, &section.places);
        return;
    };
    let (mut steps, mut mends, mut unsure) = (Vec::new(), Vec::new(), None);
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
            let found = broken.link(&segments, *joint, *fault);
            mends.push(house.mend(&found));
            out.add(found, &section.places);
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
}

/// The last step of a wall: the layer of the ground that it comes down to.
fn ground_step(house: &House, section: &Section, control: Control, joined: String) -> Option<Step> {
    let (layer, origin) = house.ground_layer(control)?;
    let (level, face) = (section.levels.ground, Symbol::new("face"));
    Some(Step { layer, element: SurfaceKind::Ground, face, from: level, to: level, origin, joined })
}
