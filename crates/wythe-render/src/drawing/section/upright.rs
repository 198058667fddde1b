//! An upright face of a wall or pier: its layers, fasteners, tapes and beads, laid in the order of work.

use wythe_model::{Act, Class, EdgeName, Length, Levels, Work};

use super::super::leader::{Reach, Side};
use super::super::scene::{Dash, Fill, Form, Frame, Ink, Pen, Spot, Weight, pen, spot};
use super::super::stack::{Laid, Nature, Stack};
use super::body::{Body, Mark, Track, layer, work_group};
use super::event::Event;
use super::view::View;

/// A film is drawn no thinner than this.
pub(crate) const FILM: f64 = 1.0;
/// A board is drawn no thinner than this.
const BOARD: f64 = 2.4;
/// A tape is drawn this thick.
const TAPE: f64 = 0.7;

/// A layer that has been placed: where it came to lie.
struct Placed<'a> {
    work: &'a Work,
    laid: Vec<Laid>,
}

/// A face that stands upright.
pub(crate) struct Upright<'a> {
    view: View,
    levels: Levels,
    /// The face of the structure.
    x: f64,
    /// Which way is away from the structure: 1 to the right.
    sign: f64,
    stack: Stack,
    /// Ranges of heights that an opening leaves empty.
    holes: Vec<(f64, f64)>,
    placed: Vec<Placed<'a>>,
    /// Heights of the heads of each fastener by product.
    pins: Vec<(wythe_source::Symbol, Vec<f64>)>,
    beads: Vec<Spot>,
    /// The height of the last place a name points at: names go down the face in the order of work where they can.
    key: f64,
    element: String,
}

impl<'a> Upright<'a> {
    /// A bare face.
    pub fn new(view: View, levels: Levels, x: f64, sign: f64, holes: &[(Length, Length)], element: &str) -> Self {
        let holes = holes.iter().map(|(low, high)| (view.y(*high), view.y(*low))).collect();
        let stack = Stack::new(view.y(levels.top), view.y(levels.footing.min(levels.ground)));
        let (placed, pins, beads) = (Vec::new(), Vec::new(), Vec::new());
        let key = f64::NEG_INFINITY;
        Upright { view, levels, x, sign, stack, holes, placed, pins, beads, key, element: element.to_owned() }
    }

    /// How far the layers reach from the structure, anywhere.
    pub fn thickness(&self) -> f64 {
        self.stack.most(f64::NEG_INFINITY, f64::INFINITY)
    }

    /// How far the layers reach just above a height.
    pub fn thickness_above(&self, y: f64) -> f64 {
        self.stack.at(y - 0.05)
    }

    /// The place of a layer's foot off the structure: where its tail begins.
    pub fn foot_of(&self, work: &Work) -> f64 {
        let placed = self.placed.iter().rev().find(|p| std::ptr::eq(p.work, work));
        placed.and_then(|p| p.laid.last()).map_or(0.0, |l| l.under)
    }

    fn side(&self) -> Side {
        if self.sign > 0.0 { Side::Right } else { Side::Left }
    }

    fn at(&self, off: f64, y: f64) -> Spot {
        spot(self.x + self.sign * off, y)
    }

    /// Draws a piece of work and takes down what its name points at.
    pub fn draw(&mut self, body: &mut Body<'a>, event: Event<'a>, fresh: bool) {
        let work = event.work;
        let reach = match work.act {
            Act::Coat | Act::Hang | Act::Set | Act::Lay => self.cover(body, event, fresh),
            Act::Fasten => self.fasten(body, event, fresh),
            Act::Tape | Act::Cap | Act::Seal => self.close(body, event, fresh),
            Act::Fill => self.fill(body, event, fresh),
            Act::Drain => self.drain(body, event, fresh),
            Act::Lap | Act::Remove => None,
        };
        if let Some(reach) = reach {
            let order = match reach {
                Reach::Level { upper, lower, .. } => (self.key + 0.2).clamp(upper, lower.max(upper)),
                Reach::Upright { at } => at.y,
            };
            // What is done to an upper edge does not send later work up again.
            self.key = self.key.max(order);
            body.marks.push(Mark { event, reach, order, side: self.side() });
        }
    }

