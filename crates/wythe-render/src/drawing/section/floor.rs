//! The crawl floor beside a wall or pier: tails of wall sheets, ground sheets over them, laps and their tape.

use wythe_model::{Act, Class, EdgeName, Length};
use wythe_source::Symbol;

use super::super::leader::{Reach, Side};
use super::super::scene::{Frame, Spot, spot};
use super::super::stack::{Laid, Nature, Stack};
use super::body::{Body, Mark, Track, layer, work_group};
use super::event::Event;
use super::upright::FILM;
use super::view::View;

/// The floor on one side.
pub(crate) struct Floor {
    view: View,
    /// The face of the structure.
    x: f64,
    sign: f64,
    /// The surface of the soil on paper.
    y: f64,
    stack: Stack,
    /// How far the floor is drawn.
    pub reach: f64,
    /// Tails by layer: where each ends.
    tails: Vec<(Symbol, f64)>,
    /// Ground sheets by layer: where each begins.
    edges: Vec<(Symbol, f64)>,
    element: String,
    /// Whether names point here.
    named: bool,
}

impl Floor {
    /// A bare floor.
    pub fn new(view: View, x: f64, sign: f64, y: f64, reach: f64, element: &str, named: bool) -> Floor {
        let stack = Stack::new(0.0, reach);
        let (tails, edges) = (Vec::new(), Vec::new());
        Floor { view, x, sign, y, stack, reach, tails, edges, element: element.to_owned(), named }
    }

    /// How far the longest tail reaches.
    pub fn tail_end(&self) -> f64 {
        self.tails.iter().map(|t| t.1).fold(0.0, f64::max)
    }

    fn at(&self, off: f64, up: f64) -> Spot {
        spot(self.x + self.sign * off, self.y - up)
    }

    fn outline(&self, run: &[Laid]) -> Vec<Spot> {
        let lower = run.iter().flat_map(|l| [self.at(l.from, l.under), self.at(l.to, l.under)]);
        let upper = run.iter().rev().flat_map(|l| [self.at(l.to, l.over), self.at(l.from, l.over)]);
        lower.chain(upper).collect()
    }

