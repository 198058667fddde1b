//! `joint_too_soon`: a joint is made in a phase before the layers it joins are there.

use wythe_findings::{Finding, codes};
use wythe_model::{Act, EdgeName, Joint, Work};
use wythe_source::Symbol;

use super::plan::Plan;
use crate::order::words::line;

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    for joint in &plan.foundation.joints {
        let mut told: Vec<Symbol> = Vec::new();
        for work in &joint.face.works {
            let Some(phase) = plan.phase_of(work) else { continue };
            for name in named(work) {
                let Some((layer, placed)) = placed(plan, joint, name).filter(|(_, p)| *p > phase) else { continue };
                // One layer that comes too late is one fault, however many lines of the joint name it.
                if told.contains(&name) {
                    continue;
                }
                told.push(name);
                let finding = plan
                    .of_house(
                        codes::JOINT_TOO_SOON,
                        work.origin,
                        format!("`{}` in `{}` comes before `{name}` is there", line(work), plan.name(phase)),
                        joint.name.as_str(),
                    )
                    .label(format!("done in `{}`", plan.name(phase)))
                    .related(layer.origin, format!("`{name}` comes only in `{}`", plan.name(placed)))
                    .mend(format!("do all of `{}` in `{}` or later", joint.name, plan.name(placed)));
                out.push(finding);
            }
        }
    }
}

fn named(work: &Work) -> impl Iterator<Item = Symbol> {
    let acts = matches!(work.act, Act::Lap | Act::Fasten | Act::Remove).then_some(work.layer);
    let edge = work.place.and_then(|p| match p.edge {
        EdgeName::Layer(name) => Some(name),
        EdgeName::Heads => None,
        _ => p.of,
    });
    acts.into_iter().chain(edge)
}

/// The work that places a layer on either side of a joint, with the earliest phase it is there.
fn placed<'a>(plan: &Plan<'a>, joint: &Joint, name: Symbol) -> Option<(&'a Work, usize)> {
    let meets = |kind, face| [joint.first, joint.second].into_iter().any(|k| k.kind == kind && k.face == face);
    let faces = plan.surfaces.iter().filter(|s| meets(s.assembly.kind, s.history.face.name));
    let works = faces.flat_map(|s| s.history.works()).filter(|w| w.act.places() && w.layer == name);
    works.filter_map(|w| Some((w, plan.phase_of(w)?))).min_by_key(|(_, p)| *p)
}
