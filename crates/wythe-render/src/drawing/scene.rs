//! The scene of a drawing: typed shapes and measured texts in groups that know the work they come from.
//!
//! Coordinates are millimeters on paper, east to the right and down the page, so that a drawing at 1:12 is true to
//! scale when it is printed at its own size.

use wythe_model::Control;
use wythe_source::Span;

use super::text;

/// A place on the sheet, in millimeters on paper.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Spot {
    /// From the left edge.
    pub x: f64,
    /// From the upper edge.
    pub y: f64,
}

/// A place on the sheet.
pub const fn spot(x: f64, y: f64) -> Spot {
    Spot { x, y }
}

/// An upright rectangle on the sheet, in millimeters on paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Frame {
    /// From two corners.
    pub fn between(a: Spot, b: Spot) -> Frame {
        Frame { left: a.x.min(b.x), top: a.y.min(b.y), right: a.x.max(b.x), bottom: a.y.max(b.y) }
    }

    /// Whether it shares ground with another; touching edges do not count.
    pub fn overlaps(&self, other: &Frame) -> bool {
        let hair = 1e-6;
        self.left + hair < other.right
            && other.left + hair < self.right
            && self.top + hair < other.bottom
            && other.top + hair < self.bottom
    }

    /// The smallest frame round both.
    #[must_use]
    pub fn with(self, other: Frame) -> Frame {
        Frame {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// Grown on every side.
    #[must_use]
    pub fn grown(self, by: f64) -> Frame {
        Frame { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    /// Its corners, clockwise from the upper left.
    pub fn corners(&self) -> Vec<Spot> {
        vec![
            spot(self.left, self.top),
            spot(self.right, self.top),
            spot(self.right, self.bottom),
            spot(self.left, self.bottom),
        ]
    }
}

/// What a color stands for; the theme says which color that is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ink {
    /// The sheet itself.
    Paper,
    /// Outlines and text.
    Line,
    /// Leaders, dimension lines and hatches.
    Fine,
    /// Secondary text.
    Quiet,
    /// Soil.
    Earth,
    /// Masonry and concrete.
    Masonry,
    /// Drain stone and gravel.
    Stone,
    /// Lumber.
    Wood,
    /// Coatings.
    Coating,
    /// Sheets.
    Sheet,
    /// Insulation.
    Board,
    /// Tape, sealant and fasteners.
    Fixing,
    /// What a phase adds.
    New,
    /// A break in a line.
    Alarm,
    /// A control line.
    Control(Control),
}

/// How thick a line is, in the steps of ISO 128-20.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Weight {
    /// 0.13 mm.
    Hair,
    /// 0.25 mm.
    Thin,
    /// 0.35 mm.
    Medium,
    /// 0.5 mm.
    Bold,
    /// 0.7 mm.
    Heavy,
    /// 1.8 mm: clears the sheet on both sides of a heavy line.
    Casing,
}

impl Weight {
    /// In millimeters on paper.
    pub const fn millimeters(self) -> f64 {
        match self {
            Weight::Hair => 0.13,
            Weight::Thin => 0.25,
            Weight::Medium => 0.35,
            Weight::Bold => 0.5,
            Weight::Heavy => 0.7,
            Weight::Casing => 1.8,
        }
    }
}

/// How a line is broken up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Dash {
    /// Whole.
    Whole,
    /// Hidden, or there for place only.
    Hidden,
    /// A middle line.
    Center,
    /// A control line's own pattern.
    Control(Control),
}

/// A pen.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// What its color stands for.
    pub ink: Ink,
    /// How thick.
    pub weight: Weight,
    /// How broken up.
    pub dash: Dash,
}

/// A pen that draws a whole line.
pub const fn pen(ink: Ink, weight: Weight) -> Pen {
    Pen { ink, weight, dash: Dash::Whole }
}

/// What is inside a closed outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fill {
    /// Nothing.
    None,
    /// The full color.
    Full(Ink),
    /// A light wash of the color; white on a print.
    Wash(Ink),
}

/// The geometry of a shape.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// Straight lines from spot to spot.
    Line(Vec<Spot>),
    /// The same, closed.
    Area(Vec<Spot>),
    /// A circle.
    Circle(Spot, f64),
    /// Many separate strokes, as of a hatch.
    Strokes(Vec<(Spot, Spot)>),
}

