//! `beam_unsupported`: no pier lies under a beam.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::piers_under;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    for beam in &site.f.beams {
        if !piers_under(site.f, beam).is_empty() {
            continue;
        }
        let finding = Finding::new(codes::BEAM_UNSUPPORTED, beam.origin, format!("no pier lies under `{}`", beam.name))
            .label(format!("{} long", Feet(beam.from.distance_to(beam.to))))
            .mend("check its line against the piers; whether it carries is for whoever sizes it")
            .item(site.item(beam.name));
        out.push(finding);
    }
}
