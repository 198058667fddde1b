//! Sections through walls: from the footing to the sill with a yard of ground on each side.

pub(crate) mod body;
pub(crate) mod cut;
pub(crate) mod event;
mod floor;
pub(crate) mod names;
mod upright;
pub(crate) mod view;

use uom::si::length::{inch, yard};
use wythe_model::geometry::{levels_at, opening_rects, wall_thickness};
use wythe_model::{Act, Class, Foundation, Length, Levels};
use wythe_units::UnitSystem;

use super::control::{ControlLine, trace};
use super::dimension::{Chain, chain};
use super::finish::{Surround, finish};
use super::leader::{Reach, Side};
use super::scene::{Anchor, Drawing, Frame, Group, Ink, Role, Text, Weight, bounds, pen, spot};
use super::text::clean;
use super::theme::{letter, plain_name};
use super::words;
use body::Mark;
use cut::{Cut, Manner, Subject, cut, sill};
use names::{CORRIDOR, Columns, Heights, Part, names};
use view::View;

/// How a section is drawn.
#[derive(Clone, Debug, Default)]
pub struct SectionOptions {
    /// The system of units.
    pub system: UnitSystem,
    /// Control lines to trace over it.
    pub lines: Vec<ControlLine>,
    /// Its letter on the plan.
    pub letter: Option<String>,
}

/// How wide a name beside a section may be, in millimeters on paper.
const NAME_ROOM: f64 = 56.0;

/// What is cut of a wall at a place along it, with its levels there. Nothing where there is no such wall or it has
/// no stretch.
pub(super) fn subject(f: &Foundation, wall: usize, at: Length) -> Option<Subject<'_>> {
    let w = f.walls.get(wall)?;
    let levels = levels_at(w, at)?;
    let assembly = w.assembly.and_then(|id| f.assemblies.get(id.0 as usize)).map(AsRef::as_ref);
    let cut_through = opening_rects(f, wall).into_iter().filter(|o| o.rect.from < at && at < o.rect.to);
    let (openings, opening_names) = cut_through
        .filter_map(|o| {
            let opening = f.openings.get(o.opening)?;
            Some(((o.rect.low, o.rect.high), (opening.name, opening.origin)))
        })
        .unzip();
    Some(Subject {
        f,
        assembly,
        levels,
        thickness: wall_thickness(f, w).unwrap_or_else(|| Length::new::<inch>(8.0)),
        openings,
        opening_names,
        element: w.name.as_str().to_owned(),
        origin: assembly.and_then(|a| a.structure_origin).unwrap_or(w.origin),
        is_pier: false,
        pad: None,
    })
}

/// The elevations at which something begins or ends.
pub(super) fn features(subject: &Subject<'_>) -> Vec<Length> {
    let l = &subject.levels;
    let works = subject.assembly.into_iter().flat_map(|a| a.faces.iter().flat_map(|f| &f.works));
    let ends = works.filter_map(|w| w.extent).flat_map(|e| {
        let (low, high) = e.on(l);
        [low, high]
    });
    let openings = subject.openings.iter().flat_map(|(low, high)| [*low, *high]);
    ends.chain(openings).chain([l.top, l.sill, l.grade, l.ground, l.footing]).collect()
}

