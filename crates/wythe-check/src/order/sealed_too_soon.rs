//! `sealed_too_soon`: a bead before the layers it joins are in place, fast and finished.

use wythe_findings::{Finding, codes};
use wythe_model::Act;

use super::context::{Context, with_fix};
use super::history::{Found, Role};
use super::words::{done, line};

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for (index, work) in context.works().iter().enumerate().filter(|(_, w)| w.act == Act::Seal) {
        let Some((last, why)) = last_due(context, index) else { continue };
        let later = &context.works()[last];
        let finding = Finding::new(codes::SEALED_TOO_SOON, work.origin, format!("sealed before {why}"))
            .label("a bead comes last on its edge")
            .related(later.origin, format!("`{}` is still to come", line(later)))
            .mend(format!("the order that works: `{}`, then `{}`", line(later), line(work)));
        out.push(context.placed(with_fix(finding, context.reorder(index, last))));
    }
}

/// The last later work that had to come before the bead, and what it does.
fn last_due(context: &Context, index: usize) -> Option<(usize, String)> {
    let history = &context.history;
    let mut due: Option<(usize, String)> = None;
    let mut keep = |at: usize, why: String| {
        if due.as_ref().is_none_or(|(d, _)| *d <= at) && at > index {
            due = Some((at, why));
        }
    };
    for reference in history.references.iter().filter(|r| r.work == index) {
        let name = reference.name;
        match reference.found {
            Found::FastenersLater(at) => keep(at, format!("`{name}` is driven")),
            Found::Live(life) | Found::Later(life) => {
                if history.lives[life].work > index {
                    keep(history.lives[life].work, format!("`{name}` is {}", done(history.lives[life].act)));
                }
                if let Some(fixed) = history.lives[life].fixed.filter(|&f| f > index) {
                    keep(fixed, format!("`{name}` is fastened"));
                }
                let Some(place) = context.works()[index].place.filter(|_| reference.role == Role::Edge) else {
                    continue;
                };
                for at in history.treatments(life, place.edge).filter(|&t| t > index) {
                    let act = context.works()[at].act;
                    if act != Act::Seal {
                        keep(at, format!("the {} of `{name}` is {}", super::words::edge(place.edge), done(act)));
                    }
                }
            }
            _ => {}
        }
    }
    due
}
