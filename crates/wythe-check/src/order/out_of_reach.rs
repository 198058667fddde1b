//! `out_of_reach`: a work acts on a layer that is already covered.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, EdgeName};

use super::context::{Context, with_fix};
use super::history::{Found, Role};
use super::words::line;
use crate::levels::hair;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let (works, history) = (context.works(), &context.history);
    for reference in history.references.iter().filter(|r| matches!(r.role, Role::Acts | Role::Edge)) {
        let (at, work) = (reference.work, &works[reference.work]);
        let life = match reference.found {
            Found::Live(life) => Some(life),
            Found::Fasteners(fasten) => history.fastened_by(fasten),
            _ => None,
        };
        let Some(life) = life.map(|l| &history.lives[l]) else { continue };
        let cover = if work.act == Act::Remove { life.cover } else { life.shut };
        let Some(cover) = cover.filter(|&c| c < at && work.act != Act::Fasten) else { continue };
        let driven_behind = matches!(reference.found, Found::Fasteners(fasten) if fasten > cover);
        if driven_behind || context.is_swapped(life, cover) {
            continue;
        }
        let Some(over) = history.lives.iter().find(|l| l.work == cover && l.is_live_at(at)) else { continue };
        let edge = work.place.map(|p| p.edge);
        let still_seen = match edge {
            Some(EdgeName::TopEdge) => over.range.high <= life.range.high + hair() * 16.0,
            Some(EdgeName::BottomEdge) => over.range.low + hair() * 16.0 >= life.range.low,
            _ => false,
        };
        if still_seen {
            continue;
        }
        let finding = Finding::new(
            codes::OUT_OF_REACH,
            work.origin,
            format!("`{}` is out of reach behind `{}`", reference.name, over.name),
        )
        .label(format!("`{}` cannot be done any more", line(work)))
        .related(works[cover].origin, format!("`{}` is already over it", over.name))
        .mend(format!("the order that works: `{}`, then `{}`", line(work), line(&works[cover])));
        out.push(context.placed(with_fix(finding, context.reorder(at, cover))));
    }
}
