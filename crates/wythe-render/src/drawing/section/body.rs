//! What has been drawn of a cut: groups in order, what names may point at, and the middle line of every layer.

use wythe_model::{Class, Product, SurfaceKind};
use wythe_source::Symbol;

use super::super::hatch::{self, Hatch};
use super::super::leader::{Reach, Side};
use super::super::scene::{Dash, Fill, Form, Group, Ink, Pen, Role, Spot, Weight, pen};
use super::super::words;
use super::event::Event;

/// A place a name points at.
#[derive(Clone, Debug)]
pub(crate) struct Mark<'a> {
    /// The work.
    pub event: Event<'a>,
    /// Where its leader starts.
    pub reach: Reach,
    /// Its key in the order of names from the top.
    pub order: f64,
    /// The side its name is on.
    pub side: Side,
}

/// The middle line of a layer, in order along its face.
#[derive(Clone, Debug)]
pub(crate) struct Track {
    pub element: SurfaceKind,
    pub face: Symbol,
    pub layer: Symbol,
    pub spots: Vec<Spot>,
}

/// What has been drawn.
#[derive(Clone, Debug, Default)]
pub(crate) struct Body<'a> {
    pub groups: Vec<Group>,
    /// Drawn over all else of the body.
    pub over: Vec<Group>,
    pub marks: Vec<Mark<'a>>,
    pub tracks: Vec<Track>,
}

impl Body<'_> {
    /// Everything drawn, from the bottom up.
    pub fn into_groups(self) -> Vec<Group> {
        self.groups.into_iter().chain(self.over).collect()
    }
}

/// A group for a piece of work.
pub(crate) fn work_group(event: &Event<'_>, element: &str) -> Group {
    let id = format!("{element}-{}-{}", event.face_name(), event.badge());
    Group::new(Role::Work, id).from(event.work.origin).titled(format!(
        "{} {}",
        event.badge(),
        words::headline(event.work)
    ))
}

/// Fills and outlines a layer as its class is drawn. What a phase adds is outlined in its own ink.
pub(crate) fn layer(group: &mut Group, outline: Vec<Spot>, product: Option<&Product>, fresh: bool) {
    let class = product.map(|p| p.class);
    let line = if fresh { Ink::New } else { Ink::Line };
    match class {
        Some(Class::Coating) => {
            let ink = if fresh { Ink::New } else { Ink::Coating };
            group.shape(Form::Area(outline), Fill::Full(ink), None);
        }
        Some(Class::Membrane) => {
            let dash = if product.is_some_and(|p| p.sacrificial) { Dash::Hidden } else { Dash::Whole };
            let ink = if fresh { Ink::New } else { Ink::Sheet };
            group.shape(Form::Area(outline.clone()), Fill::Full(Ink::Paper), None);
            let pen = Pen { ink, weight: Weight::Medium, dash };
            group.shape(Form::Area(outline), Fill::Wash(ink), Some(pen));
        }
        Some(Class::Aggregate) => {
            group.shape(Form::Area(outline.clone()), Fill::Full(Ink::Paper), None);
            hatch::fill(group, Hatch::Stone, &outline);
            group.shape(Form::Area(outline), Fill::None, Some(pen(line, Weight::Thin)));
        }
        Some(Class::Masonry) => solid(group, Hatch::Masonry, outline, line),
        Some(Class::Concrete) => solid(group, Hatch::Concrete, outline, line),
        Some(Class::Lumber) => solid(group, Hatch::Lumber, outline, line),
        Some(Class::Tape | Class::Sealant | Class::Fastener) => {
            group.shape(Form::Area(outline), Fill::Full(if fresh { Ink::New } else { Ink::Fixing }), None);
        }
        Some(Class::Board) => solid(group, Hatch::Board, outline, line),
        Some(Class::Drain | Class::Equipment) | None => {
            group.shape(Form::Area(outline), Fill::Full(Ink::Paper), Some(pen(line, Weight::Medium)));
        }
    }
}

fn solid(group: &mut Group, hatch: Hatch, outline: Vec<Spot>, line: Ink) {
    group.shape(Form::Area(outline.clone()), Fill::Full(Ink::Paper), None);
    hatch::fill(group, hatch, &outline);
    group.shape(Form::Area(outline), Fill::None, Some(pen(line, Weight::Medium)));
}
