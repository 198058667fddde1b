//! One drawing as the content of a page.

use pdf_writer::{Content, Name, Str};
use wythe_render::drawing::{Anchor, Drawing, Fill, Form, Group, Ink, Item, Shape, Spot, Text, Theme, dashes};

use super::POINT;
use super::font::{Face, encode, width};

/// How far letters rise above and fall below their baseline, as a share of their size; as in the drawing.
const RISE: f64 = 0.80;
const FALL: f64 = 0.24;

struct Page {
    content: Content,
    theme: Theme,
    /// Height of the sheet: the page counts from below.
    height: f64,
    replaced: usize,
}

/// The content of a page, and how many letters had to be replaced.
pub(super) fn content(drawing: &Drawing, theme: Theme) -> (Vec<u8>, usize) {
    let mut page = Page { content: Content::new(), theme, height: drawing.height, replaced: 0 };
    page.content.set_line_cap(pdf_writer::types::LineCapStyle::RoundCap);
    page.content.set_line_join(pdf_writer::types::LineJoinStyle::RoundJoin);
    page.fill(theme.color(Ink::Paper), 1.0);
    page.content.rect(0.0, 0.0, size(drawing.width), size(drawing.height)).fill_nonzero();
    for group in &drawing.groups {
        page.group(group);
    }
    (page.content.finish().to_vec(), page.replaced)
}

/// Millimeters as points.
fn size(millimeters: f64) -> f32 {
    (millimeters * POINT) as f32
}

impl Page {
    fn at(&self, spot: Spot) -> (f32, f32) {
        (size(spot.x), size(self.height - spot.y))
    }

    /// Sets the color of what is filled: a wash is the color laid thinly on the paper.
    fn fill(&mut self, color: &str, opacity: f64) {
        let (ink, paper) = (parts(color), parts(self.theme.color(Ink::Paper)));
        let mixed = [0, 1, 2].map(|i| (ink[i] * opacity + paper[i] * (1.0 - opacity)) as f32);
        self.content.set_fill_rgb(mixed[0], mixed[1], mixed[2]);
    }

    fn group(&mut self, group: &Group) {
        for item in &group.items {
            match item {
                Item::Group(inner) => self.group(inner),
                Item::Shape(shape) => self.shape(shape),
                Item::Text(text) => self.text(text),
            }
        }
    }

    fn shape(&mut self, shape: &Shape) {
        let fill = self.theme.fill(shape.fill).filter(|_| shape.fill != Fill::None);
        if fill.is_none() && shape.pen.is_none() {
            return;
        }
        if let Some((color, opacity)) = fill {
            self.fill(color, opacity);
        }
        if let Some(pen) = shape.pen {
            let ink = parts(self.theme.color(pen.ink));
            self.content.set_stroke_rgb(ink[0] as f32, ink[1] as f32, ink[2] as f32);
            self.content.set_line_width(size(pen.weight.millimeters()));
            let pattern: Vec<f32> = dashes(pen.dash).iter().map(|d| size(*d)).collect();
            self.content.set_dash_pattern(pattern, 0.0);
        }
        match &shape.form {
            Form::Line(spots) => self.path(spots, false),
            Form::Area(spots) => self.path(spots, true),
            Form::Strokes(strokes) => strokes.iter().for_each(|(a, b)| self.path(&[*a, *b], false)),
            Form::Circle(center, radius) => self.circle(*center, *radius),
        }
        match (fill.is_some(), shape.pen.is_some()) {
            (true, true) => self.content.fill_nonzero_and_stroke(),
            (true, false) => self.content.fill_nonzero(),
            (false, _) => self.content.stroke(),
        };
    }

    fn path(&mut self, spots: &[Spot], closed: bool) {
        for (i, spot) in spots.iter().enumerate() {
            let (x, y) = self.at(*spot);
            if i == 0 {
                self.content.move_to(x, y)
            } else {
                self.content.line_to(x, y)
            };
        }
        if closed && !spots.is_empty() {
            self.content.close_path();
        }
    }

    /// A circle of four curves; the handles are four thirds of tan(22.5°) of the radius.
    fn circle(&mut self, center: Spot, radius: f64) {
        let handle = radius * 4.0 / 3.0 * (std::f64::consts::PI / 8.0).tan();
        let go = |dx: f64, dy: f64| self.at(Spot { x: center.x + dx, y: center.y + dy });
        let quarter = |a: (f64, f64), b: (f64, f64)| {
            let (p, q) = (
                go(a.0 * radius + b.0 * handle, a.1 * radius + b.1 * handle),
                go(b.0 * radius + a.0 * handle, b.1 * radius + a.1 * handle),
            );
            let end = go(b.0 * radius, b.1 * radius);
            [p.0, p.1, q.0, q.1, end.0, end.1]
        };
        let ring = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)];
        let start = go(radius, 0.0);
        let curves: Vec<[f32; 6]> = ring.windows(2).map(|w| quarter(w[0], w[1])).collect();
        self.content.move_to(start.0, start.1);
        for [a, b, c, d, e, f] in curves {
            self.content.cubic_to(a, b, c, d, e, f);
        }
        self.content.close_path();
    }

    fn text(&mut self, text: &Text) {
        let face = if text.bold { Face::Bold } else { Face::Plain };
        let (bytes, lost) = encode(&text.shown);
        self.replaced += lost;
        let wide = width(&bytes, face) * text.size;
        let before = match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => wide / 2.0,
            Anchor::End => wide,
        };
        let Spot { x, y } = text.at;
        if text.cleared {
            let (rise, fall) = (text.size * RISE, text.size * FALL);
            let (left, top, right, bottom) = if text.turned {
                (x - rise, y - (wide - before), x + fall, y + before)
            } else {
                (x - before, y - rise, x - before + wide, y + fall)
            };
            self.fill(self.theme.color(Ink::Paper), 1.0);
            let (low, high) = (self.at(Spot { x: left, y: bottom }), self.at(Spot { x: right, y: top }));
            self.content.rect(low.0, low.1, high.0 - low.0, high.1 - low.1).fill_nonzero();
        }
        self.fill(self.theme.color(text.ink), 1.0);
        self.content.begin_text();
        self.content.set_font(Name(face.key()), size(text.size));
        let start = if text.turned { Spot { x, y: y + before } } else { Spot { x: x - before, y } };
        let (px, py) = self.at(start);
        let matrix = if text.turned { [0.0, 1.0, -1.0, 0.0, px, py] } else { [1.0, 0.0, 0.0, 1.0, px, py] };
        self.content.set_text_matrix(matrix);
        self.content.show(Str(&bytes));
        self.content.end_text();
    }
}

/// The parts of a color `#rrggbb`, each from nought to one.
fn parts(color: &str) -> [f64; 3] {
    [1, 3, 5].map(|at| {
        color.get(at..at + 2).and_then(|t| u8::from_str_radix(t, 16).ok()).map_or(0.0, |v| f64::from(v) / 255.0)
    })
}
