//! The foundation: its parts, its assemblies and its phases.

use std::sync::Arc;

use uom::si::f64::Length;
use wythe_source::{Span, Symbol};

use crate::{
    Assembly, AssemblyId, Beam, Conditioning, Face, Ground, Opening, Pad, Phase, Pier, Point, Site, SurfaceKind, Wall,
};

/// The face of the walls on which the walk is measured.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, Default)]
pub enum MeasuredFace {
    /// Outside of the masonry.
    #[default]
    Outside,
    /// Middle of the masonry.
    Center,
    /// Inside of the masonry.
    Inside,
}

impl MeasuredFace {
    /// The word for it.
    pub const fn word(self) -> &'static str {
        match self {
            MeasuredFace::Outside => "outside",
            MeasuredFace::Center => "center",
            MeasuredFace::Inside => "inside",
        }
    }
}

/// How the crawl space is meant to work.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, Default)]
pub enum SpaceKind {
    /// Closed: inside the envelope, conditioned.
    #[default]
    Closed,
    /// Vented to outside.
    Vented,
}

/// What lies between masonry and floor at the sill, and where the lines go next.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct SillPlate {
    /// Where it is declared.
    pub origin: Option<Span>,
    /// Whether the plate is treated against decay.
    pub treated: bool,
    /// Whether a gasket lies under it.
    pub gasket: bool,
    /// Whether the rim above is insulated.
    pub rim_insulated: bool,
    /// Whether the rim above is sealed against air.
    pub rim_sealed: bool,
}

/// A foundation.
#[derive(Clone, Debug, PartialEq)]
pub struct Foundation {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// Its site.
    pub site: Arc<Site>,
    /// How the space is meant to work.
    pub space: SpaceKind,
    /// Where the walk is measured.
    pub measured: MeasuredFace,
    /// How far the walk may fail to close.
    pub closing_tolerance: Length,
    /// Where the walk starts.
    pub start: Point,
    /// The walls, in the order of the walk.
    pub walls: Vec<Wall>,
    /// The openings, in the order declared.
    pub openings: Vec<Opening>,
    /// The piers, grids counted out west to east, then south to north.
    pub piers: Vec<Pier>,
    /// Added footings.
    pub pads: Vec<Pad>,
    /// Beams.
    pub beams: Vec<Beam>,
    /// The crawl floor.
    pub ground: Ground,
    /// What lies at the sill.
    pub sill: SillPlate,
    /// How it is conditioned.
    pub conditioning: Conditioning,
    /// The assemblies its parts are built with.
    pub assemblies: Vec<Arc<Assembly>>,
    /// The joints it uses.
    pub joints: Vec<Arc<Joint>>,
    /// Its phases, in order.
    pub phases: Vec<Arc<Phase>>,
    /// Where the list of phases stands.
    pub phases_origin: Span,
}

impl Foundation {
    /// An assembly by number.
    pub fn assembly(&self, id: AssemblyId) -> &Arc<Assembly> {
        &self.assemblies[id.0 as usize]
    }

    /// The place of a phase in the order of work.
    pub fn phase_index(&self, name: Symbol) -> Option<usize> {
        self.phases.iter().position(|p| p.name == Some(name))
    }

    /// The names of the parts built with an assembly, in order: `south`, `p1`, `ground`.
    pub fn built_with(&self, id: AssemblyId) -> Vec<Symbol> {
        let walls = self.walls.iter().filter(|w| w.assembly == Some(id)).map(|w| w.name);
        let openings = self.openings.iter().filter(|o| o.assembly == Some(id)).map(|o| o.name);
        let piers = self.piers.iter().filter(|p| p.assembly == Some(id)).map(|p| p.name);
        let ground = (self.ground.assembly == Some(id)).then(|| Symbol::new("ground"));
        walls.chain(openings).chain(piers).chain(ground).collect()
    }
}

/// What is done where two faces meet.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Its name.
    pub name: Symbol,
    /// Where its name stands.
    pub origin: Span,
    /// The one face.
    pub first: FaceKey,
    /// The other.
    pub second: FaceKey,
    /// What is done, in order. The face's name is the joint's.
    pub face: Face,
}

/// A face of a kind of element.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct FaceKey {
    /// The kind.
    pub kind: SurfaceKind,
    /// The face's name.
    pub face: Symbol,
}
