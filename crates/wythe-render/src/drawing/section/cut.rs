//! A cut through a wall or a pier: soil, footing, structure and the work on every face, up to a phase.

use uom::si::length::inch;
use wythe_model::{Act, Assembly, Class, EdgeName, Foundation, Length, Levels, SurfaceKind};
use wythe_source::{Span, Symbol};

use super::super::hatch;
use super::super::leader::{Reach, Side};
use super::super::scene::{Dash, Fill, Form, Frame, Group, Ink, Pen, Role, Weight, pen, spot};
use super::body::{self, Body, Mark, Track, work_group};
use super::event::{Event, Owner, events};
use super::floor::Floor;
use super::upright::{FILM, Upright, less};
use super::view::View;

/// What is cut.
pub(crate) struct Subject<'a> {
    pub f: &'a Foundation,
    pub assembly: Option<&'a Assembly>,
    pub levels: Levels,
    pub thickness: Length,
    /// Elevations of an opening in the cut: lower, upper.
    pub openings: Vec<(Length, Length)>,
    /// The names of those openings, and where they stand.
    pub opening_names: Vec<(Symbol, Span)>,
    /// The name in ids.
    pub element: String,
    pub origin: Span,
    /// A pier has the crawl floor on both sides.
    pub is_pier: bool,
    /// Thickness of an added footing below a pier.
    pub pad: Option<Length>,
}

/// How it is cut.
#[derive(Clone, Copy)]
pub(crate) struct Manner {
    pub view: View,
    /// Nothing after this phase.
    pub until: Option<usize>,
    /// What this phase adds stands out.
    pub fresh: Option<usize>,
    /// How far soil is drawn on the left and on the right, on paper.
    pub yards: (f64, f64),
    /// Soil is drawn at least down to this height on paper.
    pub low: f64,
}

/// What came of it.
pub(crate) struct Cut<'a> {
    pub body: Body<'a>,
    /// The outer or left face of the structure; the other is at `wide`.
    pub wide: f64,
    /// How far layers reach on the left.
    pub left: f64,
    /// How far layers reach on the right.
    pub right: f64,
    /// How far the longest tail reaches from the right face.
    pub tail: f64,
    /// The surface of the soil on the left and on the right.
    pub soil: (f64, f64),
    /// Whether there is a structure yet.
    pub stands: bool,
    /// The middle of the footing, where it is drawn.
    pub footing: Option<(f64, f64)>,
}

/// Whether what a phase brings is there; what no phase brings always is.
fn has(f: &Foundation, word: &str, until: Option<usize>) -> bool {
    let brings = f.phases.iter().position(|p| p.brings.contains(&Symbol::new(word)));
    until.zip(brings).is_none_or(|(until, at)| at <= until)
}

/// Whether earth lies against the outside.
fn backfilled(f: &Foundation, until: Option<usize>) -> bool {
    let covers = f.phases.iter().position(|p| p.covers.contains(&Symbol::new("outside_below_grade")));
    until.zip(covers).is_none_or(|(until, at)| at <= until)
}

/// Whether this very phase brings something.
pub(crate) fn brings(f: &Foundation, word: &str, phase: Option<usize>) -> bool {
    phase.and_then(|at| f.phases.get(at)).is_some_and(|p| p.brings.contains(&Symbol::new(word)))
}

