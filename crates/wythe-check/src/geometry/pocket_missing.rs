//! `pocket_missing`: a dropped beam ends in a wall where no pocket is written.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::{Pocket, hair, pockets};
use wythe_model::{Length, OpeningKind};

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    let missing: Vec<Pocket> = pockets(site.f, &site.plan)
        .into_iter()
        .filter(|p| p.drop > Length::default() && !is_written(site, p))
        .collect();
    for (number, beam) in site.f.beams.iter().enumerate() {
        let ends: Vec<&Pocket> = missing.iter().filter(|p| p.beam == number).collect();
        let places: Vec<String> = ends
            .iter()
            .filter_map(|p| Some(format!("`{}` at {}", site.f.walls.get(p.wall)?.name, Feet(p.along))))
            .collect();
        if places.is_empty() {
            continue;
        }
        let mut finding = Finding::new(
            codes::POCKET_MISSING,
            beam.origin,
            format!("`{}` makes a pocket that is not written", beam.name),
        )
        .label(format!("{} below the sill where it meets {}", Feet(beam.drop), places.join(" and ")))
        .mend("an `opening` of the kind `beam_pocket` there, with its size and sill")
        .item(site.item(beam.name));
        for wall in ends.iter().filter_map(|p| site.f.walls.get(p.wall)) {
            finding = finding.related(wall.origin, format!("the pocket is in `{}`", wall.name));
        }
        out.push(finding);
    }
}

fn is_written(site: &Site<'_>, pocket: &Pocket) -> bool {
    site.f.openings.iter().any(|o| {
        o.kind == OpeningKind::BeamPocket
            && o.wall == Some(pocket.wall)
            && o.at <= pocket.along + hair()
            && pocket.along <= o.at + o.width + hair()
    })
}
