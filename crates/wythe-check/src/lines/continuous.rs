//! The vapor and the air line of a wall: from the top of the masonry down to the liner of the ground.
//!
//! Segments are nodes, joints between them links; a link that is met weighs nothing, one that must be mended
//! weighs its mend. The lightest way is the proof where it weighs nothing, and else the shortest mend.

use wythe_model::{Control, EdgeName, Length, SurfaceKind};
use wythe_source::Span;

use super::fault::{Break, Fault, measure};
use super::graph::{Link, lightest};
use super::house::{House, Out, step};
use super::joints::{Lap, laps};
use super::section::{Body, Section, Segment, is_unsure};
use super::trace::Status;
use crate::Inches;
use crate::levels::{Range, hair, say};
use crate::requirement::Need;
use wythe_model::{Elevation, Level};

/// What a link joins.
#[derive(Clone, Copy)]
enum Joint<'a> {
    /// The top of the masonry and a segment.
    Top(usize),
    /// Two segments, the earlier first.
    Between(usize, usize),
    /// A segment and the ground, by a lap of a joint.
    Foot(usize, Lap<'a>),
    /// A segment and the ground, with no joint to do it.
    NoJoint(usize),
    /// A segment that reaches the ground where the ground itself has nothing to meet.
    Open(usize),
}

type Way<'a> = Link<(Joint<'a>, Fault)>;

/// Proves one line on every wall.
pub(crate) fn prove(house: &House, control: Control, out: &mut Out) {
    for (number, section) in house.sections.iter().enumerate().filter(|(_, s)| s.is_wall()) {
        wall(house, number, section, control, out);
    }
}

fn wall(house: &House, number: usize, section: &Section, control: Control, out: &mut Out) {
    let segments = section.segments(control, &["head", "inside"], house.asked);
    let (start, end) = (segments.len(), segments.len() + 1);
    let links = links(house, section, control, &segments);
    let Some(way) = lightest(segments.len() + 2, &links, start, end) else {
        let missing = missing(house, section, number, control, &segments);
        let mends = vec![house.mend(&missing)];
        out.traces.push(house.trace(control, section, Vec::new(), Status::Broken, mends, ""));
        out.add(missing, &section.places);
        return;
    };
    let (mut steps, mut mends, mut unsure) = (Vec::new(), Vec::new(), None);
    let mut at = start;
    for index in way {
        let link = &links[index];
        at = if link.a == at { link.b } else { link.a };
        let (joint, fault) = &link.what;
        let joined =
            if fault.is_met() { met(house, section, &segments, *joint, control) } else { measure(fault, house.asked) };
        match segments.get(at) {
            Some(segment) => {
                steps.push(step(SurfaceKind::Wall, segment, section, joined));
                if control == Control::Vapor && is_unsure(segment.product, house.asked) {
                    unsure.get_or_insert(*segment);
                }
            }
            None => {
                if let Some((name, origin)) = house.ground_layer(control) {
                    let level = section.levels.ground;
                    let face = wythe_source::Symbol::new("face");
                    steps.push(super::trace::Step {
                        layer: name,
                        element: SurfaceKind::Ground,
                        face,
                        from: level,
                        to: level,
                        origin,
                        joined,
                    });
                }
            }
        }
        if !fault.is_met() {
            let found = broken(house, section, number, control, &segments, *joint, *fault);
            mends.push(house.mend(&found));
            out.add(found, &section.places);
        }
    }
    let status = match (mends.is_empty(), unsure) {
        (false, _) => Status::Broken,
        (true, Some(_)) => Status::Unsure,
        (true, None) => Status::Proven,
    };
    let note = if house.foundation.sill.origin.is_none() {
        "to the top of the masonry; nothing is said of the rim"
    } else {
        ""
    };
    out.traces.push(house.trace(control, section, steps, status, mends, note));
    if let Some(segment) = unsure.filter(|_| status == Status::Unsure) {
        super::told::unsure(house, section, &segment, out);
    }
}

