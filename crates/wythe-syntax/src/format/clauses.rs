//! Layers whose clauses do not stand in the order of printing.

use crate::ast::{Block, Item, Layer, Module, StatementKind};
use crate::clauses::print_rank;

/// A layer to be put in order: where it starts, and the bytes of its clauses as they should stand.
pub(super) struct Reordered {
    pub start: u32,
    pub clauses: Vec<(u32, u32)>,
}

/// The layers of a module whose clauses are out of order, by place.
pub(super) fn out_of_order(module: &Module) -> Vec<Reordered> {
    let mut found = Vec::new();
    for block in module.decls.iter().filter_map(|decl| decl.kind.block()) {
        look(block, &mut found);
    }
    found.sort_by_key(|r| r.start);
    found
}

fn look(block: &Block, found: &mut Vec<Reordered>) {
    for item in &block.items {
        match item {
            Item::Property { .. } => {}
            Item::Section { block, .. } => look(block, found),
            Item::Statement(statement) => match &statement.kind {
                StatementKind::Layer(layer) => found.extend(reorder(layer)),
                kind => kind.block().into_iter().for_each(|block| look(block, found)),
            },
        }
    }
}

fn reorder(layer: &Layer) -> Option<Reordered> {
    if layer.clauses.is_sorted_by_key(|c| print_rank(&c.kind)) {
        return None;
    }
    let mut clauses: Vec<_> = layer.clauses.iter().collect();
    clauses.sort_by_key(|c| print_rank(&c.kind));
    let clauses = clauses.iter().map(|c| (c.span.start, c.span.end)).collect();
    Some(Reordered { start: layer.verb_span.start, clauses })
}
