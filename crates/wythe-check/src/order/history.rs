//! The history of a face: when each layer was placed, fixed, covered and taken away, and what each work acts on.
//!
//! This is the typestate of the face told as a timeline; every finding of [`super`] is a question to it.

use uom::si::length::inch;
use wythe_model::{Act, Assembly, Class, EdgeName, Face, Length, Levels, Product, SurfaceKind, Work};
use wythe_source::Symbol;

use super::words::nearest;
use crate::levels::{Range, hair, range_of, whole};

/// A layer from the work that places it to the end.
#[derive(Clone, Debug)]
pub(crate) struct Life<'a> {
    /// The work that places it.
    pub work: usize,
    /// Its name: the `as` name, or the product's.
    pub name: Symbol,
    /// What is done.
    pub act: Act,
    /// What it is made of.
    pub product: Option<&'a Product>,
    /// Where it lies.
    pub range: Range,
    /// Whether it must be fastened to stay.
    pub needs_fastening: bool,
    /// The work that makes it fast: its own where it needs no fastening. A `fasten` line that stands before the
    /// layer counts too, since that fault is told as one of order.
    pub fixed: Option<usize>,
    /// The first work that covers a part of it.
    pub cover: Option<usize>,
    /// The first work that covers all of it.
    pub shut: Option<usize>,
    /// The work that takes it away.
    pub removed: Option<usize>,
}

impl Life<'_> {
    /// The class of its product, or the class its verb takes.
    pub fn class(&self) -> Option<Class> {
        self.product.map(|p| p.class)
    }

    /// Whether it is there just before a work.
    pub fn is_live_at(&self, work: usize) -> bool {
        self.work < work && self.removed.is_none_or(|r| r >= work)
    }

    /// Whether it is there at the end.
    pub fn stays(&self) -> bool {
        self.removed.is_none()
    }

    /// Whether it is taken away again or covered before service.
    pub fn is_sacrificial(&self) -> bool {
        self.product.is_some_and(|p| p.sacrificial)
    }
}

/// How a work names something.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Role {
    /// The layer the verb acts on.
    Acts,
    /// The owner of the edge it runs along, over, under or into.
    Edge,
    /// The layer it is lapped onto.
    Onto,
    /// What it is joined to.
    To,
}

/// What a name means at a work.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Found {
    /// A layer that is there.
    Live(usize),
    /// A layer placed later.
    Later(usize),
    /// Fasteners driven before; the last work that drives them.
    Fasteners(usize),
    /// Fasteners driven later; the first work that drives them.
    FastenersLater(usize),
    /// The masonry or concrete.
    Structure,
    /// A line of the element, such as the sill or the footing.
    Line,
    /// Nothing on this face.
    Missing,
}

/// A name used by a work.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Reference {
    /// The work.
    pub work: usize,
    /// How it is used.
    pub role: Role,
    /// The name.
    pub name: Symbol,
    /// What it means.
    pub found: Found,
}

/// The history of a face.
#[derive(Clone, Debug)]
pub(crate) struct History<'a> {
    /// The face.
    pub face: &'a Face,
    /// Its layers, in the order placed.
    pub lives: Vec<Life<'a>>,
    /// Every name used, in the order of the works.
    pub references: Vec<Reference>,
}

impl<'a> History<'a> {
    /// Follows the works of a face, at the levels of one part built with the assembly.
    pub fn of(assembly: &Assembly, face: &'a Face, levels: &Levels) -> Self {
        let lives = place_layers(assembly, face, levels);
        let mut history = History { face, lives, references: Vec::with_capacity(face.works.len() + 4) };
        for index in 0..face.works.len() {
            history.read_names(index);
        }
        history.follow_covers();
        history
    }

