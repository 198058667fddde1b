//! `taped_before_fixed`: tape on a layer that is still loose.

use wythe_findings::{Finding, codes};
use wythe_model::Act;

use super::context::{Context, with_fix};
use super::history::{Found, Role};
use super::words::line;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    let (works, history) = (context.works(), &context.history);
    for reference in history.references.iter().filter(|r| r.role == Role::Edge) {
        let (at, work) = (reference.work, &works[reference.work]);
        let Found::Live(life) = reference.found else { continue };
        let Some(fasten) = history.lives[life].fixed.filter(|&f| f > at && matches!(work.act, Act::Tape | Act::Cap))
        else {
            continue;
        };
        let name = reference.name;
        let finding =
            Finding::new(codes::TAPED_BEFORE_FIXED, work.origin, format!("`{name}` is taped while it is still loose"))
                .label("the tape tears when the layer is drawn up")
                .related(works[fasten].origin, "fastened only here")
                .mend(format!("the order that works: `{}`, then `{}`", line(&works[fasten]), line(work)));
        out.push(context.placed(with_fix(finding, context.reorder(at, fasten))));
    }
}
