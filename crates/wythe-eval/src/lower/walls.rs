//! Walls: the walk, with their levels and steps.

use uom::si::angle::degree;
use uom::si::f64::{Angle, Length};
use wythe_findings::{Finding, codes};
use wythe_model::geometry::walk;
use wythe_model::{Elevation, Level, Levels, Point, Stretch, Wall};
use wythe_source::Span;
use wythe_syntax::ast::{Block, Item, StatementKind};

use crate::lower::fields::{self, Fields};
use crate::lower::foundation::Assemblies;
use crate::{Evaluator, Frame, Value};

const NAMES: [&str; 5] = ["top", "sill", "grade", "ground", "footing"];

/// Elevations as they are said: each told from the datum or from another of them.
#[derive(Clone, Default)]
pub(crate) struct SaidLevels {
    said: [Option<Elevation>; 5],
    build: Option<Value>,
    origin: Span,
}

/// What all walls have in common.
pub(crate) fn base_levels<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, block: Option<&Block>) -> SaidLevels {
    let f = fields::read(ev, frame, block, "WallsBlock");
    let mut base = SaidLevels { origin: block.map_or_else(Span::default, |b| b.span), ..SaidLevels::default() };
    base.say(&f);
    base.build = Some(f.get("build").clone());
    base
}

impl SaidLevels {
    fn say(&mut self, f: &Fields) {
        for (slot, name) in self.said.iter_mut().zip(NAMES) {
            if let Some(elevation) = f.elevation(name) {
                *slot = Some(elevation);
            }
        }
    }

    /// Whether all but the sill, which has a default, could be read.
    pub(crate) fn are_told(&self) -> bool {
        self.said.iter().enumerate().all(|(slot, said)| slot == 1 || said.is_some())
    }

    /// All five, each above the datum. The sill is the top of the masonry where it is not said; any other that is
    /// not said has been reported and counts as the datum.
    pub(crate) fn resolve(&self, ev: &mut Evaluator<'_>) -> Levels {
        let [top, sill, grade, ground, footing] = [0, 1, 2, 3, 4].map(|slot| self.height(ev, slot, 0));
        Levels { top, sill, grade, ground, footing }
    }

    fn height(&self, ev: &mut Evaluator<'_>, slot: usize, depth: u32) -> Length {
        if depth > 5 {
            ev.report(codes::LEVEL_UNKNOWN, self.origin, format!("`{}` is told from itself", NAMES[slot]));
            return Length::default();
        }
        let Some(elevation) = self.said[slot] else {
            return if slot == 1 { self.height(ev, 0, depth + 1) } else { Length::default() };
        };
        let base = match elevation.from {
            Level::Datum => Length::default(),
            level => match NAMES.iter().position(|n| *n == level.word()) {
                Some(other) => self.height(ev, other, depth + 1),
                None => Length::default(),
            },
        };
        base + elevation.offset
    }

    /// The height of an elevation above the datum, told from these levels.
    pub(crate) fn height_of(&self, ev: &mut Evaluator<'_>, elevation: Elevation) -> Length {
        self.resolve(ev).height_of(elevation)
    }
}

/// The walls in the order of the walk.
pub(crate) fn walls<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    block: Option<&Block>,
    base: &SaidLevels,
    start: Point,
    assemblies: &mut Assemblies,
) -> Vec<Wall> {
    let mut walls = Vec::new();
    for item in block.map_or(&[][..], |b| &b.items) {
        let Item::Statement(statement) = item else { continue };
        let StatementKind::Wall { name, direction, length, block } = &statement.kind else { continue };
        let f = fields::read(ev, frame, block.as_ref(), "WallBlock");
        let length_origin = frame.module[*length].span;
        let length = fields::typed::<Length>(&ev.eval(frame, *length)).unwrap_or_default();
        let length = fields::run_of_wall(ev, length, length_origin);
        let bearing = match bearing(direction.name.as_str()) {
            Some(degrees) => Angle::new::<degree>(degrees),
            None => f.typed::<Angle>("bearing").unwrap_or_else(|| {
                ev.findings.push(
                    Finding::new(codes::MISSING_PROPERTY, direction.span, "a wall that runs skew needs a `bearing`")
                        .mend("write it in the wall's block: `{ bearing: 37 deg }`, counterclockwise from east"),
                );
                Angle::default()
            }),
        };
        let mut said = base.clone();
        said.say(&f);
        let build = if f.get("build") == &Value::None {
            base.build.clone().unwrap_or(Value::None)
        } else {
            f.get("build").clone()
        };
        let stretches = stretches(ev, frame, block.as_ref(), said, length, name.span);
        walls.push(Wall {
            name: name.name,
            origin: name.span,
            length_origin,
            bearing,
            length,
            start,
            stretches,
            assembly: assemblies.number(&build),
            existing: f.truth("existing"),
            as_built_length: f.positive_length(ev, "as_built"),
        });
    }
    let legs: Vec<_> = walls.iter().map(|w| (w.bearing, w.length)).collect();
    for (wall, corner) in walls.iter_mut().zip(&walk(&legs, start).corners) {
        wall.start = *corner;
    }
    walls
}

fn stretches<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    block: Option<&Block>,
    mut said: SaidLevels,
    length: Length,
    origin: Span,
) -> Vec<Stretch> {
    let mut out = vec![Stretch { from: Length::default(), to: length, levels: said.resolve(ev), origin }];
    for item in block.map_or(&[][..], |b| &b.items) {
        let Item::Statement(statement) = item else { continue };
        let StatementKind::Step { at, block } = &statement.kind else { continue };
        let at = fields::typed::<Length>(&ev.eval(frame, *at)).unwrap_or_default();
        let f = fields::read(ev, frame, Some(block), "StepBlock");
        said.say(&f);
        if let Some(last) = out.last_mut() {
            last.to = at;
        }
        out.push(Stretch { from: at, to: length, levels: said.resolve(ev), origin: statement.span });
    }
    out
}

/// Degrees counterclockwise from east.
fn bearing(direction: &str) -> Option<f64> {
    let eighth = ["east", "northeast", "north", "northwest", "west", "southwest", "south", "southeast"];
    eighth.iter().position(|d| *d == direction).map(|n| 45.0 * n as f64)
}
