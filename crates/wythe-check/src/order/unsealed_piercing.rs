//! `unsealed_piercing`: fasteners pierce a layer that carries a line, and nothing ever closes their heads.
//!
//! Heads closed later are not this finding: only when that comes after the closing is the sequence at fault.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class, EdgeName};

use super::context::{Context, carries_a_line};
use super::history::{Life, closes_heads};
use crate::place;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for (index, work) in context.works().iter().enumerate().filter(|(_, w)| w.act == Act::Fasten) {
        let Some(held) = context.history.fastened_by(index).map(|l| &context.history.lives[l]) else { continue };
        let pierced: Vec<&Life> = pierced(context, held, index).collect();
        let fastener = work.product.as_deref().map(|p| p.name);
        let closed = context.history.heads_closed(index).is_some()
            || context.joint_works.iter().any(|w| closes_heads(w, fastener))
            || is_sealed_over(context, held);
        if pierced.is_empty() || closed || !held.stays() {
            continue;
        }
        let names: Vec<_> = pierced.iter().map(|l| l.name).collect();
        let heads = fastener.map_or("the fasteners".to_owned(), |n| format!("`{n}`"));
        let mut finding = Finding::new(
            codes::UNSEALED_PIERCING,
            work.origin,
            format!("heads of {heads} through {} are never closed", place::list(&names)),
        )
        .label("each fastener leaves a hole");
        for life in &pierced {
            finding = finding.related(context.works()[life.work].origin, format!("`{}` is pierced", life.name));
        }
        let of = fastener.map_or(String::new(), |n| format!(" of {n}"));
        finding =
            finding.mend(format!("add `tape … over heads{of}` after it, with a tape that holds on `{}`", held.name));
        out.push(context.placed(finding));
    }
}

/// Layers that carry a line and that a fastening goes through, oldest first.
fn pierced<'a>(context: &'a Context, held: &Life, at: usize) -> impl Iterator<Item = &'a Life<'a>> {
    let range = held.range;
    context.history.live_over(range, at).filter(|l| l.product.is_some_and(carries_a_line))
}

/// Whether a sheet or coating that carries a line, and is put on later, covers the heads and all.
fn is_sealed_over(context: &Context, held: &Life) -> bool {
    let Some(shut) = held.shut else { return false };
    let over = context.works()[shut].product.as_deref();
    over.is_some_and(|p| matches!(p.class, Class::Membrane | Class::Coating) && carries_a_line(p))
        && context.works()[shut].place.is_none_or(|p| p.edge != EdgeName::Head)
}
