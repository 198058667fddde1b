//! What goes on next here, and what must be seen first?

use wythe_model::ledger::HoldResult;
use wythe_model::quantity::WorkOf;
use wythe_model::{Face, SurfaceKind, Work};
use wythe_render::drawing::words as plain;
use wythe_source::Symbol;

use super::{Answer, need, unknown};
use crate::House;
use crate::words::say;

struct Due<'a> {
    phase: usize,
    kind: SurfaceKind,
    face: &'a Face,
    work: &'a Work,
}

/// The answer for an element: a wall, a pier, an opening, or `ground`.
///
/// # Errors
/// In words, where there is no such element.
pub fn next(house: &House<'_>, name: &str) -> Result<Answer, String> {
    let (w, f, telling) = (house.words, house.f(), house.telling());
    let element = Symbol::new(name);
    let Some((kind, assembly)) = house.assembly_of(element) else {
        let walls = f.walls.iter().map(|x| x.name);
        let known = walls.chain(f.piers.iter().map(|x| x.name)).chain(f.openings.iter().map(|x| x.name));
        return Err(unknown(house, name, &known.chain([Symbol::new("ground")]).collect::<Vec<_>>()));
    };
    let id = f.assemblies.iter().position(|a| std::ptr::eq(a.as_ref(), assembly)).unwrap_or(0);
    let mut due: Vec<Due<'_>> = Vec::new();
    for face in &assembly.faces {
        for (number, work) in face.works.iter().enumerate() {
            let done = house.done(element, WorkOf::Assembly(wythe_model::AssemblyId(id as u32)), face.name, number);
            let phase = work.phase.and_then(|p| f.phase_index(p.name));
            if let (Some(phase), true) = (phase, done.is_none_or(|d| d < 1.0 - 1e-9)) {
                due.push(Due { phase, kind, face, work });
            }
        }
    }
    // Works of one phase stay in the order written.
    due.sort_by_key(|d| d.phase);
    let here = plain::name(element);
    let Some(first) = due.first() else { return Ok(Answer::of(vec![say!(w, "ask-next-none", here = here)])) };
    let levels = f.walls.iter().find(|x| x.name == element).and_then(|x| x.stretches.first()).map(|s| s.levels);
    let pier = f.piers.iter().find(|p| p.name == element).map(wythe_model::Pier::levels);
    let levels = levels.or(pier).unwrap_or_else(|| house.first_levels());
    let step = telling.step(first.face, first.kind, first.work, &levels);
    let phase = &f.phases[first.phase];
    let visit = phase.name.map_or_else(String::new, plain::name);
    let mut lines = vec![say!(w, "ask-next", here = here, step = step, visit = visit)];
    if house.progress.is_none() {
        lines.push(say!(w, "ask-no-log"));
    }
    if let Some(then) = due.get(1).filter(|d| d.phase == first.phase) {
        lines.push(say!(w, "ask-next-then", step = telling.step(then.face, then.kind, then.work, &levels)));
    }
    lines.extend(phase.needs.iter().map(|n| need(house, n.as_str())));
    // Inspections before this visit that are not passed, by the log; by the plans, the last one before it.
    let before = || house.phases().take_while(|(n, _)| Some(*n) != phase.name).filter(|(_, p)| p.hold.is_some());
    match house.progress {
        Some(progress) => {
            for (name, waiting) in before() {
                let seen = progress.phases.iter().find(|p| p.name == name).and_then(|p| p.seen);
                if let (Some(hold), true) = (&waiting.hold, seen != Some(HoldResult::Passed)) {
                    lines.push(say!(w, "ask-next-seen", hold = hold.to_string()));
                }
            }
        }
        None => lines.extend(
            before().last().and_then(|(_, p)| Some(say!(w, "ask-next-seen", hold = p.hold.as_ref()?.to_string()))),
        ),
    }
    Ok(Answer::of(lines))
}
