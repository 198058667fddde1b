//! The house that stands for one end of a bid's ranges: a rectangle of the perimeter and the floor, built like the
//! drawn house the bid names.

use uom::si::angle::degree;
use uom::si::area::square_foot;
use uom::si::f64::{Angle, Area, Length};
use uom::si::length::{foot, inch};
use wythe_findings::{Finding, codes};
use wythe_model::bid::BidNumbers;
use wythe_model::geometry::{Basis, Plan, hair};
use wythe_model::{Foundation, Interval, Levels, MeasuredFace, Opening, OpeningKind, Pier, Point, Stretch, Wall};
use wythe_source::Symbol;

use super::End;

/// The figures of a house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// The outside of all walls together.
    pub perimeter: Length,
    /// The crawl floor, inside the walls.
    pub floor: Area,
    /// From the crawl floor to the sill, the least of all walls.
    pub height: Length,
    /// Piers.
    pub piers: u32,
    /// Access doors.
    pub hatches: u32,
    /// Vents.
    pub vents: u32,
    /// Rains to dry up after; nought of a drawn house.
    pub rains: u32,
}

impl Figures {
    /// Those of a drawn house.
    pub fn of(f: &Foundation) -> Figures {
        let plan = Plan::of(f, Basis::Design);
        let heights = f.walls.iter().flat_map(|w| &w.stretches).map(|s| s.levels.sill - s.levels.ground);
        let count = |kind: OpeningKind| f.openings.iter().filter(|o| o.kind == kind).count() as u32;
        Figures {
            perimeter: plan.perimeter(MeasuredFace::Outside),
            floor: plan.area(MeasuredFace::Inside),
            height: heights.reduce(Length::min).unwrap_or_default(),
            piers: f.piers.len() as u32,
            hatches: count(OpeningKind::Access),
            vents: count(OpeningKind::Vent),
            rains: 0,
        }
    }
}

/// The most of anything counted in a bid.
const MOST: u32 = 2_000;
/// The longest perimeter of a bid.
fn longest() -> Length {
    Length::new::<foot>(5_280.0)
}

fn at<T: Copy>(range: Interval<T>, end: End) -> T {
    match end {
        End::Low => range.low,
        End::Middle => range.mid,
        End::High => range.high,
    }
}

/// The house of one end, with its figures.
///
/// # Errors
/// A finding where no such house can be built: no length, a floor too large for its walls, a like house without walls.
pub fn house(numbers: &BidNumbers, end: End) -> Result<(Foundation, Figures), Box<Finding>> {
    let fault =
        |name: &str, title: String| Box::new(Finding::new(codes::BID_IMPOSSIBLE, numbers.origin_of(name), title));
    let like = &numbers.like;
    let Some(first) = like.walls.first() else {
        return Err(fault("like", format!("`{}` has no walls to build like", like.name)));
    };
    let Some(levels) = first.stretches.first().map(|s| s.levels) else {
        return Err(fault("like", format!("`{}` has no heights to build like", like.name)));
    };
    let perimeter = at(numbers.perimeter, end);
    if !(perimeter > hair() && perimeter <= longest()) {
        return Err(fault("perimeter", "a perimeter must be more than nothing and less than a mile".into()));
    }
    let counts = [
        ("pier_count", numbers.piers),
        ("hatch_count", numbers.hatches),
        ("vent_count", numbers.vents),
        ("rains", numbers.rains),
    ];
    for (name, range) in counts {
        if range.high > MOST {
            return Err(fault(name, format!("more than {MOST} {name}")));
        }
    }
    let mut built = Foundation {
        name: numbers.name,
        origin: numbers.origin,
        measured: MeasuredFace::Outside,
        start: Point::default(),
        walls: Vec::new(),
        openings: Vec::new(),
        piers: Vec::new(),
        pads: Vec::new(),
        beams: Vec::new(),
        ..Foundation::clone(like)
    };
    let levels = match numbers.height.map(|h| at(h, end)) {
        None => levels,
        Some(height) if height > hair() && height < longest() => lowered(levels, height),
        Some(_) => return Err(fault("height", "a height must be more than nothing".into())),
    };
    let (long, short) = sides(numbers, end, perimeter, thickness(like, first))?;
    walls(&mut built, numbers, first, levels, (long, short));
    let counted = |range: Interval<u32>| at(range, end);
    openings(&mut built, numbers, levels, (counted(numbers.hatches), counted(numbers.vents)));
    piers(&mut built, numbers, levels, counted(numbers.piers), (long, short));
    let figures = Figures { rains: counted(numbers.rains), ..Figures::of(&built) };
    Ok((built, figures))
}

/// The levels with the crawl floor so far under the sill; the footing keeps its distance from the floor at least.
fn lowered(levels: Levels, height: Length) -> Levels {
    let ground = levels.sill - height;
    let footing = levels.footing.min(ground - (levels.ground - levels.footing));
    Levels { ground, footing, ..levels }
}

/// Thickness of the wall the house is built with.
fn thickness(like: &Foundation, wall: &Wall) -> Length {
    let assembly = wall.assembly.and_then(|id| like.assemblies.get(id.0 as usize));
    assembly.and_then(|a| a.structure.as_ref()?.thickness).unwrap_or_default()
}

