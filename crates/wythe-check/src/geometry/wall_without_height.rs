//! `wall_without_height`: the top of the masonry does not lie above the footing and the crawl floor.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::footing_above_grade::Signed;
use super::level_group::gather;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    gather(
        site,
        codes::WALL_WITHOUT_HEIGHT,
        |l| {
            let foot = l.footing.max(l.ground);
            (l.top <= foot + hair()).then_some((l.top, foot))
        },
        |wall, (top, foot)| {
            (
                format!("`{}` has no height", wall.name),
                format!("top at datum {}, its foot at datum {}", Signed(top), Signed(foot)),
                "check `top`, `ground` and `footing`; below the datum is minus".to_owned(),
            )
        },
        out,
    );
}
