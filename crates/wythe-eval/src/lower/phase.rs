//! Phases.

use std::sync::Arc;

use uom::si::f64::Time;
use uom::si::time::day;
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
        coldest: f.temperature("coldest"),
        hottest: f.temperature("hottest"),
        days: f.get("days").quantity().and_then(whole),
        wait_days: f.typed::<Time>("wait").map_or(0, |t| t.get::<day>().ceil().clamp(0.0, 3650.0) as u32),
    }))
}

/// A whole number of days.
fn whole(quantity: wythe_units::Quantity) -> Option<u32> {
    u32::try_from(quantity.value.round().as_whole()?).ok()
}