fn links<'a>(house: &'a House, section: &Section, control: Control, segments: &[Segment]) -> Vec<Way<'a>> {
    let asked = house.asked;
    let reach = asked.length(Need::MendReach);
    let (start, end) = (segments.len(), segments.len() + 1);
    let mut links: Vec<Way<'a>> = Vec::new();
    let mut add =
        |a, b, joint, fault: Fault| links.push(Link { a, b, weight: fault.weight(asked), what: (joint, fault) });
    for (i, segment) in segments.iter().enumerate() {
        let gap = section.levels.top - segment.range.high;
        if gap <= reach {
            let fault = Fault { short: (gap > hair()).then_some((-gap, Need::WaterLap)), open: false };
            let open = control == Control::Air
                && segment.body != Body::Film
                && !section.edge_is_closed(segment, EdgeName::TopEdge);
            add(start, i, Joint::Top(i), fault.with_open(open));
        }
        for (j, other) in segments.iter().enumerate().skip(i + 1) {
            if segment.range.shared(other.range) >= -reach {
                add(i, j, Joint::Between(i, j), between(section, control, segment, other, asked));
            }
        }
    }
    let face = "inside";
    let mut met = vec![false; segments.len()];
    for lap in laps(house.foundation, SurfaceKind::Wall, face, move |name| house.ground_carries(name, control)) {
        for (i, segment) in segments.iter().enumerate().filter(|(_, s)| s.name == lap.other) {
            met[i] = true;
            add(i, end, Joint::Foot(i, lap), at_foot(section, segment, &lap, asked));
        }
    }
    let has_ground = house.ground_layer(control).is_some();
    let reaches = |s: &Segment| s.range.low - section.levels.ground <= reach && s.range.high > section.levels.ground;
    let better = segments.iter().any(|s| s.body != Body::Board && reaches(s));
    for (i, segment) in segments.iter().enumerate().filter(|(i, _)| !met[*i]) {
        let above = segment.range.low - section.levels.ground;
        if reaches(segment) && (segment.body != Body::Board || !better) {
            if has_ground {
                let need = foot_need(segment);
                add(
                    i,
                    end,
                    Joint::NoJoint(i),
                    Fault { short: Some((-above.max(Length::default()), need)), open: true },
                );
            } else if above <= hair() {
                add(i, end, Joint::Open(i), Fault::NONE);
            }
        }
    }
    links
}

/// Two layers of one wall, the earlier first.
fn between(section: &Section, control: Control, a: &Segment, b: &Segment, asked: &crate::Requirements) -> Fault {
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
                Fault::measured(shared, Need::VaporContact, asked).with_open(!closed && !section.is_pressed(sheet))
            }
        }
        (Body::Sheet, Body::Sheet) => {
            let closed = closed_on(section, a, b.range) || closed_on(section, b, a.range);
            Fault::measured(shared, Need::VaporLap, asked).with_open(!closed)
        }
        (Body::Board, Body::Board) => {
            let joints = a.face == b.face
                && (section.edge_is_closed(a, EdgeName::Joints) || section.edge_is_closed(b, EdgeName::Joints));
            apart(Need::HeatJoint).with_open(!joints)
        }
        (Body::Board, _) => apart(Need::VaporContact).with_open(!lands_on(section, a, b)),
        (_, Body::Board) => apart(Need::VaporContact).with_open(!lands_on(section, b, a)),
    }
}

/// Whether an edge of a layer that lies on another is taped or sealed.
fn closed_on(section: &Section, layer: &Segment, other: Range) -> bool {
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
        edges
            .into_iter()
            .flat_map(|e| history.treatments(board.life, e))
            .any(|w| history.works()[w].place.is_some_and(|p| p.to == Some(other.name)))
    });
    named
        || (inside(board.range.high) && section.edge_is_closed(board, EdgeName::TopEdge))
        || (inside(board.range.low) && section.edge_is_closed(board, EdgeName::BottomEdge))
}

const fn foot_need(segment: &Segment) -> Need {
    match segment.body {
        Body::Sheet => Need::VaporLap,
        Body::Film | Body::Board => Need::VaporContact,
    }
}

