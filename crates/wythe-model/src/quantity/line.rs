//! The lines of the quantities, what could not be measured and why, and totals by product.

use std::collections::BTreeMap;

use wythe_source::{Span, Symbol};

use super::measure::{How, Measure};
use crate::{Act, AssemblyId, Face, SurfaceKind};

/// Where a piece of work is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum WorkOf {
    /// On a face of an assembly.
    Assembly(AssemblyId),
    /// In a joint, by its number in the foundation.
    Joint(usize),
}

/// What part of a piece of work a line measures.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum Role {
    /// The surface it covers.
    Surface,
    /// What lies out on the ground at the foot of a hung sheet.
    Tail,
    /// What is turned up beyond the tail it laps.
    TurnUp,
    /// An edge it runs along.
    Edge,
    /// Joints between pieces of one layer.
    Joints,
    /// Laps between strips of one sheet, or of two layers.
    Laps,
    /// Patches over heads of fasteners.
    Heads,
    /// Fasteners.
    Fasteners,
    /// A bead.
    Bead,
    /// Pieces set.
    Pieces,
    /// What is taken away.
    Removed,
    /// A drain.
    Drain,
    /// Fill.
    Fill,
}

/// A measured piece of work on one element.
#[derive(Clone, Debug, PartialEq)]
pub struct QuantityLine {
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
    /// What is done.
    pub act: Act,
    /// What part of it.
    pub role: Role,
    /// The layer it puts in place or acts on.
    pub layer: Symbol,
    /// The product used up.
    pub product: Option<Symbol>,
    /// Where the work stands.
    pub origin: Span,
    /// How much.
    pub measure: Measure,
    /// How the figure was reached.
    pub how: How,
}

/// Why a piece of work could not be measured.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Lack {
    /// Nothing says from where to where it goes.
    Extent,
    /// It acts on a layer that nothing puts in place.
    Layer,
    /// The layer's product has no size.
    Size,
    /// A spacing or a number of fasteners is missing or of no use.
    Spacing,
    /// Nothing says which edge.
    Edge,
    /// The edge does not occur on such an element.
    EdgeHere,
    /// The wall's thickness is not known.
    Thickness,
    /// The fill has no depth.
    Depth,
}

impl Lack {
    /// What is missing, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Lack::Extent => "nothing says from where to where it goes",
            Lack::Layer => "nothing puts the layer in place first",
            Lack::Size => "the layer's product has no size",
            Lack::Spacing => "the spacing or number of fasteners is missing",
            Lack::Edge => "nothing says along which edge it runs",
            Lack::EdgeHere => "there is no such edge here",
            Lack::Thickness => "the wall's thickness is not known",
            Lack::Depth => "the depth of the fill is not known",
        }
    }
}

/// A piece of work that could not be measured. It is listed, never counted as nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unmeasured {
    /// The element.
    pub element: Symbol,
    /// The face, or the joint's name.
    pub face: Symbol,
    /// The work's number on that face.
    pub work: usize,
    /// Where it stands.
    pub origin: Span,
    /// What is missing.
    pub lack: Lack,
}

/// The measured work of a foundation.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Quantities {
    /// The lines, by element and in the order of work.
    pub lines: Vec<QuantityLine>,
    /// What could not be measured.
    pub unmeasured: Vec<Unmeasured>,
}

/// The total of a product.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Total {
    /// The product.
    pub product: Symbol,
    /// How much, in one sort of measure; a product measured in two sorts has two totals.
    pub measure: Measure,
}

impl Quantities {
    /// Totals by product, in order of name. Work that uses no product has none.
    pub fn totals(&self) -> Vec<Total> {
        let mut sums: BTreeMap<(Symbol, u8), Measure> = BTreeMap::new();
        for line in &self.lines {
            let Some(product) = line.product else { continue };
            let sum = sums.entry((product, line.measure.sort())).or_insert(line.measure.of_nothing());
            *sum = sum.plus(line.measure).unwrap_or(*sum);
        }
        sums.into_iter().map(|((product, _), measure)| Total { product, measure }).collect()
    }

    /// The lines of an element.
    pub fn of_element(&self, element: Symbol) -> impl Iterator<Item = &QuantityLine> {
        self.lines.iter().filter(move |l| l.element == element)
    }
}

impl Measure {
    fn of_nothing(self) -> Measure {
        match self {
            Measure::Area(_) => Measure::Area(Default::default()),
            Measure::Length(_) => Measure::Length(Default::default()),
            Measure::Count(_) => Measure::Count(0),
            Measure::Volume(_) => Measure::Volume(Default::default()),
        }
    }
}

/// A measured part of one piece of work.
pub(crate) type Part = (Role, Measure, How);

/// Takes down lines as the faces are gone through.
#[derive(Default)]
pub(crate) struct Book {
    out: Quantities,
}

impl Book {
    /// Measures each work of a face in turn.
    pub(crate) fn face(
        &mut self,
        element: Symbol,
        kind: SurfaceKind,
        of: WorkOf,
        face: &Face,
        measure: impl Fn(usize) -> Result<Vec<Part>, Lack>,
    ) {
        for (number, work) in face.works.iter().enumerate() {
            match measure(number) {
                Ok(parts) => {
                    for part in parts {
                        self.part(element, kind, of, face, number, part);
                    }
                }
                Err(lack) => {
                    let unmeasured = Unmeasured { element, face: face.name, work: number, origin: work.origin, lack };
                    self.out.unmeasured.push(unmeasured);
                }
            }
        }
    }

    /// Takes down one part, unless there is nothing of it.
    pub(crate) fn part(
        &mut self,
        element: Symbol,
        kind: SurfaceKind,
        of: WorkOf,
        face: &Face,
        number: usize,
        (role, measure, how): Part,
    ) {
        let Some(work) = face.works.get(number) else { return };
        if measure.is_nothing() {
            return;
        }
        self.out.lines.push(QuantityLine {
            element,
            kind,
            face: face.name,
            of,
            work: number,
            act: work.act,
            role,
            layer: work.layer,
            product: work.product.as_ref().map(|p| p.name),
            origin: work.origin,
            measure,
            how,
        });
    }

    pub(crate) fn close(self) -> Quantities {
        self.out
    }
}
