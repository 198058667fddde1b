//! `tail_missing`: the ground liner meets a pier that has no tail to tie to.

use wythe_findings::{Finding, codes};
use wythe_model::{Length, SurfaceKind};

use super::plan::{Plan, is_sheet};

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    let Some((ground, liner, laid)) = plan.permanent_liners().find(|(_, l, _)| l.stays()) else { return };
    let lay = ground.work(liner);
    for surface in plan.faces(SurfaceKind::Pier, Some("face")) {
        let has_tail = |l: &&crate::order::history::Life| surface.work(l).by.is_some_and(|by| by > Length::default());
        let tail = surface.history.lives.iter().filter(|l| is_sheet(l) && l.stays()).find(has_tail);
        let (span, title, label, mend) = match tail {
            None => (
                surface.history.face.origin,
                format!("`{}` leaves no tail for `{}`", surface.assembly.name, liner.name),
                "no sheet with a tail (`by`) on this face".to_owned(),
                "hang a wrap with a tail: `hang … from ground + 8\" to ground by 12\"`".to_owned(),
            ),
            Some(life) => match plan.phase_at(surface, life.work).filter(|p| *p > laid) {
                Some(phase) => (
                    surface.work(life).origin,
                    format!("`{}` comes in `{}`, after `{}` is laid", life.name, plan.name(phase), liner.name),
                    "the tail belongs under the ground liner".to_owned(),
                    format!("hang it in `{}` or before", plan.name(laid)),
                ),
                None => continue,
            },
        };
        let finding = plan
            .of_face(surface, codes::TAIL_MISSING, span, title)
            .label(label)
            .related(lay.origin, format!("`{}` is laid in `{}`", liner.name, plan.name(laid)))
            .mend(mend);
        out.push(finding);
    }
}
