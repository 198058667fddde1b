//! May I cover this, frame, or close the vents today?

use wythe_model::ledger::HoldResult;
use wythe_render::drawing::words as plain;

use super::{Answer, need};
use crate::House;
use crate::gate::gate;
use crate::words::say;

/// What someone wants to do today.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
pub enum Deed {
    /// Cover the outside: backfill.
    Cover,
    /// Frame the floor.
    Frame,
    /// Close the vents and the space.
    CloseVents,
}

/// The answer for a house: yes or no first, then why.
pub fn may(house: &House<'_>, deed: Deed) -> Answer {
    let (w, f) = (house.words, house.f());
    let has = |list: &[wythe_source::Symbol], word: &str| list.iter().any(|x| x.as_str() == word);
    let at = f.phases.iter().position(|p| match deed {
        Deed::Cover => !p.covers.is_empty(),
        Deed::Frame => has(&p.brings, "floor"),
        Deed::CloseVents => has(&p.closes, "vent"),
    });
    let Some(at) = at else { return Answer::of(vec![say!(w, "ask-may-never")]) };
    let visit = f.phases[at].name.map_or_else(String::new, plain::name);
    let mut against = Vec::new();
    if deed == Deed::CloseVents {
        against.extend(gate(house));
    }
    let Some(progress) = house.progress else {
        let mut lines = vec![say!(w, "ask-may-no-log", visit = visit)];
        lines.extend(against);
        for phase in &f.phases[..at] {
            if let (Some(name), Some(hold)) = (phase.name, &phase.hold) {
                lines.push(say!(w, "ask-may-hold", visit = plain::name(name), hold = hold.to_string()));
            }
        }
        lines.extend(f.phases[at].needs.iter().map(|n| need(house, n.as_str())));
        return Answer::of(lines);
    };
    for phase in f.phases[..at].iter().filter_map(|p| p.name) {
        let Some(known) = progress.phases.iter().find(|p| p.name == phase) else { continue };
        let name = plain::name(phase);
        if !known.is_done() {
            let percent = (known.done.value * 100.0).floor().clamp(0.0, 99.0);
            against.push(if percent > 0.0 {
                say!(w, "ask-may-part", visit = name.clone(), percent = percent)
            } else {
                say!(w, "ask-may-undone", visit = name.clone())
            });
        }
        if let (Some(hold), true) = (&known.hold, known.seen != Some(HoldResult::Passed)) {
            against.push(say!(w, "ask-may-unseen", visit = name, hold = hold.clone()));
        }
    }
    let needs: Vec<String> = f.phases[at].needs.iter().map(|n| need(house, n.as_str())).collect();
    let mut lines = vec![if against.is_empty() {
        say!(w, "ask-may-yes", visit = visit)
    } else {
        say!(w, "ask-may-no", visit = visit)
    }];
    lines.extend(against);
    lines.extend(needs);
    lines.push(say!(w, "ask-may-look"));
    Answer::of(lines)
}
