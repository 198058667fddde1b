//! Hatches: what a cut surface is made of, told by strokes that need no color.
//!
//! After the general notion of ISO 128-50 and ASME Y14.2: thin parallel strokes at an angle to the outline, closer
//! for denser stuff, neighbors told apart by angle. The sets themselves are this project's own. Strokes are real
//! lines cut at the outline, not patterns, since few drafting programs read those.

use super::scene::{Fill, Form, Group, Ink, Spot, Weight, pen, spot};

/// What is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Hatch {
    /// Block, brick, stone.
    Masonry,
    /// Concrete.
    Concrete,
    /// Drain stone, gravel.
    Stone,
    /// Lumber across the grain.
    Lumber,
    /// Insulation board.
    Board,
    /// What is left over of a sheet.
    Offcut,
    /// What is thrown away.
    Waste,
}

/// Fills an outline: a wash of the ink, then its strokes. The outline itself is not drawn.
pub(super) fn fill(group: &mut Group, hatch: Hatch, outline: &[Spot]) {
    let ink = ink(hatch);
    group.shape(Form::Area(outline.to_vec()), Fill::Wash(ink), None);
    let strokes = match hatch {
        Hatch::Masonry => lines(outline, 45.0, &[0.0, 2.2]),
        Hatch::Lumber => [lines(outline, 45.0, &[0.0, 3.4]), lines(outline, 135.0, &[0.0, 3.4])].concat(),
        Hatch::Board => [lines(outline, 60.0, &[0.0, 1.7]), lines(outline, 120.0, &[0.0, 1.7])].concat(),
        Hatch::Offcut => lines(outline, 135.0, &[0.0, 4.0]),
        Hatch::Waste => [lines(outline, 45.0, &[0.0, 2.4]), lines(outline, 135.0, &[0.0, 2.4])].concat(),
        Hatch::Concrete => grains(outline, 2.3, 0.25),
        Hatch::Stone => pebbles(outline, 1.9),
    };
    if !strokes.is_empty() {
        group.shape(Form::Strokes(strokes), Fill::None, Some(pen(ink, Weight::Hair)));
    }
}

const fn ink(hatch: Hatch) -> Ink {
    match hatch {
        Hatch::Masonry | Hatch::Concrete => Ink::Masonry,
        Hatch::Stone => Ink::Stone,
        Hatch::Lumber => Ink::Wood,
        Hatch::Board => Ink::Board,
        Hatch::Offcut | Hatch::Waste => Ink::Fine,
    }
}

/// The most strokes one outline gets; a hall-sized one gets none rather than a file nobody can open.
const MOST: f64 = 4_000.0;

/// Parallel lines at an angle (counterclockwise from east, as seen), each period repeating the given offsets but the
/// last, which is the period.
fn lines(outline: &[Spot], degrees: f64, period: &[f64]) -> Vec<(Spot, Spot)> {
    let angle = -degrees.to_radians();
    let (along, across) = (spot(angle.cos(), angle.sin()), spot(-angle.sin(), angle.cos()));
    let dot = |a: Spot, b: Spot| a.x * b.x + a.y * b.y;
    let turned: Vec<Spot> = outline.iter().map(|s| spot(dot(*s, along), dot(*s, across))).collect();
    let low = turned.iter().map(|s| s.y).fold(f64::INFINITY, f64::min);
    let high = turned.iter().map(|s| s.y).fold(f64::NEG_INFINITY, f64::max);
    let Some((&step, offsets)) = period.split_last() else { return Vec::new() };
    if !(high - low).is_finite() || (high - low) / step * offsets.len() as f64 > MOST {
        return Vec::new();
    }
    let back = |u: f64, v: f64| spot(u * along.x + v * across.x, u * along.y + v * across.y);
    let mut out = Vec::new();
    let mut at = (low / step).floor() * step;
    while at < high {
        for offset in offsets {
            let level = at + offset;
            for (from, to) in spans(&turned, level) {
                if to - from > 0.05 {
                    out.push((back(from, level), back(to, level)));
                }
            }
        }
        at += step;
    }
    out
}

/// Where a level line runs inside an outline, from left to right.
fn spans(outline: &[Spot], level: f64) -> Vec<(f64, f64)> {
    let next = outline.iter().cycle().skip(1);
    let mut crossings: Vec<f64> = outline
        .iter()
        .zip(next)
        .filter(|(a, b)| (a.y <= level) != (b.y <= level))
        .map(|(a, b)| a.x + (b.x - a.x) * (level - a.y) / (b.y - a.y))
        .collect();
    crossings.sort_by(f64::total_cmp);
    crossings.chunks_exact(2).map(|pair| (pair[0], pair[1])).collect()
}

