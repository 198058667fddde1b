//! `ground_below_footing`: the crawl floor lies below the top of the footing.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;
use super::level_group::gather;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    gather(
        site,
        codes::GROUND_BELOW_FOOTING,
        |l| (l.ground + hair() < l.footing).then_some((l.ground, l.footing)),
        |wall, (ground, footing)| {
            (
                format!("the crawl floor at `{}` lies below its footing", wall.name),
                format!("{} below the top of the footing", Feet(footing - ground)),
                "raise the ground or lower the footing".to_owned(),
            )
        },
        out,
    );
}
