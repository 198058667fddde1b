//! `ground_layer_too_soon`: the permanent ground liner before the last wet or heavy trade.

use wythe_findings::{Finding, codes};
use wythe_model::Traffic;

use super::needs_unmet::is_ready;
use super::plan::{Plan, is_tough};
use crate::order::history::Life;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    for (surface, life, phase) in plan.permanent_liners() {
        let Some((harm, why)) = last_harm(plan, life, phase) else { continue };
        let name = life.name;
        let to = (harm + 1..plan.foundation.phases.len()).find(|&p| is_ready(plan, surface, p));
        let title = format!("`{name}` is laid in `{}`, before `{}`", plan.name(phase), plan.name(harm));
        let mut finding = plan
            .of_face(surface, codes::GROUND_LAYER_TOO_SOON, surface.work(life).origin, title)
            .label(format!("`{}` {why}", plan.name(harm)));
        finding = plan.with_phase(finding, harm, format!("`{}` is still to come", plan.name(harm)));
        finding = finding.mend(match to {
            Some(to) => format!("lay it in `{}` at the earliest, and a sacrificial sheet until then", plan.name(to)),
            None => format!(
                "lay it after `{}`, once the ground is ready, and a sacrificial sheet until then",
                plan.name(harm)
            ),
        });
        out.push(finding);
    }
}

/// The last phase that harms a liner laid in a phase, and how. A liner tough enough to be worked on is harmed by none.
pub(super) fn last_harm(plan: &Plan, life: &Life, phase: usize) -> Option<(usize, &'static str)> {
    if is_tough(life) || !life.stays() {
        return None;
    }
    plan.foundation.phases.iter().enumerate().skip(phase).rev().find_map(|(index, p)| {
        if p.wets.iter().any(|w| w.as_str() == "ground") {
            Some((index, "wets the ground"))
        } else if p.traffic == Traffic::Heavy {
            Some((index, "brings heavy traffic"))
        } else {
            None
        }
    })
}