/// A section through a wall at a place along it. A wall that is not there gives a sheet that says so.
pub fn section(f: &Foundation, wall: usize, at: Length, options: &SectionOptions) -> Drawing {
    let system = options.system;
    let Some(subject) = subject(f, wall, at) else {
        return nothing(f, "section", "Section", "There is no wall here to cut.", system);
    };
    let levels = subject.levels;
    let lowest = levels.footing.min(levels.ground);
    let view = View::fitting(system, (10, 20), (levels.top.max(levels.grade), lowest), &features(&subject), 150.0);
    let view = View { zero: levels.top, ..view };
    let apron = view.mm(Length::new::<yard>(1.0));
    let manner = Manner { view, until: None, fresh: None, yards: (apron, apron), low: 0.0 };
    let mut drawn = cut(&subject, manner);
    let sill = drawn.stands.then(|| sill(f, &drawn, view, &levels, true));
    let traced = trace(&options.lines, &drawn.body.tracks, view, drawn.wide, drawn.soil.1);
    let marks: Vec<Mark<'_>> = std::mem::take(&mut drawn.body.marks);

    let (left_dims, left_taken) = outside_chain(&drawn, view, &levels, system);
    let (right_dims, right_taken) = inside_chain(&subject, &drawn, view, system);
    let dims = bounds(&[left_dims.clone(), right_dims.clone()]);
    let columns = columns(&drawn, &marks, dims, (left_taken, right_taken));
    let mut parts = structure_parts(f, &subject, &drawn, view, system);
    parts.extend(traced.breaks);
    let leaders = names(f, &levels, system, &columns, &marks, parts);
    let levels_group = level_marks(&drawn, &columns, &levels, system);
    // Drawn again with soil behind all names, so that it ends where they do and never short of a yard.
    let names_end = CORRIDOR + NAME_ROOM;
    let yards = (apron.max(names_end - columns.left), apron.max(names_end + columns.right - drawn.wide));
    let low = bounds(&leaders).map_or(0.0, |b| b.bottom + 2.0);
    let mut drawn = cut(&subject, Manner { yards, low, ..manner });
    let traced = trace(&options.lines, &drawn.body.tracks, view, drawn.wide, drawn.soil.1);

    let mut groups = Vec::new();
    groups.append(&mut drawn.body.groups);
    groups.extend(sill);
    groups.append(&mut drawn.body.over);
    groups.extend(traced.groups);
    groups.extend(leaders);
    groups.extend([left_dims, right_dims, levels_group]);

    let name = words::name(f.walls[wall].name);
    let title = match &options.letter {
        Some(letter) => format!("Section {letter}, through wall {name}"),
        None => format!("Section through wall {name}"),
    };
    let place = format!("{} from its start", words::length(at, system));
    let description = format!(
        "{title}, {place}: from the footing to the sill, outside on the left, crawl space on the right, with {} \
         pieces of work numbered in order.",
        marks.len()
    );
    let mut remarks = vec![
        "Work is numbered in order on each face: T top of wall, O outside, I inside, G crawl floor, J where wall and \
         floor meet."
            .to_owned(),
        "Coatings, sheets and tapes are drawn thicker than they are; their own thickness is said beside them. Footing, \
         sill plate and floor framing are signs: their size is for the structural plans."
            .to_owned(),
    ];
    if !options.lines.is_empty() {
        remarks.push(legend(&options.lines));
    }
    if view.left_out.is_some() {
        remarks.push("The zigzag lines leave out a stretch of the wall where nothing changes.".to_owned());
    }
    remarks.push(CAUTION.to_owned());
    let surround = Surround {
        id: format!("section-{}", f.walls[wall].name.as_str()),
        title,
        subtitle: format!("{}, {place}, looking along the wall", words::name(f.name)),
        description,
        remarks,
        scale: Some(view.scale),
        system,
    };
    finish(surround, groups)
}

/// Where the names of a cut go: clear of all that is drawn on each side.
fn columns(cut: &Cut<'_>, marks: &[Mark<'_>], dims: Option<Frame>, reserved: (Heights, Heights)) -> Columns {
    let dims = dims.unwrap_or(Frame { left: -cut.left, top: 0.0, right: cut.wide + cut.right, bottom: 0.0 });
    let outermost = marks.iter().filter_map(|m| match (m.side, m.reach) {
        (Side::Left, Reach::Level { x, .. }) => Some(-x),
        _ => None,
    });
    Columns {
        left: -(outermost.fold(cut.left, f64::max) + 5.0).max(2.0 - dims.left),
        right: (cut.wide + cut.tail + 13.0).max(cut.wide + cut.right + 8.0).max(dims.right + 2.0),
        soil: cut.soil,
        reserved,
        room: NAME_ROOM,
    }
}

/// What every drawing of construction says.
pub(super) const CAUTION: &str =
    "Not a structural design. The local code official and a licensed professional have the last word.";

/// The letters and names of control lines.
pub(super) fn legend(lines: &[ControlLine]) -> String {
    let all: Vec<String> = lines.iter().map(|l| format!("{} {}", letter(l.control), plain_name(l.control))).collect();
    format!("Lines traced: {}. A cross marks a break.", all.join(", "))
}

/// A sheet that says why it is empty.
pub(super) fn nothing(f: &Foundation, id: &str, title: &str, why: &str, system: UnitSystem) -> Drawing {
    let surround = Surround {
        id: id.to_owned(),
        title: title.to_owned(),
        subtitle: words::name(f.name),
        description: why.to_owned(),
        remarks: vec![why.to_owned()],
        scale: None,
        system,
    };
    finish(surround, Vec::new())
}

/// Top, grade and footing on the outside.
fn outside_chain(cut: &Cut<'_>, view: View, levels: &Levels, system: UnitSystem) -> (Group, Heights) {
    let at = [levels.top, levels.grade, levels.footing];
    heights("outside", &at, -cut.left, Side::Left, view, system, false)
}

/// Top, the ends of the boards and the crawl floor on the inside: the bare band is the first where there is one.
fn inside_chain(subject: &Subject<'_>, cut: &Cut<'_>, view: View, system: UnitSystem) -> (Group, Heights) {
    let levels = &subject.levels;
    let inside = subject.assembly.and_then(|a| a.face("inside"));
    let works = inside.map(|f| f.works.as_slice()).unwrap_or_default();
    let is_board =
        |w: &&wythe_model::Work| w.act == Act::Set && w.product.as_ref().is_some_and(|p| p.class == Class::Board);
    let ends = works.iter().filter(is_board).filter_map(|w| w.extent).flat_map(|e| {
        let (low, high) = e.on(levels);
        [low, high]
    });
    let at: Vec<Length> = ends.filter(|e| *e < levels.top && *e > levels.ground).collect();
    let bare = at.iter().all(|e| *e < levels.top) && !at.is_empty();
    let at: Vec<Length> = at.into_iter().chain([levels.top, levels.ground]).collect();
    heights("inside", &at, cut.wide + cut.right, Side::Right, view, system, bare)
}

