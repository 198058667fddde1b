//! `covered_before_seen`: work is covered while its inspection is due.

use wythe_findings::{Finding, codes};
use wythe_model::SurfaceKind;
use wythe_source::Symbol;

use super::plan::{Plan, Surface};

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    let backfill =
        plan.foundation.phases.iter().position(|p| p.covers.iter().any(|w| w.as_str() == "outside_below_grade"));
    if let Some(backfill) = backfill {
        for surface in plan.faces(SurfaceKind::Wall, Some("outside")) {
            outside(plan, surface, backfill, out);
        }
    }
    if plan.passed.is_some() {
        plan.surfaces.iter().for_each(|s| behind_layers(plan, s, out));
    }
}

/// A hold comes at the end of a phase, so work covered by that same phase is never seen.
fn outside(plan: &Plan, surface: &Surface, backfill: usize, out: &mut Vec<Finding>) {
    for (index, phase) in plan.foundation.phases.iter().enumerate().take(backfill + 1) {
        let Some(hold) = phase.hold.as_ref().filter(|_| index == backfill || !is_passed(plan, index)) else { continue };
        let work = surface
            .history
            .lives
            .iter()
            .find(|l| plan.phase_at(surface, l.work) == Some(index) && l.range.low < surface.levels.grade);
        let Some(life) = work else { continue };
        let title = format!("`{}` is backfilled in `{}` before it is seen", life.name, plan.name(backfill));
        let mut finding = plan
            .of_face(surface, codes::COVERED_BEFORE_SEEN, surface.work(life).origin, title)
            .label(format!("to be seen: {hold}"))
            .mend(if index == backfill {
                format!("split `{}`: one phase for the work and its hold, the next to cover it", plan.name(backfill))
            } else {
                format!("pass the hold of `{}` first", plan.name(index))
            });
        finding = plan.with_phase(finding, backfill, format!("`{}` covers it", plan.name(backfill)));
        out.push(finding);
    }
}

/// With a log: layers of a phase whose hold has not passed, covered in a later phase.
fn behind_layers(plan: &Plan, surface: &Surface, out: &mut Vec<Finding>) {
    for life in &surface.history.lives {
        let (Some(placed), Some(cover)) = (plan.phase_at(surface, life.work), life.cover) else { continue };
        let Some(covered) = plan.phase_at(surface, cover).filter(|c| *c > placed) else { continue };
        let due = (placed..covered).find(|&p| plan.foundation.phases[p].hold.is_some() && !is_passed(plan, p));
        let Some(due) = due.filter(|_| is_begun(plan, covered)) else { continue };
        let title = format!("`{}` is covered in `{}` before it is seen", life.name, plan.name(covered));
        let finding = plan
            .of_face(surface, codes::COVERED_BEFORE_SEEN, surface.history.works()[cover].origin, title)
            .label("covers it")
            .related(surface.work(life).origin, format!("the hold of `{}` is still due", plan.name(due)))
            .mend(format!("pass the hold of `{}` first", plan.name(due)));
        out.push(finding);
    }
}

fn is_passed(plan: &Plan, phase: usize) -> bool {
    let name: Option<Symbol> = plan.foundation.phases[phase].name;
    plan.passed.is_none_or(|passed| name.is_some_and(|n| passed.contains(&n)))
}

/// Whether a log shows that work has gone as far as a phase: a later hold, or its own, has passed.
fn is_begun(plan: &Plan, phase: usize) -> bool {
    (phase..plan.foundation.phases.len()).any(|p| plan.foundation.phases[p].hold.is_some() && is_passed(plan, p))
}
