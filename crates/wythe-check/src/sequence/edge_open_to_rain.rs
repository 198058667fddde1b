//! `edge_open_to_rain`: a porous edge is capped, but rain comes first.

use wythe_findings::{Finding, codes};

use super::plan::Plan;
use crate::order::drinks;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    for surface in &plan.surfaces {
        for (at, life) in surface.history.lives.iter().enumerate().filter(|(_, l)| drinks(l) && l.stays()) {
            let cap = plan.cap_of(surface, at);
            let (Some(set), Some((cap, capped))) =
                (plan.phase_at(surface, life.work), cap.and_then(|w| Some((w, plan.phase_of(w)?))))
            else {
                continue;
            };
            let Some(wet) = (set..capped).find(|&p| plan.after(p).rain) else { continue };
            let name = life.name;
            let finding = plan
                .of_face(
                    surface,
                    codes::EDGE_OPEN_TO_RAIN,
                    surface.work(life).origin,
                    format!("the top edge of `{name}` stands open to rain after `{}`", plan.name(wet)),
                )
                .label(format!("set in `{}`, before the rain ends", plan.name(set)))
                .related(cap.origin, format!("capped only in `{}`", plan.name(capped)))
                .mend(format!("cap it in `{}`", plan.name(set)));
            out.push(finding);
        }
    }
}
