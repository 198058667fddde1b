//! Walls, openings, piers, pads, beams, ground: the parts of a foundation.

use uom::si::f64::{Angle, Area, Length, VolumeRate};
use wythe_source::{Span, Symbol};

use crate::Levels;

/// The number of an assembly in its foundation.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub struct AssemblyId(pub u32);

/// A place in plan, east and north of the southwest corner of the walk.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Point {
    /// East.
    pub x: Length,
    /// North.
    pub y: Length,
}

/// One leg of the walk.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// Where its length stands.
    pub length_origin: Span,
    /// Its bearing, counterclockwise from east.
    pub bearing: Angle,
    /// Its length on the face of measurement.
    pub length: Length,
    /// Its start on the face of measurement.
    pub start: Point,
    /// Its stretches from start to end, at least one; each but the first begins at a step.
    pub stretches: Vec<Stretch>,
    /// What it is built with; walls of an old foundation may have nothing.
    pub assembly: Option<AssemblyId>,
    /// Whether it is old work that is tied to, and how far it is known.
    pub existing: bool,
    /// What was measured on site, where it differs from the drawing.
    pub as_built_length: Option<Length>,
}

/// A stretch of wall with constant levels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// From the wall's start.
    pub from: Length,
    /// To, from the wall's start.
    pub to: Length,
    /// Its levels.
    pub levels: Levels,
    /// Where the step that begins it stands, or the wall.
    pub origin: Span,
}

/// What an opening is for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum OpeningKind {
    /// A person gets in and out.
    Access,
    /// Air.
    Vent,
    /// Flood water.
    Flood,
    /// A beam's end.
    BeamPocket,
    /// A pipe or a cable.
    Sleeve,
}

impl OpeningKind {
    /// All, in the order of the reference.
    pub const ALL: [OpeningKind; 5] =
        [OpeningKind::Access, OpeningKind::Vent, OpeningKind::Flood, OpeningKind::BeamPocket, OpeningKind::Sleeve];

    /// The name as the language writes it.
    pub const fn name(self) -> &'static str {
        match self {
            OpeningKind::Access => "access",
            OpeningKind::Vent => "vent",
            OpeningKind::Flood => "flood",
            OpeningKind::BeamPocket => "beam_pocket",
            OpeningKind::Sleeve => "sleeve",
        }
    }
}

/// An opening in a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// The wall it is in, by number in the foundation; `None` where the name was wrong.
    pub wall: Option<usize>,
    /// Its near edge from the wall's start.
    pub at: Length,
    /// Where that is said.
    pub at_origin: Span,
    /// What it is for.
    pub kind: OpeningKind,
    /// Its width.
    pub width: Length,
    /// Its height.
    pub height: Length,
    /// Where its size is said.
    pub size_origin: Span,
    /// Its lower edge above the datum.
    pub sill: Option<Length>,
    /// Net free area of a vent.
    pub free_area: Option<Area>,
    /// What it is built with.
    pub assembly: Option<AssemblyId>,
    /// Whether it is plugged and insulated for service.
    pub plugged: bool,
    /// Whether it is old work.
    pub existing: bool,
}

/// A pier.
#[derive(Clone, Debug, PartialEq)]
pub struct Pier {
    /// Its name.
    pub name: Symbol,
    /// Where it is declared: its own name, or the grid's.
    pub origin: Span,
    /// Its middle.
    pub at: Point,
    /// Size east and west.
    pub width: Length,
    /// Size north and south.
    pub depth: Length,
    /// Its top above the datum, after a dropped beam has shortened it.
    pub top: Length,
    /// Its foot above the datum: the ground.
    pub ground: Length,
    /// The beam it carries.
    pub beam: Option<Symbol>,
    /// What it is built with.
    pub assembly: Option<AssemblyId>,
}

impl Pier {
    /// Its levels: it stands on the ground, on all sides alike.
    pub const fn levels(&self) -> Levels {
        Levels { top: self.top, sill: self.top, grade: self.ground, ground: self.ground, footing: self.ground }
    }
}

/// An added footing.
#[derive(Clone, Debug, PartialEq)]
pub struct Pad {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// Its middle.
    pub at: Point,
    /// Size east and west.
    pub width: Length,
    /// Size north and south.
    pub depth: Length,
    /// Thickness.
    pub thickness: Length,
}

/// A beam on piers, recorded and never sized.
#[derive(Clone, Debug, PartialEq)]
pub struct Beam {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// Its start.
    pub from: Point,
    /// Its end.
    pub to: Point,
    /// How far its underside lies below the sill.
    pub drop: Length,
}

/// The crawl floor.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Ground {
    /// Where it is declared.
    pub origin: Span,
    /// What it is built with.
    pub assembly: Option<AssemblyId>,
    /// Whether an outlet or a sump is recorded for the lowest point.
    pub drain_outlet: bool,
    /// Whether a cleanout of the drain is recorded.
    pub cleanout: bool,
}

/// How the closed space is conditioned.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Conditioning {
    /// Where it is declared.
    pub origin: Option<Span>,
    /// Supply air.
    pub supply_air: Option<VolumeRate>,
    /// Exhaust.
    pub exhaust: Option<VolumeRate>,
    /// Water a dehumidifier takes out, as a volume a day at its rating condition.
    pub dehumidifier: Option<VolumeRate>,
    /// Whether the supply has a return path.
    pub return_path: bool,
    /// Whether the way of the water a machine takes out is recorded.
    pub condensate_route: bool,
    /// Whether a dryer, a bath fan or a machine's drain ends in the space.
    pub ends_inside: bool,
    /// Whether an appliance that draws its combustion air from the space stands in it.
    pub natural_draft: bool,
    /// Whether a vent pipe from under the ground liner is recorded.
    pub radon_pipe: bool,
    /// Whether a humidity sensor is recorded.
    pub humidity_sensor: bool,
}
