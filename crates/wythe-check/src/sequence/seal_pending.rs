//! `head_open_in_service`, `seal_pending`: holes, laps and edges that are closed only after the space is.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, EdgeName, Work};

use super::plan::{Plan, Surface};
use crate::order::words::line;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    let Some(closing) = plan.closing() else { return };
    let late = |work: &Work| plan.phase_of(work).filter(|p| *p > closing);
    for surface in &plan.surfaces {
        heads(plan, surface, closing, out);
        for work in surface.history.works().iter().filter(|w| seals(w)) {
            if let Some(phase) = late(work) {
                let finding = plan.of_face(surface, codes::SEAL_PENDING, work.origin, title(plan, work, phase));
                out.push(finish(plan, finding, closing));
            }
        }
    }
    for joint in &plan.foundation.joints {
        for work in joint.face.works.iter().filter(|w| seals(w)) {
            if let Some(phase) = late(work) {
                let finding =
                    plan.of_house(codes::SEAL_PENDING, work.origin, title(plan, work, phase), joint.name.as_str());
                out.push(finish(plan, finding, closing));
            }
        }
    }
}

fn heads(plan: &Plan, surface: &Surface, closing: usize, out: &mut Vec<Finding>) {
    let works = surface.history.works();
    for (index, work) in works.iter().enumerate().filter(|(_, w)| w.act == Act::Fasten) {
        let driven = plan.phase_of(work).is_some_and(|p| p <= closing);
        let Some(closed) = plan.heads_closed(surface, index).filter(|_| driven) else { continue };
        let Some(phase) = plan.phase_of(closed).filter(|p| *p > closing) else { continue };
        let fastener = work.product.as_deref().map_or("the fasteners", |p| p.name.as_str());
        let title = format!("heads of `{fastener}` are open when `{}` closes the space", plan.name(closing));
        let finding = plan
            .of_face(surface, codes::HEAD_OPEN_IN_SERVICE, work.origin, title)
            .label("driven here")
            .related(closed.origin, format!("closed only in `{}`", plan.name(phase)));
        out.push(plan.with_phase(finding, closing, "the space is closed here".to_owned()).mend(format!(
            "`{}` in `{}` or before",
            line(closed),
            plan.name(closing)
        )));
    }
}

/// Work that closes an edge, lap or joint; heads have a finding of their own.
fn seals(work: &Work) -> bool {
    matches!(work.act, Act::Tape | Act::Seal | Act::Lap) && work.place.is_none_or(|p| p.edge != EdgeName::Heads)
}

fn title(plan: &Plan, work: &Work, phase: usize) -> String {
    format!("`{}` comes only in `{}`", line(work), plan.name(phase))
}

fn finish(plan: &Plan, finding: Finding, closing: usize) -> Finding {
    let finding = finding
        .label("still open when the space is closed")
        .mend(format!("do it in `{}` or before", plan.name(closing)));
    plan.with_phase(finding, closing, "the space is closed here".to_owned())
}
