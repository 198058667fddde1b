//! Links of the vapor and air line of a wall: what joins what, and what is wrong with each.

use wythe_model::{Control, EdgeName, Length, SurfaceKind};

use super::fault::Fault;
use super::graph::Link;
use super::house::House;
use super::joints::{Lap, laps};
use super::section::{Body, Section, Segment};
use crate::Requirements;
use crate::levels::{Range, hair};
use crate::requirement::Need;

/// What a link joins; segments by number.
#[derive(Clone, Copy)]
pub(crate) enum Joint<'a> {
    /// The top of the masonry and a segment.
    Top(usize),
    /// Two segments, the earlier first.
    Between(usize, usize),
    /// A segment and the ground, by a lap of a joint.
    Foot(usize, Lap<'a>),
    /// A segment and the ground, with nothing that laps them.
    Unlapped(usize),
    /// A segment that reaches a ground with no layer to meet.
    Bare(usize),
}

/// A link with what is wrong with it.
pub(crate) type Way<'a> = Link<(Joint<'a>, Fault)>;

/// Every link of a section that is met or may be mended, from top (node `n`) to ground (node `n + 1`).
pub(crate) fn links<'a>(house: &'a House, section: &Section, control: Control, segments: &[Segment]) -> Vec<Way<'a>> {
    let asked = house.asked;
    let reach = asked.length(Need::MendReach);
    let (start, end) = (segments.len(), segments.len() + 1);
    let mut links: Vec<Way<'a>> = Vec::new();
    let mut add =
        |a, b, joint, fault: Fault| links.push(Link { a, b, weight: fault.weight(asked), what: (joint, fault) });
    for (i, segment) in segments.iter().enumerate() {
        if section.levels.top - segment.range.high <= reach {
            add(start, i, Joint::Top(i), at_top(section, control, segment));
        }
        for (j, other) in segments.iter().enumerate().skip(i + 1) {
            if segment.range.shared(other.range) >= -reach {
                add(i, j, Joint::Between(i, j), between(section, control, segment, other, asked));
            }
        }
    }
    let mut lapped = vec![false; segments.len()];
    let carries = move |name| house.ground_carries(name, control);
    for lap in laps(house.foundation, SurfaceKind::Wall, "inside", carries) {
        for (i, segment) in segments.iter().enumerate().filter(|(_, s)| s.name == lap.other) {
            lapped[i] = true;
            let found = lap_found(section, segment, &lap);
            let fault = Fault::measured(found, foot_need(segment), asked).with_open(!lap.closed);
            add(i, end, Joint::Foot(i, lap), fault);
        }
    }
    let has_ground = house.ground_layer(control).is_some();
    let above = |s: &Segment| s.range.low - section.levels.ground;
    let reaches = |s: &Segment| above(s) <= reach && s.range.high > section.levels.ground;
    let better = segments.iter().any(|s| s.body != Body::Board && reaches(s));
    for (i, segment) in segments.iter().enumerate().filter(|(i, s)| !lapped[*i] && reaches(s)) {
        if segment.body == Body::Board && better {
            continue;
        }
        if has_ground {
            let short = Some((-above(segment).max(Length::default()), foot_need(segment)));
            add(i, end, Joint::Unlapped(i), Fault { short, open: true });
        } else if above(segment) <= hair() {
            add(i, end, Joint::Bare(i), Fault::NONE);
        }
    }
    links
}

fn at_top(section: &Section, control: Control, segment: &Segment) -> Fault {
    let gap = section.levels.top - segment.range.high;
    let open =
        control == Control::Air && segment.body != Body::Film && !section.edge_is_closed(segment, EdgeName::TopEdge);
    Fault { short: (gap > hair()).then_some((-gap, Need::WaterLap)), open }
}

/// Two layers of one wall, the earlier first.
fn between(section: &Section, control: Control, a: &Segment, b: &Segment, asked: &Requirements) -> Fault {
    let shared = a.range.shared(b.range);
    let apart = |need| Fault { short: (shared < -hair()).then_some((shared, need)), open: false };
    match (a.body, b.body) {
        (Body::Film, Body::Film) => apart(Need::WaterLap),
        (Body::Film, Body::Sheet) | (Body::Sheet, Body::Film) => {
            let (film, sheet) = if a.body == Body::Film { (a, b) } else { (b, a) };
            let closed = closed_on(section, sheet, film.range);
            if control == Control::Air {
                apart(Need::VaporContact).with_open(!closed)
            } else {
                let held = closed || section.is_pressed(sheet);
                Fault::measured(shared, Need::VaporContact, asked).with_open(!held)
            }
        }
        (Body::Sheet, Body::Sheet) => {
            let closed = closed_on(section, a, b.range) || closed_on(section, b, a.range);
            Fault::measured(shared, Need::VaporLap, asked).with_open(!closed)
        }
        (Body::Board, Body::Board) => {
            let taped = |s| section.edge_is_closed(s, EdgeName::Joints);
            apart(Need::HeatJoint).with_open(a.face != b.face || !(taped(a) || taped(b)))
        }
        (Body::Board, _) => apart(Need::VaporContact).with_open(!lands_on(section, a, b)),
        (_, Body::Board) => apart(Need::VaporContact).with_open(!lands_on(section, b, a)),
    }
}

/// Whether an edge of a layer that lies on another is taped or sealed.
pub(crate) fn closed_on(section: &Section, layer: &Segment, other: Range) -> bool {
    let near = hair() * 16.0;
    let on = |at: Length| other.low - near <= at && at <= other.high + near;
    (on(layer.range.high) && section.edge_is_closed(layer, EdgeName::TopEdge))
        || (on(layer.range.low) && section.edge_is_closed(layer, EdgeName::BottomEdge))
        || section.edge_is_closed(layer, EdgeName::Laps)
}

/// Whether tape or a bead on an edge of a board lands on another layer: the edge ends upon it, or the line says so.
fn lands_on(section: &Section, board: &Segment, other: &Segment) -> bool {
    let inside = |at: Length| other.range.low + hair() * 8.0 <= at && at <= other.range.high - hair() * 8.0;
    let named = board.face.is_some_and(|f| {
        let history = &section.faces[f];
        let edges = [EdgeName::TopEdge, EdgeName::BottomEdge];
        let mut works = edges.into_iter().flat_map(|e| history.treatments(board.life, e));
        works.any(|w| history.works()[w].place.is_some_and(|p| p.to == Some(other.name)))
    });
    named
        || (inside(board.range.high) && section.edge_is_closed(board, EdgeName::TopEdge))
        || (inside(board.range.low) && section.edge_is_closed(board, EdgeName::BottomEdge))
}

/// The lap a segment needs with the liner of the ground.
pub(crate) const fn foot_need(segment: &Segment) -> Need {
    match segment.body {
        Body::Sheet => Need::VaporLap,
        Body::Film | Body::Board => Need::VaporContact,
    }
}

/// A lap at the foot: as written, but never more than the tail that lies out for it, less what ends above the ground.
pub(crate) fn lap_found(section: &Section, segment: &Segment, lap: &Lap) -> Length {
    let above = (segment.range.low - section.levels.ground).max(Length::default());
    section.tail(segment).map_or(lap.by, |tail| lap.by.min(tail)) - above
}