/// Draws a cut. The left or outer face of the structure is at x = 0, the top of the structure at y = 0.
pub(crate) fn cut<'a>(subject: &Subject<'a>, manner: Manner) -> Cut<'a> {
    let Manner { view, until, fresh, yards, low } = manner;
    let Subject { f, levels, .. } = subject;
    let wide = view.mm(subject.thickness).max(3.0);
    let all = events(f, subject.assembly, until);
    let stands = has(f, if subject.is_pier { "columns" } else { "stem" }, until);
    let footed = has(f, "footings", until);

    let sheets = films_under_board(&all);
    let floor_y = view.y(levels.ground) + sheets;
    let left_y = if subject.is_pier { floor_y } else { view.y(levels.grade) };
    let foot_y = if subject.is_pier { view.y(levels.ground) } else { view.y(levels.footing) };
    let deep = footing_depth(subject, view);
    let bottom = ((foot_y + deep).max(left_y).max(floor_y) + 5.0).max(low);
    let filled = backfilled(f, until) || subject.is_pier;

    let mut body = Body::default();
    let soil_left = if filled { left_y } else { foot_y + deep };
    let trench = view.mm(Length::new::<inch>(14.0)) + 2.0;
    soil(&mut body, subject, (-yards.0, 0.0), (left_y, soil_left), trench, bottom);
    soil(&mut body, subject, (wide, wide + yards.1), (floor_y, if stands { floor_y } else { foot_y }), 0.0, bottom);
    under(&mut body, subject, (0.0, wide), if stands { foot_y } else { floor_y.max(foot_y) }, bottom);
    let footing = footed
        .then(|| draw_footing(&mut body, subject, wide, (foot_y, foot_y + deep), view, brings(f, "footings", fresh)));
    let new_wall = brings(f, if subject.is_pier { "columns" } else { "stem" }, fresh);
    let holes: Vec<(f64, f64)> = subject.openings.iter().map(|(low, high)| (view.y(*high), view.y(*low))).collect();
    if stands {
        structure(&mut body, subject, wide, (0.0, foot_y), &holes, new_wall);
    }

    let element = subject.element.as_str();
    let laps: Vec<(Symbol, Symbol, Length)> = all.iter().filter_map(lap).collect();
    let mut right = Upright::new(view, *levels, wide, 1.0, &subject.openings, element);
    let mut left = Upright::new(view, *levels, 0.0, -1.0, &subject.openings, element);
    let mut floor = Floor::new(view, wide, 1.0, floor_y, yards.1, element, true);
    let mut far = subject.is_pier.then(|| Floor::new(view, 0.0, -1.0, floor_y, yards.0, element, false));
    let mut head = 0.0;
    for event in &all {
        let is_fresh = fresh == Some(event.phase);
        let over_head = event.work.extent.is_none()
            && event.work.act == Act::Coat
            && event.work.place.is_some_and(|p| p.edge == EdgeName::Head);
        if over_head {
            if stands {
                cap(&mut body, *event, wide, &mut head, is_fresh, element);
            }
            continue;
        }
        match event.owner {
            Owner::Face(SurfaceKind::Ground, _) | Owner::Joint(_) => {
                let foot = right.thickness_above(view.y(levels.ground));
                ground_work(&mut body, &mut floor, *event, &laps, foot, is_fresh);
                if let Some(far) = &mut far {
                    let foot = left.thickness_above(view.y(levels.ground));
                    ground_work(&mut body, far, *event, &laps, foot, is_fresh);
                }
            }
            Owner::Face(_, face) if stands => {
                let outside = face.name.as_str() == "outside";
                let tail = event.work.by.filter(|_| event.work.act == Act::Hang);
                if !outside {
                    right.draw(&mut body, *event, is_fresh);
                    if let Some(by) = tail {
                        let foot = right.foot_of(event.work);
                        floor.tail(&mut body, *event, foot, by, is_fresh);
                    }
                }
                if outside || subject.is_pier {
                    let marks = body.marks.len();
                    left.draw(&mut body, *event, is_fresh);
                    if let (Some(by), Some(far)) = (tail, &mut far) {
                        let foot = left.foot_of(event.work);
                        far.tail(&mut body, *event, foot, by, is_fresh);
                    }
                    if subject.is_pier {
                        body.marks.truncate(marks);
                    }
                }
            }
            Owner::Face(..) => {}
        }
    }
    if stands && view.left_out.is_some() {
        body.over.push(break_lines(view, -left.thickness() - 1.0, wide + right.thickness() + 1.0));
    }
    Cut {
        wide,
        left: left.thickness(),
        right: right.thickness(),
        tail: floor.tail_end(),
        soil: (left_y, floor_y),
        stands,
        footing,
        body,
    }
}

/// The thickness on paper of the sheets that lie under the foot of what stands on the floor.
fn films_under_board(events: &[Event<'_>]) -> f64 {
    let is_tail = |e: &Event<'_>| e.work.act == Act::Hang && e.work.by.is_some();
    let Some(last) = events.iter().rposition(is_tail) else { return 0.0 };
    let lies = |e: &&Event<'_>| {
        is_tail(e) || (e.work.act == Act::Lay && matches!(e.owner, Owner::Face(SurfaceKind::Ground, _)))
    };
    events[..=last].iter().filter(lies).count() as f64 * FILM
}

fn lap(event: &Event<'_>) -> Option<(Symbol, Symbol, Length)> {
    let place = event.work.place.filter(|_| event.work.act == Act::Lap)?;
    match place.edge {
        EdgeName::Layer(tail) => Some((event.work.layer, tail, event.work.by.unwrap_or_default())),
        _ => None,
    }
}

