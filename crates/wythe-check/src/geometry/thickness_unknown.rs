//! `thickness_unknown`: a wall is drawn without thickness because none is known.

use wythe_findings::{Finding, codes};

use super::Site;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    let unknown: Vec<_> =
        site.f.walls.iter().zip(&site.plan.walls).filter(|(_, p)| p.thickness.is_none()).map(|(w, _)| w).collect();
    let Some((first, rest)) = unknown.split_first() else { return };
    let mut finding =
        Finding::new(codes::THICKNESS_UNKNOWN, first.origin, format!("the thickness of `{}` is not known", first.name))
            .label("drawn as a line without thickness")
            .mend("give it a build-up with its structure, also where it is old work")
            .item(site.item(first.name));
    for wall in rest {
        finding = finding.related(wall.origin, format!("`{}` too", wall.name));
    }
    out.push(finding);
}
