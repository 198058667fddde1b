//! Control lines traced over a cut: each by its own dash pattern and letter, and broken where it breaks.

use wythe_model::{Control, Length, SurfaceKind};
use wythe_source::{Span, Symbol};

use super::leader::{Reach, Side};
use super::scene::{Anchor, Dash, Fill, Form, Group, Ink, Pen, Role, Spot, Text, Weight, pen, spot};
use super::section::body::Track;
use super::section::names::Part;
use super::section::view::View;
use super::theme::{letter, plain_name};

/// The way one control takes through a section, and where it breaks.
#[derive(Clone, Debug, PartialEq)]
pub struct ControlLine {
    /// The control.
    pub control: Control,
    /// The layers on the way, from start to end.
    pub steps: Vec<LineStep>,
    /// Where it breaks.
    pub breaks: Vec<LineBreak>,
}

/// One layer on the way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineStep {
    /// The kind of element it is on.
    pub element: SurfaceKind,
    /// The face it is on; of the structure, any.
    pub face: Symbol,
    /// The layer, or `structure`.
    pub layer: Symbol,
    /// One end above the datum.
    pub from: Length,
    /// The other.
    pub to: Length,
}

/// A place where a line breaks.
#[derive(Clone, Debug, PartialEq)]
pub struct LineBreak {
    /// Where.
    pub at: BreakAt,
    /// What is wrong, in a few words.
    pub text: String,
    /// The line of text to change.
    pub origin: Option<Span>,
}

/// Where a line breaks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BreakAt {
    /// At this elevation above the datum, on the side given: outside, or inside.
    Elevation(Length, BreakSide),
    /// On the crawl floor, this far from the inside face of the wall.
    Floor(Length),
}

/// Which side of the wall a break is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BreakSide {
    /// Outside.
    Outside,
    /// Inside.
    Inside,
}

/// From one line to the next, where several run along one layer.
const LANE: f64 = 1.0;
/// How much of a line is left out at a break, on each side of it.
const GAP: f64 = 2.0;

/// The drawn lines, and the names of their breaks.
pub(super) struct Drawn {
    pub groups: Vec<Group>,
    pub breaks: Vec<Part>,
}

/// Traces lines over a cut whose inside face is at `wide` and whose floor is at `floor`.
pub(super) fn trace(lines: &[ControlLine], tracks: &[Track], view: View, wide: f64, floor: f64) -> Drawn {
    let mut out = Drawn { groups: Vec::new(), breaks: Vec::new() };
    let mut casing = Group::new(Role::ControlLine, "line-casing");
    for (lane, line) in lines.iter().enumerate() {
        let shift = (lane as f64 - (lines.len() as f64 - 1.0) / 2.0) * LANE;
        let way: Vec<Spot> = way(line, tracks, view).into_iter().map(|s| spot(s.x + shift, s.y - shift)).collect();
        let mut group = Group::new(Role::ControlLine, format!("line-{}", line.control.name()))
            .titled(format!("{} line", super::words::capital(plain_name(line.control))));
        let (ink, dash) = (Ink::Control(line.control), Dash::Control(line.control));
        let mut holes = Vec::new();
        for broken in &line.breaks {
            let (at, side) = place_of(broken.at, &way, view, wide, floor);
            holes.push(at);
            for (dx, dy) in [(1.0, 1.0), (1.0, -1.0)] {
                let arm = [spot(at.x - 1.5 * dx, at.y - 1.5 * dy), spot(at.x + 1.5 * dx, at.y + 1.5 * dy)];
                group.line(arm, pen(Ink::Alarm, Weight::Heavy));
            }
            out.breaks.push(Part {
                head: format!("{} line is broken", super::words::capital(plain_name(line.control))),
                details: vec![super::text::clean(&broken.text)],
                reach: match broken.at {
                    BreakAt::Elevation(..) => Reach::Level { x: at.x, upper: at.y - 0.6, lower: at.y + 0.6 },
                    BreakAt::Floor(_) => Reach::Upright { at },
                },
                side,
                id: "break",
                origin: broken.origin,
                badge: Some(letter(line.control).to_owned()),
            });
        }
        for piece in without(&way, &holes, GAP) {
            casing.line(piece.clone(), pen(Ink::Paper, Weight::Casing));
            group.line(piece, Pen { ink, weight: Weight::Heavy, dash });
        }
        if let Some(at) = ring_spot(&way, lane, lines.len()) {
            group.shape(Form::Circle(at, 1.55), Fill::Full(Ink::Paper), Some(pen(ink, Weight::Bold)));
            let text = Text::new(spot(at.x, at.y + 0.75), 2.1, letter(line.control)).bold().anchor(Anchor::Middle);
            group.text(text.ink(ink));
        }
        out.groups.push(group);
    }
    out.groups.insert(0, casing);
    out
}

/// The spots of a line, step by step, each step taken from the end nearest to where the last one ended.
fn way(line: &ControlLine, tracks: &[Track], view: View) -> Vec<Spot> {
    let mut out: Vec<Spot> = Vec::new();
    for step in &line.steps {
        let structure = step.layer.as_str() == "structure";
        let is_it =
            |t: &&Track| t.layer == step.layer && (structure || (t.face == step.face && t.element == step.element));
        let Some(track) = tracks.iter().find(is_it) else { continue };
        let (upper, lower) = (view.y(step.from.max(step.to)), view.y(step.from.min(step.to)));
        let mut spots = clipped(&track.spots, upper, lower);
        if let (Some(last), Some(first), Some(end)) = (out.last(), spots.first(), spots.last())
            && distance(*last, *end) < distance(*last, *first)
        {
            spots.reverse();
        }
        out.extend(spots);
    }
    out.dedup_by(|a, b| distance(*a, *b) < 0.01);
    out
}