fn ground_work<'a>(
    body: &mut Body<'a>,
    floor: &mut Floor,
    event: Event<'a>,
    laps: &[(Symbol, Symbol, Length)],
    foot: f64,
    fresh: bool,
) {
    match event.work.act {
        Act::Lay | Act::Set | Act::Coat | Act::Hang => floor.lay(body, event, laps, foot, fresh),
        Act::Fill => floor.fill(body, event, fresh),
        Act::Lap | Act::Tape | Act::Seal | Act::Cap => floor.join(body, event, fresh),
        Act::Fasten | Act::Drain | Act::Remove => {}
    }
}

fn cap<'a>(body: &mut Body<'a>, event: Event<'a>, wide: f64, head: &mut f64, fresh: bool, element: &str) {
    let mut group = work_group(&event, element);
    let frame = Frame { left: 0.0, top: -*head - FILM, right: wide, bottom: -*head };
    body::layer(&mut group, frame.corners(), event.work.product.as_deref(), fresh);
    body.groups.push(group);
    let y = -*head - FILM / 2.0;
    *head += FILM;
    let (face, layer) = (Symbol::new(event.face_name()), event.work.layer);
    body.tracks.push(Track { element: event.kind(), face, layer, spots: vec![spot(0.0, y), spot(wide, y)] });
    let reach = Reach::Level { x: wide * 0.25, upper: y, lower: y };
    body.marks.push(Mark { event, reach, order: y, side: Side::Left });
}

/// Soil under a surface, with the marks along it; before backfill the trench stands open to `low`, as wide as told.
fn soil(
    body: &mut Body<'_>,
    s: &Subject<'_>,
    (from, to): (f64, f64),
    (surface, low): (f64, f64),
    trench: f64,
    bottom: f64,
) {
    let side = if to <= 0.0 { "outside" } else { "inside" };
    let mut group = Group::new(Role::Ground, format!("{}-soil-{side}", s.element));
    let line = if low > surface + 1.0 && to <= 0.0 {
        // An open trench: level to its brink, then down to the foot of the footing. Its slope is a symbol.
        let toe = -trench.min((to - from) * 0.75);
        let brink = (toe - (low - surface) * 0.3).max(from + 1.0);
        vec![spot(from, surface), spot(brink, surface), spot(toe, low), spot(to, low)]
    } else if low > surface + 1.0 {
        vec![spot(from, low), spot(from, surface), spot(to, surface)]
    } else {
        vec![spot(from, surface), spot(to, surface)]
    };
    let mut area = line.clone();
    area.extend([spot(to, bottom), spot(from, bottom)]);
    group.shape(Form::Area(area), Fill::Wash(Ink::Earth), None);
    for pair in line.windows(2).filter(|w| w[1].x - w[0].x > 0.5) {
        hatch::soil(&mut group, pair[0], pair[1]);
    }
    group.line(line, pen(Ink::Line, Weight::Bold));
    body.groups.push(group);
}

/// Soil right under the structure.
fn under(body: &mut Body<'_>, s: &Subject<'_>, (from, to): (f64, f64), top: f64, bottom: f64) {
    let mut group = Group::new(Role::Ground, format!("{}-soil-under", s.element));
    let frame = Frame { left: from, top, right: to, bottom };
    group.shape(Form::Area(frame.corners()), Fill::Wash(Ink::Earth), None);
    body.groups.push(group);
}

/// The footing is a sign: 8 in deep or as an added footing says, and 4 in wider on each side than what stands on it.
/// Its size is for the structural plans.
fn footing_depth(subject: &Subject<'_>, view: View) -> f64 {
    view.mm(subject.pad.unwrap_or_else(|| Length::new::<inch>(8.0))).clamp(4.0, 40.0)
}

fn draw_footing(
    body: &mut Body<'_>,
    subject: &Subject<'_>,
    wide: f64,
    (top, bottom): (f64, f64),
    view: View,
    fresh: bool,
) -> (f64, f64) {
    let out = view.mm(Length::new::<inch>(4.0)).max(2.0);
    let frame = Frame { left: -out, top, right: wide + out, bottom };
    let mut group = Group::new(Role::Structure, format!("{}-footing", subject.element))
        .titled("Footing; size by the structural plans");
    group.shape(Form::Area(frame.corners()), Fill::Full(Ink::Paper), None);
    hatch::fill(&mut group, hatch::Hatch::Concrete, &frame.corners());
    let ink = if fresh { Ink::New } else { Ink::Line };
    let pen = Pen { ink, weight: Weight::Medium, dash: Dash::Hidden };
    group.shape(Form::Area(frame.corners()), Fill::None, Some(pen));
    body.groups.push(group);
    (frame.left + 1.2, (frame.top + frame.bottom) / 2.0)
}