    fn film<'a>(&mut self, body: &mut Body<'a>, event: Event<'a>, from: f64, to: f64, fresh: bool) -> Vec<Laid> {
        let laid = self.stack.lay(from, to, FILM, Nature::Film);
        let mut group = work_group(&event, &self.element);
        layer(&mut group, self.outline(&laid), event.work.product.as_deref(), fresh);
        body.groups.push(group);
        let spots: Vec<Spot> = laid
            .iter()
            .flat_map(|l| {
                let up = (l.under + l.over) / 2.0;
                [self.at(l.from, up), self.at(l.to, up)]
            })
            .collect();
        let face = Symbol::new(event.face_name());
        // A tail carries on the line of the sheet it belongs to.
        match body.tracks.iter_mut().rev().find(|t| t.face == face && t.layer == event.work.layer) {
            Some(track) => track.spots.extend(spots),
            None => body.tracks.push(Track { element: event.kind(), face, layer: event.work.layer, spots }),
        }
        laid
    }

    /// The tail of a sheet that hangs on the wall, from the sheet's foot.
    pub fn tail<'a>(&mut self, body: &mut Body<'a>, event: Event<'a>, from: f64, by: Length, fresh: bool) {
        let to = (from + self.view.mm(by)).min(self.reach);
        if to <= from + 0.5 {
            return;
        }
        self.film(body, event, from, to, fresh);
        self.tails.push((event.work.layer, to));
    }

    /// A sheet laid on the ground, lapped over a tail as the joints say, else up to what stands on the wall.
    pub fn lay<'a>(
        &mut self,
        body: &mut Body<'a>,
        event: Event<'a>,
        laps: &[(Symbol, Symbol, Length)],
        foot: f64,
        fresh: bool,
    ) {
        let over = laps.iter().filter(|(sheet, ..)| *sheet == event.work.layer).find_map(|(_, tail, by)| {
            let end = self.tails.iter().rev().find(|t| t.0 == *tail)?.1;
            Some(end - self.view.mm(*by))
        });
        let lapped = self.tails.is_empty() || over.is_some();
        // With a tail and no lap told, the sheet is drawn short of the tail: nothing joins them.
        let from = over.map_or(if lapped { foot } else { self.tail_end() + 1.5 }, |o| o.max(foot));
        if from + 2.0 >= self.reach {
            return;
        }
        self.film(body, event, from, self.reach, fresh);
        self.edges.push((event.work.layer, from));
        let at = (self.tail_end().max(from) + 5.0).min(self.reach - 2.0);
        self.mark(body, event, at, self.stack.at(at) - FILM / 2.0);
    }

    /// Stone or gravel as the floor, drawn below its surface.
    pub fn fill<'a>(&mut self, body: &mut Body<'a>, event: Event<'a>, fresh: bool) {
        let deep = event.work.by.map_or(4.0, |b| self.view.mm(b)).max(2.5);
        let mut group = work_group(&event, &self.element);
        let frame = Frame::between(self.at(0.0, 0.0), self.at(self.reach, -deep));
        layer(&mut group, frame.corners(), event.work.product.as_deref(), fresh);
        body.groups.push(group);
        let at = (self.tail_end() + 8.0).min(self.reach - 2.0);
        self.mark(body, event, at, -deep / 2.0);
    }

    /// Laps and their tape.
    pub fn join<'a>(&mut self, body: &mut Body<'a>, event: Event<'a>, fresh: bool) {
        let Some(place) = event.work.place else { return };
        match (event.work.act, place.edge) {
            (Act::Lap, EdgeName::Layer(tail)) => {
                let end = self.tails.iter().rev().find(|t| t.0 == tail).map(|t| t.1);
                let edge = self.edges.iter().rev().find(|e| e.0 == event.work.layer).map(|e| e.1);
                if let (Some(end), Some(edge)) = (end, edge)
                    && end > edge
                {
                    let at = edge + (end - edge) * 0.6;
                    self.mark(body, event, at, self.stack.at(at) - FILM);
                }
            }
            (Act::Tape | Act::Seal, EdgeName::TopEdge | EdgeName::Cuts | EdgeName::Perimeter) => {
                let of = place.of.unwrap_or(event.work.layer);
                if let Some(edge) = self.edges.iter().rev().find(|e| e.0 == of).map(|e| e.1) {
                    self.patch(body, event, edge, fresh);
                }
            }
            (Act::Tape | Act::Seal, EdgeName::Laps | EdgeName::Joints) => {
                let edge = self.edges.iter().map(|e| e.1).fold(self.tail_end(), f64::max);
                self.patch(body, event, (edge + 10.0).min(self.reach - 3.0), fresh);
            }
            _ => {}
        }
    }

    fn patch<'a>(&mut self, body: &mut Body<'a>, event: Event<'a>, at: f64, fresh: bool) {
        let wide = event.work.product.as_ref().filter(|p| p.class == Class::Tape).and_then(|p| p.width);
        let half = (wide.map_or(3.0, |w| self.view.mm(w)) / 2.0).clamp(1.5, 5.0);
        let from = (at - half).max(0.0);
        let up = self.stack.most(from, at + half);
        let mut group = work_group(&event, &self.element);
        let frame = Frame::between(self.at(from, up), self.at(at + half, up + 0.6));
        layer(&mut group, frame.corners(), event.work.product.as_deref(), fresh);
        body.over.push(group);
        self.mark(body, event, at, up + 0.3);
    }

    fn mark<'a>(&self, body: &mut Body<'a>, event: Event<'a>, off: f64, up: f64) {
        if self.named {
            let side = if self.sign > 0.0 { Side::Right } else { Side::Left };
            let at = self.at(off, up);
            body.marks.push(Mark { event, reach: Reach::Upright { at }, order: at.y, side });
        }
    }
}
