//! `wrong_base`: a coating on a sheet or board, where it does not hold.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class};

use super::context::Context;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for coat in context.history.lives.iter().filter(|l| l.act == Act::Coat) {
        let Some(under) = context.history.live_over(coat.range, coat.work).last() else { continue };
        if !matches!(under.class(), Some(Class::Membrane | Class::Board)) {
            continue;
        }
        let works = context.works();
        let finding = Finding::new(
            codes::WRONG_BASE,
            works[coat.work].origin,
            format!("`{}` goes on over `{}`", coat.name, under.name),
        )
        .label("a coating holds on masonry, concrete or another coating")
        .related(works[under.work].origin, format!("`{}` is already there", under.name))
        .mend(format!("coat first, then `{}`", super::words::line(&works[under.work])));
        out.push(context.placed(finding));
    }
}