/// The part of a middle line between two heights; what lies flat stays whole.
fn clipped(spots: &[Spot], upper: f64, lower: f64) -> Vec<Spot> {
    let lies_flat = |s: &[Spot]| s.windows(2).all(|w| (w[0].y - w[1].y).abs() < 2.5);
    if lies_flat(spots) {
        return spots.to_vec();
    }
    let upright = spots.windows(2).rposition(|w| (w[0].y - w[1].y).abs() >= 2.5).map_or(spots.len(), |i| i + 2);
    let (wall, tail) = spots.split_at(upright.min(spots.len()));
    let mut out: Vec<Spot> = wall.iter().map(|s| spot(s.x, s.y.clamp(upper, lower.max(upper)))).collect();
    out.extend_from_slice(tail);
    out
}

fn distance(a: Spot, b: Spot) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

fn place_of(at: BreakAt, way: &[Spot], view: View, wide: f64, floor: f64) -> (Spot, Side) {
    let (wanted, side) = match at {
        BreakAt::Elevation(e, BreakSide::Outside) => (spot(0.0, view.y(e)), Side::Left),
        BreakAt::Elevation(e, BreakSide::Inside) => (spot(wide + 1.0, view.y(e)), Side::Right),
        BreakAt::Floor(from_wall) => (spot(wide + view.mm(from_wall), floor), Side::Right),
    };
    let nearest = way
        .windows(2)
        .map(|w| foot(wanted, w[0], w[1]))
        .min_by(|a, b| distance(*a, wanted).total_cmp(&distance(*b, wanted)));
    // A line may stop well short of where it breaks; then the break is drawn where it is.
    (nearest.filter(|n| distance(*n, wanted) < 6.0).unwrap_or(wanted), side)
}

/// The spot of a stretch nearest to another spot.
fn foot(of: Spot, a: Spot, b: Spot) -> Spot {
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    let square = dx * dx + dy * dy;
    let t = if square < 1e-9 { 0.0 } else { (((of.x - a.x) * dx + (of.y - a.y) * dy) / square).clamp(0.0, 1.0) };
    spot(a.x + dx * t, a.y + dy * t)
}

/// A line less what lies within a distance of some spots.
fn without(way: &[Spot], holes: &[Spot], radius: f64) -> Vec<Vec<Spot>> {
    let mut out: Vec<Vec<Spot>> = Vec::new();
    let mut piece: Vec<Spot> = Vec::new();
    for pair in way.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let run = distance(a, b);
        let mut cuts = vec![0.0, 1.0];
        for hole in holes {
            let near = foot(*hole, a, b);
            let off = distance(near, *hole);
            if off < radius && run > 1e-9 {
                let middle = distance(near, a) / run;
                let half = (radius * radius - off * off).sqrt() / run;
                cuts.extend([(middle - half).clamp(0.0, 1.0), (middle + half).clamp(0.0, 1.0)]);
            }
        }
        cuts.sort_by(f64::total_cmp);
        for ends in cuts.windows(2) {
            let at = |t: f64| spot(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
            let middle = at((ends[0] + ends[1]) / 2.0);
            if holes.iter().any(|h| distance(*h, middle) < radius - 1e-9) {
                if piece.len() > 1 {
                    out.push(std::mem::take(&mut piece));
                }
                piece.clear();
                continue;
            }
            if ends[1] - ends[0] < 1e-9 {
                continue;
            }
            if piece.is_empty() {
                piece.push(at(ends[0]));
            }
            piece.push(at(ends[1]));
        }
    }
    if piece.len() > 1 {
        out.push(piece);
    }
    out
}

/// Where the ring with the letter sits: on the longest upright stretch where there is one, each line's at a height of its own.
fn ring_spot(way: &[Spot], lane: usize, lanes: usize) -> Option<Spot> {
    let upright = |w: &&[Spot]| (w[0].y - w[1].y).abs() > 6.0;
    let long = |a: &&[Spot], b: &&[Spot]| distance(a[0], a[1]).total_cmp(&distance(b[0], b[1]));
    let longest = way.windows(2).filter(upright).max_by(long).or_else(|| way.windows(2).max_by(long))?;
    let (a, b) = if longest[0].y <= longest[1].y { (longest[0], longest[1]) } else { (longest[1], longest[0]) };
    let t = (lane as f64 + 1.0) / (lanes as f64 + 1.0);
    Some(spot(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_left_out_round_its_break_and_nowhere_else() {
        let way = [spot(0.0, 0.0), spot(0.0, 20.0), spot(20.0, 20.0)];
        let whole = without(&way, &[], 2.0);
        assert_eq!(whole, [way.to_vec()]);
        let broken = without(&way, &[spot(0.5, 10.0)], 2.0);
        assert_eq!(broken.len(), 2);
        let length = |p: &Vec<Spot>| p.windows(2).map(|w| distance(w[0], w[1])).sum::<f64>();
        let gap = 40.0 - broken.iter().map(length).sum::<f64>();
        assert!((gap - 2.0 * (4.0_f64 - 0.25).sqrt()).abs() < 1e-6, "{gap}");
    }
}
