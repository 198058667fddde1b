//! Phases.

use std::sync::Arc;

use wythe_model::{Phase, Traffic};
use wythe_syntax::ast::{Block, Ident};

use crate::lower::fields;
use crate::{Evaluator, Frame, Value};

/// A phase from its block.
pub fn phase<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, name: Ident, block: &Block) -> Value {
    let f = fields::read(ev, frame, Some(block), "PhaseBlock");
    let traffic = match f.member(ev, "traffic").map(|m| m.as_str()) {
        Some("light") => Traffic::Light,
        Some("heavy") => Traffic::Heavy,
        _ => Traffic::None,
    };
    Value::Phase(Arc::new(Phase {
        name: Some(name.name),
        origin: name.span,
        needs: f.members(ev, "needs"),
        brings: f.members(ev, "brings"),
        opens: f.members(ev, "opens"),
        ends: f.members(ev, "ends"),
        covers: f.members(ev, "covers"),
        leaves: f.members(ev, "leaves"),
        wets: f.members(ev, "wets"),
        dries: f.members(ev, "dries"),
        closes: f.members(ev, "closes"),
        starts: f.members(ev, "starts"),
        traffic,
        hold: f.text("hold"),
    }))
}
