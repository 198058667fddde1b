//! What stands and lies inside the walls in plan: pads, beams, piers, and strips of liner with their laps.

use wythe_model::Point;
use wythe_model::geometry::Footprint;

use super::super::hatch::{Hatch, fill};
use super::super::region::overlap;
use super::super::scene::{Dash, Fill, Form, Frame, Group, Ink, Pen, Role, Spot, Text, Weight, pen, spot};
use super::super::words;
use super::Sheet;

impl Sheet<'_> {
    fn spots(&self, points: &[Point]) -> Vec<Spot> {
        points.iter().map(|p| self.paper.at(*p)).collect()
    }

    /// The parts of an outline that lie on the floor inside the walls.
    fn on_floor(&self, corners: &[Point]) -> Vec<Vec<Point>> {
        overlap(&self.plan.outline(wythe_model::MeasuredFace::Inside).points, corners)
    }

    pub(super) fn strips(&mut self) {
        for strip in &self.options.strips {
            let mut group = Group::new(Role::Strip, format!("strip-{}", strip.number))
                .titled(format!("Liner strip {}", strip.number));
            let pen = Pen { ink: Ink::Sheet, weight: Weight::Thin, dash: Dash::Hidden };
            for piece in self.on_floor(&strip.corners) {
                group.shape(Form::Area(self.spots(&piece)), Fill::Wash(Ink::Sheet), Some(pen));
            }
            self.groups.push(group);
        }
        for (i, lap) in self.options.laps.iter().enumerate() {
            let mut group = Group::new(Role::Strip, format!("lap-{}", i + 1)).titled("Lap of two strips");
            for piece in self.on_floor(lap) {
                let corners = self.spots(&piece);
                fill(&mut group, Hatch::Offcut, &corners);
                group.shape(Form::Area(corners), Fill::None, Some(pen(Ink::Fine, Weight::Hair)));
            }
            self.groups.push(group);
        }
    }

    pub(super) fn supports(&mut self) {
        let system = self.options.system;
        for pad in &self.f.pads {
            let corners = self.spots(&Footprint::from(pad).outline().points);
            let mut group =
                Group::new(Role::Support, format!("pad-{}", pad.name.as_str())).from(pad.origin).titled(format!(
                    "Pad {}, {} x {}, {} deep",
                    words::name(pad.name),
                    words::length(pad.width, system),
                    words::length(pad.depth, system),
                    words::length(pad.thickness, system)
                ));
            group.shape(Form::Area(corners.clone()), Fill::Full(Ink::Paper), None);
            fill(&mut group, Hatch::Concrete, &corners);
            let pen = Pen { ink: Ink::Line, weight: Weight::Medium, dash: Dash::Hidden };
            for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
                self.room.take_line(*a, *b, 0.3);
            }
            group.shape(Form::Area(corners), Fill::None, Some(pen));
            self.groups.push(group);
        }
        for beam in &self.f.beams {
            let (a, b) = (self.paper.at(beam.from), self.paper.at(beam.to));
            let mut group = Group::new(Role::Support, format!("beam-{}", beam.name.as_str()))
                .from(beam.origin)
                .titled(format!("Beam {}", words::name(beam.name)));
            group.line([a, b], Pen { ink: Ink::Wood, weight: Weight::Bold, dash: Dash::Center });
            self.room.take_line(a, b, 0.4);
            self.groups.push(group);
        }
        for pier in &self.f.piers {
            let corners = self.spots(&Footprint::from(pier).outline().points);
            let mut group =
                Group::new(Role::Support, format!("pier-{}", pier.name.as_str())).from(pier.origin).titled(format!(
                    "Pier {}, {} x {}, {} east and {} north of the start",
                    words::name(pier.name),
                    words::span(pier.width, system),
                    words::span(pier.depth, system),
                    words::length(pier.at.x, system),
                    words::length(pier.at.y, system)
                ));
            group.shape(Form::Area(corners.clone()), Fill::Full(Ink::Paper), None);
            fill(&mut group, Hatch::Masonry, &corners);
            group.shape(Form::Area(corners.clone()), Fill::None, Some(pen(Ink::Line, Weight::Medium)));
            if let (Some(a), Some(b)) = (corners.first(), corners.get(2)) {
                self.room.take(Frame::between(*a, *b));
            }
            self.groups.push(group);
        }
    }

    pub(super) fn name_supports(&mut self) {
        let around = |center: Spot, w: f64, d: f64| -> Vec<Spot> {
            let mut out = Vec::new();
            for more in [0.0, 1.5, 3.0, 5.0] {
                let (x, y) = (w / 2.0 + 3.0 + more, d / 2.0 + 2.0 + more);
                for (sx, sy) in [
                    (1.0, -1.0),
                    (-1.0, -1.0),
                    (1.0, 1.0),
                    (-1.0, 1.0),
                    (0.0, -1.0),
                    (0.0, 1.0),
                    (1.0, 0.0),
                    (-1.0, 0.0),
                ] {
                    out.push(spot(center.x + sx * x, center.y + sy * y));
                }
            }
            out
        };
        for pier in &self.f.piers {
            let mut group = Group::new(Role::Support, format!("name-{}", pier.name.as_str())).from(pier.origin);
            let (w, d) = (self.paper.mm(pier.width), self.paper.mm(pier.depth));
            let text = Text::new(spot(0.0, 0.0), 2.5, words::name(pier.name)).bold();
            self.name_inside(&mut group, &text, &around(self.paper.at(pier.at), w, d));
            self.groups.push(group);
        }
        for pad in &self.f.pads {
            let mut group = Group::new(Role::Support, format!("name-{}", pad.name.as_str())).from(pad.origin);
            let (w, d) = (self.paper.mm(pad.width), self.paper.mm(pad.depth));
            let center = self.paper.at(pad.at);
            let mut centers = around(center, w, d);
            centers.insert(0, center);
            let text = Text::new(spot(0.0, 0.0), 2.5, words::name(pad.name)).cleared();
            self.name_inside(&mut group, &text, &centers);
            self.groups.push(group);
        }
        for beam in &self.f.beams {
            let mut group = Group::new(Role::Support, format!("name-{}", beam.name.as_str())).from(beam.origin);
            let (a, b) = (self.paper.at(beam.from), self.paper.at(beam.to));
            let along = |t: f64, off: f64| {
                let run = (b.x - a.x).hypot(b.y - a.y).max(1e-6);
                let (nx, ny) = ((b.y - a.y) / run, -(b.x - a.x) / run);
                spot(a.x + (b.x - a.x) * t + nx * off, a.y + (b.y - a.y) * t + ny * off)
            };
            let centers: Vec<Spot> = [0.12, 0.88, 0.35, 0.65, 0.5, 0.22, 0.78]
                .iter()
                .flat_map(|t| [2.4, -2.4, 3.6, -3.6].map(|off| along(*t, off)))
                .collect();
            let text = Text::new(spot(0.0, 0.0), 2.5, format!("beam {}", words::name(beam.name))).ink(Ink::Quiet);
            self.name_inside(&mut group, &text, &centers);
            self.groups.push(group);
        }
    }

    pub(super) fn number_strips(&mut self) {
        for strip in &self.options.strips {
            // In the largest part that lies on the floor.
            let size = |p: &Vec<Point>| wythe_model::geometry::Outline { points: p.clone() }.area().value;
            let parts = self.on_floor(&strip.corners);
            let Some(largest) = parts.into_iter().max_by(|a, b| size(a).total_cmp(&size(b))) else { continue };
            let mut corners = self.spots(&largest);
            corners.dedup();
            if corners.len() > 1 && corners.first() == corners.last() {
                corners.pop();
            }
            let count = corners.len().max(1) as f64;
            let sum = corners.iter().fold((0.0, 0.0), |s, c| (s.0 + c.x, s.1 + c.y));
            let center = spot(sum.0 / count, sum.1 / count);
            let longest = corners.iter().zip(corners.iter().cycle().skip(1)).max_by(|a, b| {
                let run = |(a, b): &(&Spot, &Spot)| (b.x - a.x).hypot(b.y - a.y);
                run(a).total_cmp(&run(b))
            });
            let Some((a, b)) = longest else { continue };
            let (dx, dy) = ((b.x - a.x) * 0.5, (b.y - a.y) * 0.5);
            let centers: Vec<Spot> = [0.0, 0.15, -0.15, 0.3, -0.3, 0.45, -0.45, 0.6, -0.6, 0.75, -0.75]
                .iter()
                .flat_map(|t| [0.0, 3.0, -3.0].map(|off| spot(center.x + dx * t + off * 0.3, center.y + dy * t + off)))
                .collect();
            let mut group = Group::new(Role::Strip, format!("number-{}", strip.number));
            let text = Text::new(spot(0.0, 0.0), 2.6, format!("strip {}", strip.number)).ink(Ink::Sheet).bold();
            self.name_inside(&mut group, &text, &centers);
            self.groups.push(group);
        }
    }
}
