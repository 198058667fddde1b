//! `pier_outside`: the middle of a pier lies outside the crawl space and clear of the walls.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::Footprint;

use super::Site;
use super::feet::Feet;
use super::pier_group::gather;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    if !site.has_inside() {
        return;
    }
    let outside = |p: &wythe_model::Pier| !site.inside.contains(p.at) && Footprint::from(p).cut(&site.inside).is_none();
    for group in gather(site, outside) {
        let Some(first) = group.piers.first() else { continue };
        let mut finding = Finding::new(
            codes::PIER_OUTSIDE,
            group.origin,
            format!("{} {} outside the walls", group.names(), group.verb("stands", "stand")),
        )
        .label(format!("`{}` at {} east, {} north", first.name, Feet(first.at.x), Feet(first.at.y)));
        if let Some(wall) = nearest_wall(site, first.at) {
            finding = finding.related(wall.origin, format!("`{}` is the nearest wall", wall.name));
        }
        out.push(
            finding.mend("places are east and north of the southwest corner of the walk").item(site.item(first.name)),
        );
    }
}

/// The wall whose inside line lies nearest to a point.
pub(super) fn nearest_wall<'a>(site: &Site<'a>, at: wythe_model::Point) -> Option<&'a wythe_model::Wall> {
    let distance = |i: usize| {
        let line = site.plan.walls.get(i)?.inside;
        let outline = wythe_model::geometry::Outline { points: vec![line.start, line.end] };
        outline.distance_to_edge(at)
    };
    let near = (0..site.f.walls.len()).filter_map(|i| Some((distance(i)?, i)));
    let (_, index) = near.min_by(|a, b| a.0.value.total_cmp(&b.0.value))?;
    site.f.walls.get(index)
}
