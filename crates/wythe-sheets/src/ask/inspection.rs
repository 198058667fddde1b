//! What will the inspector want to see?

use wythe_render::drawing::words as plain;

use super::Answer;
use crate::House;
use crate::words::say;

/// The answer for a house: the next inspection by its log, or all of them in order.
pub fn inspection(house: &House<'_>) -> Answer {
    let w = house.words;
    let due = house.progress.map(|p| p.next_hold().map(|h| h.name));
    let mut lines = Vec::new();
    let next = match due {
        Some(None) => return Answer::of(vec![say!(w, "ask-inspect-none")]),
        Some(Some(name)) => Some(name),
        None => {
            lines.push(say!(w, "ask-no-log"));
            None
        }
    };
    for (name, phase) in house.phases() {
        let Some(hold) = &phase.hold else { continue };
        if next.is_some_and(|n| n != name) {
            continue;
        }
        lines.push(say!(w, "ask-inspect", visit = plain::name(name), hold = hold.to_string()));
        for visit in house.visits(name) {
            lines.push(format!("{}:", visit.place(house)));
            lines.extend(visit.steps(house).into_iter().map(|step| format!("- {step}")));
        }
    }
    let open: Vec<String> = house
        .rules
        .iter()
        .filter(|r| r.cases.iter().any(|c| c.holds == Some(false)))
        .map(|r| if r.source.is_empty() { r.title.clone() } else { format!("{} ({})", r.title, r.source) })
        .collect();
    for rule in open {
        lines.push(say!(w, "ask-inspect-open", rule = rule));
    }
    if lines.is_empty() {
        lines.push(say!(w, "ask-inspect-none"));
    }
    Answer::of(lines)
}
