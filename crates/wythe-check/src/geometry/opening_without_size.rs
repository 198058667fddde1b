//! `opening_without_size`: an opening's width or height is nought or less.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for opening in site.f.openings.iter().filter(|o| o.width <= hair() || o.height <= hair()) {
        out.push(
            Finding::new(codes::OPENING_WITHOUT_SIZE, opening.size_origin, format!("`{}` has no size", opening.name))
                .label(format!("{} wide, {} high", Feet(opening.width), Feet(opening.height)))
                .related(opening.origin, "the opening")
                .mend("width and height, both above nought")
                .item(site.item(opening.name)),
        );
    }
}
