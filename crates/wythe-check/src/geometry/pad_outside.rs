//! `pad_outside`: the middle of an added footing lies outside the walls.

use wythe_findings::{Finding, codes};
use wythe_model::MeasuredFace;

use super::Site;
use super::feet::Feet;
use super::pier_outside::nearest_wall;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    if !site.has_inside() {
        return;
    }
    let outside = site.plan.outline(MeasuredFace::Outside);
    for pad in site.f.pads.iter().filter(|p| !outside.contains(p.at)) {
        let mut finding =
            Finding::new(codes::PAD_OUTSIDE, pad.origin, format!("`{}` lies outside the walls", pad.name))
                .label(format!("at {} east, {} north", Feet(pad.at.x), Feet(pad.at.y)));
        if let Some(wall) = nearest_wall(site, pad.at) {
            finding = finding.related(wall.origin, format!("`{}` is the nearest wall", wall.name));
        }
        out.push(
            finding.mend("places are east and north of the southwest corner of the walk").item(site.item(pad.name)),
        );
    }
}
