//! `opening_below_footing`: an opening reaches below the top of the footing.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;
use super::opening_above_top::placed;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for (opening, wall, rect, levels) in placed(site) {
        let Some(footing) = levels.iter().map(|l| l.footing).reduce(|a, b| a.max(b)) else { continue };
        if rect.rect.low + hair() >= footing {
            continue;
        }
        let deep = footing - rect.rect.low;
        let mut finding = Finding::new(
            codes::OPENING_BELOW_FOOTING,
            opening.size_origin,
            format!("`{}` reaches below the footing of `{}`", opening.name, wall.name),
        )
        .label(format!("{} below the top of the footing", Feet(deep)))
        .related(wall.origin, format!("`{}` stands on that footing", wall.name))
        .item(site.item(opening.name));
        finding = if rect.sill_assumed {
            finding
                .cause("an opening without a `sill` is taken to hang from the top of the masonry")
                .mend(format!("make it {} less high", Feet(deep)))
        } else {
            finding.mend(format!("raise its sill by {}, or make it less high", Feet(deep)))
        };
        out.push(finding);
    }
}