/// Spots inside an outline on a shaken grid; the shaking is a fixed sequence, so that a drawing is always the same.
fn shaken(outline: &[Spot], step: f64, margin: f64) -> Vec<(Spot, u32)> {
    let low = outline.iter().map(|s| s.y).fold(f64::INFINITY, f64::min);
    let high = outline.iter().map(|s| s.y).fold(f64::NEG_INFINITY, f64::max);
    if !(high - low).is_finite() || (high - low) / step > MOST / 40.0 {
        return Vec::new();
    }
    let mut seed: u32 = 0x2545_f491;
    let mut next = || {
        seed ^= seed << 13;
        seed ^= seed >> 17;
        seed ^= seed << 5;
        seed
    };
    // Most outlines are upright boxes, whose spans are all the same.
    #[expect(clippy::float_cmp, reason = "corners of one box share their coordinates exactly")]
    let is_box =
        outline.len() == 4 && outline.iter().zip(outline.iter().cycle().skip(1)).all(|(a, b)| a.x == b.x || a.y == b.y);
    let mut out = Vec::new();
    let mut y = low + step / 2.0;
    while y < high {
        for (from, to) in spans(outline, y) {
            let mut x = from + step / 2.0;
            while x < to && out.len() < MOST as usize {
                let random = next();
                let shake = |bits: u32| (f64::from(bits & 0xff) / 255.0 - 0.5) * step * 0.5;
                let at = spot(x + shake(random), y + shake(random >> 8));
                let fits = |dx: f64, dy: f64| {
                    if is_box {
                        return at.x + dx > from && at.x + dx < to && at.y + dy > low && at.y + dy < high;
                    }
                    spans(outline, at.y + dy).iter().any(|(a, b)| at.x + dx > *a && at.x + dx < *b)
                };
                if fits(-margin, 0.0) && fits(margin, 0.0) && fits(0.0, -margin) && fits(0.0, margin) {
                    out.push((at, random >> 16));
                }
                x += step;
            }
        }
        y += step;
    }
    out
}

/// Dots, with a small triangle now and then.
fn grains(outline: &[Spot], step: f64, size: f64) -> Vec<(Spot, Spot)> {
    let mut out = Vec::new();
    for (at, random) in shaken(outline, step, size * 2.2) {
        if random % 5 == 0 {
            let r = size * 1.9;
            let corner = |turn: f64| spot(at.x + r * turn.cos(), at.y + r * turn.sin());
            let start = f64::from(random & 0x3f) / 10.0;
            let three = [corner(start), corner(start + 2.1), corner(start + 4.2)];
            out.extend([(three[0], three[1]), (three[1], three[2]), (three[2], three[0])]);
        } else {
            out.push((at, spot(at.x + 0.12, at.y)));
        }
    }
    out
}

/// Small six-sided stones.
fn pebbles(outline: &[Spot], step: f64) -> Vec<(Spot, Spot)> {
    let mut out = Vec::new();
    for (at, random) in shaken(outline, step, step * 0.36) {
        let r = step * (0.24 + f64::from(random & 0x1f) / 310.0);
        let corner = |i: u32| {
            let turn = f64::from(i) * std::f64::consts::FRAC_PI_3 + f64::from(random & 7) / 8.0;
            spot(at.x + r * turn.cos(), at.y + r * 0.85 * turn.sin())
        };
        out.extend((0..6).map(|i| (corner(i), corner(i + 1))));
    }
    out
}

/// The mark of soil along a line, on the side given: groups of three short strokes.
pub(super) fn soil(group: &mut Group, from: Spot, to: Spot) {
    let run = (to.x - from.x).hypot(to.y - from.y);
    if !(run > 0.5 && run < MOST) {
        return;
    }
    let (ux, uy) = ((to.x - from.x) / run, (to.y - from.y) / run);
    let mut strokes = Vec::new();
    let mut at = 1.0;
    while at + 2.4 < run {
        for i in 0..3 {
            let s = at + f64::from(i) * 0.8;
            let start = spot(from.x + ux * s, from.y + uy * s);
            // Below the line, leaning back.
            let (dx, dy) = (-ux * 1.6 - uy * 1.8, -uy * 1.6 + ux * 1.8);
            strokes.push((start, spot(start.x + dx, start.y + dy)));
        }
        at += 5.4;
    }
    group.shape(Form::Strokes(strokes), Fill::None, Some(pen(Ink::Earth, Weight::Thin)));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(side: f64) -> Vec<Spot> {
        vec![spot(0.0, 0.0), spot(side, 0.0), spot(side, side), spot(0.0, side)]
    }

    #[test]
    fn strokes_stay_inside_their_outline() {
        let l = [spot(0., 0.), spot(20., 0.), spot(20., 8.), spot(9., 8.), spot(9., 20.), spot(0., 20.)];
        for hatch in [Hatch::Masonry, Hatch::Concrete, Hatch::Stone, Hatch::Lumber, Hatch::Board, Hatch::Waste] {
            let mut group = Group::new(super::super::scene::Role::Structure, "test");
            fill(&mut group, hatch, &l);
            let strokes = group.items.iter().find_map(|i| match i {
                super::super::scene::Item::Shape(s) => match &s.form {
                    Form::Strokes(s) => Some(s.clone()),
                    _ => None,
                },
                _ => None,
            });
            let strokes = strokes.unwrap();
            assert!(strokes.len() > 10, "{hatch:?}");
            let inside = |s: Spot| {
                let e = 0.2;
                s.x > -e && s.y > -e && ((s.x < 20. + e && s.y < 8. + e) || (s.x < 9. + e && s.y < 20. + e))
            };
            assert!(strokes.iter().all(|(a, b)| inside(*a) && inside(*b)), "{hatch:?}");
        }
    }

    #[test]
    fn an_outline_past_all_measure_is_left_empty() {
        for side in [1.0e9, f64::INFINITY, f64::NAN, 0.0] {
            for hatch in [Hatch::Masonry, Hatch::Concrete, Hatch::Stone] {
                let mut group = Group::new(super::super::scene::Role::Structure, "test");
                fill(&mut group, hatch, &square(side));
                assert!(group.items.len() <= 2);
            }
        }
    }
}
