//! Small drawings beside an answer or on a sheet: few lines, and words from the catalogue only.

mod cut;
mod fasten;
mod key;
mod lap;
mod wall;

pub(crate) use cut::sheet_cut;
pub(crate) use fasten::fastened_piece;
pub(crate) use key::key_plan;
pub(crate) use lap::lap;
pub(crate) use wall::wall_heights;

use wythe_model::Length;
use wythe_render::drawing::{
    Anchor, Dash, Drawing, Fill, Form, Frame, Group, Ink, Item, Pen, Role, Shape, Spot, Text, Weight,
};

use crate::html::clean;

const fn spot(x: f64, y: f64) -> Spot {
    Spot { x, y }
}

const fn thin() -> Pen {
    Pen { ink: Ink::Line, weight: Weight::Thin, dash: Dash::Whole }
}

const fn bold() -> Pen {
    Pen { ink: Ink::Line, weight: Weight::Bold, dash: Dash::Whole }
}

/// Millimeters on paper of a length that is drawn `per` millimeters a meter.
fn mm(length: Length, per: f64) -> f64 {
    let value = length.value * per;
    if value.is_finite() { value.clamp(-10_000.0, 10_000.0) } else { 0.0 }
}

/// A drawing under way.
struct Canvas {
    group: Group,
    room: Option<Frame>,
}

impl Canvas {
    fn new() -> Canvas {
        Canvas { group: Group::new(Role::Panel, "small"), room: None }
    }

    fn see(&mut self, frame: Frame) {
        self.room = Some(self.room.map_or(frame, |r| r.with(frame)));
    }

    fn shape(&mut self, form: Form, fill: Fill, pen: Option<Pen>) {
        let spots: Vec<Spot> = match &form {
            Form::Line(s) | Form::Area(s) => s.clone(),
            Form::Circle(c, r) => vec![spot(c.x - r, c.y - r), spot(c.x + r, c.y + r)],
            Form::Strokes(s) => s.iter().flat_map(|(a, b)| [*a, *b]).collect(),
        };
        spots.iter().for_each(|s| self.see(Frame::between(*s, *s)));
        self.group.items.push(Item::Shape(Shape { form, fill, pen }));
    }

    fn line(&mut self, from: Spot, to: Spot, pen: Pen) {
        self.shape(Form::Line(vec![from, to]), Fill::None, Some(pen));
    }

    fn rect(&mut self, frame: Frame, fill: Fill, pen: Pen) {
        self.shape(Form::Area(frame.corners()), fill, Some(pen));
    }

    /// Slanted strokes inside a rectangle, so far apart.
    fn hatch(&mut self, frame: Frame, apart: f64) {
        let (wide, tall) = (frame.right - frame.left, frame.bottom - frame.top);
        let count = ((wide + tall) / apart).floor().clamp(0.0, 2_000.0) as usize;
        let strokes = (1..=count).map(|i| {
            let s = i as f64 * apart;
            let a = spot(frame.left + (s - tall).max(0.0), frame.top + s.min(tall));
            let b = spot(frame.left + s.min(wide), frame.top + (s - wide).max(0.0));
            (a, b)
        });
        let pen = Pen { ink: Ink::Fine, weight: Weight::Hair, dash: Dash::Whole };
        self.shape(Form::Strokes(strokes.collect()), Fill::None, Some(pen));
    }

    fn words(&self, at: Spot, size: f64, text: &str, anchor: Anchor) -> Text {
        let mut text = Text::new(at, size, clean(text));
        text.anchor = anchor;
        text
    }

    fn text(&mut self, at: Spot, size: f64, text: &str, anchor: Anchor) {
        let text = self.words(at, size, text, anchor);
        self.put(text);
    }

    fn put(&mut self, text: Text) {
        self.see(text.frame());
        self.group.items.push(Item::Text(text));
    }

    /// A dimension beside an upright stretch, its text to the left.
    fn upright(&mut self, x: f64, top: f64, bottom: f64, text: &str) {
        self.line(spot(x, top), spot(x, bottom), thin());
        for y in [top, bottom] {
            self.line(spot(x - 1.2, y + 1.2), spot(x + 1.2, y - 1.2), thin());
        }
        self.text(spot(x - 2.2, (top + bottom) / 2.0 + 1.3), 3.6, text, Anchor::End);
    }

    /// A dimension under or over a level stretch.
    fn level(&mut self, y: f64, left: f64, right: f64, text: &str, below: bool) {
        self.line(spot(left, y), spot(right, y), thin());
        for x in [left, right] {
            self.line(spot(x - 1.2, y + 1.2), spot(x + 1.2, y - 1.2), thin());
        }
        let at = if below { y + 4.4 } else { y - 1.6 };
        self.text(spot((left + right) / 2.0, at), 3.6, text, Anchor::Middle);
    }

    /// The drawing on a sheet as large as it is.
    fn finish(mut self, id: &str, title: String, description: String) -> Drawing {
        const MARGIN: f64 = 2.0;
        let room = self.room.unwrap_or(Frame { left: 0.0, top: 0.0, right: 10.0, bottom: 10.0 });
        let (dx, dy) = (MARGIN - room.left, MARGIN - room.top);
        for item in &mut self.group.items {
            shift(item, dx, dy);
        }
        Drawing {
            id: id.to_owned(),
            title,
            description,
            width: room.right - room.left + 2.0 * MARGIN,
            height: room.bottom - room.top + 2.0 * MARGIN,
            scale: None,
            groups: vec![self.group],
        }
    }
}

fn shift(item: &mut Item, dx: f64, dy: f64) {
    let go = |s: &mut Spot| {
        s.x += dx;
        s.y += dy;
    };
    match item {
        Item::Group(g) => g.items.iter_mut().for_each(|i| shift(i, dx, dy)),
        Item::Text(t) => go(&mut t.at),
        Item::Shape(s) => match &mut s.form {
            Form::Line(all) | Form::Area(all) => all.iter_mut().for_each(go),
            Form::Circle(center, _) => go(center),
            Form::Strokes(all) => all.iter_mut().for_each(|(a, b)| {
                go(a);
                go(b);
            }),
        },
    }
}