/// The outside of the rectangle: half of the perimeter in two parts whose inside is the floor.
fn sides(numbers: &BidNumbers, end: End, perimeter: Length, wall: Length) -> Result<(Length, Length), Box<Finding>> {
    let fault = |title: String, why: String| {
        Box::new(Finding::new(codes::BID_IMPOSSIBLE, numbers.origin_of("floor"), title).label(why))
    };
    let half = perimeter / 2.0 - wall * 4.0;
    if half <= hair() {
        let title = "no floor is left inside these walls";
        return Err(Box::new(Finding::new(codes::BID_IMPOSSIBLE, numbers.origin_of("perimeter"), title)));
    }
    let Some(floor) = numbers.floor.map(|f| at(f, end)) else {
        return Ok((half * 0.6 + wall * 2.0, half * 0.4 + wall * 2.0));
    };
    if floor <= Area::default() {
        return Err(fault("a floor must be more than nothing".into(), "of this floor".into()));
    }
    let most: Area = half * half / 4.0;
    let over: Area = most - floor;
    if over < Area::new::<square_foot>(-0.01) {
        let title = format!(
            "{:.0} ft2 of floor do not fit inside {:.1} ft of wall",
            floor.get::<square_foot>(),
            perimeter.get::<foot>()
        );
        return Err(fault(title, format!("a square of these walls has {:.0} ft2", most.get::<square_foot>())));
    }
    let apart = over.max(Area::default()).sqrt();
    Ok((half / 2.0 + apart + wall * 2.0, half / 2.0 - apart + wall * 2.0))
}

fn walls(built: &mut Foundation, numbers: &BidNumbers, like: &Wall, levels: Levels, (long, short): (Length, Length)) {
    let zero = Length::default();
    let legs = [
        ("south", 0.0, long, Point { x: zero, y: zero }),
        ("east", 90.0, short, Point { x: long, y: zero }),
        ("north", 180.0, long, Point { x: long, y: short }),
        ("west", 270.0, short, Point { x: zero, y: short }),
    ];
    for (name, bearing, length, start) in legs {
        built.walls.push(Wall {
            name: Symbol::new(name),
            origin: numbers.origin_of("perimeter"),
            length_origin: numbers.origin_of("perimeter"),
            bearing: Angle::new::<degree>(bearing),
            length,
            start,
            stretches: vec![Stretch { from: zero, to: length, levels, origin: numbers.origin_of("height") }],
            assembly: like.assembly,
            existing: false,
            as_built_length: None,
        });
    }
}

/// Doors in the first wall, vents all around, each like the first of its kind in the drawn house.
fn openings(built: &mut Foundation, numbers: &BidNumbers, levels: Levels, (hatches, vents): (u32, u32)) {
    let like = |kind: OpeningKind| numbers.like.openings.iter().find(|o| o.kind == kind);
    let mut put = |kind: OpeningKind, name: &str, count: u32, walls: &[usize]| {
        let per_wall = (count as usize).div_ceil(walls.len()) as f64;
        for number in 0..count {
            let wall = walls[number as usize % walls.len()];
            let place = (f64::from(number / walls.len() as u32) + 1.0) / (per_wall + 1.0);
            let (width, height) = like(kind).map_or_else(|| usual(kind), |o| (o.width, o.height));
            let Some(length) = built.walls.get(wall).map(|w| w.length) else { continue };
            // A door hangs over the crawl floor, a vent under the sill.
            let sill = if kind == OpeningKind::Access {
                levels.ground + Length::new::<inch>(8.0)
            } else {
                levels.top - height
            };
            built.openings.push(Opening {
                name: Symbol::new(&format!("{name}{}", number + 1)),
                origin: numbers.origin_of(if kind == OpeningKind::Access { "hatch_count" } else { "vent_count" }),
                wall: Some(wall),
                at: (length * place - width / 2.0).max(Length::default()),
                at_origin: numbers.origin,
                kind,
                width,
                height,
                size_origin: numbers.origin,
                sill: Some(sill),
                free_area: like(kind).and_then(|o| o.free_area),
                assembly: like(kind).and_then(|o| o.assembly),
                plugged: like(kind).is_some_and(|o| o.plugged),
                existing: false,
            });
        }
    };
    put(OpeningKind::Access, "hatch", hatches, &[0]);
    put(OpeningKind::Vent, "v", vents, &[1, 3, 2]);
}

/// A door or a vent where the drawn house has none (common sizes, no source).
fn usual(kind: OpeningKind) -> (Length, Length) {
    let inches = Length::new::<inch>;
    if kind == OpeningKind::Access { (inches(32.0), inches(20.0)) } else { (inches(16.0), inches(8.0)) }
}

/// Piers in even rows over the floor, each like the first of the drawn house.
fn piers(built: &mut Foundation, numbers: &BidNumbers, levels: Levels, count: u32, (long, short): (Length, Length)) {
    if count == 0 {
        return;
    }
    let ratio = (long / short).value.max(0.01);
    let columns = (f64::from(count) * ratio).sqrt().ceil().clamp(1.0, f64::from(count)) as u32;
    let rows = count.div_ceil(columns);
    let like = numbers.like.piers.first();
    let size = Length::new::<inch>(16.0);
    for number in 0..count {
        let (column, row) = (number % columns, number / columns);
        let along = |whole: Length, at: u32, of: u32| whole * (f64::from(at) + 1.0) / (f64::from(of) + 1.0);
        built.piers.push(Pier {
            name: Symbol::new(&format!("p{}", number + 1)),
            origin: numbers.origin_of("pier_count"),
            at: Point { x: along(long, column, columns), y: along(short, row, rows) },
            width: like.map_or(size, |p| p.width),
            depth: like.map_or(size, |p| p.depth),
            top: like.map_or(levels.top, |p| p.top),
            ground: levels.ground,
            beam: None,
            assembly: like.and_then(|p| p.assembly),
        });
    }
}
