//! Build-ups with their arguments filled in.

use std::sync::Arc;

use wythe_model::{Assembly, Face};
use wythe_sema::{DefId, Signature};
use wythe_syntax::ast::{Block, DeclKind, Item, StatementKind};

use crate::lower::{fields, work};
use crate::shared::Filled;
use crate::{Evaluator, Frame, Value};

/// A build-up with its arguments. The same arguments give the same assembly, so a fault in it is found once.
pub fn assembly(ev: &mut Evaluator<'_>, def: DefId, args: Vec<Value>) -> Option<Arc<Assembly>> {
    let program = ev.program;
    let decl = program.decl(def)?;
    let DeclKind::Buildup { block, .. } = &decl.kind else { return None };
    let signature = program.checked(def.file)?.signatures.get(def.index as usize)?;
    let Signature::Buildup { params: types, kind } = signature else { return None };
    let mut frame = Frame::new(program, def.file)?;
    frame.params = args;
    // Called bare, it takes its defaults.
    for param in types.iter().skip(frame.params.len()) {
        let value = param.default.map_or(Value::None, |d| ev.eval(&mut frame, d));
        frame.params.push(value);
    }
    if let Some(known) = ev.shared.assembly(def, &frame.params) {
        ev.findings.extend(known.findings.iter().cloned());
        return Some(known.assembly);
    }
    let before = ev.findings.len();
    let f = fields::read(ev, &mut frame, Some(block), "BuildupBlock");
    let structure = match f.get("structure") {
        Value::Product(product) => Some(product.clone()),
        _ => None,
    };
    let ready_span = f.span("ready").unwrap_or(decl.name.span);
    let ready = f.members(ev, "ready").into_iter().map(|name| (name, ready_span)).collect();
    let mut faces = Vec::new();
    for item in &block.items {
        if let Item::Section { name, block } = item {
            faces.push(Face { name: name.name, origin: name.span, works: works(ev, &mut frame, block) });
        }
    }
    let assembly = Arc::new(Assembly {
        name: decl.name.name,
        kind: *kind,
        origin: decl.name.span,
        call: decl.name.span,
        structure,
        structure_origin: f.span("structure"),
        faces,
        ready,
    });
    let filled = Filled { args: frame.params, assembly, findings: ev.findings[before..].into() };
    Some(ev.shared.keep(def, filled).assembly)
}

/// The works of a face or a joint, in order, each with its phase.
pub(crate) fn works<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, block: &Block) -> Vec<wythe_model::Work> {
    let mut out = Vec::new();
    for item in &block.items {
        let Item::Statement(statement) = item else { continue };
        match &statement.kind {
            StatementKind::Layer(layer) => out.extend(work::work(ev, frame, layer, statement.span, None)),
            StatementKind::During { phase, block } => {
                for item in &block.items {
                    if let Item::Statement(statement) = item
                        && let StatementKind::Layer(layer) = &statement.kind
                    {
                        out.extend(work::work(ev, frame, layer, statement.span, Some(*phase)));
                    }
                }
            }
            _ => {}
        }
    }
    out
}
