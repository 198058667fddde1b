//! `closing_error`: the walk closes within its tolerance, though not to a hair.

use uom::si::length::inch;
use wythe_findings::{Finding, codes};
use wythe_model::Length;

use super::Site;
use super::feet::Feet;
use super::walk_open::in_words;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    let Some(last) = site.f.walls.last() else { return };
    let gap = site.plan.walk.closing_gap();
    // What a tape cannot show is not worth a word.
    if site.is_open() || gap.size() < Length::new::<inch>(1.0 / 16.0) {
        return;
    }
    out.push(
        Finding::new(codes::CLOSING_ERROR, last.length_origin, format!("the walk closes to {}", Feet(gap.size())))
            .label(format!("ends {} of its start", in_words(&gap)))
            .cause(format!("up to {} is taken as closed", Feet(site.f.closing_tolerance)))
            .item(site.item("walls")),
    );
}
