//! The key plan: walls with their names and inside lengths, openings and piers, so that a stranger finds his wall.

use wythe_model::geometry::Footprint;
use wythe_model::{MeasuredFace, Point};
use wythe_render::drawing::{Anchor, Drawing, Fill, Form, Frame, Ink, Spot, Text, words as plain};

use super::{Canvas, bold, mm, spot, thin};
use crate::House;
use crate::words::say;

/// The room the walls may take.
const ROOM: (f64, f64) = (110.0, 42.0);
const SIZE: f64 = 4.0;

/// The key plan of a house; nothing where it has no walls. One wall may be marked.
pub(crate) fn key_plan(house: &House<'_>, marked: Option<usize>) -> Option<Drawing> {
    let (f, plan) = (house.f(), house.plan());
    let (low, high) = plan.outline(MeasuredFace::Outside).bounds().filter(|_| !f.walls.is_empty())?;
    let (wide, tall) = ((high.x - low.x).value, (high.y - low.y).value);
    let per = (ROOM.0 / wide.max(0.1)).min(ROOM.1 / tall.max(0.1));
    let at = |p: Point| spot(mm(p.x - low.x, per), mm(high.y - p.y, per));
    let mut canvas = Canvas::new();
    let mut taken: Vec<Frame> = Vec::new();
    for (index, wall) in plan.walls.iter().enumerate() {
        let quad = [wall.outside.start, wall.outside.end, wall.inside.end, wall.inside.start].map(at).to_vec();
        let fill = if marked == Some(index) { Fill::Full(Ink::Line) } else { Fill::Full(Ink::Paper) };
        canvas.shape(Form::Area(quad), fill, Some(bold()));
    }
    for pier in &f.piers {
        let corners: Vec<Spot> = Footprint::from(pier).outline().points.into_iter().map(at).collect();
        canvas.shape(Form::Area(corners), Fill::Full(Ink::Fine), Some(thin()));
    }
    for opening in &f.openings {
        let Some(line) = opening.wall.and_then(|w| plan.walls.get(w)).map(|w| w.center) else { continue };
        let run = line.to - line.from;
        let share = ((opening.at + opening.width / 2.0 - line.from) / run).value;
        if !share.is_finite() {
            continue;
        }
        let share = share.clamp(0.0, 1.0);
        let center = at(Point {
            x: line.start.x + (line.end.x - line.start.x) * share,
            y: line.start.y + (line.end.y - line.start.y) * share,
        });
        canvas.shape(Form::Circle(center, 1.3), Fill::Full(Ink::Paper), Some(thin()));
    }
    let lines_of: Vec<(Spot, Spot)> =
        plan.walls.iter().map(|wall| (at(wall.outside.start), at(wall.outside.end))).collect();
    let middle = |a: Spot, b: Spot| spot((a.x + b.x) / 2.0, (a.y + b.y) / 2.0);
    let counter = plan.orientation == wythe_model::geometry::Orientation::Counterclockwise;
    for (index, (wall, drawn)) in f.walls.iter().zip(&plan.walls).enumerate() {
        let (a, b) = (at(drawn.outside.start), at(drawn.outside.end));
        let run = (b.x - a.x).hypot(b.y - a.y).max(1e-6);
        let along = ((b.x - a.x) / run, (b.y - a.y) / run);
        let out = if counter { (-along.1, along.0) } else { (along.1, -along.0) };
        let center = middle(a, b);
        let lines = [plain::name(wall.name), house.telling().length(house.inside(index))];
        let halves: Vec<f64> = lines.iter().map(|l| text(l, spot(0.0, 0.0), true).frame().right).collect();
        let half = (halves.iter().fold(0.0, |a: f64, b| a.max(*b)), SIZE * 1.2);
        let reach = out.0.abs() * half.0 + out.1.abs() * half.1 + 1.6;
        let place = |step: f64, slide: f64| {
            let off = reach + step;
            spot(center.x + out.0 * off + along.0 * slide, center.y + out.1 * off + along.1 * slide)
        };
        let frame =
            |c: Spot| Frame { left: c.x - half.0, right: c.x + half.0, top: c.y - half.1, bottom: c.y + half.1 };
        // Clear of other names, and of every wall.
        let free = |c: &Spot| {
            let frame = frame(*c);
            taken.iter().all(|t| !t.overlaps(&frame)) && lines_of.iter().all(|(a, b)| !crosses(&frame, *a, *b))
        };
        let steps = (0..30).map(|i| f64::from(i) * 1.5);
        let spots = steps.flat_map(|step| [0.0, 6.0, -6.0, 12.0, -12.0, 18.0, -18.0].map(|slide| place(step, slide)));
        let Some(c) = spots.into_iter().find(free) else { continue };
        taken.push(frame(c));
        canvas.put(text(&lines[0], spot(c.x, c.y - 0.5), true));
        canvas.put(text(&lines[1], spot(c.x, c.y + SIZE * 1.05), false));
    }
    let w = house.words;
    Some(canvas.finish(
        "key-plan",
        say!(w, "key-plan-title"),
        say!(w, "key-plan-says", walls = f.walls.len(), piers = f.piers.len()),
    ))
}

/// Whether a line runs through a frame, told at a place every half millimeter.
fn crosses(frame: &Frame, a: Spot, b: Spot) -> bool {
    let count = ((b.x - a.x).hypot(b.y - a.y) * 2.0).clamp(1.0, 2_000.0) as usize;
    (0..=count).any(|i| {
        let t = i as f64 / count as f64;
        let (x, y) = (a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
        x > frame.left && x < frame.right && y > frame.top && y < frame.bottom
    })
}

fn text(words: &str, at: Spot, bold: bool) -> Text {
    let mut shown: String = crate::html::clean(words);
    if shown.chars().count() > 24 {
        shown = shown.chars().take(23).collect::<String>() + "…";
    }
    let mut text = Text::new(at, SIZE, shown);
    text.anchor = Anchor::Middle;
    text.bold = bold;
    text
}
