//! A piece of work in the plain words of the people who do it.

use std::sync::Arc;

use wythe_model::{
    Act, Class, EdgeName, Elevation, Extent, Face, Foundation, Length, Level, Levels, Place, Product, Relation,
    SurfaceKind, Work,
};
use wythe_render::drawing::words as plain;
use wythe_source::Symbol;
use wythe_units::UnitSystem;

use crate::words::{Words, say};

/// What telling needs to know: the language, the units and the house.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Telling<'a> {
    pub words: &'a Words,
    pub system: UnitSystem,
    pub f: &'a Foundation,
}

impl Telling<'_> {
    /// A length as it is read off a tape.
    pub fn length(&self, value: Length) -> String {
        plain::length(value, self.system)
    }

    /// A width, lap or spacing: in inches up to two feet.
    pub fn span(&self, value: Length) -> String {
        plain::span(value, self.system)
    }

    /// A product as the crew knows it: its name, and in languages other than the plans' what sort of thing it is.
    pub fn product(&self, product: &Product) -> String {
        let (w, name) = (self.words, plain::name(product.name));
        match product.class {
            Class::Coating => say!(w, "name-coating", name = name),
            Class::Membrane => say!(w, "name-sheet", name = name),
            Class::Board => say!(w, "name-board", name = name),
            Class::Tape => say!(w, "name-tape", name = name),
            Class::Sealant => say!(w, "name-sealant", name = name),
            Class::Fastener => say!(w, "name-fastener", name = name),
            Class::Drain => say!(w, "name-drain", name = name),
            Class::Aggregate => say!(w, "name-stone", name = name),
            Class::Masonry | Class::Concrete => say!(w, "name-masonry", name = name),
            Class::Lumber => say!(w, "name-lumber", name = name),
            Class::Equipment => say!(w, "name-equipment", name = name),
        }
    }

    /// The product of a layer: where the layer is put in place on this face, or anywhere in the house.
    pub fn product_of(&self, face: Option<&Face>, layer: Symbol) -> Option<Arc<Product>> {
        let placed = |w: &&Work| w.act.places() && w.layer == layer;
        let named = |w: &&Work| w.product.as_ref().is_some_and(|p| p.name == layer);
        let all = || self.f.assemblies.iter().flat_map(|a| &a.faces).flat_map(|f| &f.works);
        let here = face.and_then(|f| f.works.iter().find(placed).or_else(|| f.works.iter().find(named)));
        here.or_else(|| all().find(placed)).or_else(|| all().find(named))?.product.clone()
    }

    /// A layer as the crew knows it; a sheet that is hung round a pier is a pier wrap.
    pub fn layer(&self, face: Option<&Face>, layer: Symbol) -> String {
        let on_pier = |a: &&Arc<wythe_model::Assembly>| {
            let works = a.faces.iter().flat_map(|f| &f.works);
            a.kind == SurfaceKind::Pier && works.into_iter().any(|w| w.act == Act::Hang && w.layer == layer)
        };
        match self.product_of(face, layer) {
            Some(p) if p.class == Class::Membrane && self.f.assemblies.iter().any(|a| on_pier(&a)) => {
                say!(self.words, "name-pier-wrap", name = plain::name(p.name))
            }
            Some(p) => self.product(&p),
            None => plain::name(layer),
        }
    }

    /// A height told from a level: `4" below the top of the wall`.
    pub fn elevation(&self, at: Elevation, kind: SurfaceKind) -> String {
        let w = self.words;
        let level = match at.from {
            Level::Datum => say!(w, "level-datum"),
            Level::Top if kind == SurfaceKind::Pier => say!(w, "level-pier-top"),
            Level::Top => say!(w, "level-top"),
            Level::Sill => say!(w, "level-sill"),
            Level::Grade => say!(w, "level-grade"),
            Level::Ground => say!(w, "level-floor"),
            Level::Footing => say!(w, "level-footing"),
        };
        if at.offset.abs() < wythe_model::geometry::hair() {
            level
        } else if at.offset > Length::default() {
            say!(w, "level-above", by = self.span(at.offset), level = level)
        } else {
            say!(w, "level-below", by = self.span(-at.offset), level = level)
        }
    }

    /// An extent from its upper end to its lower one, on levels.
    fn ends(&self, extent: &Extent, levels: &Levels, kind: SurfaceKind) -> (String, String) {
        let (a, b) = (extent.from, extent.to);
        let (upper, lower) = if levels.height_of(a) >= levels.height_of(b) { (a, b) } else { (b, a) };
        (self.elevation(upper, kind), self.elevation(lower, kind))
    }

    fn edge(&self, face: Option<&Face>, kind: SurfaceKind, place: &Place) -> String {
        let w = self.words;
        let of = place.of.map_or_else(String::new, |of| self.layer(face, of));
        match place.edge {
            EdgeName::TopEdge => say!(w, "edge-top", of = of),
            EdgeName::BottomEdge => say!(w, "edge-bottom", of = of),
            EdgeName::EndEdges => say!(w, "edge-ends", of = of),
            EdgeName::Joints => say!(w, "edge-joints", of = of),
            EdgeName::Heads => say!(w, "edge-heads", of = of),
            EdgeName::Laps => say!(w, "edge-laps", of = of),
            EdgeName::Cuts => say!(w, "edge-cuts", of = of),
            EdgeName::Perimeter => say!(w, "edge-perimeter", of = of),
            EdgeName::Head if kind == SurfaceKind::Pier => say!(w, "edge-pier-head"),
            EdgeName::Head => say!(w, "edge-head"),
            EdgeName::Footing => say!(w, "edge-footing"),
            EdgeName::Layer(layer) => self.layer(face, layer),
        }
    }

    /// A work as one step.
    pub fn step(&self, face: &Face, kind: SurfaceKind, work: &Work, levels: &Levels) -> String {
        let w = self.words;
        let with = work.product.as_ref().map_or_else(String::new, |p| self.product(p));
        let what = if work.act.places() && !(kind == SurfaceKind::Pier && work.act == Act::Hang) {
            with.clone()
        } else {
            self.layer(Some(face), work.layer)
        };
        let ends = work.extent.as_ref().map(|e| self.ends(e, levels, kind));
        let edge = work.place.map_or_else(String::new, |p| self.edge(Some(face), kind, &p));
        match (work.act, ends) {
            (Act::Coat, Some((from, to))) => say!(w, "step-coat", what = with, from = from, to = to),
            (Act::Coat, None) if work.place.is_some() => say!(w, "step-coat-edge", what = with, edge = edge),
            (Act::Coat, None) => say!(w, "step-coat-all", what = with),
            (Act::Drain, _) => say!(w, "step-drain", what = with),
            (Act::Fill, Some((from, to))) => say!(w, "step-fill", what = with, from = from, to = to),
            (Act::Fill, None) => say!(w, "step-fill-all", what = with),
            (Act::Lay, _) => match work.by {
                Some(by) => say!(w, "step-lay", what = with, by = self.span(by)),
                None => say!(w, "step-lay-all", what = with),
            },
            (Act::Hang, Some((from, to))) => match work.by {
                Some(by) => say!(w, "step-hang-tail", what = what, from = from, to = to, by = self.span(by)),
                None => say!(w, "step-hang", what = what, from = from, to = to),
            },
            (Act::Set, Some((from, to))) => say!(w, "step-set", what = with, from = from, to = to),
            (Act::Hang | Act::Set, None) => say!(w, "step-set-all", what = what),
            (Act::Fasten, _) => self.fasten(&what, &with, work),
            (Act::Cap, _) => say!(w, "step-cap", edge = edge, with = with),
            (Act::Tape, _) => say!(w, "step-tape", edge = edge, with = with),
            (Act::Seal, _) => match work.bead {
                Some(bead) => say!(w, "step-seal", bead = self.span(bead), with = with, edge = edge),
                None => say!(w, "step-seal-any", with = with, edge = edge),
            },
            (Act::Lap, _) => {
                let by = work.by.map_or_else(String::new, |by| self.span(by));
                match work.place.map(|p| p.relation) {
                    Some(Relation::Under) => say!(w, "step-lap-under", what = what, other = edge, by = by),
                    _ => say!(w, "step-lap-over", what = what, other = edge, by = by),
                }
            }
            (Act::Remove, _) => say!(w, "step-remove", what = what),
        }
    }

    /// Works of one tape as one step.
    pub fn taped(&self, face: &Face, kind: SurfaceKind, works: &[&Work]) -> String {
        let edges: Vec<String> = works.iter().filter_map(|w| Some(self.edge(Some(face), kind, &w.place?))).collect();
        let with = works.first().and_then(|w| w.product.as_ref()).map_or_else(String::new, |p| self.product(p));
        say!(self.words, "step-tape", edge = edges.join(", "), with = with)
    }

    /// Where faces of a sort of element meet the crawl floor.
    pub fn joint(&self, kind: SurfaceKind) -> String {
        match kind {
            SurfaceKind::Pier => say!(self.words, "face-joint-pier"),
            _ => say!(self.words, "face-joint-wall"),
        }
    }

    fn fasten(&self, what: &str, with: &str, work: &Work) -> String {
        let w = self.words;
        if let Some((count, unit)) = work.each {
            return say!(w, "step-fasten-each", what = what, with = with, count = count, unit = self.unit(unit, 1));
        }
        match work.every {
            Some(every) => say!(w, "step-fasten-every", what = what, with = with, every = self.span(every)),
            None => say!(w, "step-fasten", what = what, with = with),
        }
    }

    /// A unit things are counted in, for so many.
    pub fn unit(&self, unit: Symbol, count: u64) -> String {
        let w = self.words;
        match unit.as_str() {
            "sheet" => say!(w, "unit-sheet", count = count),
            "roll" => say!(w, "unit-roll", count = count),
            "tube" => say!(w, "unit-tube", count = count),
            "pail" => say!(w, "unit-pail", count = count),
            "box" => say!(w, "unit-box", count = count),
            "bag" => say!(w, "unit-bag", count = count),
            "pc" => say!(w, "unit-piece", count = count),
            "yd3" => say!(w, "unit-yard", count = count),
            "m3" => say!(w, "unit-cubic-meter", count = count),
            other => other.replace('_', " "),
        }
    }

    /// A face of a sort of element.
    pub fn face(&self, kind: SurfaceKind, face: Symbol) -> String {
        let w = self.words;
        match (kind, face.as_str()) {
            (SurfaceKind::Wall, "outside") => say!(w, "face-wall-outside"),
            (SurfaceKind::Wall, "inside") => say!(w, "face-wall-inside"),
            (SurfaceKind::Wall, _) => say!(w, "face-wall-head"),
            (SurfaceKind::Pier, "head") => say!(w, "face-pier-head"),
            (SurfaceKind::Pier, _) => say!(w, "face-pier"),
            (SurfaceKind::Opening, _) => say!(w, "face-opening"),
            (SurfaceKind::Ground, _) => say!(w, "face-ground"),
        }
    }

    /// Names as people list them, runs of numbered names drawn together: `p1 to p6, stair`.
    pub fn names(&self, names: &[Symbol]) -> String {
        let split = |s: &str| {
            let at = s.trim_end_matches(|c: char| c.is_ascii_digit()).len();
            (s[..at].to_owned(), s[at..].parse::<u32>().ok())
        };
        let mut out: Vec<String> = Vec::new();
        let mut at = 0;
        while at < names.len() {
            let (stem, number) = split(names[at].as_str());
            let mut end = at;
            if let Some(first) = number {
                while let Some(next) = names.get(end + 1) {
                    let (other, n) = split(next.as_str());
                    if other != stem || n != u32::try_from(end + 1 - at).ok().and_then(|d| first.checked_add(d)) {
                        break;
                    }
                    end += 1;
                }
            }
            let name = |s: Symbol| plain::name(s);
            if end - at >= 2 {
                out.push(say!(self.words, "names-from-to", from = name(names[at]), to = name(names[end])));
            } else {
                out.extend(names[at..=end].iter().map(|n| name(*n)));
            }
            at = end + 1;
        }
        out.join(", ")
    }
}