/// A lap at the foot: as written, but never more than the tail that lies out for it.
fn at_foot(section: &Section, segment: &Segment, lap: &Lap, asked: &crate::Requirements) -> Fault {
    let found = lap_found(section, segment, lap);
    Fault::measured(found, foot_need(segment), asked).with_open(!lap.closed)
}

fn lap_found(section: &Section, segment: &Segment, lap: &Lap) -> Length {
    let tail = segment.face.and_then(|f| {
        let history = &section.faces[f];
        history.works()[history.lives[segment.life].work].by
    });
    let above = (segment.range.low - section.levels.ground).max(Length::default());
    tail.map_or(lap.by, |tail| lap.by.min(tail)) - above
}

/// How a link is met, in words.
fn met(house: &House, section: &Section, segments: &[Segment], joint: Joint, control: Control) -> String {
    match joint {
        Joint::Top(_) => "reaches the top of the masonry".to_owned(),
        Joint::Between(i, j) => {
            let shared = segments[i].range.shared(segments[j].range).max(Length::default());
            let closed = closed_on(section, &segments[j], segments[i].range)
                || closed_on(section, &segments[i], segments[j].range);
            let how = match (closed, control) {
                (true, _) => ", taped or sealed",
                (false, Control::Vapor) if segments[j].body == Body::Sheet || segments[i].body == Body::Sheet => {
                    ", pressed"
                }
                _ => "",
            };
            format!("contact {}{how}", Inches(shared))
        }
        Joint::Foot(i, lap) => format!(
            "lap {} ({} due), taped or sealed",
            Inches(lap_found(section, &segments[i], &lap)),
            Inches(house.asked.length(foot_need(&segments[i])))
        ),
        Joint::NoJoint(_) | Joint::Open(_) => "reaches the ground".to_owned(),
    }
}

