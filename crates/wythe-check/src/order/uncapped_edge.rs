//! `uncapped_edge`: the top edge of a porous board stays open.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class, EdgeName, SurfaceKind};

use super::context::Context;
use super::history::Life;
use crate::levels::hair;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for (at, life) in context.history.lives.iter().enumerate() {
        if !drinks(life) || !life.stays() || context.assembly.kind != SurfaceKind::Wall || is_capped(context, at, life)
        {
            continue;
        }
        let work = &context.works()[life.work];
        let after_rain = context.phase_of(work).zip(context.rain_ends()).is_some_and(|(here, dry)| here > dry);
        if after_rain {
            continue;
        }
        let name = life.name;
        let finding = Finding::new(
            codes::UNCAPPED_EDGE,
            work.origin,
            format!("the top edge of `{name}` is porous and never capped"),
        )
        .label("rain stands on this edge until the roof is on")
        .mend(format!("add `tape … over top edge of {name}` with a tape of its facing, once it is fastened"));
        out.push(context.placed(finding));
    }
}

/// Whether a layer is a board whose edge drinks.
pub(crate) fn drinks(life: &Life) -> bool {
    life.product.is_some_and(|p| p.class == Class::Board && p.edge == Some(wythe_model::EdgeNature::Porous))
}

fn is_capped(context: &Context, at: usize, life: &Life) -> bool {
    let history = &context.history;
    let by_work = history.treatments(at, EdgeName::TopEdge).any(|w| context.works()[w].act != Act::Seal);
    let by_joint = || {
        context.joint_works.iter().any(|w| {
            matches!(w.act, Act::Tape | Act::Cap | Act::Coat)
                && w.place.is_some_and(|p| p.edge == EdgeName::TopEdge && p.of == Some(life.name))
        })
    };
    let by_another = || {
        history.lives.iter().enumerate().any(|(other, l)| {
            let stands_on_it = l.class() == Some(Class::Board) && (l.range.low - life.range.high).abs() <= hair() * 2.0;
            let wraps_it =
                l.work > life.work && l.range.meets(life.range) && l.range.high > life.range.high + hair() * 16.0;
            other != at && l.stays() && (stands_on_it || wraps_it)
        })
    };
    by_work || by_joint() || by_another()
}