fn heights(
    id: &str,
    at: &[Length],
    from_x: f64,
    side: Side,
    view: View,
    system: UnitSystem,
    bare: bool,
) -> (Group, Heights) {
    let hair = wythe_model::geometry::hair();
    let mut at = at.to_vec();
    at.sort_by(|a, b| b.value.total_cmp(&a.value));
    at.dedup_by(|a, b| (*a - *b).abs() < hair);
    if at.len() < 2 {
        return (Group::new(Role::Dimension, id), Vec::new());
    }
    let sign = if side == Side::Right { 1.0 } else { -1.0 };
    let mut texts: Vec<String> = at.windows(2).map(|w| words::length(w[0] - w[1], system)).collect();
    if let Some(first) = texts.first_mut().filter(|_| bare) {
        first.push_str(" bare");
    }
    let heights = at.iter().map(|e| view.y(*e)).collect();
    chain(id, &Chain { x: from_x + sign * 4.0, side, heights, texts, from_x })
}

/// The names of what is no piece of work.
fn structure_parts(f: &Foundation, subject: &Subject<'_>, cut: &Cut<'_>, view: View, system: UnitSystem) -> Vec<Part> {
    let levels = &subject.levels;
    let mut out = Vec::new();
    let part = |head: String, details: Vec<String>, x: f64, upper: f64, lower: f64, id, origin| Part {
        head,
        details,
        reach: Reach::Level { x, upper, lower },
        side: Side::Left,
        id,
        origin,
        badge: None,
    };
    if cut.stands {
        let said = [
            (f.sill.treated, "treated"),
            (f.sill.gasket, "gasket under it"),
            (f.sill.rim_insulated, "rim above insulated"),
            (f.sill.rim_sealed, "rim above sealed against air"),
        ];
        let said: Vec<&str> = said.iter().filter(|s| s.0).map(|s| s.1).collect();
        let base = view.y(levels.sill).min(0.0) - 1.0;
        let details = if said.is_empty() { Vec::new() } else { vec![said.join(", ")] };
        out.push(part("Sill plate".to_owned(), details, 2.0, base - 1.6, base - 0.6, "sill", f.sill.origin));
        let product = subject.assembly.and_then(|a| a.structure.as_ref());
        let head = product.map_or("Wall".to_owned(), |p| words::capital(&words::name(p.name)));
        let details = vec![format!(
            "{} thick, {} from footing to top",
            words::length(subject.thickness, system),
            words::length(levels.top - levels.footing, system)
        )];
        let holes: Vec<(f64, f64)> =
            subject.openings.iter().map(|(low, high)| (view.y(*high) - 0.5, view.y(*low) + 0.5)).collect();
        let (upper, lower) = (view.y(levels.top) + 3.0, view.y(levels.footing) - 2.0);
        let pieces = upright::less(upper, lower.max(upper), &holes);
        let longest = pieces.into_iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
        let (upper, lower) = longest.unwrap_or((upper, upper));
        out.push(part(head, details, cut.wide * 0.4, upper, lower, "structure", Some(subject.origin)));
    }
    if let Some((x, y)) = cut.footing {
        let details = vec!["size by the structural plans".to_owned()];
        out.push(part("Footing".to_owned(), details, x, y - 1.0, y + 1.0, "footing", None));
    }
    for ((low, high), (name, origin)) in subject.openings.iter().zip(&subject.opening_names) {
        let (upper, lower) = (view.y(*high), view.y(*low));
        let details = vec![format!("{} high", words::span(*high - *low, system))];
        let head = format!("Opening {}", words::name(*name));
        let mut p = part(head, details, cut.wide * 0.6, upper + 1.0, lower - 1.0, "opening", Some(*origin));
        p.side = Side::Right;
        out.push(p);
    }
    out
}

/// The level of grade and crawl floor at the ends of their lines.
fn level_marks(cut: &Cut<'_>, columns: &Columns, levels: &Levels, system: UnitSystem) -> Group {
    let mut group = Group::new(Role::Dimension, "levels");
    let height = |e: Length| {
        let off = e - levels.top;
        let what = words::length(off.abs(), system);
        if off.abs() < wythe_model::geometry::hair() {
            "at top of wall".to_owned()
        } else if off < Length::default() {
            format!("{what} below top of wall")
        } else {
            format!("{what} above top of wall")
        }
    };
    let far_left = columns.left - CORRIDOR - columns.room;
    let far_right = columns.right + CORRIDOR + columns.room;
    let (left_y, right_y) = cut.soil;
    group.line([spot(far_left, left_y), spot(columns.left, left_y)], pen(Ink::Line, Weight::Thin));
    group.line([spot(columns.right, right_y), spot(far_right, right_y)], pen(Ink::Line, Weight::Thin));
    let grade = format!("Outside grade, {}", height(levels.grade));
    let ground = format!("Crawl floor, {}", height(levels.ground));
    group.text(Text::new(spot(far_left, left_y - 1.2), 2.7, clean(&grade)).bold());
    group.text(Text::new(spot(far_right, right_y - 1.8), 2.7, clean(&ground)).bold().anchor(Anchor::End));
    group
}
