//! The log against the order of work: nothing before what it rests on, nothing past an inspection that waits.

use wythe_findings::{Finding, codes};
use wythe_model::ledger::{HoldResult, WorkLog};
use wythe_model::{Assembly, Foundation};
use wythe_source::Symbol;

use super::marks::{self, Mark};

/// What is logged before the work under it. On each face the works stand in order: none may be further than the one
/// before it.
pub(super) fn order(f: &Foundation, log: &WorkLog, all: &[Mark]) -> Vec<Finding> {
    let mut out = Vec::new();
    for number in 0..log.entries.len() {
        let until = &all[..all.iter().position(|m| m.entry > number).unwrap_or(all.len())];
        let new = until.iter().filter(|m| m.entry == number);
        for mark in new {
            for (element, assembly) in elements(f) {
                if mark.element.is_none_or(|e| e == element) {
                    out.extend(too_soon(log, number, mark, until, element, assembly));
                }
            }
        }
    }
    out
}

/// The elements with their assemblies, `ground` last.
pub(super) fn elements(f: &Foundation) -> Vec<(Symbol, &Assembly)> {
    let walls = f.walls.iter().map(|w| (w.name, w.assembly));
    let piers = f.piers.iter().map(|p| (p.name, p.assembly));
    let openings = f.openings.iter().map(|o| (o.name, o.assembly));
    let all = walls.chain(piers).chain(openings).chain([(Symbol::new("ground"), f.ground.assembly)]);
    all.filter_map(|(name, id)| Some((name, f.assemblies.get(id?.0 as usize)?.as_ref()))).collect()
}

fn too_soon(
    log: &WorkLog,
    number: usize,
    mark: &Mark,
    until: &[Mark],
    element: Symbol,
    assembly: &Assembly,
) -> Option<Finding> {
    let entry = log.entries.get(number)?;
    for face in &assembly.faces {
        let share = |at: usize| -> Option<f64> {
            let work = face.works.get(at)?;
            let product = work.product.as_ref().map(|p| p.name);
            Some(marks::share(until, element, work.phase?.name, work.layer, product))
        };
        for (at, work) in face.works.iter().enumerate() {
            let product = work.product.as_ref().map(|p| p.name);
            let named = mark.layers.is_empty()
                || mark.layers.contains(&work.layer)
                || product.is_some_and(|p| mark.layers.contains(&p));
            if work.phase.map(|p| p.name) != Some(mark.phase) || !named {
                continue;
            }
            let here = share(at)?;
            let missing = (0..at).find(|&earlier| share(earlier).is_some_and(|s| s + 1e-9 < here));
            if let Some(earlier) = missing.and_then(|m| face.works.get(m)) {
                let title = format!(
                    "`{}` is logged on {element} before `{} {}`",
                    work.layer,
                    earlier.act.word(),
                    earlier.layer
                );
                return Some(
                    Finding::new(codes::LOGGED_TOO_SOON, entry.origin, title)
                        .label(format!("logged on {}", entry.date))
                        .related(earlier.origin, "this comes first and is not in the log")
                        .related(work.origin, "what is logged"),
                );
            }
        }
    }
    None
}

/// How the hold of a phase went, as last logged.
pub(super) fn seen(log: &WorkLog, phase: Symbol) -> Option<HoldResult> {
    let of_phase = log.entries.iter().filter(|e| e.visit == Some(phase) || e.done.contains(&phase));
    of_phase.filter_map(|e| e.hold).next_back()
}

/// Work of a later phase logged while an earlier one waits to be seen, or was found wanting.
pub(super) fn holds(f: &Foundation, log: &WorkLog) -> Vec<Finding> {
    let mut out = Vec::new();
    for (index, phase) in f.phases.iter().enumerate() {
        let (Some(name), Some(what)) = (phase.name, &phase.hold) else { continue };
        let mut state: Option<(HoldResult, usize)> = None;
        for (number, entry) in log.entries.iter().enumerate() {
            let later = entry.visit.iter().chain(&entry.done).filter_map(|p| f.phase_index(*p)).any(|p| p > index);
            if let (true, Some((HoldResult::Waiting | HoldResult::Failed, since))) = (later, state) {
                let words = if state.map(|s| s.0) == Some(HoldResult::Failed) { "failed" } else { "waiting" };
                let mut finding = Finding::new(
                    codes::LOGGED_PAST_HOLD,
                    entry.origin,
                    format!("work went on while the inspection of `{name}` is {words}"),
                )
                .label(format!("to be seen first: {what}"));
                if let Some(earlier) = log.entries.get(since) {
                    finding = finding.related(earlier.origin, format!("{words} since {}", earlier.date));
                }
                out.push(finding);
                break;
            }
            let mine = entry.visit == Some(name) || entry.done.contains(&name);
            if let (true, Some(result)) = (mine, entry.hold) {
                state = Some((result, number));
            }
        }
    }
    out
}
