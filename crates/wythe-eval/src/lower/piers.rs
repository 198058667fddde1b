//! Piers, singly and in grids, added footings and beams.

use uom::si::f64::Length;
use wythe_findings::{Finding, codes};
use wythe_model::geometry::{Footprint, beam_over, dropped_top};
use wythe_model::{Beam, Foundation, Pad, Pier, Point};
use wythe_source::Symbol;
use wythe_syntax::ast::{Block, Item, StatementKind};

use crate::lower::fields::{self, Fields};
use crate::lower::foundation::Assemblies;
use crate::lower::walls::SaidLevels;
use crate::{Evaluator, Frame, Value};

/// The most piers one grid may have; a larger one is a slip.
const MOST_PIERS: i64 = 400;

pub(crate) fn piers<'p>(
    ev: &mut Evaluator<'p>,
    frame: &mut Frame<'p>,
    block: &Block,
    base: &SaidLevels,
    assemblies: &mut Assemblies,
) -> Vec<Pier> {
    let mut out = Vec::new();
    for item in &block.items {
        let Item::Statement(statement) = item else { continue };
        match &statement.kind {
            StatementKind::Pier { name, at, block } => {
                let f = fields::read(ev, frame, Some(block), "PierBlock");
                let at = place(&ev.eval(frame, *at)).unwrap_or_default();
                out.extend(pier(ev, &f, base, assemblies, name.name, name.span, at));
            }
            StatementKind::Piers { name, block } => {
                let f = fields::read(ev, frame, Some(block), "PiersBlock");
                let (Some((across, up)), Some(first)) = (count(ev, &f), place(f.get("first"))) else { continue };
                let (dx, dy) = f.positive_size(ev, "spacing").unwrap_or_default();
                for row in 0..up {
                    for column in 0..across {
                        let at = Point { x: first.x + dx * column as f64, y: first.y + dy * row as f64 };
                        let own = Symbol::new(&format!("{}{}", name.name, row * across + column + 1));
                        out.extend(pier(ev, &f, base, assemblies, own, name.span, at));
                    }
                }
            }
            _ => {}
        }
    }
    out
}

fn count(ev: &mut Evaluator<'_>, f: &Fields) -> Option<(i64, i64)> {
    let Value::Size(pair) = f.get("grid") else { return None };
    let [across, up] = [&pair[0], &pair[1]].map(|v| v.quantity().and_then(|q| q.value.as_whole()));
    if let (Some(a), Some(b)) = (across, up)
        && a > 0
        && b > 0
        && a.saturating_mul(b) <= MOST_PIERS
    {
        return Some((a, b));
    }
    if let Some(span) = f.span("grid") {
        ev.findings.push(
            Finding::new(codes::IMPOSSIBLE_VALUE, span, "a grid is two whole numbers, one or more each")
                .mend(format!("write it as `3 x 2`; it may have {MOST_PIERS} piers")),
        );
    }
    None
}

fn pier(
    ev: &mut Evaluator<'_>,
    f: &Fields,
    base: &SaidLevels,
    assemblies: &mut Assemblies,
    name: Symbol,
    origin: wythe_source::Span,
    at: Point,
) -> Option<Pier> {
    let (width, depth) = f.positive_size(ev, "size")?;
    let levels = base.resolve(ev);
    let top = f.elevation("top").map_or(levels.top, |e| base.height_of(ev, e));
    let ground = f.elevation("ground").map_or(levels.ground, |e| base.height_of(ev, e));
    Some(Pier { name, origin, at, width, depth, top, ground, beam: None, assembly: assemblies.number(f.get("build")) })
}

/// A place in plan.
fn place(value: &Value) -> Option<Point> {
    let Value::Place(place) = value else { return None };
    Some(Point { x: Length::try_from(place[0]).ok()?, y: Length::try_from(place[1]).ok()? })
}

pub(crate) fn pads<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, block: &Block) -> Vec<Pad> {
    let mut out = Vec::new();
    for item in &block.items {
        let Item::Statement(statement) = item else { continue };
        let StatementKind::Pad { name, at, block } = &statement.kind else { continue };
        let f = fields::read(ev, frame, Some(block), "PadBlock");
        let (Some(at), Some((width, depth))) = (place(&ev.eval(frame, *at)), f.positive_size(ev, "size")) else {
            continue;
        };
        let thickness = f.positive_length(ev, "depth").unwrap_or_default();
        out.push(Pad { name: name.name, origin: name.span, at, width, depth, thickness });
    }
    out
}

pub(crate) fn beams<'p>(ev: &mut Evaluator<'p>, frame: &mut Frame<'p>, block: &Block) -> Vec<Beam> {
    let mut out = Vec::new();
    for item in &block.items {
        let Item::Statement(statement) = item else { continue };
        let StatementKind::Beam { name, from, to, block } = &statement.kind else { continue };
        let f = fields::read(ev, frame, block.as_ref(), "BeamBlock");
        let (Some(from), Some(to)) = (place(&ev.eval(frame, *from)), place(&ev.eval(frame, *to))) else { continue };
        out.push(Beam { name: name.name, origin: name.span, from, to, drop: f.typed("drop").unwrap_or_default() });
    }
    out
}

/// A pier under a dropped beam ends where the beam begins.
pub(crate) fn shorten_under_beams(f: &mut Foundation) {
    let sill = f.walls.first().and_then(|w| w.stretches.first()).map_or_else(Length::default, |s| s.levels.sill);
    for pier in &mut f.piers {
        let Some(beam) = beam_over(&f.beams, &Footprint::from(&*pier)) else { continue };
        pier.beam = Some(beam.name);
        pier.top = dropped_top(pier.top, sill, beam);
    }
}
