//! Sections: every wall, pier and opening cut where its build-up or its levels change; equal ones are one section.

use wythe_model::{
    Act, Assembly, AssemblyId, Class, Control, Controls, EdgeName, Foundation, Levels, Product, SurfaceKind,
};
use wythe_source::{Span, Symbol};

use crate::Requirements;
use crate::levels::{Range, hair};
use crate::order::history::{History, Life};

/// A section and the parts that have it.
pub(crate) struct Section<'a> {
    /// The assembly's number.
    pub id: AssemblyId,
    /// The assembly.
    pub assembly: &'a Assembly,
    /// The parts with this section, each once.
    pub places: Vec<Symbol>,
    /// Its levels.
    pub levels: Levels,
    /// The history of each face, in the order of the assembly.
    pub faces: Vec<History<'a>>,
}

/// What a segment is made of, as far as joining it goes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Body {
    /// A coating, or the masonry itself.
    Film,
    /// A sheet.
    Sheet,
    /// A board or panel.
    Board,
}

/// One layer that carries a line, over its range in one section.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Segment<'a> {
    /// The layer, or `structure`.
    pub name: Symbol,
    /// The face, by number; the structure belongs to none.
    pub face: Option<usize>,
    /// The layer in the history of its face.
    pub life: usize,
    /// What it is made of.
    pub body: Body,
    /// Where it lies.
    pub range: Range,
    /// The work that places it.
    pub origin: Span,
    /// Its product.
    pub product: &'a Product,
}

impl<'a> Section<'a> {
    /// A section at given levels.
    pub fn of(id: AssemblyId, assembly: &'a Assembly, levels: Levels, place: Symbol) -> Self {
        let faces = assembly.faces.iter().map(|face| History::of(assembly, face, &levels)).collect();
        Section { id, assembly, places: vec![place], levels, faces }
    }

    /// The face of a name, with its number.
    pub fn face(&self, name: &str) -> Option<(usize, &History<'a>)> {
        self.faces.iter().enumerate().find(|(_, h)| h.face.name.as_str() == name)
    }

    /// Layers that carry a control on some faces, oldest first, the structure before them if it carries it itself.
    pub fn segments(&self, control: Control, faces: &[&str], asked: &Requirements) -> Vec<Segment<'a>> {
        let mut out = Vec::new();
        if let Some(structure) = self.assembly.structure.as_deref().filter(|s| carries(s, control, asked)) {
            out.push(Segment {
                name: Symbol::new("structure"),
                face: None,
                life: usize::MAX,
                body: Body::Film,
                range: Range { low: self.levels.footing, high: self.levels.top },
                origin: self.assembly.structure_origin.unwrap_or(self.assembly.origin),
                product: structure,
            });
        }
        for (face, history) in self.faces.iter().enumerate().filter(|(_, h)| faces.contains(&h.face.name.as_str())) {
            for (at, life) in history.lives.iter().enumerate().filter(|(_, l)| l.stays() && !l.is_sacrificial()) {
                if let Some(product) = life.product.filter(|p| carries(p, control, asked)) {
                    out.push(segment(face, history, at, life, product));
                }
            }
        }
        out
    }

    /// Whether an edge of a layer is taped or sealed: itself, or by the bead on the edge of a layer over it.
    pub fn edge_is_closed(&self, segment: &Segment, edge: EdgeName) -> bool {
        let Some(history) = segment.face.map(|f| &self.faces[f]) else { return false };
        if history.treatments(segment.life, edge).next().is_some() {
            return true;
        }
        let at = |range: Range| if edge == EdgeName::BottomEdge { range.low } else { range.high };
        let over = history.lives.iter().enumerate().filter(|(i, l)| {
            *i > segment.life
                && l.stays()
                && l.range.meets(segment.range)
                && (at(l.range) - at(segment.range)).abs() <= hair() * 16.0
        });
        over.into_iter().any(|(i, _)| history.treatments(i, edge).any(|w| history.works()[w].act == Act::Seal))
    }

    /// Whether a sheet is held to the wall over its height: fastened, or pressed by a board.
    pub fn is_pressed(&self, segment: &Segment) -> bool {
        let Some(life) = segment.face.map(|f| &self.faces[f].lives[segment.life]) else { return true };
        let history = &self.faces[segment.face.unwrap_or_default()];
        life.fixed.is_some_and(|f| history.works()[f].act == Act::Fasten)
            || history
                .lives
                .iter()
                .any(|l| l.work > life.work && l.class() == Some(Class::Board) && l.range.meets(life.range))
    }
}

fn segment<'a>(face: usize, history: &History<'a>, at: usize, life: &Life<'a>, product: &'a Product) -> Segment<'a> {
    let body = match product.class {
        Class::Membrane => Body::Sheet,
        Class::Board | Class::Equipment => Body::Board,
        _ => Body::Film,
    };
    let origin = history.works()[life.work].origin;
    Segment { name: life.name, face: Some(face), life: at, body, range: life.range, origin, product }
}

/// Whether a product carries a line within its limit. Vapor: a stated permeance above the limit does not.
pub(crate) fn carries(product: &Product, control: Control, asked: &Requirements) -> bool {
    let within = || product.permeance.is_none_or(|p| p.mid.value <= asked.vapor_limit.value * (1.0 + 1e-9));
    has(product.controls, control) && (control != Control::Vapor || within())
}

/// Whether the spread of a product's permeance reaches past the limit, though its middle does not.
pub(crate) fn is_unsure(product: &Product, asked: &Requirements) -> bool {
    let limit = asked.vapor_limit.value * (1.0 + 1e-9);
    product.permeance.is_some_and(|p| p.mid.value <= limit && p.high.value > limit)
}

fn has(controls: Controls, control: Control) -> bool {
    controls.has(control)
}

/// The sections of a foundation: walls, then piers, then openings, each assembly and levels once.
pub(crate) fn sections(f: &Foundation) -> Vec<Section<'_>> {
    let mut out: Vec<Section> = Vec::new();
    let mut add = |id: AssemblyId, levels: Levels, place: Symbol| {
        let Some(assembly) = f.assemblies.get(id.0 as usize) else { return };
        let same = out.iter_mut().find(|s| s.id == id && alike(&s.levels, &levels));
        match same {
            Some(section) if section.places.last() == Some(&place) => {}
            Some(section) => section.places.push(place),
            None => out.push(Section::of(id, assembly, levels, place)),
        }
    };
    for wall in &f.walls {
        for stretch in &wall.stretches {
            if let Some(id) = wall.assembly {
                add(id, stretch.levels, wall.name);
            }
        }
    }
    for pier in &f.piers {
        if let Some(id) = pier.assembly {
            add(id, pier.levels(), pier.name);
        }
    }
    out
}

fn alike(a: &Levels, b: &Levels) -> bool {
    let same = |a: wythe_model::Length, b: wythe_model::Length| (a - b).abs() < hair() / 16.0;
    same(a.top, b.top)
        && same(a.sill, b.sill)
        && same(a.grade, b.grade)
        && same(a.ground, b.ground)
        && same(a.footing, b.footing)
}

impl Section<'_> {
    /// How much of a sheet lies out for a lap, where its line says so.
    pub fn tail(&self, segment: &Segment) -> Option<wythe_model::Length> {
        let history = self.faces.get(segment.face?)?;
        history.works().get(history.lives.get(segment.life)?.work)?.by
    }

    /// Whether it is a section of a wall.
    pub fn is_wall(&self) -> bool {
        self.assembly.kind == SurfaceKind::Wall
    }
}