/// A link that must be mended, as a break.
fn broken(
    house: &House,
    section: &Section,
    number: usize,
    control: Control,
    segments: &[Segment],
    joint: Joint,
    fault: Fault,
) -> Break {
    let due = |need| Inches(house.asked.length(need));
    let missing = fault.short.map(|(found, need)| house.asked.length(need) - found);
    let (whereabouts, elevation, origin, mend, related, owner): (String, Length, Span, String, Vec<(Span, String)>, _) =
        match joint {
            Joint::Top(i) => {
                let s = &segments[i];
                let mend = if fault.short.is_some() {
                    format!("carry `{}` up to the top of the masonry", s.name)
                } else {
                    format!("tape or seal the top edge of `{}`", s.name)
                };
                (
                    "at the top of the wall".to_owned(),
                    s.range.high,
                    s.origin,
                    mend,
                    Vec::new(),
                    house.owner(section, s.face),
                )
            }
            Joint::Between(i, j) => {
                let (a, b) = (&segments[i], &segments[j]);
                let gap = fault.short.filter(|(found, _)| *found < -hair()).map(|(found, _)| -found);
                let mut mend = match (missing, gap) {
                    (_, Some(gap)) if a.body == Body::Film && b.body == Body::Film => {
                        format!("coat the {} between `{}` and `{}`", Inches(gap), a.name, b.name)
                    }
                    (Some(missing), _) => {
                        format!("make `{}` and `{}` overlap by {} more", a.name, b.name, Inches(missing))
                    }
                    (None, _) => String::new(),
                };
                if fault.open {
                    let edge = if b.range.high <= a.range.high { "top" } else { "bottom" };
                    let tape = format!("tape or seal the {edge} edge of `{}` to `{}`", b.name, a.name);
                    mend = if mend.is_empty() { tape } else { format!("{mend}, and {tape}") };
                }
                let at = b.range.high.min(a.range.high);
                let related = vec![(
                    a.origin,
                    format!(
                        "`{}` ends at {}",
                        a.name,
                        level(section, if a.range.high > b.range.high { a.range.low } else { a.range.high })
                    ),
                )];
                (
                    format!("between `{}` and `{}`", a.name, b.name),
                    at,
                    b.origin,
                    mend,
                    related,
                    house.owner(section, b.face),
                )
            }
            Joint::Foot(i, lap) => {
                let s = &segments[i];
                let need = foot_need(s);
                let tail_short = fault.short.is_some() && lap.by + hair() >= house.asked.length(need);
                let mut mend = match missing {
                    Some(missing) if tail_short => format!("lengthen the tail of `{}` by {}", s.name, Inches(missing)),
                    Some(missing) => {
                        format!("lap `{}` over by {}: extend it {}", lap.ground, due(need), Inches(missing))
                    }
                    None => String::new(),
                };
                if fault.open {
                    let tape = format!("tape the lap of `{}` and `{}` in `{}`", lap.ground, lap.other, lap.joint.name);
                    mend = if mend.is_empty() { tape } else { format!("{mend}, and {tape}") };
                }
                let related = vec![(s.origin, format!("`{}` comes down here", s.name))];
                (
                    "at the wall foot".to_owned(),
                    section.levels.ground,
                    lap.work.origin,
                    mend,
                    related,
                    super::fault::Owner::Joint(lap.joint.name),
                )
            }
            Joint::NoJoint(i) | Joint::Open(i) => {
                let s = &segments[i];
                let ground = house.ground_layer(control);
                let name = ground.map_or("the ground liner", |(name, _)| name.as_str());
                let need = foot_need(s);
                let mend = format!("add a joint with `lap {name} over {} by {}` and tape it", s.name, due(need));
                let related = ground
                    .map(|(_, at)| (at, format!("`{name}` carries the line on the ground")))
                    .into_iter()
                    .collect();
                (
                    "at the wall foot".to_owned(),
                    section.levels.ground,
                    s.origin,
                    mend,
                    related,
                    house.owner(section, s.face),
                )
            }
        };
    let label = if matches!(joint, Joint::NoJoint(_)) {
        "no joint laps it with the ground".to_owned()
    } else {
        measure(&fault, house.asked)
    };
    Break {
        controls: vec![control],
        fault,
        whereabouts,
        elevation,
        origin,
        label,
        related,
        mend,
        owner,
        section: Some(number),
    }
}

/// Nothing reaches from top to ground, however mended: the widest strip that no layer covers.
fn missing(house: &House, section: &Section, number: usize, control: Control, segments: &[Segment]) -> Break {
    let (top, foot) = (section.levels.top, section.levels.ground);
    let ranges: Vec<Range> = segments.iter().map(|s| s.range).collect();
    let strip = super::strips::uncovered(Range { low: foot, high: top }, &ranges)
        .into_iter()
        .max_by(|a, b| a.height().value.total_cmp(&b.height().value))
        .unwrap_or(Range { low: foot, high: foot });
    let inside = section.face("inside");
    let origin = inside.map_or(section.assembly.origin, |(_, h)| h.face.origin);
    let short = Fault { short: Some((-strip.height(), Need::WaterLap)), open: false };
    Break {
        controls: vec![control],
        fault: short,
        whereabouts: format!("from {} to {}", level(section, strip.high), level(section, strip.low)),
        elevation: strip.high,
        origin,
        label: format!("no layer here carries the {} line", control.name()),
        related: Vec::new(),
        mend: "coat this strip or hang a liner over it, with a product that controls it".to_owned(),
        owner: house.owner(section, inside.map(|(i, _)| i)),
        section: Some(number),
    }
}

/// An elevation of a section in words: a level where it is one, else told from the top.
pub(crate) fn level(section: &Section, at: Length) -> String {
    let near = |level: Level| {
        (section.levels.height_of(Elevation { from: level, offset: Length::default() }) - at).abs() < hair()
    };
    match [Level::Top, Level::Ground, Level::Grade, Level::Footing].into_iter().find(|l| near(*l)) {
        Some(level) => level.word().to_owned(),
        None => say(Elevation { from: Level::Top, offset: at - section.levels.top }),
    }
}
