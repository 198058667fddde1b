//! `missing_lap_tape`: the laps of the permanent ground liner are never taped.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, Class, EdgeName, SurfaceKind, Work};

use super::context::Context;
use super::history::Life;

pub(super) fn check(context: &Context, out: &mut Vec<Finding>) {
    if context.assembly.kind != SurfaceKind::Ground {
        return;
    }
    for (at, life) in context.history.lives.iter().enumerate() {
        let sheet = life.act == Act::Lay && life.class() == Some(Class::Membrane) && !life.is_sacrificial();
        if !sheet || !life.stays() || are_laps_closed(context, at, life) {
            continue;
        }
        let name = life.name;
        let finding = Finding::new(
            codes::MISSING_LAP_TAPE,
            context.works()[life.work].origin,
            format!("the laps of `{name}` are never taped"),
        )
        .label("laid here; each lap stays open")
        .mend(format!("add `tape … over laps of {name}` with a tape of its facing"));
        out.push(context.placed(finding));
    }
}

/// Whether the laps of a ground sheet are taped or sealed, on its face or in a joint.
pub(crate) fn are_laps_closed(context: &Context, at: usize, life: &Life) -> bool {
    let by_work = |edge| context.history.treatments(at, edge).next().is_some();
    let by_joint = |w: &&&Work| {
        matches!(w.act, Act::Tape | Act::Seal)
            && w.place.is_some_and(|p| matches!(p.edge, EdgeName::Laps | EdgeName::Joints) && p.of == Some(life.name))
    };
    by_work(EdgeName::Laps) || by_work(EdgeName::Joints) || context.joint_works.iter().any(|w| by_joint(&w))
}
