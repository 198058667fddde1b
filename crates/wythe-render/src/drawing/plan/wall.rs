//! Walls in plan: structure, openings, board pieces, section marks, and their names outside.

use wythe_model::geometry::{WallPlan, hair};
use wythe_model::{Length, MeasuredFace, Opening, OpeningKind, Point};

use super::super::dimension::between;
use super::super::hatch::{Hatch, fill};
use super::super::scene::{Anchor, Dash, Fill, Form, Frame, Group, Ink, Pen, Role, Spot, Text, Weight, pen, spot};
use super::super::text::clean;
use super::super::words;
use super::Sheet;
use super::label::Spread;

/// A wall on paper: its ends outside and inside, the way along and the way out.
struct OnPaper {
    outside: (Spot, Spot),
    inside: (Spot, Spot),
    along: (f64, f64),
    out: (f64, f64),
}

impl Sheet<'_> {
    fn on_paper(&self, wall: &WallPlan) -> OnPaper {
        let ends = |l: &wythe_model::geometry::WallLine| (self.paper.at(l.start), self.paper.at(l.end));
        let (outside, inside) = (ends(&wall.outside), ends(&wall.inside));
        let unit = |a: Spot, b: Spot| {
            let run = (b.x - a.x).hypot(b.y - a.y);
            if run < 1e-6 { (1.0, 0.0) } else { ((b.x - a.x) / run, (b.y - a.y) / run) }
        };
        let along = unit(outside.0, outside.1);
        // The inside lies left of a walk that goes round counterclockwise; on paper, with y down, out is its right.
        let right = (-along.1, along.0);
        let counter = self.plan.orientation == wythe_model::geometry::Orientation::Counterclockwise;
        let out = if counter { right } else { (-right.0, -right.1) };
        OnPaper { outside, inside, along, out }
    }

    /// A place along a wall, on a face of it, in plan.
    fn along(&self, wall: usize, at: Length, face: MeasuredFace) -> Option<Point> {
        let line = self.plan.walls.get(wall)?.line(face);
        let run = line.to - line.from;
        let share = if run.abs() > hair() { ((at - line.from) / run).value } else { 0.0 };
        let share = if share.is_finite() { share.clamp(-0.2, 1.2) } else { 0.0 };
        Some(Point {
            x: line.start.x + (line.end.x - line.start.x) * share,
            y: line.start.y + (line.end.y - line.start.y) * share,
        })
    }

    /// The quadrangle of a stretch of wall.
    fn stretch(&self, wall: usize, from: Length, to: Length) -> Option<Vec<Spot>> {
        let at = |l, face| self.along(wall, l, face).map(|p| self.paper.at(p));
        Some(vec![
            at(from, MeasuredFace::Outside)?,
            at(to, MeasuredFace::Outside)?,
            at(to, MeasuredFace::Inside)?,
            at(from, MeasuredFace::Inside)?,
        ])
    }

    pub(super) fn walls(&mut self) {
        for i in 0..self.f.walls.len() {
            let w = &self.f.walls[i];
            let wall = self.on_paper(&self.plan.walls[i]);
            let quad = vec![wall.outside.0, wall.outside.1, wall.inside.1, wall.inside.0];
            let name = words::name(w.name);
            let mut group = Group::new(Role::Wall, format!("wall-{}", w.name.as_str())).from(w.origin).titled(format!(
                "Wall {name}, {}{}",
                words::length(w.length, self.options.system),
                if w.existing { ", existing" } else { "" }
            ));
            group.shape(Form::Area(quad.clone()), Fill::Full(Ink::Paper), None);
            let thick = (wall.outside.0.x - wall.inside.0.x).hypot(wall.outside.0.y - wall.inside.0.y);
            if thick > 1.0 && !w.existing {
                fill(&mut group, Hatch::Masonry, &quad);
            }
            let dash = if w.existing { Dash::Hidden } else { Dash::Whole };
            group.shape(Form::Area(quad), Fill::None, Some(Pen { ink: Ink::Line, weight: Weight::Medium, dash }));
            self.room.take_line(wall.outside.0, wall.outside.1, 0.3);
            self.room.take_line(wall.inside.0, wall.inside.1, 0.3);
            let middle = |a: Spot, b: Spot| spot((a.x + b.x) / 2.0, (a.y + b.y) / 2.0);
            let center = (middle(wall.outside.0, wall.inside.0), middle(wall.outside.1, wall.inside.1));
            self.room.take_line(center.0, center.1, thick / 2.0);
            self.groups.push(group);
        }
    }

    pub(super) fn openings(&mut self) {
        for o in &self.f.openings {
            let Some(quad) = o.wall.and_then(|w| self.stretch(w, o.at, o.at + o.width)) else { continue };
            let mut group = Group::new(Role::Opening, format!("opening-{}", o.name.as_str()))
                .from(o.origin)
                .titled(opening_lines(o, self.options.system).join(", "));
            group.shape(Form::Area(quad.clone()), Fill::Full(Ink::Paper), Some(pen(Ink::Line, Weight::Medium)));
            let middle = |a: Spot, b: Spot| spot((a.x + b.x) / 2.0, (a.y + b.y) / 2.0);
            if o.kind == OpeningKind::Access {
                group.line([quad[0], quad[2]], pen(Ink::Line, Weight::Thin));
                group.line([quad[1], quad[3]], pen(Ink::Line, Weight::Thin));
            } else {
                group.line([middle(quad[0], quad[3]), middle(quad[1], quad[2])], pen(Ink::Line, Weight::Thin));
            }
            self.groups.push(group);
        }
    }

    pub(super) fn pieces(&mut self) {
        for (i, piece) in self.options.pieces.iter().enumerate() {
            let ends = [piece.from, piece.to].map(|l| self.along(piece.wall, l, MeasuredFace::Inside));
            let (Some(a), Some(b), Some(w)) = (ends[0], ends[1], self.plan.walls.get(piece.wall)) else { continue };
            let out = self.on_paper(w).out;
            let inward = |s: Spot, by: f64| spot(s.x - out.0 * by, s.y - out.1 * by);
            let (a, b) = (self.paper.at(a), self.paper.at(b));
            let mut group = Group::new(Role::Piece, format!("piece-{}", i + 1))
                .titled(format!("Board piece {}", clean(&piece.mark)));
            let board = vec![inward(a, 0.4), inward(b, 0.4), inward(b, 1.6), inward(a, 1.6)];
            group.shape(Form::Area(board), Fill::Wash(Ink::Board), Some(pen(Ink::Board, Weight::Thin)));
            self.room.take_line(inward(a, 1.0), inward(b, 1.0), 0.7);
            let centers: Vec<Spot> = [0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.0, 1.0]
                .iter()
                .flat_map(|t| {
                    let on = spot(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
                    [3.6, 4.6, 6.2, 8.0].map(|by| inward(on, by))
                })
                .collect();
            let text = Text::new(spot(0.0, 0.0), 2.3, clean(&piece.mark)).bold();
            self.name_inside(&mut group, &text, &centers);
            self.groups.push(group);
        }
    }

    pub(super) fn section_marks(&mut self) {
        for mark in &self.options.marks {
            let Some(at) = self.along(mark.wall, mark.at, MeasuredFace::Outside).map(|p| self.paper.at(p)) else {
                continue;
            };
            let Some(wall) = self.plan.walls.get(mark.wall).map(|w| self.on_paper(w)) else { continue };
            let thick = (wall.outside.0.x - wall.inside.0.x).hypot(wall.outside.0.y - wall.inside.0.y);
            let go = |by: f64| spot(at.x + wall.out.0 * by, at.y + wall.out.1 * by);
            let mut group = Group::new(Role::Sheet, format!("section-mark-{}", mark.letter))
                .titled(format!("Section {} is cut here", clean(&mark.letter)));
            let dash = Pen { ink: Ink::Line, weight: Weight::Medium, dash: Dash::Center };
            // The letter as near the wall as nothing else stands.
            let is_free = |off: &f64| self.room.is_free(&Frame::between(go(*off), go(*off)).grown(2.8));
            let off = (0..12).map(|i| 6.6 + f64::from(i) * 3.0).find(is_free).unwrap_or(6.6 + 36.0);
            group.line([go(off - 2.6), go(-thick - 5.0)], dash);
            let center = go(off);
            group.shape(Form::Circle(center, 2.6), Fill::Full(Ink::Paper), Some(pen(Ink::Line, Weight::Medium)));
            // Which way the section looks: along the wall, toward its end.
            let (ax, ay) = wall.along;
            let tip = spot(center.x + ax * 4.6, center.y + ay * 4.6);
            let side = |by: f64| spot(center.x + ax * 2.6 + wall.out.0 * by, center.y + ay * 2.6 + wall.out.1 * by);
            group.shape(Form::Area(vec![tip, side(1.5), side(-1.5)]), Fill::Full(Ink::Line), None);
            let letter =
                Text::new(spot(center.x, center.y + 1.0), 2.8, clean(&mark.letter)).bold().anchor(Anchor::Middle);
            group.text(letter.within(4.6));
            self.room.take(Frame::between(center, center).grown(2.8));
            self.room.take(Frame::between(center, tip).grown(0.6));
            self.room.take_line(go(off - 2.6), go(-thick - 5.0), 0.3);
            self.groups.push(group);
        }
    }

    pub(super) fn name_openings(&mut self) {
        for o in &self.f.openings {
            let Some(index) = o.wall.filter(|w| *w < self.plan.walls.len()) else { continue };
            let middle = o.at + o.width / 2.0;
            let Some(at) = self.along(index, middle, MeasuredFace::Outside) else { continue };
            let wall = self.on_paper(&self.plan.walls[index]);
            let (out, along) = (wall.out, wall.along);
            let spread = Spread { at: self.paper.at(at), out, along, slide: 10.0, leader: true };
            let text = opening_lines(o, self.options.system);
            let mut group = Group::new(Role::Opening, format!("name-{}", o.name.as_str())).from(o.origin);
            self.name_outside(&mut group, &spread, &text);
            self.groups.push(group);
        }
    }

    pub(super) fn name_walls(&mut self) {
        let system = self.options.system;
        for i in 0..self.f.walls.len() {
            let w = &self.f.walls[i];
            let wall = self.on_paper(&self.plan.walls[i]);
            let (a, b) = wall.outside;
            let mut group = Group::new(Role::Wall, format!("name-{}", w.name.as_str())).from(w.length_origin);
            let go = |s: Spot, by: f64| spot(s.x + wall.out.0 * by, s.y + wall.out.1 * by);
            between(&mut group, go(a, 1.6), go(b, 1.6));
            let mut text = vec![words::name(w.name), words::length(w.length, system)];
            let inside = self.plan.walls[i].inside.length();
            if self.f.measured != MeasuredFace::Inside && (inside - w.length).abs() > hair() {
                text.push(format!("{} inside", words::length(inside, system)));
            }
            if w.existing {
                text.push("existing".to_owned());
            }
            for pair in w.stretches.windows(2) {
                let (from, to) = (&pair[0].levels, &pair[1].levels);
                let at = words::length(pair[1].from, system);
                let mut step = |what: &str, a: Length, b: Length| {
                    if (a - b).abs() > hair() {
                        let way = if b < a { "down" } else { "up" };
                        text.push(format!("{what} {way} {} at {at}", words::length((a - b).abs(), system)));
                    }
                };
                step("top", from.top, to.top);
                step("grade", from.grade, to.grade);
                step("floor", from.ground, to.ground);
                step("footing", from.footing, to.footing);
            }
            text.truncate(9);
            let middle = spot((a.x + b.x) / 2.0, (a.y + b.y) / 2.0);
            let slide = (b.x - a.x).hypot(b.y - a.y) * 0.45;
            let spread = Spread { at: go(middle, 0.6), out: wall.out, along: wall.along, slide, leader: false };
            self.name_outside(&mut group, &spread, &text);
            self.groups.push(group);
            // Steps show on the wall as a line across it.
            for stretch in w.stretches.iter().skip(1) {
                if let Some(quad) = self.stretch(i, stretch.from, stretch.from) {
                    let mut group =
                        Group::new(Role::Wall, format!("step-{}", w.name.as_str())).from(stretch.origin).titled("Step");
                    group.line([go(quad[0], 1.6), quad[2]], pen(Ink::Line, Weight::Bold));
                    self.groups.push(group);
                }
            }
        }
    }
}

fn opening_lines(o: &Opening, system: wythe_units::UnitSystem) -> Vec<String> {
    let kind = match o.kind {
        OpeningKind::Access => "access door",
        OpeningKind::Vent => "vent",
        OpeningKind::Flood => "flood opening",
        OpeningKind::BeamPocket => "beam pocket",
        OpeningKind::Sleeve => "sleeve",
    };
    let mut first = words::name(o.name);
    if first != kind {
        first = format!("{first}, {kind}");
    }
    let size = format!("{} x {}", words::span(o.width, system), words::span(o.height, system));
    vec![first, format!("{size}, at {}", words::length(o.at, system))]
}
