//! `walk_open`: the walk does not end where it started.

use uom::si::length::{inch, meter};
use wythe_findings::{Edit, Finding, Fix, codes};
use wythe_model::geometry::{ClosingGap, hair};
use wythe_model::{Length, Point, Wall};

use super::Site;
use super::feet::Feet;

/// As many lengths as are proposed at most.
const MOST_FIXES: usize = 3;

pub(super) fn check(site: &Site<'_>, out: &mut Vec<Finding>) {
    let walls = &site.f.walls;
    let (Some(first), Some(last)) = (walls.first(), walls.last()) else { return };
    if !site.is_open() {
        return;
    }
    let gap = site.plan.walk.closing_gap();
    let mut finding = Finding::new(codes::WALK_OPEN, last.length_origin, "the walk does not close")
        .label(format!("ends {} of its start", in_words(&gap)))
        .related(first.origin, format!("`{}` starts the walk here", first.name))
        .item(site.item("walls"));
    let mends = mends(walls, &gap);
    if let Some(best) = mends.first() {
        let parts: Vec<String> = best.iter().map(|(w, l)| format!("`{}` {} long", w.name, Feet(*l))).collect();
        finding = finding.mend(format!("{} closes it; measure before changing", parts.join(" and ")));
    } else {
        finding = finding.mend("no length of one or two walls closes it: check their directions and their order");
    }
    for mend in mends.into_iter().take(MOST_FIXES) {
        let names: Vec<&str> = mend.iter().map(|(w, _)| w.name.as_str()).collect();
        let mut edits = mend.iter().map(|(w, l)| Edit { span: w.length_origin, text: Feet(*l).to_string() });
        let Some(edit) = edits.next() else { continue };
        let title = format!("close the walk by the length of {}", names.join(" and "));
        let mut fix = Fix::needs_consent(title, edit.span, edit.text);
        fix.edits.extend(edits);
        finding = finding.fix(fix);
    }
    out.push(finding);
}

/// `1' north and 2" east`.
pub(super) fn in_words(gap: &ClosingGap) -> String {
    let parts = gap.parts(Length::new::<inch>(1.0 / 16.0));
    let parts: Vec<String> = parts.iter().map(|(size, wind)| format!("{} {}", Feet(*size), wind.word())).collect();
    parts.join(" and ")
}

type Mend<'a> = Vec<(&'a Wall, Length)>;

/// Walls with the lengths that close the gap, the last wall first: one wall along the gap, or else two.
fn mends<'a>(walls: &'a [Wall], gap: &ClosingGap) -> Vec<Mend<'a>> {
    let (east, north) = (gap.east.get::<meter>(), gap.north.get::<meter>());
    let ways: Vec<(&Wall, (f64, f64))> = walls.iter().rev().map(|w| (w, way(w))).collect();
    let shortened = |w: &'a Wall, by: f64| {
        let length = w.length - Length::new::<meter>(by);
        (length > hair()).then_some((w, length))
    };
    let along = ways.iter().filter(|(_, (x, y))| (x * north - y * east).abs() < 1e-6);
    let one: Vec<Mend<'_>> = along.filter_map(|(w, (x, y))| Some(vec![shortened(w, x * east + y * north)?])).collect();
    if !one.is_empty() {
        return one;
    }
    for (i, (second, (x2, y2))) in ways.iter().enumerate() {
        for (first, (x1, y1)) in ways.iter().skip(i + 1) {
            let turn = x1 * y2 - y1 * x2;
            if turn.abs() < 1e-6 {
                continue;
            }
            let (a, b) = ((east * y2 - north * x2) / turn, (north * x1 - east * y1) / turn);
            if let (Some(one), Some(two)) = (shortened(first, a), shortened(second, b)) {
                return vec![vec![one, two]];
            }
        }
    }
    Vec::new()
}

/// The direction of a wall as parts of a meter east and north.
fn way(wall: &Wall) -> (f64, f64) {
    let end = Point::default().go(wall.bearing, Length::new::<meter>(1.0));
    (end.x.get::<meter>(), end.y.get::<meter>())
}
