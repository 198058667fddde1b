//! Foundations.

use std::sync::Arc;

use rustc_hash::FxHashMap;
use uom::si::f64::{Length, VolumeRate};
use uom::si::length::inch;
use wythe_findings::{Finding, codes};
use wythe_model::{Assembly, AssemblyId, Conditioning, Foundation, Ground, MeasuredFace, SillPlate, Site, SpaceKind};
use wythe_sema::Res;
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Block, Ident, Item};

use crate::lower::{fields, openings, piers, walls};
use crate::{Evaluator, Frame, Value};

/// The assemblies of a foundation, each numbered once.
#[derive(Default)]
pub(crate) struct Assemblies {
    list: Vec<Arc<Assembly>>,
}

impl Assemblies {
    /// The number of an assembly.
    pub(crate) fn number(&mut self, value: &Value) -> Option<AssemblyId> {
        let Value::Assembly(assembly) = value else { return None };
        let at = self.list.iter().position(|known| Arc::ptr_eq(known, assembly)).unwrap_or_else(|| {
            self.list.push(assembly.clone());
            self.list.len() - 1
        });
        Some(AssemblyId(at as u32))
    }
}

/// A foundation from its block; nothing where its site is not known.
pub fn foundation<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    name: Ident,
    site: Ident,
    block: &Block,
) -> Option<Foundation> {
    ev.begin();
    let site = self::site(ev, frame, site)?;
    let f = fields::read(ev, frame, Some(block), "FoundationBlock");
    let mut assemblies = Assemblies::default();
    let walls_block = section(block, "walls");
    let base = walls::base_levels(ev, frame, walls_block);
    if !base.are_told() {
        // What is missing has been told; heights made up in its place would only give faults of their own.
        return None;
    }
    let start = match f.get("start") {
        Value::Place(place) => wythe_model::Point {
            x: Length::try_from(place[0]).unwrap_or_default(),
            y: Length::try_from(place[1]).unwrap_or_default(),
        },
        _ => wythe_model::Point::default(),
    };
    let walls = walls::walls(ev, frame, walls_block, &base, start, &mut assemblies);
    let openings = openings::openings(ev, frame, block, &walls, &mut assemblies);
    let piers = piers::piers(ev, frame, block, &base, &mut assemblies);
    let pads = piers::pads(ev, frame, block);
    let beams = piers::beams(ev, frame, block);
    let ground = ground(ev, frame, section(block, "ground"), &mut assemblies);
    let conditioning = conditioning(ev, frame, section(block, "conditioning"), name_of(block, "conditioning"));
    let sill = sill(ev, frame, section(block, "sill"), name_of(block, "sill"));
    let mut foundation = Foundation {
        name: name.name,
        origin: name.span,
        site,
        space: if f.member(ev, "space").is_some_and(|m| m.as_str() == "vented") {
            SpaceKind::Vented
        } else {
            SpaceKind::Closed
        },
        measured: match f.member(ev, "measured").map(Symbol::as_str) {
            Some("center") => MeasuredFace::Center,
            Some("inside") => MeasuredFace::Inside,
            _ => MeasuredFace::Outside,
        },
        closing_tolerance: f.typed("closing_tolerance").unwrap_or_else(|| Length::new::<inch>(1.0)),
        start,
        walls,
        openings,
        piers,
        pads,
        beams,
        ground,
        sill,
        conditioning,
        assemblies: assemblies.list,
        joints: list(f.get("joints"), |v| match v {
            Value::Joint(joint) => Some(joint.clone()),
            _ => None,
        }),
        phases: list(f.get("phases"), |v| match v {
            Value::Phase(phase) => Some(phase.clone()),
            _ => None,
        }),
        phases_origin: f.span("phases").unwrap_or(name.span),
    };
    piers::shorten_under_beams(&mut foundation);
    unique_names(ev, &foundation);
    Some(foundation)
}

fn list<T>(value: &Value, pick: impl Fn(&Value) -> Option<T>) -> Vec<T> {
    match value {
        Value::List(items) => items.iter().filter_map(pick).collect(),
        _ => Vec::new(),
    }
}

fn site(ev: &mut Evaluator<'_>, frame: &Frame<'_>, ident: Ident) -> Option<Arc<Site>> {
    let Res::Def(def) = frame.checked.ident(ident) else { return None };
    match ev.value(def) {
        Value::Site(site) => Some(site),
        _ => None,
    }
}

/// A section of a block.
pub(crate) fn section<'b>(block: &'b Block, name: &str) -> Option<&'b Block> {
    block.items.iter().find_map(|item| match item {
        Item::Section { name: n, block } if n.name.as_str() == name => Some(block),
        _ => None,
    })
}

fn name_of(block: &Block, name: &str) -> Option<Span> {
    block.items.iter().find_map(|item| match item {
        Item::Section { name: n, .. } if n.name.as_str() == name => Some(n.span),
        _ => None,
    })
}

fn ground<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    block: Option<&Block>,
    assemblies: &mut Assemblies,
) -> Ground {
    let f = fields::read(ev, frame, block, "GroundBlock");
    Ground {
        origin: block.map_or_else(Span::default, |b| b.span),
        assembly: assemblies.number(f.get("build")),
        drain_outlet: f.truth("outlet"),
        cleanout: f.truth("cleanout"),
    }
}

fn conditioning<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    block: Option<&Block>,
    origin: Option<Span>,
) -> Conditioning {
    let f = fields::read(ev, frame, block, "ConditioningBlock");
    Conditioning {
        origin,
        supply_air: f.typed::<VolumeRate>("supply_air"),
        exhaust: f.typed::<VolumeRate>("exhaust"),
        dehumidifier: f.typed::<VolumeRate>("dehumidifier"),
        return_path: f.truth("return_path"),
        condensate_route: f.truth("condensate_route"),
        ends_inside: f.truth("ends_inside"),
        natural_draft: f.truth("natural_draft"),
        radon_pipe: f.truth("radon_pipe"),
        humidity_sensor: f.truth("humidity_sensor"),
    }
}

fn sill<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, block: Option<&Block>, origin: Option<Span>) -> SillPlate {
    let f = fields::read(ev, frame, block, "SillBlock");
    SillPlate {
        origin,
        treated: f.truth("treated"),
        gasket: f.truth("gasket"),
        rim_insulated: f.truth("rim_insulated"),
        rim_sealed: f.truth("rim_sealed"),
    }
}

/// Walls, openings, piers, pads and beams share one set of names, because people on site do.
fn unique_names(ev: &mut Evaluator<'_>, f: &Foundation) {
    let walls = f.walls.iter().map(|w| (w.name, w.origin));
    let openings = f.openings.iter().map(|o| (o.name, o.origin));
    let piers = f.piers.iter().map(|p| (p.name, p.origin));
    let pads = f.pads.iter().map(|p| (p.name, p.origin));
    let beams = f.beams.iter().map(|b| (b.name, b.origin));
    let mut seen: FxHashMap<Symbol, Span> = FxHashMap::default();
    for (name, span) in walls.chain(openings).chain(piers).chain(pads).chain(beams) {
        if let Some(first) = seen.insert(name, span)
            && first != span
        {
            ev.findings.push(
                Finding::new(codes::DUPLICATE_NAME, span, format!("two parts of {} are called `{name}`", f.name))
                    .label("named again here")
                    .related(first, "first named here")
                    .mend("give one of the two another name"),
            );
        }
    }
}
