//! `needs_unmet`, `surface_not_ready`: a phase begins, or a permanent layer goes on, before what it asks for holds.

use wythe_findings::{Finding, codes};
use wythe_model::SurfaceKind;
use wythe_source::Symbol;

use super::plan::Plan;
use super::site_state::open_vents;
use super::{ground_layer_too_soon, plan};

pub(super) fn check(plan: &Plan, out: &mut Vec<Finding>) {
    for (index, phase) in plan.foundation.phases.iter().enumerate() {
        for need in phase.needs.iter().filter(|n| plan.before(index).holds(n.as_str()) == Some(false)) {
            let finding = plan
                .of_house(
                    codes::NEEDS_UNMET,
                    phase.origin,
                    format!("`{}` needs `{need}`, and it is not so", plan.name(index)),
                    plan.name(index),
                )
                .label(why(plan, index, *need))
                .related(plan.foundation.phases_origin, "the order of phases")
                .mend(mend(plan, index, *need));
            out.push(finding);
        }
        if phase.needs.iter().any(|n| n.as_str() == "vent_open")
            && open_vents(plan.foundation).is_empty()
            && plan.before(index).holds("vent_open") == Some(true)
        {
            let finding = plan
                .of_house(
                    codes::NEEDS_UNMET,
                    phase.origin,
                    format!("`{}` needs `vent_open`, and there is no vent", plan.name(index)),
                    plan.name(index),
                )
                .label("a phase opens the vents, yet the walls have none")
                .related(plan.foundation.origin, format!("`{}` has no opening of kind `vent`", plan.foundation.name))
                .mend("add a vent, or dry the space by conditioning and leave the need out");
            out.push(finding);
        }
    }
    ready(plan, out);
    walls_ready(plan, out);
}

/// A wall or pier whose first layer goes on before what its build-up asks for holds.
fn walls_ready(plan: &Plan, out: &mut Vec<Finding>) {
    let mut told = Vec::new();
    for surface in plan.surfaces.iter().filter(|s| s.assembly.kind != SurfaceKind::Ground) {
        if surface.assembly.ready.is_empty() || told.contains(&surface.id) {
            continue;
        }
        told.push(surface.id);
        let faces = plan.surfaces.iter().filter(|s| s.id == surface.id);
        let works = faces.flat_map(|s| s.history.works().iter().map(move |work| (s, work)));
        let scheduled = works.filter_map(|(s, work)| Some((plan.phase_of(work)?, s, work)));
        let Some((phase, first, work)) = scheduled.min_by_key(|(phase, _, work)| (*phase, work.origin)) else {
            continue;
        };
        for (word, span) in &surface.assembly.ready {
            let told = plan.foundation.phases[phase].needs.iter().any(|n| n == word);
            if plan.before(phase).holds(word.as_str()) != Some(false) || told {
                continue;
            }
            let title = format!("`{}` goes on in `{}`, and the wall is not `{word}`", work.layer, plan.name(phase));
            let finding = plan
                .of_face(first, codes::SURFACE_NOT_READY, work.origin, title)
                .label(format!("no phase before it leaves the wall `{word}`"))
                .related(*span, format!("`{word}` is asked for here"))
                .mend(mend(plan, phase, *word));
            out.push(finding);
        }
    }
}

fn ready(plan: &Plan, out: &mut Vec<Finding>) {
    for (surface, life, phase) in plan.permanent_liners() {
        if ground_layer_too_soon::last_harm(plan, life, phase).is_some() {
            continue;
        }
        let state = plan.before(phase);
        let told = |word: &str| plan.foundation.phases[phase].needs.iter().any(|n| n.as_str() == word);
        for (word, span) in &surface.assembly.ready {
            if state.holds(word.as_str()) != Some(false) || told(word.as_str()) {
                continue;
            }
            let origin = surface.work(life).origin;
            let title = format!("`{}` is laid in `{}`, and the ground is not `{word}`", life.name, plan.name(phase));
            let mut finding = plan
                .of_face(surface, codes::SURFACE_NOT_READY, origin, title)
                .label(why(plan, phase, *word))
                .related(*span, format!("`{word}` is asked for here"));
            if let Some(to) = (phase + 1..plan.foundation.phases.len()).find(|&p| is_ready(plan, surface, p)) {
                finding = finding.mend(format!("lay it in `{}` at the earliest", plan.name(to)));
            } else {
                finding = finding.mend(mend(plan, phase, *word));
            }
            out.push(finding);
        }
    }
}

/// Whether the ground is ready for its permanent layer on entry to a phase.
pub(super) fn is_ready(plan: &Plan, surface: &plan::Surface, phase: usize) -> bool {
    surface.assembly.ready.iter().all(|(word, _)| plan.before(phase).holds(word.as_str()) != Some(false))
}

fn why(plan: &Plan, phase: usize, need: Symbol) -> String {
    let before = &plan.foundation.phases[..phase.min(plan.foundation.phases.len())];
    let says = |words: &[Symbol], word: &str| words.iter().any(|w| w.as_str() == word);
    match need.as_str() {
        "dry" if before.iter().any(|p| says(&p.dries, "ground")) => {
            "a phase dries the ground, but only with vents open or conditioning on, and before it is wetted again"
                .to_owned()
        }
        "dry" => "no phase before it dries the ground".to_owned(),
        "vent_open" => "no phase before it opens the vents, or one has shut them".to_owned(),
        other => format!("no phase before it leaves the ground `{other}`"),
    }
}

fn mend(plan: &Plan, phase: usize, need: Symbol) -> String {
    let says = |words: &[Symbol], word: &str| words.iter().any(|w| w.as_str() == word);
    let later = plan.foundation.phases.iter().skip(phase).find(|p| match need.as_str() {
        "dry" => says(&p.dries, "ground"),
        "vent_open" => says(&p.opens, "vent"),
        other => says(&p.leaves, other),
    });
    match later.filter(|p| p.name != plan.foundation.phases[phase].name) {
        Some(later) => format!("put `{}` after `{}`", plan.name(phase), later.name_str()),
        None => format!("add a phase before `{}` that brings `{need}`", plan.name(phase)),
    }
}