/// A shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// Its geometry.
    pub form: Form,
    /// What is inside.
    pub fill: Fill,
    /// How it is drawn.
    pub pen: Option<Pen>,
}

/// Where a text lies to its spot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The text starts at it.
    Start,
    /// The middle is at it.
    Middle,
    /// The text ends at it.
    End,
}

/// A text on one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// The spot on its baseline.
    pub at: Spot,
    /// What is shown.
    pub shown: String,
    /// The whole text, where what is shown had to be cut.
    pub whole: Option<String>,
    /// Size of the letters, in millimeters on paper.
    pub size: f64,
    /// Whether it is bold.
    pub bold: bool,
    /// Where it lies to its spot.
    pub anchor: Anchor,
    /// Its color.
    pub ink: Ink,
    /// Whether it reads upward.
    pub turned: bool,
    /// Whether the sheet is cleared behind it.
    pub cleared: bool,
}

impl Text {
    /// A plain text.
    pub fn new(at: Spot, size: f64, shown: impl Into<String>) -> Text {
        let shown = shown.into();
        Text {
            at,
            shown,
            whole: None,
            size,
            bold: false,
            anchor: Anchor::Start,
            ink: Ink::Line,
            turned: false,
            cleared: false,
        }
    }

    /// The rectangle it takes up at most.
    pub fn frame(&self) -> Frame {
        let width = text::width(&self.shown, self.size, self.bold);
        let (rise, fall) = (self.size * text::RISE, self.size * text::FALL);
        let before = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => width / 2.0,
            Anchor::End => width,
        };
        let Spot { x, y } = self.at;
        if self.turned {
            Frame { left: x - rise, top: y - (width - before), right: x + fall, bottom: y + before }
        } else {
            Frame { left: x - before, top: y - rise, right: x - before + width, bottom: y + fall }
        }
    }

    #[must_use]
    pub(super) fn bold(self) -> Text {
        Text { bold: true, ..self }
    }

    #[must_use]
    pub(super) fn ink(self, ink: Ink) -> Text {
        Text { ink, ..self }
    }

    #[must_use]
    pub(super) fn anchor(self, anchor: Anchor) -> Text {
        Text { anchor, ..self }
    }

    #[must_use]
    pub(super) fn cleared(self) -> Text {
        Text { cleared: true, ..self }
    }

    #[must_use]
    pub(super) fn turned(self) -> Text {
        Text { turned: true, ..self }
    }

    /// Cuts it to a width, and keeps the whole text beside it.
    #[must_use]
    pub(super) fn within(mut self, width: f64) -> Text {
        if let Some(cut) = text::cut(&self.shown, self.size, self.bold, width) {
            self.whole = Some(std::mem::replace(&mut self.shown, cut));
        }
        self
    }
}

/// What a group is, for those who read the drawing by program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// Title, scale and remarks.
    Sheet,
    /// Soil, outside or inside.
    Ground,
    /// Masonry, concrete, lumber.
    Structure,
    /// A piece of work in place.
    Work,
    /// A name with its leader.
    Leader,
    /// A dimension.
    Dimension,
    /// A control line.
    ControlLine,
    /// A wall in plan.
    Wall,
    /// An opening.
    Opening,
    /// A pier, pad or beam.
    Support,
    /// A strip of liner.
    Strip,
    /// A numbered piece of board.
    Piece,
    /// One panel of a strip of drawings.
    Panel,
}

impl Role {
    /// The word in the file.
    pub const fn word(self) -> &'static str {
        match self {
            Role::Sheet => "sheet",
            Role::Ground => "ground",
            Role::Structure => "structure",
            Role::Work => "work",
            Role::Leader => "leader",
            Role::Dimension => "dimension",
            Role::ControlLine => "control-line",
            Role::Wall => "wall",
            Role::Opening => "opening",
            Role::Support => "support",
            Role::Strip => "strip",
            Role::Piece => "piece",
            Role::Panel => "panel",
        }
    }
}

/// Shapes and texts that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// Names it within the drawing; need not be unique, the writer sees to that.
    pub id: String,
    /// What it is.
    pub role: Role,
    /// What it is in words, shown where a pointer rests on it.
    pub title: Option<String>,
    /// The place in the text it comes from.
    pub origin: Option<Span>,
    /// What is in it, from the bottom up.
    pub items: Vec<Item>,
}

