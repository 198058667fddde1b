//! Assemblies: a build-up with its arguments filled in, as an ordered list of work on each face.
//!
//! An assembly is shared by every element built with it, so a fault in it is found once.

use std::sync::Arc;

use uom::si::f64::Length;
use wythe_source::{Span, Symbol};

use crate::{Extent, Product};

/// What an assembly is built on.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum SurfaceKind {
    /// A wall, with `head`, `outside` and `inside`.
    Wall,
    /// A pier, with `face`.
    Pier,
    /// An opening, with `face`.
    Opening,
    /// The ground, with `face`.
    Ground,
}

impl SurfaceKind {
    /// All, in the order of the reference.
    pub const ALL: [SurfaceKind; 4] = [SurfaceKind::Wall, SurfaceKind::Pier, SurfaceKind::Opening, SurfaceKind::Ground];

    /// The kind of a word.
    pub fn of_word(word: &str) -> Option<SurfaceKind> {
        SurfaceKind::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            SurfaceKind::Wall => "wall",
            SurfaceKind::Pier => "pier",
            SurfaceKind::Opening => "opening",
            SurfaceKind::Ground => "ground",
        }
    }

    /// The faces an assembly of this kind may have.
    pub const fn faces(self) -> &'static [&'static str] {
        match self {
            SurfaceKind::Wall => &["head", "outside", "inside"],
            SurfaceKind::Pier => &["head", "face"],
            SurfaceKind::Opening | SurfaceKind::Ground => &["face"],
        }
    }
}

/// A build-up with its arguments filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct Assembly {
    /// The build-up's name.
    pub name: Symbol,
    /// What it is built on.
    pub kind: SurfaceKind,
    /// Where the build-up is declared.
    pub origin: Span,
    /// Where it is first called with these arguments.
    pub call: Span,
    /// The masonry or concrete it is built on.
    pub structure: Option<Arc<Product>>,
    /// Where the structure is named.
    pub structure_origin: Option<Span>,
    /// Its faces, in the order declared.
    pub faces: Vec<Face>,
    /// What must hold of the ground before a permanent layer goes on, with the place it is said.
    pub ready: Vec<(Symbol, Span)>,
}

impl Assembly {
    /// A face by name.
    pub fn face(&self, name: &str) -> Option<&Face> {
        self.faces.iter().find(|f| f.name.as_str() == name)
    }
}

/// One face of an assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// `head`, `outside`, `inside` or `face`.
    pub name: Symbol,
    /// Where its section stands.
    pub origin: Span,
    /// What is done, in order.
    pub works: Vec<Work>,
}

/// One piece of work on a face.
#[derive(Clone, Debug, PartialEq)]
pub struct Work {
    /// What is done.
    pub act: Act,
    /// The whole statement.
    pub origin: Span,
    /// The layer it puts in place, or the layer it acts on (`fasten`, `remove`, `lap`).
    pub layer: Symbol,
    /// Where the layer or product is named.
    pub layer_origin: Span,
    /// The product used up: the coating, sheet, board, tape, sealant, or the fastener of `fasten … with`.
    /// `remove` and `lap` use none.
    pub product: Option<Arc<Product>>,
    /// The phase it is done in.
    pub phase: Option<PhaseRef>,
    /// From where to where on a wall or pier.
    pub extent: Option<Extent>,
    /// The edge it runs along, lies over, under or goes into.
    pub place: Option<Place>,
    /// Distance between fasteners.
    pub every: Option<Length>,
    /// Tail, overlap or lap width.
    pub by: Option<Length>,
    /// Fasteners for each counting unit, such as 6 per sheet.
    pub each: Option<(f64, Symbol)>,
    /// Bead width of a sealant.
    pub bead: Option<Length>,
}

/// A phase named by a face or joint.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PhaseRef {
    /// The phase.
    pub name: Symbol,
    /// Where it is named.
    pub origin: Span,
}

/// What is done.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Act {
    /// Put on a coating.
    Coat,
    /// Lay a drain.
    Drain,
    /// Fill.
    Fill,
    /// Lay a sheet on the ground.
    Lay,
    /// Hang a sheet.
    Hang,
    /// Set a board, panel or equipment.
    Set,
    /// Fasten a layer.
    Fasten,
    /// Cap an edge.
    Cap,
    /// Tape.
    Tape,
    /// Seal.
    Seal,
    /// Lap one layer over another.
    Lap,
    /// Take away.
    Remove,
}

impl Act {
    /// The verb as the language writes it.
    pub const fn word(self) -> &'static str {
        match self {
            Act::Coat => "coat",
            Act::Drain => "drain",
            Act::Fill => "fill",
            Act::Lay => "lay",
            Act::Hang => "hang",
            Act::Set => "set",
            Act::Fasten => "fasten",
            Act::Cap => "cap",
            Act::Tape => "tape",
            Act::Seal => "seal",
            Act::Lap => "lap",
            Act::Remove => "remove",
        }
    }

    /// Whether the work puts a layer of its own in place.
    pub const fn places(self) -> bool {
        matches!(self, Act::Coat | Act::Drain | Act::Fill | Act::Lay | Act::Hang | Act::Set)
    }
}

/// How a work stands to an edge.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Relation {
    /// Runs along it.
    Along,
    /// Lies over it.
    Over,
    /// Lies under it.
    Under,
    /// Goes into it.
    Into,
}

/// Where a work is done, beside its extent.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Place {
    /// How it stands to the edge.
    pub relation: Relation,
    /// Which edge.
    pub edge: EdgeName,
    /// The layer the edge belongs to.
    pub of: Option<Symbol>,
    /// What it is joined to (`structure` or a layer).
    pub to: Option<Symbol>,
    /// The place of the whole edge in the text.
    pub origin: Span,
}

/// An edge of a layer, or a line of the element.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum EdgeName {
    /// `top edge`
    TopEdge,
    /// `bottom edge`
    BottomEdge,
    /// `end edges`: the vertical ends.
    EndEdges,
    /// `joints`: between pieces of the same layer.
    Joints,
    /// `heads` of a fastener
    Heads,
    /// `laps` of a sheet
    Laps,
    /// `cuts` around piers and pipes
    Cuts,
    /// `perimeter` of a panel
    Perimeter,
    /// `head` of a wall or pier
    Head,
    /// `footing` line
    Footing,
    /// The whole of another layer, as in `lap ground_liner over wall_liner`.
    Layer(Symbol),
}
