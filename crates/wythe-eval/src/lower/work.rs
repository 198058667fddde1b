//! One layer statement turned into a piece of work.

use std::sync::Arc;

use uom::si::f64::Length;
use wythe_model::{Act, EdgeName, Extent, PhaseRef, Place, Product, Relation, Work};
use wythe_sema::Res;
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{ClauseKind, Edge, Ident, Layer, Verb};

use crate::lower::fields;
use crate::{Evaluator, Frame, Value};

/// A piece of work; nothing where the statement's product is not known, which has been reported.
pub(crate) fn work<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    layer: &Layer,
    origin: Span,
    phase: Option<Ident>,
) -> Option<Work> {
    let act = act(layer.verb);
    let acts_on_a_layer = matches!(act, Act::Fasten | Act::Lap | Act::Remove);
    let mut product = if acts_on_a_layer { None } else { Some(product(ev, frame, layer.object)?) };
    let mut work = Work {
        act,
        origin,
        layer: layer.object.name,
        layer_origin: layer.object.span,
        product: None,
        phase: phase.map(|p| PhaseRef { name: p.name, origin: p.span }),
        extent: None,
        place: None,
        every: None,
        by: None,
        each: None,
        bead: None,
    };
    for clause in &layer.clauses {
        match &clause.kind {
            ClauseKind::As(name) => work.layer = name.name,
            ClauseKind::Extent { from, to } => {
                let (from, to) = (ev.eval(frame, *from), ev.eval(frame, *to));
                if let (Some(from), Some(to)) = (fields::elevation(&from), fields::elevation(&to)) {
                    work.extent = Some(Extent { from, to });
                }
            }
            ClauseKind::Along(edge) => work.place = place(Relation::Along, edge),
            ClauseKind::Over(edge) => work.place = place(Relation::Over, edge),
            ClauseKind::Under(edge) => work.place = place(Relation::Under, edge),
            ClauseKind::Into(edge) => work.place = place(Relation::Into, edge),
            ClauseKind::With(name) => product = self::product(ev, frame, *name),
            ClauseKind::Every(value) => work.every = fields::typed::<Length>(&ev.eval(frame, *value)),
            ClauseKind::Bead(value) => work.bead = fields::typed::<Length>(&ev.eval(frame, *value)),
            ClauseKind::By(value) => {
                let value = ev.eval(frame, *value);
                work.by = fields::typed::<Length>(&value);
                work.each = each(&value);
            }
        }
    }
    work.product = product;
    Some(work)
}

/// `6 per sheet`
fn each(value: &Value) -> Option<(f64, Symbol)> {
    let quantity = value.quantity()?;
    let unit = quantity.dim.recip().ok()?.as_nominal()?;
    Some((quantity.value.to_f64(), unit.name()))
}

fn product<'p>(ev: &mut Evaluator<'p>, frame: &Frame<'p>, ident: Ident) -> Option<Arc<Product>> {
    let value = match frame.checked.ident(ident) {
        Res::Def(def) => ev.value(def),
        Res::Param(at) => frame.params.get(at as usize)?.clone(),
        _ => return None,
    };
    match value {
        Value::Product(product) => Some(product),
        _ => None,
    }
}

fn place(relation: Relation, edge: &Edge) -> Option<Place> {
    let words: Vec<_> = edge.what.iter().map(|w| w.name.as_str()).collect();
    let name = match words[..] {
        ["top", "edge"] => EdgeName::TopEdge,
        ["bottom", "edge"] => EdgeName::BottomEdge,
        ["end", "edges"] => EdgeName::EndEdges,
        ["joints"] => EdgeName::Joints,
        ["heads"] => EdgeName::Heads,
        ["laps"] => EdgeName::Laps,
        ["cuts"] => EdgeName::Cuts,
        ["perimeter"] => EdgeName::Perimeter,
        ["head"] => EdgeName::Head,
        ["footing"] => EdgeName::Footing,
        _ => EdgeName::Layer(edge.what.first()?.name),
    };
    Some(Place { relation, edge: name, of: edge.of.map(|i| i.name), to: edge.to.map(|i| i.name), origin: edge.span })
}

const fn act(verb: Verb) -> Act {
    match verb {
        Verb::Coat => Act::Coat,
        Verb::Drain => Act::Drain,
        Verb::Fill => Act::Fill,
        Verb::Lay => Act::Lay,
        Verb::Hang => Act::Hang,
        Verb::Set => Act::Set,
        Verb::Fasten => Act::Fasten,
        Verb::Cap => Act::Cap,
        Verb::Tape => Act::Tape,
        Verb::Seal => Act::Seal,
        Verb::Lap => Act::Lap,
        Verb::Remove => Act::Remove,
    }
}
