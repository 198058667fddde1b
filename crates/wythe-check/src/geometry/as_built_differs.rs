//! `as_built_differs`: walls are not as long as they are drawn.

use uom::si::area::square_foot;
use uom::si::length::inch;
use wythe_findings::{Finding, codes};
use wythe_model::geometry::{Basis, Plan};
use wythe_model::{Length, MeasuredFace, Wall};

use super::Site;
use super::feet::Feet;
use super::walk_open::in_words;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    let off = |w: &Wall| w.as_built_length.map(|built| built - w.length).filter(|d| d.abs() >= least());
    let differing: Vec<(&Wall, Length)> = site.f.walls.iter().filter_map(|w| Some((w, off(w)?))).collect();
    let Some(((first, difference), rest)) = differing.split_first() else { return };
    let title = match rest.len() {
        0 => format!("`{}` is not as long as drawn", first.name),
        more => format!("{} walls are not as long as drawn", more + 1),
    };
    let mut finding = Finding::new(codes::AS_BUILT_DIFFERS, first.length_origin, title)
        .label(words(first, *difference))
        .item(site.item(first.name));
    for (wall, difference) in rest {
        finding = finding.related(wall.length_origin, words(wall, *difference));
    }
    let built = Plan::of(site.f, Basis::AsBuilt);
    let area = |plan: &Plan| plan.area(MeasuredFace::Inside).get::<square_foot>();
    let gap = built.walk.closing_gap();
    let closes = if gap.size() < least() {
        "the walk as built closes".to_owned()
    } else {
        format!("the walk as built ends {} of its start", in_words(&gap))
    };
    let cause =
        format!("the floor inside is {:.0} ft² drawn and {:.0} ft² built; {closes}", area(&site.plan), area(&built));
    out.push(finding.cause(cause));
}

fn least() -> Length {
    Length::new::<inch>(1.0 / 16.0)
}

fn words(wall: &Wall, difference: Length) -> String {
    let more = if difference > Length::default() { "longer" } else { "shorter" };
    format!("`{}` is built {} {more} than drawn", wall.name, Feet(difference.abs()))
}
