//! `walk_crosses`: two walls meet that are not neighbors.

use wythe_findings::{Finding, codes};

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    // One crossing makes more of them; the first says it.
    let Some(crossing) = site.crossings.first() else { return };
    let (Some(first), Some(second)) = (site.f.walls.get(crossing.first), site.f.walls.get(crossing.second)) else {
        return;
    };
    let mut finding =
        Finding::new(codes::WALK_CROSSES, second.origin, format!("`{}` meets `{}`", second.name, first.name))
            .label(format!("they meet {} east and {} north of the start", Feet(crossing.at.x), Feet(crossing.at.y)))
            .related(first.origin, format!("`{}` runs through there", first.name))
            .mend("check the directions, the lengths and the order of the walls")
            .item(site.item(second.name));
    if site.crossings.len() > 1 {
        finding = finding.cause(format!("the walk meets itself at {} places in all", site.crossings.len()));
    }
    out.push(finding);
}