impl Group {
    /// An empty group.
    pub fn new(role: Role, id: impl Into<String>) -> Group {
        Group { id: id.into(), role, title: None, origin: None, items: Vec::new() }
    }

    #[must_use]
    pub(super) fn from(mut self, origin: Span) -> Group {
        self.origin = Some(origin);
        self
    }

    #[must_use]
    pub(super) fn titled(mut self, title: impl Into<String>) -> Group {
        self.title = Some(title.into());
        self
    }

    pub(super) fn shape(&mut self, form: Form, fill: Fill, pen: Option<Pen>) {
        self.items.push(Item::Shape(Shape { form, fill, pen }));
    }

    pub(super) fn line(&mut self, spots: impl Into<Vec<Spot>>, pen: Pen) {
        self.shape(Form::Line(spots.into()), Fill::None, Some(pen));
    }

    pub(super) fn text(&mut self, text: Text) {
        self.items.push(Item::Text(text));
    }
}

/// One thing in a drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// Things that belong together.
    Group(Group),
    /// A shape.
    Shape(Shape),
    /// A text.
    Text(Text),
}

/// A drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Names it, and begins every id in its file.
    pub id: String,
    /// What it shows, in a few words.
    pub title: String,
    /// What it shows, for those who cannot see it.
    pub description: String,
    /// Width on paper, in millimeters.
    pub width: f64,
    /// Height on paper, in millimeters.
    pub height: f64,
    /// How many times smaller than life; nothing where it is not to scale.
    pub scale: Option<u32>,
    /// What is in it, from the bottom up.
    pub groups: Vec<Group>,
}

impl Drawing {
    /// Every text, in order.
    pub fn texts(&self) -> Vec<&Text> {
        fn walk<'a>(items: &'a [Item], out: &mut Vec<&'a Text>) {
            for item in items {
                match item {
                    Item::Group(g) => walk(&g.items, out),
                    Item::Text(t) => out.push(t),
                    Item::Shape(_) => {}
                }
            }
        }
        let mut out = Vec::new();
        self.groups.iter().for_each(|g| walk(&g.items, &mut out));
        out
    }

    /// Every group, outer ones before those in them.
    pub fn all_groups(&self) -> Vec<&Group> {
        fn walk<'a>(group: &'a Group, out: &mut Vec<&'a Group>) {
            out.push(group);
            for item in &group.items {
                if let Item::Group(inner) = item {
                    walk(inner, out);
                }
            }
        }
        let mut out = Vec::new();
        self.groups.iter().for_each(|g| walk(g, &mut out));
        out
    }
}

/// The smallest frame round everything, and everything moved by a distance.
pub(super) fn bounds(groups: &[Group]) -> Option<Frame> {
    fn of_spots(spots: impl Iterator<Item = Spot>) -> Option<Frame> {
        spots.map(|s| Frame::between(s, s)).reduce(Frame::with)
    }
    fn of_item(item: &Item) -> Option<Frame> {
        match item {
            Item::Group(g) => of_items(&g.items),
            Item::Text(t) => Some(t.frame()),
            Item::Shape(s) => match &s.form {
                Form::Line(p) | Form::Area(p) => of_spots(p.iter().copied()),
                Form::Circle(c, r) => Some(Frame::between(*c, *c).grown(*r)),
                Form::Strokes(s) => of_spots(s.iter().flat_map(|(a, b)| [*a, *b])),
            },
        }
    }
    fn of_items(items: &[Item]) -> Option<Frame> {
        items.iter().filter_map(of_item).reduce(Frame::with)
    }
    groups.iter().filter_map(|g| of_items(&g.items)).reduce(Frame::with)
}

/// Moves everything.
pub(super) fn shift(items: &mut [Item], dx: f64, dy: f64) {
    let go = |s: &mut Spot| {
        s.x += dx;
        s.y += dy;
    };
    for item in items {
        match item {
            Item::Group(g) => shift(&mut g.items, dx, dy),
            Item::Text(t) => go(&mut t.at),
            Item::Shape(s) => match &mut s.form {
                Form::Line(p) | Form::Area(p) => p.iter_mut().for_each(go),
                Form::Circle(c, _) => go(c),
                Form::Strokes(s) => s.iter_mut().for_each(|(a, b)| {
                    go(a);
                    go(b);
                }),
            },
        }
    }
}
