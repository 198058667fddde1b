//! `remove_permanent`: a layer that is not sacrificial is taken away.

use wythe_findings::{Finding, codes};
use wythe_model::Act;

use super::context::Context;
use super::history::Found;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for reference in &context.history.references {
        let work = &context.works()[reference.work];
        let (Act::Remove, Found::Live(life)) = (work.act, reference.found) else { continue };
        let life = &context.history.lives[life];
        let Some(product) = life.product.filter(|p| !p.sacrificial) else { continue };
        let finding = Finding::new(
            codes::REMOVE_PERMANENT,
            work.origin,
            format!("`{}` is taken away, yet it is to stay", life.name),
        )
        .label("only a sacrificial layer is taken away")
        .related(context.works()[life.work].origin, "put on here")
        .related(product.origin, format!("`{}` does not say `sacrificial: true`", product.name))
        .mend("leave it, or lay a sacrificial sheet in its place");
        out.push(context.placed(finding));
    }
}
