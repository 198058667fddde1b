//! `phase_not_listed`, `phase_steps_back`, `unscheduled_work`, `unknown_phase_word`: phases named wrongly or out of order.

use wythe_findings::{Finding, codes};
use wythe_model::{Face, Phase};
use wythe_source::Symbol;

use super::plan::Plan;
use super::with_name;
use crate::order::words::{line, nearest};

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    for surface in &plan.surfaces {
        let mut found = Vec::new();
        face(plan, surface.history.face, &mut found);
        out.extend(
            found
                .into_iter()
                .map(|f| crate::place::of_assembly(plan.foundation, surface.id, surface.assembly, surface.face(), f)),
        );
    }
    for joint in &plan.foundation.joints {
        let from = out.len();
        face(plan, &joint.face, out);
        for finding in &mut out[from..] {
            finding.item = format!("{}.{}", plan.foundation.name, joint.name);
        }
    }
    for phase in &plan.foundation.phases {
        words(plan, phase, out);
    }
}

fn face(plan: &Plan, face: &Face, out: &mut Vec<Finding>) {
    let mut latest: Option<(usize, usize)> = None;
    if let Some(work) = face.works.iter().find(|w| w.phase.is_none()) {
        out.push(
            Finding::new(codes::UNSCHEDULED_WORK, work.origin, format!("`{}` belongs to no phase", line(work)))
                .label("nobody knows when this is done")
                .related(plan.foundation.phases_origin, format!("`{}` has phases", plan.foundation.name))
                .mend("put it into a `during` block"),
        );
    }
    for (index, work) in face.works.iter().enumerate() {
        let Some(phase) = work.phase else { continue };
        let Some(at) = plan.foundation.phase_index(phase.name) else {
            let known = plan.foundation.phases.iter().filter_map(|p| p.name);
            let finding = Finding::new(
                codes::PHASE_NOT_LISTED,
                phase.origin,
                format!("`{}` is no phase of `{}`", phase.name, plan.foundation.name),
            )
            .label("work of a phase that never comes")
            .related(plan.foundation.phases_origin, "the phases of the foundation")
            .mend("name a phase of that list, or put this one into it");
            out.push(match nearest(phase.name, known) {
                Some(near) => finding.mend(format!("did you mean `{near}`?")),
                None => finding,
            });
            continue;
        };
        match latest {
            Some((last, before)) if at < last => {
                let earlier = &face.works[before];
                let mut finding = Finding::new(
                    codes::PHASE_STEPS_BACK,
                    phase.origin,
                    format!("`{}` comes back after `{}`", plan.name(at), plan.name(last)),
                )
                .label(format!("`{}` is of an earlier phase than what stands before it", line(work)))
                .mend(format!("move these lines up to the work of `{}`, or give them a later phase", plan.name(at)));
                if let Some(other) = earlier.phase {
                    finding = finding.related(other.origin, format!("`{}` is already done here", plan.name(last)));
                }
                out.push(finding);
            }
            _ => latest = Some((at, index)),
        }
    }
}

/// The words a phase may use in each of its lists.
const WORDS: [(&str, &[&str]); 9] = [
    ("needs", &["graded", "drained", "dry", "vent_open", "inspected", "anchored", "clean"]),
    ("brings", &["footings", "stem", "columns", "beams", "floor", "roof"]),
    ("opens", &["vent"]),
    ("ends", &["rain"]),
    ("covers", &["outside_below_grade"]),
    ("leaves", &["graded", "drained", "inspected", "anchored", "clean"]),
    ("wets", &["ground"]),
    ("dries", &["ground"]),
    ("closes", &["vent"]),
];

fn words(plan: &Plan, phase: &Phase, out: &mut Vec<Finding>) {
    let lists = [
        &phase.needs,
        &phase.brings,
        &phase.opens,
        &phase.ends,
        &phase.covers,
        &phase.leaves,
        &phase.wets,
        &phase.dries,
        &phase.closes,
    ];
    let mut judge = |list: &str, known: &[&str], word: Symbol| {
        if known.contains(&word.as_str()) {
            return;
        }
        let finding = plan
            .of_house(
                codes::UNKNOWN_PHASE_WORD,
                phase.origin,
                format!("`{word}` means nothing in `{list}`"),
                phase.name_str(),
            )
            .label(format!("`{list}` takes {}", known.join(", ")))
            .mend(format!("one of {}", known.join(", ")));
        out.push(match nearest(word, known.iter().map(|k| Symbol::new(k))) {
            Some(near) => finding.mend(format!("did you mean `{near}`?")),
            None => finding,
        });
    };
    for ((list, known), words) in WORDS.into_iter().zip(lists) {
        words.iter().for_each(|w| judge(list, known, *w));
    }
    phase.starts.iter().for_each(|w| judge("starts", &["conditioning"], *w));
    let ready = plan
        .surfaces
        .iter()
        .filter(|s| s.history.face.name == s.assembly.faces[0].name)
        .flat_map(|s| &s.assembly.ready);
    if std::ptr::eq(phase, &*plan.foundation.phases[0]) {
        for (word, span) in ready.filter(|(w, _)| plan.before(0).holds(w.as_str()).is_none()) {
            let known = WORDS[0].1;
            let finding = plan
                .of_house(codes::UNKNOWN_PHASE_WORD, *span, format!("`{word}` means nothing in `ready`"), "ready")
                .label(format!("`ready` takes {}", known.join(", ")))
                .mend(format!("one of {}", known.join(", ")));
            out.push(with_name(finding, *span, nearest(*word, known.iter().map(|k| Symbol::new(k)))));
        }
    }
}
