//! `grade_above_top`: the outside grade reaches the top of the masonry.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;
use super::level_group::gather;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    gather(
        site,
        codes::GRADE_ABOVE_TOP,
        |l| (l.grade + hair() >= l.top).then_some((l.grade, l.top)),
        |wall, (grade, top)| {
            let above = grade - top;
            let label = if above <= hair() {
                "grade lies at the top of the masonry".to_owned()
            } else {
                format!("grade lies {} above the top of the masonry", Feet(above))
            };
            (format!("grade reaches the top of `{}`", wall.name), label, "lower the grade or raise the wall".to_owned())
        },
        out,
    );
}
