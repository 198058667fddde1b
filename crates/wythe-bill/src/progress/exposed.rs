//! What stands open today: work in place that waits for what protects it, and what must not be forgotten.

use jiff::civil::Date;
use wythe_model::ledger::WorkLog;
use wythe_model::{Act, Class, EdgeName, EdgeNature, Foundation, Work};
use wythe_source::{Span, Symbol};

use super::PhaseProgress;
use super::check::elements;
use super::marks::{self, Mark};

/// Something that stands open.
#[derive(Clone, Debug, PartialEq)]
pub struct Exposed {
    /// What, in words.
    pub what: String,
    /// Where.
    pub elements: Vec<Symbol>,
    /// Since when.
    pub since: Date,
    /// Days since.
    pub days: i32,
    /// Rains logged meanwhile.
    pub rains: u32,
    /// The phase that closes it.
    pub until: Option<Symbol>,
    /// Where the work stands.
    pub origin: Span,
}

/// What stands open on a day.
pub(super) fn exposed(
    f: &Foundation,
    log: &WorkLog,
    all: &[Mark],
    phases: &[PhaseProgress],
    today: Date,
) -> Vec<Exposed> {
    let mut out: Vec<Exposed> = Vec::new();
    let mut add = |what: String, element: Symbol, since: Date, until: Option<Symbol>, origin: Span| {
        if let Some(known) = out.iter_mut().find(|e| e.what == what && e.since == since && e.origin == origin) {
            if !known.elements.contains(&element) {
                known.elements.push(element);
            }
            return;
        }
        let days = since.until(today).map_or(0, |span| span.get_days());
        let rains = log.entries.iter().filter(|e| e.rain && e.date >= since && e.date <= today).count() as u32;
        out.push(Exposed { what, elements: vec![element], since, days, rains, until, origin });
    };
    let covering = f.phases.iter().find(|p| p.covers.iter().any(|c| c.as_str() == "outside_below_grade"));
    let covering = covering.and_then(|p| p.name);
    let is_done =
        |phase: Option<Symbol>| phase.is_some_and(|name| phases.iter().any(|p| p.name == name && p.is_done()));
    for (element, assembly) in elements(f) {
        for face in &assembly.faces {
            for work in &face.works {
                let Some(since) = placed(all, element, work) else { continue };
                match (work.act, work.product.as_ref()) {
                    (Act::Coat, _) if face.name.as_str() == "outside" && !is_done(covering) => {
                        add(format!("`{}` outside is not covered", work.layer), element, since, covering, work.origin);
                    }
                    (Act::Set, Some(product))
                        if product.class == Class::Board && product.edge == Some(EdgeNature::Porous) =>
                    {
                        let cap = face.works.iter().find(|w| caps(w, work.layer));
                        let capped = cap.is_some_and(|w| placed(all, element, w).is_some());
                        if !capped {
                            let until = cap.and_then(|w| w.phase).map(|p| p.name);
                            add(
                                format!("top edge of `{}` drinks rain", work.layer),
                                element,
                                since,
                                until,
                                work.origin,
                            );
                        }
                    }
                    (Act::Hang, _) if work.by.is_some() => {
                        let lap = f.joints.iter().flat_map(|j| &j.face.works).find(|w| {
                            w.act == Act::Lap && w.place.is_some_and(|p| p.edge == EdgeName::Layer(work.layer))
                        });
                        let until = lap.and_then(|w| w.phase).map(|p| p.name);
                        if until.is_some() && !is_done(until) {
                            add(format!("tail of `{}` lies loose", work.layer), element, since, until, work.origin);
                        }
                    }
                    _ => {}
                }
            }
        }
    }
    vents(f, all, phases, today, &mut out);
    out.sort_by(|a, b| (a.since, &a.what).cmp(&(b.since, &b.what)));
    out
}

/// The day a work is first marked on an element.
fn placed(all: &[Mark], element: Symbol, work: &Work) -> Option<Date> {
    let product = work.product.as_ref().map(|p| p.name);
    let phase = work.phase?.name;
    let counts = |m: &&Mark| marks::share(std::slice::from_ref(*m), element, phase, work.layer, product) > 0.0;
    all.iter().filter(counts).map(|m| m.date).min()
}

fn caps(work: &Work, layer: Symbol) -> bool {
    let edge = work.place.is_some_and(|p| p.edge == EdgeName::TopEdge && p.of == Some(layer));
    edge && matches!(work.act, Act::Tape | Act::Cap | Act::Coat)
}

/// Vents that were opened and are to be shut.
fn vents(f: &Foundation, all: &[Mark], phases: &[PhaseProgress], today: Date, out: &mut Vec<Exposed>) {
    let names = |word: &dyn Fn(&wythe_model::Phase) -> bool| f.phases.iter().find(|p| word(p)).and_then(|p| p.name);
    let vent = |list: &[Symbol]| list.iter().any(|w| w.as_str() == "vent");
    let (opened, closed) = (names(&|p| vent(&p.opens)), names(&|p| vent(&p.closes)));
    let (Some(opened), Some(closed)) = (opened, closed) else { return };
    let since = all.iter().filter(|m| m.phase == opened).map(|m| m.date).min();
    let shut = phases.iter().any(|p| p.name == closed && p.is_done());
    let elements: Vec<Symbol> =
        f.openings.iter().filter(|o| o.kind == wythe_model::OpeningKind::Vent && !o.existing).map(|o| o.name).collect();
    if let (Some(since), false, false) = (since, shut, elements.is_empty()) {
        let days = since.until(today).map_or(0, |span| span.get_days());
        out.push(Exposed {
            what: "vents stand open".into(),
            elements,
            since,
            days,
            rains: 0,
            until: Some(closed),
            origin: f.origin,
        });
    }
}
