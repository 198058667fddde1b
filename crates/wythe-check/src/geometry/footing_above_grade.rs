//! `footing_above_grade`: the top of the footing lies above the outside grade.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;
use super::level_group::gather;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    gather(
        site,
        codes::FOOTING_ABOVE_GRADE,
        |l| (l.footing > l.grade + hair()).then_some((l.footing, l.grade)),
        |wall, (footing, grade)| {
            let mend = match site.f.site.frost_depth {
                Some(depth) => format!("lower it below grade by the site's frost depth, {}", Feet(depth)),
                None => "lower it below grade by the frost depth of the site".to_owned(),
            };
            (
                format!("the footing of `{}` lies above grade", wall.name),
                format!("footing at datum {}, grade at datum {}", Signed(footing), Signed(grade)),
                mend,
            )
        },
        out,
    );
}

/// A length with its sign, as elevations are written: `- 1' 4"`.
pub(super) struct Signed(pub wythe_model::Length);

impl std::fmt::Display for Signed {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let sign = if self.0 < wythe_model::Length::default() { '-' } else { '+' };
        write!(f, "{sign} {}", Feet(self.0.abs()))
    }
}