    fn range(&self, work: &Work) -> Option<(f64, f64)> {
        let (low, high) = work.extent?.on(&self.levels);
        let (upper, lower) = (self.view.y(high), self.view.y(low));
        (lower - upper > 0.01).then_some((upper, lower))
    }

    fn cover(&mut self, body: &mut Body<'a>, event: Event<'a>, fresh: bool) -> Option<Reach> {
        let work = event.work;
        let (upper, lower) = self.range(work)?;
        let product = work.product.as_deref();
        let rigid = product.is_some_and(|p| matches!(p.class, Class::Board | Class::Masonry | Class::Equipment));
        let drawn = product.and_then(|p| p.thickness).map_or(0.0, |t| self.view.mm(t));
        let (thick, nature) =
            if rigid { (drawn.max(BOARD), Nature::Rigid) } else { (drawn.clamp(FILM, 6.0), Nature::Film) };
        let mut laid = Vec::new();
        for (from, to) in less(upper, lower, &self.holes) {
            laid.extend(self.stack.lay(from, to, thick, nature));
        }
        let mut group = work_group(&event, &self.element);
        for run in runs(&laid) {
            layer(&mut group, self.outline(run), product, fresh);
        }
        body.groups.push(group);
        let middle = |l: &Laid| (l.under + l.over) / 2.0;
        let spots = laid.iter().flat_map(|l| [self.at(middle(l), l.from), self.at(middle(l), l.to)]).collect();
        let face = wythe_source::Symbol::new(event.face_name());
        body.tracks.push(Track { element: event.kind(), face, layer: work.layer, spots });
        let long = |l: &&Laid| l.to - l.from >= 4.0;
        let longest = laid.iter().max_by(|a, b| (a.to - a.from).total_cmp(&(b.to - b.from)));
        // The uppermost stretch long enough to point at, so that names can go down the face in the order of work.
        let named = laid.iter().find(long).or(longest).copied();
        self.placed.push(Placed { work, laid });
        let l = named?;
        let inset = ((l.to - l.from) * 0.12).min(2.0);
        Some(Reach::Level { x: self.at(middle(&l), 0.0).x, upper: l.from + inset, lower: l.to - inset })
    }

    /// The outline of a run of stretches: down along the inner side, up along the outer.
    fn outline(&self, run: &[Laid]) -> Vec<Spot> {
        let inner = run.iter().flat_map(|l| [self.at(l.under, l.from), self.at(l.under, l.to)]);
        let outer = run.iter().rev().flat_map(|l| [self.at(l.over, l.to), self.at(l.over, l.from)]);
        inner.chain(outer).collect()
    }

