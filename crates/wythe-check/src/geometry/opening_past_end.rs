//! `opening_past_end`: an opening does not lie within the length of its wall.

use wythe_findings::{Finding, Fix, codes};
use wythe_model::Length;
use wythe_model::geometry::hair;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for opening in &site.f.openings {
        let Some(wall) = opening.wall.and_then(|i| site.f.walls.get(i)) else { continue };
        let end = opening.at + opening.width;
        let before = opening.at + hair() < Length::default();
        if !before && end <= wall.length + hair() {
            continue;
        }
        let (title, label) = if before {
            (
                format!("`{}` starts before `{}` does", opening.name, wall.name),
                format!("{} before the wall's start", Feet(-opening.at)),
            )
        } else {
            (
                format!("`{}` runs past the end of `{}`", opening.name, wall.name),
                format!("{} needed, {} there", Feet(end), Feet(wall.length)),
            )
        };
        let mut finding = Finding::new(codes::OPENING_PAST_END, opening.at_origin, title)
            .label(label)
            .related(wall.length_origin, format!("`{}` is {} long", wall.name, Feet(wall.length)))
            .related(opening.size_origin, format!("`{}` is {} wide", opening.name, Feet(opening.width)))
            .item(site.item(opening.name));
        let room = wall.length - opening.width;
        finding = if room >= Length::default() {
            let at = if before { Length::default() } else { room };
            let mend = if before { "`at` nought or more".to_owned() } else { format!("`at {}` or less", Feet(at)) };
            let fix = Fix::needs_consent(
                format!("move `{}` to {}", opening.name, Feet(at)),
                opening.at_origin,
                Feet(at).to_string(),
            );
            finding.mend(mend).fix(fix)
        } else {
            finding.mend(format!("at most {} wide, or in a longer wall", Feet(wall.length)))
        };
        out.push(finding);
    }
}
