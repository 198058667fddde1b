//! `ground_below_grade`: the crawl floor lies below outside grade all round; always noted.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    let mut below = Vec::new();
    for (wall, stretch) in site.f.walls.iter().flat_map(|w| w.stretches.iter().map(move |s| (w, s))) {
        let depth = stretch.levels.grade - stretch.levels.ground;
        if depth <= hair() {
            return;
        }
        below.push((depth, wall));
    }
    let Some(&(least, wall)) = below.iter().min_by(|a, b| a.0.value.total_cmp(&b.0.value)) else { return };
    let ground = &site.f.ground;
    let mut finding =
        Finding::new(codes::GROUND_BELOW_GRADE, ground.origin, "the crawl floor lies below grade all round")
            .label(format!("at least {} below grade", Feet(least)))
            .related(wall.origin, format!("least at `{}`", wall.name))
            .item(site.item("ground"));
    finding = if ground.drain_outlet {
        finding.cause("an outlet or a sump is recorded for the lowest point")
    } else {
        finding.mend("record an outlet or a sump for the lowest point of the floor")
    };
    out.push(finding);
}
