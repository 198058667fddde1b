//! The branches of the vapor and air lines: the ground itself, and each pier.

use wythe_model::{Control, EdgeName, SurfaceKind};
use wythe_source::{Span, Symbol};

use super::fault::{Break, Fault, Owner, measure};
use super::house::{House, Out, step};
use super::joints::{Lap, laps};
use super::section::{Body, Section, Segment};
use super::trace::Status;
use crate::Inches;
use crate::levels::hair;
use crate::requirement::Need;

/// The crawl floor: one sheet that carries the line. Open laps of it are told as a fault of its layers.
pub(crate) fn ground(house: &House, control: Control, out: &mut Out) {
    let Some(section) = &house.ground else { return };
    let segments = section.segments(control, &["face"], house.asked);
    match segments.last() {
        Some(segment) => {
            let laps = if section.edge_is_closed(segment, EdgeName::Laps) { "laps closed" } else { "laps open" };
            let steps = vec![step(SurfaceKind::Ground, segment, section, laps.to_owned())];
            out.traces.push(house.trace(control, section, steps, Status::Proven, Vec::new(), ""));
        }
        None => {
            let found = bare_ground(house, control, section);
            let mends = vec![house.mend(&found)];
            out.traces.push(house.trace(control, section, Vec::new(), Status::Broken, mends, ""));
            out.add(found, &section.places);
        }
    }
}

fn bare_ground(house: &House, control: Control, section: &Section) -> Break {
    let sheet = section.faces.first().and_then(|history| {
        let life = history.lives.iter().rev().find(|l| l.stays() && !l.is_sacrificial() && l.product.is_some())?;
        Some((life.name, history.works()[life.work].origin, life.product?))
    });
    let perms = |p: wythe_model::Permeance| p.value / crate::requirement::permeance_in_perms(1.0).value;
    let limit = perms(house.asked.vapor_limit);
    let (origin, label) = match sheet {
        Some((name, at, product)) => {
            let why = match product.permeance.filter(|_| control == Control::Vapor) {
                Some(p) => format!(
                    "`{name}` passes {:.2} perm; {limit:.2} perm is the most ({})",
                    perms(p.mid),
                    house.asked.vapor_limit_source
                ),
                None => format!("`{name}` does not control {}", control.name()),
            };
            (at, why)
        }
        None => (section.assembly.origin, "no permanent sheet on the ground".to_owned()),
    };
    Break {
        controls: vec![control],
        fault: Fault::NONE,
        whereabouts: "on the ground".to_owned(),
        elevation: section.levels.ground,
        origin,
        label,
        related: Vec::new(),
        mend: format!("lay a permanent sheet of {limit:.2} perm or less"),
        owner: house.owner(section, Some(0)),
        beyond_reach_in_old_work: false,
        section: None,
    }
}

/// Each pier: the liner of the ground tied up it and taped.
pub(crate) fn piers(house: &House, control: Control, out: &mut Out) {
    let Some((liner, liner_at)) = house.ground_layer(control) else { return };
    for (number, section) in house.sections.iter().enumerate().filter(|(_, s)| s.assembly.kind == SurfaceKind::Pier) {
        let segments = section.segments(control, &["face"], house.asked);
        let around: Vec<&Segment> =
            segments.iter().filter(|s| s.face.is_some() && s.range.high - s.range.low > hair()).collect();
        let laps: Vec<Lap> =
            laps(house.foundation, SurfaceKind::Pier, "face", |name| house.ground_carries(name, control)).collect();
        let tied = laps.iter().find_map(|lap| around.iter().find(|s| s.name == lap.other).map(|s| (*s, lap)));
        let mut found = match tied {
            Some((segment, lap)) => tie(house, section, number, control, segment, lap),
            None => vec![untied(house, section, number, control, around.first().copied(), (liner, liner_at))],
        };
        let mut steps = Vec::new();
        if let Some((segment, lap)) = tied {
            let joined = format!("lap {} under `{}`", Inches(lap.by), lap.ground);
            steps.push(step(SurfaceKind::Pier, segment, section, joined));
        }
        let status = if found.is_empty() { Status::Proven } else { Status::Broken };
        let mends = found.iter().map(|b| house.mend(b)).collect();
        out.traces.push(house.trace(control, section, steps, status, mends, ""));
        for b in found.drain(..) {
            out.add(b, &section.places);
        }
    }
}

