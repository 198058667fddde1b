//! `never_fastened`: a hung or set layer that nothing holds.

use wythe_findings::{Finding, codes};
use wythe_model::Act;

use super::context::Context;
use super::words::done;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    for life in &context.history.lives {
        let by_joint = || context.joint_works.iter().any(|w| w.act == Act::Fasten && w.layer == life.name);
        if life.fixed.is_some() || life.cover.is_some() || !life.stays() || by_joint() {
            continue;
        }
        let name = life.name;
        let finding = Finding::new(
            codes::NEVER_FASTENED,
            context.works()[life.work].origin,
            format!("`{name}` is {} and never fastened", done(life.act)),
        )
        .label("nothing holds it")
        .mend(format!("add a `fasten {name} with …` line after it"));
        out.push(context.placed(finding));
    }
}
