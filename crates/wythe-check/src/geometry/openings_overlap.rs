//! `openings_overlap`: two openings share a part of their wall.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::{OpeningRect, hair, opening_rects};

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for wall in 0..site.f.walls.len() {
        let rects = opening_rects(site.f, wall);
        for (i, first) in rects.iter().enumerate() {
            for second in rects.iter().skip(i + 1) {
                pair(site, first, second, out);
            }
        }
    }
}

fn pair(site: &Site<'_>, a: &OpeningRect, b: &OpeningRect, out: &mut Vec<Finding>) {
    let wide = a.rect.to.min(b.rect.to) - a.rect.from.max(b.rect.from);
    let high = a.rect.high.min(b.rect.high) - a.rect.low.max(b.rect.low);
    if wide <= hair() || high <= hair() {
        return;
    }
    let (Some(first), Some(second)) = (site.f.openings.get(a.opening), site.f.openings.get(b.opening)) else { return };
    let mut finding = Finding::new(
        codes::OPENINGS_OVERLAP,
        second.at_origin,
        format!("`{}` and `{}` overlap", first.name, second.name),
    )
    .label(format!("{} wide and {} high are in both", Feet(wide), Feet(high)))
    .related(first.at_origin, format!("`{}` runs from {} to {}", first.name, Feet(a.rect.from), Feet(a.rect.to)))
    .mend(format!("`{}` at {} or more, or another place", second.name, Feet(a.rect.to)))
    .item(site.item(second.name));
    if a.sill_assumed || b.sill_assumed {
        finding = finding.cause("an opening without a `sill` is taken to reach up to the top of the masonry");
    }
    out.push(finding);
}
