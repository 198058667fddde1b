//! `drain_without_stone`: a drain that no stone lies around.

use wythe_findings::{Finding, codes};
use wythe_model::Act;

use super::context::Context;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let lives = &context.history.lives;
    for drain in lives.iter().filter(|l| l.act == Act::Drain) {
        if lives.iter().any(|l| l.act == Act::Fill && l.range.holds(drain.range)) {
            continue;
        }
        let finding = Finding::new(
            codes::DRAIN_WITHOUT_STONE,
            context.works()[drain.work].origin,
            format!("no stone around `{}`", drain.name),
        )
        .label("laid bare into the backfill")
        .mend("add `fill … from footing to footing + 12\"` with washed stone on the same face");
        out.push(context.placed(finding));
    }
}
