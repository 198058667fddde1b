//! `backfilled_too_soon`: backfill before the outside work below grade is done.

use wythe_findings::{Finding, codes};
use wythe_model::SurfaceKind;

use super::plan::Plan;
use crate::order::words::done;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    let covers = |p: &&std::sync::Arc<wythe_model::Phase>| p.covers.iter().any(|w| w.as_str() == "outside_below_grade");
    let Some(backfill) = plan.foundation.phases.iter().position(|p| covers(&p)) else { return };
    for surface in plan.faces(SurfaceKind::Wall, Some("outside")) {
        let below = surface.history.lives.iter().filter(|l| l.range.low < surface.levels.grade);
        let late = below.filter_map(|l| Some((l, plan.phase_at(surface, l.work)?))).find(|(_, p)| *p > backfill);
        let Some((life, phase)) = late else { continue };
        let title = format!("backfilled in `{}` before `{}` is {}", plan.name(backfill), life.name, done(life.act));
        let mut finding = plan
            .of_face(surface, codes::BACKFILLED_TOO_SOON, surface.work(life).origin, title)
            .label(format!("comes only in `{}`, behind the fill", plan.name(phase)))
            .mend(format!("do it in a phase before `{}`", plan.name(backfill)));
        finding = plan.with_phase(finding, backfill, "the outside is covered here".to_owned());
        out.push(finding);
    }
}
