//! Logs of the work.

use jiff::civil::Date;
use uom::si::f64::{Ratio, Time};
use uom::si::ratio::ratio;
use wythe_model::ledger::{HoldResult, LogEntry, WorkLog};
use wythe_sema::DefId;
use wythe_source::{Span, Symbol};
use wythe_syntax::ast::{Block, DeclKind, Item, StatementKind};

use crate::lower::{fields, rates};
use crate::{Element, Evaluator, Frame, Value};

/// A log from its declaration; nothing where its foundation is not known, which has been reported.
pub fn work_log(ev: &mut Evaluator<'_>, def: DefId) -> Option<WorkLog> {
    let program = ev.program;
    let (decl, mut frame) = (program.decl(def)?, Frame::new(program, def.file)?);
    let DeclKind::Log(block) = &decl.kind else { return None };
    ev.begin();
    let f = fields::read(ev, &mut frame, Some(block), "LogBlock");
    let Value::Element(Element::Foundation(foundation)) = f.get("of_foundation") else { return None };
    let (of, name) = (foundation.origin, foundation.name);
    let mut entries = Vec::new();
    for item in &block.items {
        let Item::Statement(statement) = item else { continue };
        let StatementKind::Entry { date, block } = &statement.kind else { continue };
        if let Value::Date(date) = ev.eval(&mut frame, *date) {
            entries.push(entry(ev, &mut frame, date, statement.span, block));
        }
    }
    Some(WorkLog { name: decl.name.name, origin: decl.name.span, foundation: of, foundation_name: name, entries })
}

fn entry<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, date: Date, origin: Span, block: &Block) -> LogEntry {
    let f = fields::read(ev, frame, Some(block), "EntryBlock");
    let hold = f.member(ev, "hold").and_then(|m| match m.as_str() {
        "waiting" => Some(HoldResult::Waiting),
        "passed" => Some(HoldResult::Passed),
        "failed" => Some(HoldResult::Failed),
        _ => None,
    });
    LogEntry {
        date,
        origin,
        done: names(f.get("done")),
        visit: name(f.get("visit")),
        walls: names(f.get("walls")),
        piers: names(f.get("at_piers")),
        openings: names(f.get("openings")),
        ground: f.typed::<Ratio>("ground"),
        layers: names(f.get("layers")),
        share: f.typed::<Ratio>("share").unwrap_or_else(|| Ratio::new::<ratio>(1.0)),
        by: f.text("done_by"),
        crew: rates::count(f.get("crew")),
        hours: f.typed::<Time>("hours"),
        photos: match f.get("photos") {
            Value::List(items) => items.iter().filter_map(text).collect(),
            _ => Vec::new(),
        },
        hold,
        rain: f.truth("rain"),
    }
}

fn text(value: &Value) -> Option<std::sync::Arc<str>> {
    match value {
        Value::Text(text) => Some(text.clone()),
        _ => None,
    }
}

fn names(value: &Value) -> Vec<Symbol> {
    match value {
        Value::List(items) => items.iter().filter_map(name).collect(),
        _ => Vec::new(),
    }
}

fn name(value: &Value) -> Option<Symbol> {
    match value {
        Value::Name(name) => Some(*name),
        Value::Phase(phase) => phase.name,
        Value::Product(product) => Some(product.name),
        _ => None,
    }
}
