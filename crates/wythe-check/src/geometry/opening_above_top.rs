//! `opening_above_top`: an opening reaches above the masonry.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::{OpeningRect, hair, opening_rect};
use wythe_model::{Levels, Opening, Wall};

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for (opening, wall, rect, levels) in placed(site) {
        let Some(top) = levels.iter().map(|l| l.top).reduce(|a, b| a.min(b)) else { continue };
        if rect.rect.high <= top + hair() {
            continue;
        }
        out.push(
            Finding::new(
                codes::OPENING_ABOVE_TOP,
                opening.size_origin,
                format!("`{}` reaches above `{}`", opening.name, wall.name),
            )
            .label(format!("{} above the top of the masonry", Feet(rect.rect.high - top)))
            .related(wall.origin, format!("`{}` ends there", wall.name))
            .mend(format!("lower its sill by {}, or make it less high", Feet(rect.rect.high - top)))
            .item(site.item(opening.name)),
        );
    }
}

/// Each opening with its wall, its rectangle, and the levels of the stretches it lies in.
pub(super) fn placed<'a>(
    site: &'a Site<'_>,
) -> impl Iterator<Item = (&'a Opening, &'a Wall, OpeningRect, Vec<Levels>)> + 'a {
    site.f.openings.iter().enumerate().filter_map(|(i, opening)| {
        let wall = site.f.walls.get(opening.wall?)?;
        let rect = opening_rect(site.f, i)?;
        let touched = wall.stretches.iter().filter(|s| s.from < rect.rect.to && rect.rect.from < s.to);
        Some((opening, wall, rect, touched.map(|s| s.levels).collect()))
    })
}