    fn newest(&self, layer: wythe_source::Symbol) -> Option<&Placed<'a>> {
        self.placed.iter().rev().find(|p| p.work.layer == layer)
    }

    fn fasten(&mut self, body: &mut Body<'a>, event: Event<'a>, fresh: bool) -> Option<Reach> {
        let work = event.work;
        let laid = self.newest(work.layer)?.laid.clone();
        let (first, last) = (laid.first()?, laid.last()?);
        let height = last.to - first.from;
        // Fasteners of later work are drawn at other heights than those of earlier work.
        let turn = self.pins.len() as f64 * 0.12 % 0.3;
        let rows: &[f64] = if height > 16.0 { &[0.14, 0.42, 0.7] } else { &[0.5] };
        let heights: Vec<f64> = rows.iter().map(|r| first.from + height * (r + turn).min(0.95)).collect();
        let product = work.product.as_deref();
        let length = product.and_then(|p| p.length).map_or(5.0, |l| self.view.mm(l));
        let head = product.and_then(|p| p.head).map_or(1.8, |h| self.view.mm(h)).clamp(1.6, 5.0);
        let ink = if fresh { Ink::New } else { Ink::Fixing };
        let mut group = work_group(&event, &self.element);
        for y in &heights {
            let over = self.stack.at(*y);
            let tip = over - length.max(over + 2.2);
            group.line([self.at(tip, *y), self.at(over + 0.5, *y)], pen(ink, Weight::Bold));
            let flat = [self.at(over + 0.4, y - head / 2.0), self.at(over + 0.4, y + head / 2.0)];
            group.line(flat, pen(ink, Weight::Heavy));
        }
        body.groups.push(group);
        let name = product.map_or(work.layer, |p| p.name);
        let y = self.next_of(&heights);
        self.pins.push((name, heights));
        Some(Reach::Level { x: self.at(-1.2, 0.0).x, upper: y, lower: y })
    }

    fn close(&mut self, body: &mut Body<'a>, event: Event<'a>, fresh: bool) -> Option<Reach> {
        let place = event.work.place?;
        match place.edge {
            EdgeName::Heads => self.over_heads(body, event, place.of?, fresh),
            EdgeName::TopEdge | EdgeName::Perimeter | EdgeName::EndEdges => {
                let first = *self.newest(place.of?)?.laid.first()?;
                self.on_edge(body, event, first, first.from, -1.0, fresh)
            }
            EdgeName::BottomEdge => {
                let last = *self.newest(place.of?)?.laid.last()?;
                self.on_edge(body, event, last, last.to, 1.0, fresh)
            }
            EdgeName::Joints | EdgeName::Laps | EdgeName::Cuts => {
                let laid = *self.newest(place.of?)?.laid.first()?;
                let middle = laid.from + (laid.to - laid.from) * 0.55;
                let y = middle.max(self.key + 3.0).min(laid.to - 3.0).max(laid.from + 3.0);
                self.patch(body, event, y, 2.2, fresh)
            }
            EdgeName::Head | EdgeName::Footing | EdgeName::Layer(_) => None,
        }
    }

    /// The first of some heights below the last place a name points at; the last one where none is.
    fn next_of(&self, heights: &[f64]) -> f64 {
        let below = heights.iter().copied().find(|y| *y > self.key);
        below.or(heights.last().copied()).unwrap_or(self.key)
    }

    fn over_heads(
        &mut self,
        body: &mut Body<'a>,
        event: Event<'a>,
        of: wythe_source::Symbol,
        fresh: bool,
    ) -> Option<Reach> {
        let heights = self.pins.iter().rev().find(|(name, _)| *name == of)?.1.clone();
        let mut group = work_group(&event, &self.element);
        for y in &heights {
            let over = self.stack.at(*y) + 0.6;
            let frame = Frame::between(self.at(over, y - 1.7), self.at(over + TAPE * 0.8, y + 1.7));
            layer(&mut group, frame.corners(), event.work.product.as_deref(), fresh);
        }
        body.groups.push(group);
        let y = self.next_of(&heights);
        let x = self.at(self.stack.at(y) + 1.0, 0.0).x;
        Some(Reach::Level { x, upper: y - 1.0, lower: y + 1.0 })
    }

    fn patch(&mut self, body: &mut Body<'a>, event: Event<'a>, y: f64, half: f64, fresh: bool) -> Option<Reach> {
        let over = self.stack.at(y);
        let frame = Frame::between(self.at(over, y - half), self.at(over + TAPE, y + half));
        let mut group = work_group(&event, &self.element);
        layer(&mut group, frame.corners(), event.work.product.as_deref(), fresh);
        body.groups.push(group);
        Some(Reach::Level { x: self.at(over + TAPE / 2.0, 0.0).x, upper: y - half * 0.8, lower: y + half * 0.8 })
    }

    /// Tape round an edge, or a bead along it; `out` is the way out of the layer, up (-1) or down (1).
    fn on_edge(
        &mut self,
        body: &mut Body<'a>,
        event: Event<'a>,
        laid: Laid,
        y: f64,
        out: f64,
        fresh: bool,
    ) -> Option<Reach> {
        let work = event.work;
        let mut group = work_group(&event, &self.element);
        if work.act == Act::Seal {
            let r = (work.bead.map_or(0.0, |b| self.view.mm(b)) / 2.0).clamp(0.9, 2.5);
            // In the corner between the edge and what is behind it, beside earlier beads.
            let mut center = self.at(self.stack.at(y + out * 0.1).max(laid.under) + r, y + out * r);
            while self.beads.iter().any(|b| (b.x - center.x).hypot(b.y - center.y) < r * 1.8) {
                center.x += self.sign * r * 2.0;
            }
            self.beads.push(center);
            let ink = if fresh { Ink::New } else { Ink::Line };
            group.shape(Form::Circle(center, r), Fill::Full(Ink::Paper), Some(pen(ink, Weight::Bold)));
            group.shape(Form::Circle(center, r * 0.45), Fill::Full(ink), None);
            body.over.push(group);
            return Some(Reach::Level { x: center.x, upper: center.y - r * 0.6, lower: center.y + r * 0.6 });
        }
        let half = (work.product.as_ref().and_then(|p| p.width).map_or(3.0, |w| self.view.mm(w)) / 2.0).clamp(2.0, 6.0);
        let back = self.stack.at(y + out * 0.1);
        let outline = [
            self.at(back.min(laid.under), y),
            self.at(back.min(laid.under), y + out * TAPE),
            self.at(laid.over + TAPE, y + out * TAPE),
            self.at(laid.over + TAPE, y - out * half),
            self.at(laid.over, y - out * half),
            self.at(laid.over, y),
        ];
        layer(&mut group, outline.to_vec(), work.product.as_deref(), fresh);
        body.over.push(group);
        let (a, b) = (y, y - out * half);
        let x = self.at(laid.over + TAPE / 2.0, 0.0).x;
        Some(Reach::Level { x, upper: a.min(b) + 0.3, lower: a.max(b) - 0.2 })
    }

    /// Stone and fill beside the wall, as wide as the work says or 12 in (International Residential Code R405.1).
    fn fill(&mut self, body: &mut Body<'a>, event: Event<'a>, fresh: bool) -> Option<Reach> {
        let (upper, lower) = self.range(event.work)?;
        let wide = event.work.by.unwrap_or_else(|| Length::new::<uom::si::length::inch>(12.0));
        let inner = self.stack.most(upper, lower);
        let outer = inner + self.view.mm(wide).max(4.0);
        let frame = Frame::between(self.at(inner, upper), self.at(outer, lower));
        let mut group = work_group(&event, &self.element);
        layer(&mut group, frame.corners(), event.work.product.as_deref(), fresh);
        body.groups.push(group);
        let x = self.at(outer - (outer - inner) * 0.15, 0.0).x;
        Some(Reach::Level { x, upper: upper + 0.8, lower: lower - 0.8 })
    }

    /// A drain pipe at the toe of the footing.
    fn drain(&mut self, body: &mut Body<'a>, event: Event<'a>, fresh: bool) -> Option<Reach> {
        let r = (event.work.product.as_ref().and_then(|p| p.diameter).map_or(4.0, |d| self.view.mm(d)) / 2.0).max(1.4);
        let y = self.view.y(self.levels.footing);
        let center = self.at(self.stack.most(y - 4.0 * r, y) + 1.0 + r * 2.2, y - r - 0.4);
        let mut group = work_group(&event, &self.element);
        let pen = Pen { ink: if fresh { Ink::New } else { Ink::Line }, weight: Weight::Bold, dash: Dash::Whole };
        group.shape(Form::Circle(center, r), Fill::Full(Ink::Paper), Some(pen));
        group.shape(
            Form::Circle(center, r * 0.72),
            Fill::None,
            Some(Pen { dash: Dash::Hidden, weight: Weight::Thin, ..pen }),
        );
        body.over.push(group);
        let x = center.x + self.sign * r * 0.5;
        Some(Reach::Level { x, upper: center.y - r * 0.5, lower: center.y + r * 0.6 })
    }
}

/// A range less some holes, top to bottom.
pub(crate) fn less(from: f64, to: f64, holes: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut holes: Vec<(f64, f64)> = holes.iter().copied().filter(|h| h.1 > from && h.0 < to).collect();
    holes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut out = Vec::new();
    let mut at = from;
    for (upper, lower) in holes {
        if upper > at + 0.01 {
            out.push((at, upper));
        }
        at = at.max(lower);
    }
    if to > at + 0.01 {
        out.push((at, to));
    }
    out
}

/// Stretches that follow one another without a gap.
fn runs(laid: &[Laid]) -> Vec<&[Laid]> {
    laid.chunk_by(|a, b| (a.to - b.from).abs() < 1e-6).collect()
}
