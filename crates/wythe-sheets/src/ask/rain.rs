//! It rained: what is open, and what must dry?

use wythe_model::{Act, Work};
use wythe_render::drawing::words as plain;
use wythe_source::Span;

use super::Answer;
use crate::House;
use crate::words::say;

/// The answer for a house: what stands open by its log, and what must be dry before work goes on.
pub fn rain(house: &House<'_>) -> Answer {
    let (w, f, telling) = (house.words, house.f(), house.telling());
    let Some(progress) = house.progress else {
        let mut lines = vec![say!(w, "ask-rain-no-log")];
        lines.extend(dry(house, None));
        return Answer::of(lines);
    };
    let roof = f.phases.iter().find(|p| p.ends.iter().any(|e| e.as_str() == "rain")).and_then(|p| p.name);
    let covered = roof.is_some_and(|name| progress.phases.iter().any(|p| p.name == name && p.is_done()));
    let mut lines = Vec::new();
    if covered {
        lines.push(say!(w, "ask-rain-roof"));
    }
    if progress.exposed.is_empty() {
        lines.push(say!(w, "ask-rain-nothing"));
    }
    for open in &progress.exposed {
        let place = telling.names(&open.elements);
        let until = open.until.map_or_else(String::new, plain::name);
        lines.push(match work_at(house, open.origin) {
            Some((face, x)) => {
                let what = telling.layer(Some(face), x.layer);
                match x.act {
                    Act::Coat => say!(w, "ask-rain-coat", what = what, place = place, until = until),
                    Act::Set => say!(w, "ask-rain-edge", what = what, place = place, until = until),
                    _ => say!(w, "ask-rain-tail", what = what, place = place, until = until),
                }
            }
            None => say!(w, "ask-rain-vents", place = place, until = until),
        });
    }
    lines.extend(dry(house, progress.next_phase().map(|p| p.name)));
    Answer::of(lines)
}

/// What must be dry before work goes on.
fn dry(house: &House<'_>, next: Option<wythe_source::Symbol>) -> Vec<String> {
    let (w, f) = (house.words, house.f());
    let mut lines = Vec::new();
    let sticks = |x: &&&Work| matches!(x.act, Act::Coat | Act::Tape | Act::Seal);
    let coming = next.and_then(|n| {
        let at = f.phase_index(n)?;
        f.phases[at..]
            .iter()
            .filter_map(|p| p.name)
            .find(|name| house.visits(*name).iter().any(|v| v.works.iter().any(|x| sticks(&x))))
    });
    if let Some(name) = coming {
        lines.push(say!(w, "ask-rain-surfaces", visit = plain::name(name)));
    }
    let ground = f.assemblies.iter().any(|a| a.ready.iter().any(|(word, _)| word.as_str() == "dry"));
    if ground {
        lines.push(say!(w, "ask-rain-ground"));
    }
    lines.push(say!(w, "ask-rain-pump"));
    lines
}

/// The work that stands at a place in the text.
fn work_at<'a>(house: &House<'a>, origin: Span) -> Option<(&'a wythe_model::Face, &'a Work)> {
    house
        .f()
        .assemblies
        .iter()
        .find_map(|a| a.faces.iter().find_map(|face| face.works.iter().find(|x| x.origin == origin).map(|x| (face, x))))
}