fn structure(
    body: &mut Body<'_>,
    subject: &Subject<'_>,
    wide: f64,
    (top, foot): (f64, f64),
    holes: &[(f64, f64)],
    fresh: bool,
) {
    let product = subject.assembly.and_then(|a| a.structure.as_deref());
    let mut group =
        Group::new(Role::Structure, format!("{}-structure", subject.element)).from(subject.origin).titled("Structure");
    let hatch = match product.map(|p| p.class) {
        Some(Class::Concrete) => hatch::Hatch::Concrete,
        Some(Class::Lumber) => hatch::Hatch::Lumber,
        _ => hatch::Hatch::Masonry,
    };
    let line = if fresh { Ink::New } else { Ink::Line };
    for (from, to) in less(top, foot, holes) {
        let frame = Frame { left: 0.0, top: from, right: wide, bottom: to };
        group.shape(Form::Area(frame.corners()), Fill::Full(Ink::Paper), None);
        hatch::fill(&mut group, hatch, &frame.corners());
        group.shape(Form::Area(frame.corners()), Fill::None, Some(pen(line, Weight::Bold)));
    }
    for (upper, lower) in holes {
        let dash = Pen { ink: Ink::Fine, weight: Weight::Thin, dash: Dash::Hidden };
        for x in [0.0, wide] {
            group.line([spot(x, *upper), spot(x, *lower)], dash);
        }
    }
    body.groups.push(group);
    let middle = wide / 2.0;
    body.tracks.push(Track {
        element: if subject.is_pier { SurfaceKind::Pier } else { SurfaceKind::Wall },
        face: Symbol::new("structure"),
        layer: Symbol::new("structure"),
        spots: vec![spot(middle, top), spot(middle, foot)],
    });
}

/// The sign that a stretch is left out: two zigzag lines with nothing between (ISO 128-20, continuous with zigzags).
fn break_lines(view: View, left: f64, right: f64) -> Group {
    let mut group = Group::new(Role::Sheet, "left-out").titled("A stretch of wall where nothing changes is left out");
    let Some(out) = view.left_out else { return group };
    let (upper, lower) = (view.y(out.high), view.y(out.low));
    let frame = Frame { left: left - 0.3, top: upper, right: right + 0.3, bottom: lower };
    group.shape(Form::Area(frame.corners()), Fill::Full(Ink::Paper), None);
    let middle = (left + right) / 2.0;
    for y in [upper, lower] {
        let zigzag = [
            spot(left - 3.0, y),
            spot(middle - 1.4, y),
            spot(middle - 0.7, y - 1.6),
            spot(middle + 0.7, y + 1.6),
            spot(middle + 1.4, y),
            spot(right + 3.0, y),
        ];
        group.line(zigzag, pen(Ink::Line, Weight::Thin));
    }
    group
}

/// The sill plate, treated as a symbol of nominal 2x6, and the floor framing above it for place only.
pub(crate) fn sill(f: &Foundation, cut: &Cut<'_>, view: View, levels: &Levels, floor: bool) -> Group {
    let mut group = Group::new(Role::Structure, "sill").titled("Sill plate");
    if let Some(origin) = f.sill.origin {
        group = group.from(origin);
    }
    let inches = |n: f64| view.mm(Length::new::<inch>(n));
    let base = view.y(levels.sill).min(0.0) - FILM;
    let (left, right) = (0.8, (0.8 + inches(5.5)).min(cut.wide.max(inches(5.5))));
    let top = base - inches(1.5).max(1.6);
    let plate = Frame { left, top, right, bottom: base }.corners();
    group.shape(Form::Area(plate.clone()), Fill::Full(Ink::Paper), None);
    hatch::fill(&mut group, hatch::Hatch::Lumber, &plate);
    group.shape(Form::Area(plate), Fill::None, Some(pen(Ink::Line, Weight::Medium)));
    if floor {
        let dash = Pen { ink: Ink::Fine, weight: Weight::Thin, dash: Dash::Hidden };
        let up = top - 6.0;
        group.line([spot(left, top), spot(left, up)], dash);
        group.line([spot(left + inches(1.5), top), spot(left + inches(1.5), up)], dash);
        group.line([spot(left + inches(1.5), top), spot(right + 12.0, top)], dash);
    }
    group
}
