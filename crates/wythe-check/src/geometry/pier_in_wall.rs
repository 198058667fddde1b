//! `pier_in_wall`: a pier and a wall share ground.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::Footprint;

use super::Site;
use super::pier_group::gather;
use super::pier_outside::nearest_wall;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    if !site.has_inside() {
        return;
    }
    for group in gather(site, |p| Footprint::from(p).cut(&site.inside).is_some()) {
        let Some(first) = group.piers.first() else { continue };
        let mut finding = Finding::new(
            codes::PIER_IN_WALL,
            group.origin,
            format!("{} {} in a wall", group.names(), group.verb("stands", "stand")),
        )
        .label("it crosses the inside face");
        if let Some(wall) = nearest_wall(site, first.at) {
            finding = finding.related(wall.origin, format!("`{}` stands there", wall.name));
        }
        out.push(finding.mend("move it clear of the wall, or end the beam in a pocket").item(site.item(first.name)));
    }
}
