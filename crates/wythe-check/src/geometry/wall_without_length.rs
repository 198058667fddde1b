//! `wall_without_length`: a wall's length is nought or less.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for wall in site.f.walls.iter().filter(|w| w.length <= hair() || !w.length.is_finite()) {
        out.push(
            Finding::new(codes::WALL_WITHOUT_LENGTH, wall.length_origin, format!("`{}` has no length", wall.name))
                .label(format!("{} long", Feet(wall.length)))
                .related(wall.origin, format!("`{}` is a wall of the walk", wall.name))
                .mend("give its length, or take the wall out")
                .item(site.item(wall.name)),
        );
    }
}
