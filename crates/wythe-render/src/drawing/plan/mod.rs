//! The plan: walls with their lengths and names, openings, piers, pads and beams, liner strips with their laps, board
//! pieces with their numbers, and where sections are cut. North is up.

mod inside;
mod label;
mod wall;

use wythe_model::geometry::{Basis, Plan, wall_thickness};
use wythe_model::{Area, Foundation, Length, MeasuredFace, Point};
use wythe_units::UnitSystem;

use super::finish::{Surround, finish};
use super::room::Room;
use super::scale::{fitting, on_paper};
use super::scene::{Anchor, Drawing, Fill, Form, Frame, Group, Ink, Role, Spot, Text, Weight, bounds, pen, spot};
use super::section::{CAUTION, nothing};
use super::words;

/// How a plan is drawn, and what is drawn into it.
#[derive(Clone, Debug, Default)]
pub struct PlanOptions {
    /// The system of units.
    pub system: UnitSystem,
    /// Where sections are cut.
    pub marks: Vec<SectionMark>,
    /// Strips of liner, in the order of laying.
    pub strips: Vec<PlanStrip>,
    /// Where strips lie over one another: corners in plan.
    pub laps: Vec<Vec<Point>>,
    /// Pieces of board along the walls.
    pub pieces: Vec<PlanPiece>,
}

/// Where a section is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct SectionMark {
    /// The wall, by number.
    pub wall: usize,
    /// How far along it.
    pub at: Length,
    /// Its letter.
    pub letter: String,
}

/// A strip of liner in plan.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanStrip {
    /// Its number, in the order of laying.
    pub number: usize,
    /// Its corners.
    pub corners: Vec<Point>,
}

/// A piece of board along a wall.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanPiece {
    /// The wall, by number.
    pub wall: usize,
    /// From, along the wall from its start.
    pub from: Length,
    /// To.
    pub to: Length,
    /// Its number or mark in the cut list.
    pub mark: String,
}

/// From places in plan to places on paper.
#[derive(Clone, Copy)]
struct Paper {
    scale: u32,
    west: Length,
    north: Length,
}

impl Paper {
    fn mm(&self, length: Length) -> f64 {
        on_paper(length, self.scale)
    }

    fn at(&self, p: Point) -> Spot {
        spot(self.mm(p.x - self.west), self.mm(self.north - p.y))
    }
}

/// What the parts of a plan are drawn with.
struct Sheet<'a> {
    f: &'a Foundation,
    plan: Plan,
    paper: Paper,
    options: &'a PlanOptions,
    room: Room,
    groups: Vec<Group>,
    /// Names there was no room for.
    left_out: usize,
}

/// The room on paper the outline of a house may take, across and down.
const ROOM: (f64, f64) = (140.0, 150.0);

/// The plan of a foundation. A foundation without walls gives a sheet that says so.
pub fn plan(f: &Foundation, options: &PlanOptions) -> Drawing {
    let system = options.system;
    let plan = Plan::of(f, Basis::Design);
    let outline = plan.outline(MeasuredFace::Outside);
    let Some((low, high)) = outline.bounds().filter(|_| !f.walls.is_empty()) else {
        return nothing(f, "plan", "Plan", "There are no walls yet.", system);
    };
    let scale = fitting(system, 20, 2400, &[(high.x - low.x, ROOM.0), (high.y - low.y, ROOM.1)]);
    let paper = Paper { scale, west: low.x, north: high.y };
    let area = plan.area(MeasuredFace::Inside);
    let perimeter = plan.perimeter(f.measured);
    let mut sheet = Sheet { f, plan, paper, options, room: Room::default(), groups: Vec::new(), left_out: 0 };
    sheet.strips();
    sheet.supports();
    sheet.walls();
    sheet.openings();
    sheet.section_marks();
    sheet.pieces();
    // Names last: they go where there is room.
    sheet.name_openings();
    sheet.name_walls();
    sheet.name_supports();
    sheet.number_strips();
    let Sheet { mut groups, left_out, room, .. } = sheet;
    let north = north_arrow(&groups, &room);
    groups.push(north);

    let title = format!("Foundation plan, {}", words::name(f.name));
    let description = format!(
        "{title}: {} walls, {} openings, {} piers, {} beams. Floor inside the walls {}.",
        f.walls.len(),
        f.openings.len(),
        f.piers.len(),
        f.beams.len(),
        area_words(area, system)
    );
    let measured = f.measured.word();
    let mut remarks = vec![format!(
        "Wall lengths are on the {measured} of the masonry, perimeter {}. Inside lengths stand below them. Floor inside \
         the walls: {}.",
        words::length(perimeter, system),
        area_words(area, system)
    )];
    if !options.strips.is_empty() {
        remarks.push(
            "Dashed strips are the ground liner, numbered in the order of laying; hatched bands are laps.".to_owned(),
        );
    }
    if !options.pieces.is_empty() {
        remarks.push("Numbers inside the walls are pieces of board as in the cut list.".to_owned());
    }
    if f.walls.iter().any(|w| wall_thickness(f, w).is_none()) {
        remarks.push("A wall whose thickness is not known is drawn as a line.".to_owned());
    }
    if left_out > 0 {
        let what = if left_out == 1 { "1 name or number is" } else { &format!("{left_out} names or numbers are") };
        remarks.push(format!("{what} left out for want of room; each part still says its own."));
    }
    remarks.push(CAUTION.to_owned());
    let surround = Surround {
        id: "plan".to_owned(),
        title,
        subtitle: "North is up".to_owned(),
        description,
        remarks,
        scale: Some(scale),
        system,
    };
    finish(surround, groups)
}

fn area_words(area: Area, system: UnitSystem) -> String {
    use uom::si::area::{square_foot, square_meter};
    match system {
        UnitSystem::Us => format!("{:.0} ft²", area.get::<square_foot>()),
        UnitSystem::Si => format!("{:.1} m²", area.get::<square_meter>()),
    }
}

/// North, in a free corner of the plan, else above its right edge.
fn north_arrow(groups: &[Group], taken: &Room) -> Group {
    let mut group = Group::new(Role::Sheet, "north").titled("North is up");
    let Some(room) = bounds(groups) else { return group };
    let corners = [
        (room.right - 4.0, room.top + 11.0),
        (room.left + 9.0, room.top + 11.0),
        (room.right - 4.0, room.bottom - 1.0),
        (room.left + 9.0, room.bottom - 1.0),
    ];
    let is_free = |(x, foot): &(f64, f64)| {
        taken.is_free(&Frame { left: x - 9.0, top: foot - 13.0, right: x + 5.0, bottom: foot + 2.0 })
    };
    let (x, foot) = corners.into_iter().find(is_free).unwrap_or((room.right - 4.0, room.top - 4.0));
    let tip = foot - 9.0;
    group.shape(
        Form::Area(vec![spot(x, tip), spot(x - 2.2, foot), spot(x, foot - 2.2)]),
        Fill::Full(Ink::Line),
        Some(pen(Ink::Line, Weight::Thin)),
    );
    group.shape(
        Form::Area(vec![spot(x, tip), spot(x + 2.2, foot), spot(x, foot - 2.2)]),
        Fill::Full(Ink::Paper),
        Some(pen(Ink::Line, Weight::Thin)),
    );
    group.text(Text::new(spot(x - 3.2, foot - 2.0), 3.4, "N").bold().anchor(Anchor::End));
    group
}
