//! What to look at before concrete is poured, and before work is covered.

use wythe_model::OpeningKind;
use wythe_render::drawing::words as plain;

use super::page;
use crate::House;
use crate::page::{Block, Page, Size};
use crate::small::key_plan;
use crate::words::say;

pub(super) fn pour(house: &House<'_>) -> Page {
    let (w, f, telling) = (house.words, house.f(), house.telling());
    let mut out = page(house, say!(w, "pour-title"), 2, Size::Large);
    out.blocks.push(Block::Warning(vec![say!(w, "care-dig"), say!(w, "pour-structure")]));
    out.blocks.extend(key_plan(house, None).map(|d| Block::Drawing(Box::new(d))));
    let mut ground = vec![say!(w, "pour-marked"), say!(w, "pour-soil")];
    if let Some(frost) = f.site.frost_depth {
        ground.push(say!(w, "pour-frost", depth = telling.length(frost)));
    }
    for wall in &f.walls {
        let parts: Vec<String> = wall
            .stretches
            .iter()
            .map(|s| {
                let depth = telling.length(s.levels.grade - s.levels.footing);
                if wall.stretches.len() == 1 {
                    depth
                } else {
                    say!(w, "pour-from", depth = depth, at = telling.length(s.from))
                }
            })
            .collect();
        ground.push(say!(w, "pour-footing", wall = plain::name(wall.name), depth = parts.join(", ")));
    }
    for pad in &f.pads {
        let size = format!(
            "{} x {} x {}",
            telling.length(pad.width),
            telling.length(pad.depth),
            telling.length(pad.thickness)
        );
        ground.push(say!(w, "pour-pad", name = plain::name(pad.name), size = size));
    }
    if !f.piers.is_empty() {
        let names: Vec<_> = f.piers.iter().map(|p| p.name).collect();
        ground.push(say!(w, "pour-piers", count = names.len(), names = telling.names(&names)));
    }
    out.blocks.push(Block::Heading(say!(w, "pour-ground")));
    out.blocks.push(Block::Checks(ground));
    let mut forms = vec![say!(w, "pour-square"), say!(w, "pour-steel")];
    for opening in &f.openings {
        let wall = opening.wall.and_then(|i| f.walls.get(i)).map_or_else(String::new, |x| plain::name(x.name));
        let size = format!("{} x {}", telling.span(opening.width), telling.span(opening.height));
        let (name, at) = (plain::name(opening.name), telling.length(opening.at));
        forms.push(match opening.kind {
            OpeningKind::BeamPocket => say!(w, "pour-pocket", name = name, wall = wall, size = size, at = at),
            OpeningKind::Sleeve => say!(w, "pour-sleeve", name = name, wall = wall, size = size, at = at),
            _ => say!(w, "pour-opening", name = name, wall = wall, size = size, at = at),
        });
    }
    forms.push(say!(w, "pour-anchors"));
    forms.push(say!(w, "pour-top"));
    forms.push(say!(w, "pour-drain"));
    if f.site.radon {
        forms.push(say!(w, "pour-radon"));
    }
    out.blocks.push(Block::Heading(say!(w, "pour-forms")));
    out.blocks.push(Block::Checks(forms));
    out.blocks.push(Block::SignOff(vec![say!(w, "sign-checked"), say!(w, "sign-date")]));
    out
}

pub(super) fn cover(house: &House<'_>) -> Page {
    let w = house.words;
    let mut out = page(house, say!(w, "cover-title"), 2, Size::Large);
    out.blocks.push(Block::Text(say!(w, "cover-note")));
    for (name, phase) in house.phases() {
        let visits = house.visits(name);
        let covers = phase.hold.is_some() || !phase.covers.is_empty();
        if visits.is_empty() && !covers {
            continue;
        }
        out.blocks.push(Block::Heading(say!(w, "cover-visit", name = plain::name(name))));
        if !phase.covers.is_empty() {
            out.blocks.push(Block::Text(say!(w, "cover-hides")));
        }
        for visit in visits {
            out.blocks.push(Block::ChecksAt(visit.place(house), visit.steps(house)));
        }
        if let Some(hold) = &phase.hold {
            out.blocks.push(Block::Warning(vec![say!(w, "crew-stop", hold = hold.to_string())]));
        }
    }
    out.blocks.push(Block::Checks(vec![say!(w, "cover-photos"), say!(w, "cover-tears"), say!(w, "cover-dry")]));
    out.blocks.push(Block::SignOff(vec![say!(w, "sign-seen"), say!(w, "sign-date"), say!(w, "sign-photos")]));
    out
}
