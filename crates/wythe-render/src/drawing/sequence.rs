//! Strips of small drawings: what is in place after each phase, and each control line by itself.

use wythe_model::{Foundation, Length, SpaceKind};
use wythe_units::UnitSystem;

use super::control::{ControlLine, trace};
use super::finish::{Surround, finish, moved};
use super::scene::{Drawing, Fill, Form, Frame, Group, Ink, Item, Role, Text, Weight, pen, spot};
use super::section::cut::{Cut, Manner, Subject, brings, cut, sill};
use super::section::event::events;
use super::section::view::View;
use super::section::{CAUTION, features, nothing, subject};
use super::text::{LEADING, clean, wrap};
use super::theme::{letter, plain_name};
use super::words;

/// How a strip is drawn.
#[derive(Clone, Copy, Debug, Default)]
pub struct StripOptions {
    /// The system of units.
    pub system: UnitSystem,
    /// The wall to cut, by number.
    pub wall: usize,
    /// How far along it; nothing for its middle.
    pub at: Option<Length>,
}

/// Width of one panel.
const PANEL: f64 = 58.0;
/// Room between panels.
const GUTTER: f64 = 5.0;
/// Panels in a row.
const ROW: usize = 3;
/// Size of what a panel says.
const SAID: f64 = 2.4;

/// One panel: a small drawing with its head and what is said under it.
struct Panel {
    head: String,
    said: Vec<(String, Ink)>,
    drawn: Vec<Group>,
    id: String,
    origin: Option<wythe_source::Span>,
}

/// The wall of a strip, and how it is looked at.
fn setting<'a>(f: &'a Foundation, options: &StripOptions) -> Option<(Subject<'a>, View)> {
    let wall = f.walls.get(options.wall)?;
    let subject = subject(f, options.wall, options.at.unwrap_or(wall.length / 2.0))?;
    let levels = subject.levels;
    let lowest = levels.footing.min(levels.ground);
    let view =
        View::fitting(options.system, (20, 32), (levels.top.max(levels.grade), lowest), &features(&subject), 58.0);
    Some((subject, View { zero: levels.top, ..view }))
}

/// The same height on paper for every panel, whatever is in place.
fn stage<'a>(subject: &Subject<'a>, view: View, until: Option<usize>, fresh: Option<usize>) -> Cut<'a> {
    let wide = view.mm(subject.thickness).max(3.0);
    let side = (PANEL - wide) / 2.0;
    cut(subject, Manner { view, until, fresh, yards: (side, side), low: 0.0 })
}

/// What is in place after each phase, at one place of one wall.
pub fn sequence_strip(f: &Foundation, options: &StripOptions) -> Drawing {
    let Some((subject, view)) = setting(f, options) else {
        return nothing(f, "sequence", "Sequence of work", "There is no wall to show.", options.system);
    };
    if f.phases.is_empty() {
        return nothing(f, "sequence", "Sequence of work", "No phases are declared.", options.system);
    }
    let panels = f.phases.iter().enumerate().map(|(at, phase)| {
        let mut drawn = stage(&subject, view, Some(at), Some(at));
        let mut groups = std::mem::take(&mut drawn.body.groups);
        let floor = f.phases[..=at].iter().enumerate().any(|(i, _)| brings(f, "floor", Some(i)));
        if drawn.stands && (floor || f.phases.iter().all(|p| p.brings.is_empty())) {
            groups.push(sill(f, &drawn, view, &subject.levels, true));
        }
        groups.append(&mut drawn.body.over);
        let name = phase.name.map(words::name).unwrap_or_default();
        Panel {
            head: format!("{} {name}", at + 1),
            said: said(f, &subject, at),
            drawn: groups,
            id: format!("phase-{}", at + 1),
            origin: Some(phase.origin),
        }
    });
    let panels: Vec<Panel> = panels.collect();
    let wall = words::name(f.walls[options.wall].name);
    let space = match f.space {
        SpaceKind::Closed => "closed",
        SpaceKind::Vented => "vented",
    };
    let title = "Sequence of work".to_owned();
    let description = format!("{title}: wall {wall} after each of {} phases of a {space} crawl space.", f.phases.len());
    let surround = Surround {
        id: "sequence".to_owned(),
        title,
        subtitle: format!("{}, wall {wall}. What a phase adds stands out", words::name(f.name)),
        description,
        remarks: vec![
            "A panel shows what is in place when its phase is done. STOP: an inspector must see it before work goes on."
                .to_owned(),
            CAUTION.to_owned(),
        ],
        scale: Some(view.scale),
        system: options.system,
    };
    finish(surround, grid(panels))
}