    /// The works.
    pub fn works(&self) -> &'a [Work] {
        &self.face.works
    }

    /// The newest layer of a name that is there just before a work.
    pub fn newest(&self, name: Symbol, before: usize) -> Option<usize> {
        self.lives.iter().rposition(|l| l.name == name && l.is_live_at(before))
    }

    /// Works that treat an edge of a layer: cap, tape, seal or coat it.
    pub fn treatments(&self, life: usize, edge: EdgeName) -> impl Iterator<Item = usize> + '_ {
        self.references
            .iter()
            .filter(move |r| r.role == Role::Edge && r.found == Found::Live(life))
            .map(|r| r.work)
            .filter(move |&w| {
                let work = &self.face.works[w];
                matches!(work.act, Act::Cap | Act::Tape | Act::Seal | Act::Coat)
                    && work.place.is_some_and(|p| p.edge == edge)
            })
    }

    /// The layer a fastening holds.
    pub fn fastened_by(&self, fasten: usize) -> Option<usize> {
        self.references.iter().find(|r| r.work == fasten && r.role == Role::Acts).and_then(|r| match r.found {
            Found::Live(life) => Some(life),
            _ => None,
        })
    }

    /// The first work that tapes, seals or coats the heads of a fastening, on this face.
    pub fn heads_closed(&self, fasten: usize) -> Option<usize> {
        let product = self.face.works[fasten].product.as_deref().map(|p| p.name);
        (fasten + 1..self.face.works.len()).find(|&i| closes_heads(&self.face.works[i], product))
    }

    /// Layers there just before a work that share height with a range, oldest first.
    pub fn live_over(&self, range: Range, at: usize) -> impl Iterator<Item = &Life<'a>> {
        self.lives.iter().filter(move |l| l.is_live_at(at) && l.range.meets(range))
    }

    fn read_names(&mut self, index: usize) {
        let work = &self.face.works[index];
        if matches!(work.act, Act::Fasten | Act::Remove | Act::Lap) {
            let found = self.find_layer(work.layer, index);
            self.name(index, Role::Acts, work.layer, found);
            match (work.act, found) {
                (Act::Fasten, Found::Live(life) | Found::Later(life)) => {
                    self.lives[life].fixed.get_or_insert(index);
                }
                (Act::Fasten, Found::Missing) => {
                    if let Some(life) = self.meant(work.layer) {
                        self.lives[life].fixed.get_or_insert(index);
                    }
                }
                (Act::Remove, Found::Live(life)) => self.lives[life].removed = Some(index),
                _ => {}
            }
        }
        let Some(place) = work.place else { return };
        match (place.edge, place.of) {
            (EdgeName::Layer(name), _) => {
                let role = if work.act == Act::Lap { Role::Onto } else { Role::Edge };
                let found = self.find_layer(name, index);
                self.name(index, role, name, found);
            }
            (EdgeName::Heads, of) => {
                if let Some((name, found)) = self.find_fasteners(of, index) {
                    self.name(index, Role::Edge, name, found);
                }
            }
            (_, Some(of)) => {
                let found = self.find_layer(of, index);
                self.name(index, Role::Edge, of, found);
            }
            (EdgeName::Head | EdgeName::Footing, None) => {}
            (_, None) => {
                if let Some(life) = self.lives.iter().rposition(|l| l.is_live_at(index)) {
                    self.name(index, Role::Edge, self.lives[life].name, Found::Live(life));
                }
            }
        }
        if let Some(to) = place.to {
            let found = match to.as_str() {
                "structure" => Found::Structure,
                "sill" | "top" | "head" | "footing" | "ground" | "grade" => Found::Line,
                _ => self.find_layer(to, index),
            };
            self.name(index, Role::To, to, found);
        }
    }

    fn name(&mut self, work: usize, role: Role, name: Symbol, found: Found) {
        self.references.push(Reference { work, role, name, found });
    }

    fn find_layer(&self, name: Symbol, at: usize) -> Found {
        if let Some(life) = self.newest(name, at) {
            return Found::Live(life);
        }
        match self.lives.iter().position(|l| l.name == name && l.work > at) {
            Some(life) => Found::Later(life),
            None => Found::Missing,
        }
    }

    /// The layer a wrong name most likely means, so that a slip of the pen is told once and not as a loose layer too.
    pub fn meant(&self, name: Symbol) -> Option<usize> {
        let renamed = self.lives.iter().position(|l| l.product.is_some_and(|p| p.name == name));
        renamed.or_else(|| {
            let near = nearest(name, self.lives.iter().map(|l| l.name))?;
            self.lives.iter().position(|l| l.name == near)
        })
    }

    fn find_fasteners(&self, of: Option<Symbol>, at: usize) -> Option<(Symbol, Found)> {
        let drives = |i: &usize| {
            let work = &self.face.works[*i];
            let name = work.product.as_deref().map(|p| p.name);
            work.act == Act::Fasten && (of.is_none() || name == of)
        };
        let before = (0..at).rev().find(drives).map(Found::Fasteners);
        let after = || (at + 1..self.face.works.len()).find(drives).map(Found::FastenersLater);
        match (of, before.or_else(after)) {
            (Some(name), found) => Some((name, found.unwrap_or(Found::Missing))),
            (None, Some(found @ (Found::Fasteners(i) | Found::FastenersLater(i)))) => {
                Some((self.face.works[i].layer, found))
            }
            (None, _) => None,
        }
    }

    fn follow_covers(&mut self) {
        for older in 0..self.lives.len() {
            for newer in older + 1..self.lives.len() {
                let (a, b) = (&self.lives[older], &self.lives[newer]);
                if !a.is_live_at(b.work) || matches!(b.act, Act::Drain) {
                    continue;
                }
                let (covers, shuts, at) = (b.range.meets(a.range), b.range.holds(a.range), b.work);
                let a = &mut self.lives[older];
                if covers {
                    a.cover.get_or_insert(at);
                }
                if shuts && (covers || a.range.height() <= hair() && a.act == Act::Drain) {
                    a.shut.get_or_insert(at);
                }
            }
        }
    }
}

