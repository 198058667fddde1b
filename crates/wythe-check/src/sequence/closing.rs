//! `vents_shut_unconditioned`, `vent_open_in_service`, `conditioning_unnamed`: the moment the space is closed.

use wythe_findings::{Finding, codes};

use super::plan::Plan;
use super::site_state::{Vents, open_vents};
use crate::place;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    let shuts = |p: &wythe_model::Phase| p.closes.iter().any(|w| w.as_str() == "vent");
    for (index, phase) in plan.foundation.phases.iter().enumerate().filter(|(_, p)| shuts(p)) {
        if plan.after(index).conditioned {
            continue;
        }
        let later = (index + 1..plan.foundation.phases.len()).find(|&p| plan.after(p).conditioned);
        let mut finding = plan
            .of_house(
                codes::VENTS_SHUT_UNCONDITIONED,
                phase.origin,
                format!("`{}` shuts the vents with no conditioning", plan.name(index)),
                plan.name(index),
            )
            .label("from here on the space neither breathes nor is dried")
            .mend(format!("add `starts: [conditioning]` to `{}`, or shut the vents later", plan.name(index)));
        if let Some(later) = later {
            finding = plan.with_phase(finding, later, format!("conditioning starts only in `{}`", plan.name(later)));
        }
        out.push(finding);
    }
    let vents = open_vents(plan.foundation);
    if plan.last().vents != Vents::Shut && !vents.is_empty() {
        let first = plan.foundation.openings.iter().find(|o| Some(&o.name) == vents.first());
        let finding = plan
            .of_house(
                codes::VENT_OPEN_IN_SERVICE,
                first.map_or(plan.foundation.origin, |o| o.origin),
                format!("{} still open in service", place::list(&vents)),
                vents.first().map_or("", |v| v.as_str()),
            )
            .label("no phase shuts it, and it is not plugged")
            .related(plan.foundation.phases_origin, "the phases of the foundation")
            .mend("add `closes: [vent]` to the phase that closes the space, or `plugged: true`");
        out.push(finding);
    }
}

/// A phase starts conditioning, and the foundation names none.
pub(super) fn check_conditioning_named(plan: &Plan, out: &mut Vec<Finding>) {
    let means = &plan.foundation.conditioning;
    if means.supply_air.is_some() || means.exhaust.is_some() || means.dehumidifier.is_some() {
        return;
    }
    let starts = |p: &wythe_model::Phase| p.starts.iter().any(|w| w.as_str() == "conditioning");
    let Some((index, _)) = plan.foundation.phases.iter().enumerate().find(|(_, p)| starts(p)) else { return };
    let finding = plan
        .of_house(
            codes::CONDITIONING_UNNAMED,
            means.origin.unwrap_or(plan.foundation.origin),
            format!("`{}` starts conditioning, and none is named", plan.name(index)),
            "conditioning",
        )
        .label("no supply air, no exhaust, no dehumidifier")
        .mend("add `conditioning { supply_air: … }`, or an exhaust or dehumidifier");
    out.push(plan.with_phase(finding, index, "started here".to_owned()));
}
