//! The detail of a pier: coated head, skirt with its tails, and the ground liner tied to it all round.

use uom::si::length::{foot, inch};
use wythe_model::geometry::Footprint;
use wythe_model::{Foundation, Length, Levels};
use wythe_units::UnitSystem;

use super::dimension::{Chain, chain};
use super::finish::{Surround, finish};
use super::hatch::{Hatch, fill};
use super::leader::{Reach, Side};
use super::scene::{Drawing, Fill, Form, Frame, Group, Ink, Role, Weight, bounds, pen};
use super::section::cut::{Manner, Subject, cut};
use super::section::names::{CORRIDOR, Columns, Part, names};
use super::section::view::View;
use super::section::{CAUTION, features, nothing};
use super::words;

/// How a pier is drawn.
#[derive(Clone, Copy, Debug, Default)]
pub struct PierOptions {
    /// The system of units.
    pub system: UnitSystem,
}

/// How wide a name beside a pier may be.
const NAME_ROOM: f64 = 56.0;

/// The detail of a pier, by number. A pier that is not there gives a sheet that says so.
pub fn pier_detail(f: &Foundation, pier: usize, options: &PierOptions) -> Drawing {
    let system = options.system;
    let Some(p) = f.piers.get(pier) else {
        return nothing(f, "pier", "Pier", "There is no such pier.", system);
    };
    let levels = Levels { top: p.top, sill: p.top, grade: p.ground, ground: p.ground, footing: p.ground };
    let footprint = Footprint::from(p);
    let pad = f.pads.iter().find(|pad| Footprint::from(*pad).overlaps(&footprint));
    let assembly = p.assembly.and_then(|id| f.assemblies.get(id.0 as usize)).map(AsRef::as_ref);
    let subject = Subject {
        f,
        assembly,
        levels,
        thickness: p.width,
        openings: Vec::new(),
        opening_names: Vec::new(),
        element: p.name.as_str().to_owned(),
        origin: p.origin,
        is_pier: true,
        pad: pad.map(|pad| pad.thickness),
    };
    let view = View::fitting(system, (10, 20), (levels.top, levels.ground), &features(&subject), 110.0);
    let view = View { zero: levels.top, ..view };
    let apron = view.mm(Length::new::<foot>(2.0));
    let wide = view.mm(subject.thickness).max(3.0);
    let probe = cut(&subject, Manner { view, until: None, fresh: None, yards: (apron, apron), low: 0.0 });
    let right = wide + (probe.tail + 13.0).max(probe.right + 12.0);
    let yards = (apron.max(probe.tail + 12.0), right - wide + CORRIDOR + NAME_ROOM);
    let mut drawn = cut(&subject, Manner { view, until: None, fresh: None, yards, low: 0.0 });
    let marks = std::mem::take(&mut drawn.body.marks);

    let heights = vec![view.y(levels.top), view.y(levels.ground)];
    let texts = vec![words::length(levels.top - levels.ground, system)];
    let dims = Chain { x: -drawn.left - 4.0, side: Side::Left, heights, texts, from_x: -drawn.left };
    let (dims, taken) = chain("height", &dims);
    let columns =
        Columns { left: -(drawn.left + 22.0), right, soil: drawn.soil, reserved: (taken, Vec::new()), room: NAME_ROOM };
    // The marks of a top coat are on the left of a wall; a pier has all its names on one side.
    let mut marks = marks;
    marks.iter_mut().for_each(|m| m.side = Side::Right);
    let mut parts = vec![Part {
        head: words::capital(
            &assembly.and_then(|a| a.structure.as_ref()).map_or("pier".to_owned(), |s| words::name(s.name)),
        ),
        details: vec![format!(
            "{} x {}, {} high",
            words::span(p.width, system),
            words::span(p.depth, system),
            words::length(levels.top - levels.ground, system)
        )],
        reach: Reach::Level { x: wide * 0.6, upper: 4.0, lower: (view.y(levels.ground) * 0.4).max(4.0) },
        side: Side::Right,
        id: "structure",
        origin: Some(p.origin),
        badge: None,
    }];
    if let Some((_, y)) = drawn.footing {
        let details = match pad {
            Some(pad) => vec![format!(
                "{} x {}, {} deep",
                words::length(pad.width, system),
                words::length(pad.depth, system),
                words::length(pad.thickness, system)
            )],
            None => vec!["size by the structural plans".to_owned()],
        };
        let head = if pad.is_some() { "Pad" } else { "Footing" }.to_owned();
        let reach = Reach::Level { x: wide - 2.0, upper: y - 1.0, lower: y + 4.0 };
        parts.push(Part {
            head,
            details,
            reach,
            side: Side::Right,
            id: "footing",
            origin: pad.map(|p| p.origin),
            badge: None,
        });
    }
    let beam = p.beam.map(|beam| (beam, beam_sign(f, beam, wide, view)));
    if let Some((beam, (_, y))) = &beam {
        parts.push(Part {
            head: format!("Beam {}", words::name(*beam)),
            details: vec!["recorded, not sized here".to_owned()],
            reach: Reach::Level { x: wide * 0.5, upper: y - 2.0, lower: *y },
            side: Side::Right,
            id: "beam",
            origin: None,
            badge: None,
        });
    }
    let leaders = names(f, &levels, system, &columns, &marks, parts);
    let low = bounds(&leaders).map_or(0.0, |b| b.bottom + 2.0);
    let drawn = cut(&subject, Manner { view, until: None, fresh: None, yards, low });
    let mut groups = drawn.body.into_groups();
    groups.extend(beam.map(|(_, (group, _))| group));
    groups.extend(leaders);
    groups.push(dims);

    let name = words::name(p.name);
    let title = format!("Pier {name}");
    let description = format!(
        "{title} cut through its middle: {} high, with {} pieces of work numbered in order.",
        words::length(levels.top - levels.ground, system),
        marks.len()
    );
    let surround = Surround {
        id: format!("pier-{}", p.name.as_str()),
        title,
        subtitle: words::name(f.name),
        description,
        remarks: vec![
            "Work is numbered in order on each face: T top, P pier face, G crawl floor, J where pier and floor meet. It \
             goes on all four sides."
                .to_owned(),
            "Coatings, sheets and tapes are drawn thicker than they are; their own thickness is said beside them. Footing \
             and beam are signs."
                .to_owned(),
            CAUTION.to_owned(),
        ],
        scale: Some(view.scale),
        system,
    };
    finish(surround, groups)
}

/// The beam over a pier, cut across; a sign of nominal size.
fn beam_sign(f: &Foundation, beam: wythe_source::Symbol, wide: f64, view: View) -> (Group, f64) {
    let drop = f.beams.iter().find(|b| b.name == beam).map_or_else(Length::default, |b| b.drop);
    let tall = view.mm(drop).clamp(6.0, 40.0);
    let half = view.mm(Length::new::<inch>(1.5)).max(1.6);
    let mut group = Group::new(Role::Structure, "beam").titled(format!("Beam {}", words::name(beam)));
    if let Some(b) = f.beams.iter().find(|b| b.name == beam) {
        group = group.from(b.origin);
    }
    let base = -1.2;
    let frame = Frame { left: wide / 2.0 - half, top: base - tall, right: wide / 2.0 + half, bottom: base }.corners();
    group.shape(Form::Area(frame.clone()), Fill::Full(Ink::Paper), None);
    fill(&mut group, Hatch::Lumber, &frame);
    group.shape(Form::Area(frame), Fill::None, Some(pen(Ink::Line, Weight::Medium)));
    (group, base - tall * 0.4)
}