/// Whether a work tapes, seals or coats the heads of a fastener.
pub(crate) fn closes_heads(work: &Work, fastener: Option<Symbol>) -> bool {
    matches!(work.act, Act::Tape | Act::Seal | Act::Coat | Act::Cap)
        && work.place.is_some_and(|p| p.edge == EdgeName::Heads && (p.of.is_none() || p.of == fastener))
}

fn place_layers<'a>(assembly: &Assembly, face: &'a Face, levels: &Levels) -> Vec<Life<'a>> {
    let mut lives: Vec<Life<'a>> = Vec::with_capacity(face.works.len());
    for (index, work) in face.works.iter().enumerate().filter(|(_, w)| w.act.places()) {
        let range = match (&work.extent, &work.place) {
            (Some(extent), _) => range_of(extent, levels),
            (None, Some(place)) => range_at_edge(place.edge, place.of, &lives, work, levels),
            (None, None) => whole(assembly, face.name.as_str(), levels),
        };
        let product = work.product.as_deref();
        let hangs = work.act == Act::Hang || (work.act == Act::Set && product.is_none_or(|p| p.class == Class::Board));
        let held_by_backfill = assembly.kind == SurfaceKind::Wall
            && face.name.as_str() == "outside"
            && range.high <= levels.grade + hair();
        let needs_fastening =
            hangs && !held_by_backfill && matches!(assembly.kind, SurfaceKind::Wall | SurfaceKind::Pier);
        lives.push(Life {
            work: index,
            name: work.layer,
            act: work.act,
            product,
            range,
            needs_fastening,
            fixed: (!needs_fastening).then_some(index),
            cover: None,
            shut: None,
            removed: None,
        });
    }
    lives
}

/// A layer on an edge has no height of its own, save a drain along the footing.
fn range_at_edge(edge: EdgeName, of: Option<Symbol>, lives: &[Life], work: &Work, levels: &Levels) -> Range {
    let owner = || lives.iter().rfind(|l| of.is_none_or(|name| l.name == name)).map(|l| l.range);
    let point = |at: Length| Range { low: at, high: at };
    match edge {
        EdgeName::Head => point(levels.top),
        EdgeName::Footing => {
            let depth = work.product.as_deref().and_then(|p| p.diameter).unwrap_or_else(|| Length::new::<inch>(0.0));
            Range { low: levels.footing, high: levels.footing + depth }
        }
        EdgeName::BottomEdge => point(owner().map_or(levels.footing, |r| r.low)),
        _ => point(owner().map_or(levels.top, |r| r.high)),
    }
}
