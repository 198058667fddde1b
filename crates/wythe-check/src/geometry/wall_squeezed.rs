//! `wall_squeezed`: nothing of a wall is left inside between its neighbors.

use wythe_findings::{Finding, codes};
use wythe_model::geometry::wall_thickness;

use super::Site;
use super::feet::Feet;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    if site.is_open() || !site.crossings.is_empty() {
        return;
    }
    let squeezed = site.plan.squeezed();
    let Some(wall) = squeezed.first().and_then(|&i| site.f.walls.get(i)) else { return };
    let mut finding =
        Finding::new(codes::WALL_SQUEEZED, wall.length_origin, format!("nothing of `{}` is left inside", wall.name))
            .label(format!("{} on the {} face", Feet(wall.length), site.f.measured.word()))
            .mend("check its length, the thickness of the walls, and `measured`")
            .item(site.item(wall.name));
    let count = site.f.walls.len();
    for step in [count - 1, 1] {
        let neighbor = squeezed.first().and_then(|i| site.f.walls.get((i + step) % count));
        if let Some((n, thickness)) = neighbor.and_then(|n| Some((n, wall_thickness(site.f, n)?))) {
            finding = finding.related(n.origin, format!("`{}` is {} thick", n.name, Feet(thickness)));
        }
    }
    out.push(finding);
}