/// What a phase does, in plain words.
fn said(f: &Foundation, subject: &Subject<'_>, at: usize) -> Vec<(String, Ink)> {
    let phase = &f.phases[at];
    let list =
        |words: &[wythe_source::Symbol]| words.iter().map(|w| self::words::name(*w)).collect::<Vec<_>>().join(", ");
    let mut out: Vec<(String, Ink)> = Vec::new();
    let mut say = |text: String| out.push((text, Ink::Line));
    let pairs = [
        ("Needs", &phase.needs),
        ("Brings", &phase.brings),
        ("Covers", &phase.covers),
        ("Leaves", &phase.leaves),
        ("Opens", &phase.opens),
        ("Ends", &phase.ends),
        ("Wets", &phase.wets),
        ("Dries", &phase.dries),
        ("Closes", &phase.closes),
        ("Starts", &phase.starts),
    ];
    for (word, list_of) in pairs.iter().filter(|(_, l)| !l.is_empty()) {
        say(format!("{word} {}.", list(list_of)));
    }
    let mine = |a: Option<&'_ wythe_model::Assembly>| {
        let works = a.into_iter().flat_map(|a| a.faces.iter().flat_map(|face| &face.works));
        works
            .filter(|w| w.phase.is_some_and(|p| f.phase_index(p.name) == Some(at)))
            .map(words::headline)
            .collect::<Vec<_>>()
    };
    let ground = f.ground.assembly.and_then(|id| f.assemblies.get(id.0 as usize)).map(AsRef::as_ref);
    let mut works = mine(subject.assembly);
    works.extend(mine(ground));
    let joints = events(f, subject.assembly, None);
    let of_joints =
        joints.iter().filter(|e| matches!(e.owner, super::section::event::Owner::Joint(_)) && e.phase == at);
    works.extend(of_joints.map(|e| words::headline(e.work)));
    if !works.is_empty() {
        say(format!("{}.", works.join("; ")));
    }
    if let Some(hold) = &phase.hold {
        out.push((format!("STOP: {}.", clean(hold)), Ink::New));
    }
    if out.is_empty() {
        out.push(("Nothing is added.".to_owned(), Ink::Quiet));
    }
    out
}

/// Each control line by itself over the finished wall.
pub fn control_strip(f: &Foundation, lines: &[ControlLine], options: &StripOptions) -> Drawing {
    let Some((subject, view)) = setting(f, options) else {
        return nothing(f, "lines", "Control lines", "There is no wall to show.", options.system);
    };
    if lines.is_empty() {
        return nothing(f, "lines", "Control lines", "No line is traced.", options.system);
    }
    let panels = lines.iter().map(|line| {
        let mut drawn = stage(&subject, view, None, None);
        let traced = trace(std::slice::from_ref(line), &drawn.body.tracks, view, drawn.wide, drawn.soil.1);
        let mut groups = std::mem::take(&mut drawn.body.groups);
        groups.push(sill(f, &drawn, view, &subject.levels, true));
        groups.append(&mut drawn.body.over);
        groups.extend(traced.groups);
        let said = if line.breaks.is_empty() {
            vec![("No break is told.".to_owned(), Ink::Quiet)]
        } else {
            line.breaks.iter().map(|b| (format!("Broken: {}", clean(&b.text)), Ink::Alarm)).collect()
        };
        Panel {
            head: format!("{} {} line", letter(line.control), plain_name(line.control)),
            said,
            drawn: groups,
            id: format!("line-panel-{}", line.control.name()),
            origin: None,
        }
    });
    let panels: Vec<Panel> = panels.collect();
    let wall = words::name(f.walls[options.wall].name);
    let title = "Control lines".to_owned();
    let broken = lines.iter().filter(|l| !l.breaks.is_empty()).count();
    let description = format!("{title} of wall {wall}: {} lines, {broken} of them broken.", lines.len());
    let surround = Surround {
        id: "lines".to_owned(),
        title,
        subtitle: format!("{}, wall {wall}. A cross marks a break", words::name(f.name)),
        description,
        remarks: vec![CAUTION.to_owned()],
        scale: Some(view.scale),
        system: options.system,
    };
    finish(surround, grid(panels))
}

/// Panels in rows, each row as high as its highest.
fn grid(panels: Vec<Panel>) -> Vec<Group> {
    let mut out = Vec::new();
    let mut y = 0.0;
    let mut panels = panels.into_iter().peekable();
    while panels.peek().is_some() {
        let row: Vec<Panel> = panels.by_ref().take(ROW).collect();
        let reach = row.iter().filter_map(|p| super::scene::bounds(&p.drawn)).reduce(Frame::with);
        let reach = reach.unwrap_or(Frame { left: 0.0, top: 0.0, right: PANEL, bottom: 20.0 });
        let head = 6.0;
        let mut deepest: f64 = 0.0;
        for (i, panel) in row.into_iter().enumerate() {
            let x = i as f64 * (PANEL + GUTTER);
            let mut group = Group::new(Role::Panel, panel.id).titled(panel.head.clone());
            group.origin = panel.origin;
            group.text(Text::new(spot(x, y + 3.2), 3.2, panel.head).bold().within(PANEL));
            for drawn in panel.drawn {
                let item = moved(drawn, x - reach.left, y + head - reach.top);
                group.items.push(item);
            }
            let frame = Frame {
                left: x,
                top: y + head - 1.0,
                right: x + (reach.right - reach.left).max(PANEL),
                bottom: y + head + reach.bottom - reach.top + 1.0,
            };
            group.shape(Form::Area(frame.corners()), Fill::None, Some(pen(Ink::Fine, Weight::Thin)));
            let mut base = frame.bottom + 1.5;
            for (text, ink) in panel.said {
                let bold = ink == Ink::New || ink == Ink::Alarm;
                for line in wrap(&text, SAID, bold, PANEL) {
                    base += SAID * LEADING;
                    let mut t = Text::new(spot(x, base), SAID, line).ink(ink);
                    t.bold = bold;
                    group.items.push(Item::Text(t));
                }
                base += 0.8;
            }
            deepest = deepest.max(base);
            out.push(group);
        }
        y = deepest + 7.0;
    }
    out
}
