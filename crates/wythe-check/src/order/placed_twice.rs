//! `placed_twice`: a second layer of one name over the first, which is no second coat.

use wythe_findings::{Finding, codes};
use wythe_model::Act;

use super::context::Context;
use super::words::done;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let lives = &context.history.lives;
    for (at, second) in lives.iter().enumerate() {
        let first = lives[..at].iter().find(|f| {
            f.name == second.name && f.is_live_at(second.work) && f.range.meets(second.range) && f.act == second.act
        });
        let Some(first) = first.filter(|f| !matches!(f.act, Act::Coat | Act::Fill | Act::Drain)) else { continue };
        let (name, works) = (second.name, context.works());
        let finding = Finding::new(
            codes::PLACED_TWICE,
            works[second.work].origin,
            format!("`{name}` is {} twice", done(second.act)),
        )
        .label("a second one in the same place")
        .related(works[first.work].origin, "the first")
        .mend(format!("take one line out, or name the second: `{} {name} as …`", second.act.word()));
        out.push(context.placed(finding));
    }
}
