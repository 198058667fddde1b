//! `pier_without_height`: a pier's top does not lie above the crawl floor.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;
use super::pier_group::gather;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for group in gather(site, |p| p.top <= p.ground + hair()) {
        let Some(first) = group.piers.first() else { continue };
        let mut finding = Finding::new(
            codes::PIER_WITHOUT_HEIGHT,
            group.origin,
            format!("{} {} no height", group.names(), group.verb("has", "have")),
        )
        .label(format!("the top lies {} below the crawl floor", Feet(first.ground - first.top)))
        .mend("check the pier's `top`, the beam's `drop` and the inside ground")
        .item(site.item(first.name));
        if let Some(beam) = site.f.beams.iter().find(|b| Some(b.name) == first.beam) {
            finding = finding.related(beam.origin, format!("`{}` lies {} below the sill", beam.name, Feet(beam.drop)));
        }
        out.push(finding);
    }
}
