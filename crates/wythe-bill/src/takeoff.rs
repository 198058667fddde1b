//! The takeoff: every piece of work with its net quantity, and where a cut list or a roll layout has counted it, with
//! what that counted.

use std::sync::Arc;

use wythe_model::quantity::{How, Measure, QuantityLine, Role, Unmeasured, WorkOf, quantities};
use wythe_model::{Act, Foundation, Product, SurfaceKind};
use wythe_source::{Span, Symbol};

use crate::Terms;

/// How a figure was counted.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Counted {
    /// From the geometry of the building.
    Geometry,
    /// From the pieces of the cut list.
    CutList,
    /// From the strips of the roll layout.
    RollLayout,
}

/// A piece of work on one element of one house.
#[derive(Clone, Debug, PartialEq)]
pub struct TakeoffLine {
    /// The house's number in the job.
    pub house: usize,
    /// The element: a wall, an opening, a pier or `ground`.
    pub element: Symbol,
    /// What sort of element.
    pub kind: SurfaceKind,
    /// The face, or the joint's name.
    pub face: Symbol,
    /// Where the work is written.
    pub of: WorkOf,
    /// Its number on that face.
    pub work: usize,
    /// The phase it is done in.
    pub phase: Option<Symbol>,
    /// What is done.
    pub act: Act,
    /// What part of it.
    pub role: Role,
    /// The layer it puts in place or acts on.
    pub layer: Symbol,
    /// The product used up.
    pub product: Option<Arc<Product>>,
    /// Bead of a sealant.
    pub bead: Option<uom::si::f64::Length>,
    /// Where the work stands.
    pub origin: Span,
    /// How much, net.
    pub net: Measure,
    /// How it was counted.
    pub counted: Counted,
    /// How the figure was reached.
    pub how: How,
}

/// The lines of one house from its geometry, and what could not be measured.
pub(crate) fn lines(f: &Foundation, house: usize, terms: &Terms) -> (Vec<TakeoffLine>, Vec<Unmeasured>) {
    let q = quantities(f, terms.basis);
    let lines = q.lines.iter().map(|line| taken(f, &q, house, line)).collect();
    (lines, q.unmeasured)
}

fn taken(f: &Foundation, q: &wythe_model::quantity::Quantities, house: usize, line: &QuantityLine) -> TakeoffLine {
    let work = q.work(f, line);
    TakeoffLine {
        house,
        element: line.element,
        kind: line.kind,
        face: line.face,
        of: line.of,
        work: line.work,
        phase: work.and_then(|w| w.phase).map(|p| p.name),
        act: line.act,
        role: line.role,
        layer: line.layer,
        product: work.and_then(|w| w.product.clone()),
        bead: work.and_then(|w| w.bead),
        origin: line.origin,
        net: line.measure,
        counted: Counted::Geometry,
        how: line.how.clone(),
    }
}

impl TakeoffLine {
    /// The line counted anew.
    pub(crate) fn recount(&mut self, net: Measure, counted: Counted, how: How) {
        self.net = net;
        self.counted = counted;
        self.how = how;
    }
}

/// What a role is called in tables.
pub const fn role_word(role: Role) -> &'static str {
    match role {
        Role::Surface => "surface",
        Role::Tail => "tail",
        Role::TurnUp => "turn-up",
        Role::Edge => "edge",
        Role::Joints => "joints",
        Role::Laps => "laps",
        Role::Heads => "heads",
        Role::Fasteners => "fasteners",
        Role::Bead => "bead",
        Role::Pieces => "pieces",
        Role::Removed => "removed",
        Role::Drain => "drain",
        Role::Fill => "fill",
    }
}
