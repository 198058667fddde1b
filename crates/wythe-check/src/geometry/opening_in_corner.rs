//! `opening_in_corner`: an opening lies within its wall's length but runs into the masonry of the next wall.

use wythe_findings::{Finding, Fix, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    if !site.has_inside() {
        return;
    }
    for opening in &site.f.openings {
        let Some(index) = opening.wall else { continue };
        let (Some(wall), Some(drawn)) = (site.f.walls.get(index), site.plan.walls.get(index)) else { continue };
        let end = opening.at + opening.width;
        let within = opening.at >= -hair() && end <= wall.length + hair();
        let (before, past) = (drawn.inside.from - opening.at, end - drawn.inside.to);
        if !within || (before <= hair() && past <= hair()) {
            continue;
        }
        let count = site.f.walls.len();
        let neighbor =
            site.f.walls.get(if before > hair() { (index + count - 1) % count } else { (index + 1) % count });
        let mut finding = Finding::new(
            codes::OPENING_IN_CORNER,
            opening.at_origin,
            format!("`{}` opens into the corner", opening.name),
        )
        .label(format!("{} of it lies behind the next wall", Feet(before.max(past))))
        .item(site.item(opening.name));
        if let Some(neighbor) = neighbor {
            finding = finding.related(neighbor.origin, format!("`{}` stands in its way", neighbor.name));
        }
        let at = if before > hair() { drawn.inside.from } else { drawn.inside.to - opening.width };
        finding = if at + hair() >= drawn.inside.from && at + opening.width <= drawn.inside.to + hair() {
            let title = format!("move `{}` to {}", opening.name, Feet(at));
            let bound = if before > hair() { "more" } else { "less" };
            let fix = Fix::needs_consent(title, opening.at_origin, Feet(at).to_string());
            finding.mend(format!("`at {}` or {bound}", Feet(at))).fix(fix)
        } else {
            finding.mend(format!("at most {} wide", Feet(drawn.inside.length())))
        };
        out.push(finding);
    }
}
