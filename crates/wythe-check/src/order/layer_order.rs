//! `layer_order`: a work acts on a layer that is not there yet.

use wythe_findings::{Finding, codes};
use wythe_model::Act;

use super::context::{Context, with_fix};
use super::history::{Found, Role};
use super::words::{done, line};

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let (works, lives) = (context.works(), &context.history.lives);
    for reference in &context.history.references {
        let work = &works[reference.work];
        if work.act == Act::Seal {
            continue;
        }
        let (later, what) = match reference.found {
            Found::Later(life) => (lives[life].work, done(lives[life].act)),
            Found::FastenersLater(fasten) => (fasten, "driven"),
            _ => continue,
        };
        let how = match reference.role {
            Role::Onto => "lapped onto",
            Role::To => "joined to",
            _ => done(work.act),
        };
        let name = reference.name;
        let title = format!("`{name}` is {how} before it is {what}");
        let finding = Finding::new(codes::LAYER_ORDER, work.origin, title)
            .label(format!("`{}` stands first", line(work)))
            .related(works[later].origin, format!("`{}` comes only here", line(&works[later])))
            .mend(format!("the order that works: `{}`, then `{}`", line(&works[later]), line(work)));
        out.push(context.placed(with_fix(finding, context.reorder(reference.work, later))));
    }
}