fn tie(house: &House, section: &Section, number: usize, control: Control, segment: &Segment, lap: &Lap) -> Vec<Break> {
    let mut out = Vec::new();
    let base = |fault: Fault, origin: Span, mend: String, owner: Owner| Break {
        controls: vec![control],
        fault,
        whereabouts: "at the pier".to_owned(),
        elevation: section.levels.ground,
        origin,
        label: measure(&fault, house.asked),
        related: vec![(segment.origin, format!("`{}` is the wrap", segment.name))],
        mend,
        owner,
        beyond_reach_in_old_work: false,
        section: Some(number),
    };
    let owner = house.owner(section, segment.face);
    let up = segment.range.high - section.levels.ground;
    let turn_up = Fault::measured(up, Need::PierTurnUp, house.asked);
    if let Some((found, need)) = turn_up.short {
        let missing = house.asked.length(need) - found;
        out.push(base(
            turn_up,
            segment.origin,
            format!("carry `{}` up by {} more", segment.name, Inches(missing)),
            owner,
        ));
    }
    if segment.body == Body::Sheet && !section.edge_is_closed(segment, EdgeName::TopEdge) {
        let open = Fault::NONE.with_open(true);
        out.push(base(open, segment.origin, format!("tape the top edge of `{}` to the pier", segment.name), owner));
    }
    let need = if segment.body == Body::Sheet { Need::VaporLap } else { Need::VaporContact };
    let tail = section.tail(segment);
    let found = tail.filter(|_| segment.body == Body::Sheet).map_or(lap.by, |t| lap.by.min(t));
    let lapped = Fault::measured(found, need, house.asked).with_open(!lap.closed);
    if !lapped.is_met() {
        let mut mend = lapped.short.map_or(String::new(), |(found, need)| {
            let missing = house.asked.length(need) - found;
            if found < lap.by {
                format!("lengthen the tail of `{}` by {}", segment.name, Inches(missing))
            } else {
                format!("lap `{}` {} more", lap.ground, Inches(missing))
            }
        });
        if lapped.open {
            let tape = format!("tape `{}` to `{}` in `{}`", lap.ground, lap.other, lap.joint.name);
            mend = if mend.is_empty() { tape } else { format!("{mend}, and {tape}") };
        }
        out.push(base(lapped, lap.work.origin, mend, Owner::Part(lap.joint.name)));
    }
    out
}

fn untied(
    house: &House,
    section: &Section,
    number: usize,
    control: Control,
    wrap: Option<&Segment>,
    liner: (Symbol, Span),
) -> Break {
    let (origin, label, mend) = match wrap {
        Some(wrap) => (
            wrap.origin,
            format!("no joint laps `{}` over it", liner.0),
            format!(
                "add a joint with `lap {} over {} by {}` and tape it",
                liner.0,
                wrap.name,
                Inches(house.asked.length(Need::VaporLap))
            ),
        ),
        None => (
            section.faces.first().map_or(section.assembly.origin, |h| h.face.origin),
            "nothing on the pier to tie the liner to".to_owned(),
            "hang a wrap with a tail, and a joint that laps the liner over it".to_owned(),
        ),
    };
    Break {
        controls: vec![control],
        fault: Fault::NONE.with_open(true),
        whereabouts: "at the pier".to_owned(),
        elevation: section.levels.ground,
        origin,
        label,
        related: vec![(liner.1, format!("`{}` carries the line on the ground", liner.0))],
        mend,
        owner: house.owner(section, wrap.and_then(|w| w.face).or(Some(0))),
        beyond_reach_in_old_work: false,
        section: Some(number),
    }
}
