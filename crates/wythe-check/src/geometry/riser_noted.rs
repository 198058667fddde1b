//! `riser_noted`: the crawl floor steps, and the ground sheet must go down the step.

use uom::si::f64::Length;
use wythe_findings::{Finding, codes};
use wythe_model::SpaceKind;
use wythe_model::geometry::risers;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    if site.f.space != SpaceKind::Closed || site.f.ground.assembly.is_none() {
        return;
    }
    let found = risers(site.f, &site.plan);
    let Some(highest) = found.iter().map(|r| r.high - r.low).reduce(Length::max) else { return };
    let long = found.iter().fold(Length::default(), |sum, r| sum + r.line.length());
    let steps = if found.len() == 1 { "a riser".to_owned() } else { format!("{} risers", found.len()) };
    out.push(
        Finding::new(codes::RISER_NOTED, site.f.ground.origin, format!("the crawl floor steps: {steps} to be lined"))
            .label(format!("up to {} high, {} long in all", Feet(highest), Feet(long)))
            .cause("the takeoff counts the sheet for it")
            .mend("run the ground sheet down the riser, and lap and tape it at the foot")
            .item(site.item("ground")),
    );
}
