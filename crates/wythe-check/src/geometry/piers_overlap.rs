//! `piers_overlap`: two piers share ground.

use wythe_findings::{Finding, codes};
use wythe_model::Pier;
use wythe_model::geometry::Footprint;
use wythe_source::Span;

use super::Site;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    // In order of their west sides, so that only near ones are held against one another.
    let mut order: Vec<&Pier> = site.f.piers.iter().collect();
    order.sort_by(|a, b| (a.at.x - a.width / 2.0).value.total_cmp(&(b.at.x - b.width / 2.0).value));
    let mut seen: Vec<(Span, Span)> = Vec::new();
    let mut found: Vec<(&Pier, &Pier)> = Vec::new();
    for (i, west) in order.iter().enumerate() {
        let reach = west.at.x + west.width / 2.0;
        for east in order.iter().skip(i + 1).take_while(|p| p.at.x - p.width / 2.0 < reach) {
            let key = (west.origin.min(east.origin), west.origin.max(east.origin));
            // The pairs of one grid have one cause.
            if Footprint::from(*west).overlaps(&Footprint::from(*east)) && !seen.contains(&key) {
                seen.push(key);
                found.push(if west.origin <= east.origin { (west, east) } else { (east, west) });
            }
        }
    }
    for (first, second) in found {
        let mut finding = Finding::new(
            codes::PIERS_OVERLAP,
            second.origin,
            format!("`{}` and `{}` overlap", first.name, second.name),
        )
        .item(site.item(second.name));
        finding = if first.origin == second.origin {
            finding.label("piers of one grid").mend("a spacing larger than the pier")
        } else {
            finding
                .label(format!("`{}` stands here", second.name))
                .related(first.origin, format!("`{}` stands on the same ground", first.name))
                .mend("move one, or take it out")
        };
        out.push(finding);
    }
}
