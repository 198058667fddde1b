//! The layout of rolls over the crawl floor: the inside outline with the piers as holes.

use std::sync::Arc;

use uom::si::f64::{Area, Length};
use wythe_findings::{Finding, codes};
use wythe_model::geometry::{Footprint, Outline, Plan, risers};
use wythe_model::quantity::{Measure, Role};
use wythe_model::{Act, Class, Foundation, MeasuredFace, Product, SurfaceKind};
use wythe_source::{Span, Symbol};
use wythe_takeoff::roll::{self, Floor, FloorError, Point, Roll, RollLayout, RollRules};

use crate::TakeoffLine;

/// The rolls of one sheet over one floor.
#[derive(Clone, Debug, PartialEq)]
pub struct FloorLayout {
    /// The house's number in the job.
    pub house: usize,
    /// The layer.
    pub layer: Symbol,
    /// The sheet.
    pub product: Arc<Product>,
    /// The work's number on the ground's face.
    pub work: usize,
    /// Where the work stands.
    pub origin: Span,
    /// Its roll.
    pub roll: Roll,
    /// Overlap of strips.
    pub lap: Length,
    /// What goes up at walls and piers.
    pub turn_up: Length,
    /// Risers of a stepped floor, which the plan does not show; their area is bought on top.
    pub risers: Area,
    /// How it is laid.
    pub layout: RollLayout,
}

impl FloorLayout {
    /// Length of roll used: the strips, and the risers as if cut from the roll's whole width.
    pub fn used(&self) -> Length {
        self.layout.cut_area / self.roll.width + self.risers / self.roll.width
    }

    /// Rolls to buy: those of the layout, and what the risers take beyond what is left of them.
    pub fn rolls(&self) -> u64 {
        let more = self.risers / self.roll.width;
        let left = self.layout.left.iter().copied().fold(Length::default(), Length::max);
        let beyond = if more <= left { 0.0 } else { (more / self.roll.length).value.ceil() };
        let beyond = if beyond.is_finite() { beyond as u64 } else { 0 };
        self.layout.rolls() as u64 + beyond
    }
}

/// The outline of the floor and the piers that stand on it, as holes.
pub fn floor_outline(f: &Foundation, plan: &Plan) -> (Outline, Vec<Outline>) {
    let outline = plan.outline(MeasuredFace::Inside);
    let prints = f.piers.iter().map(Footprint::from);
    let holes = prints.filter(|p| p.within(&outline)).map(|p| p.outline()).collect();
    (outline, holes)
}

/// Lays every sheet of a house's ground.
pub fn floors(
    f: &Foundation,
    plan: &Plan,
    house: usize,
    lines: &[TakeoffLine],
    findings: &mut Vec<Finding>,
) -> Vec<FloorLayout> {
    let Some(assembly) = f.ground.assembly.and_then(|id| f.assemblies.get(id.0 as usize)) else { return Vec::new() };
    let mut out = Vec::new();
    for face in &assembly.faces {
        for (number, work) in face.works.iter().enumerate() {
            let Some(product) = work.product.as_ref().filter(|p| p.class == Class::Membrane) else { continue };
            if work.act != Act::Lay {
                continue;
            }
            let Some((a, b)) = product.size else {
                findings.push(
                    Finding::new(codes::PURCHASE_UNKNOWN, product.origin, format!("`{}` has no size", product.name))
                        .label("no layout without a roll")
                        .mend("write the roll's `size`, such as `12' x 100'`"),
                );
                continue;
            };
            let roll = Roll { width: a.min(b), length: a.max(b) };
            let lap = work.by.unwrap_or_default().max(Length::default());
            let turn_up = turn_up(lines, work.layer);
            let rules = RollRules { lap, turn_up, piece_to_save: true, direction: None };
            match lay(f, plan, roll, &rules) {
                Ok(layout) => out.push(FloorLayout {
                    house,
                    layer: work.layer,
                    product: product.clone(),
                    work: number,
                    origin: work.origin,
                    roll,
                    lap,
                    turn_up,
                    risers: risers(f, plan).iter().map(|r| r.area()).fold(Area::default(), |a, b| a + b),
                    layout,
                }),
                Err(reason) => findings.push(
                    Finding::new(codes::FLOOR_NOT_LAID, work.origin, format!("`{}` cannot be laid out", work.layer))
                        .label(reason)
                        .related(f.origin, "over the floor of this foundation"),
                ),
            }
        }
    }
    out
}

fn lay(f: &Foundation, plan: &Plan, roll: Roll, rules: &RollRules) -> Result<RollLayout, String> {
    let (outline, holes) = floor_outline(f, plan);
    let points = |o: &Outline| o.points.iter().map(|p| Point { x: p.x, y: p.y }).collect::<Vec<_>>();
    let holes: Vec<Vec<Point>> = holes.iter().map(points).collect();
    let floor = match Floor::new(&points(&outline), &holes) {
        // Piers that overlap are no holes of one polygon; strips run over them, and the seams are cut a little long.
        Err(FloorError::NotSimple) => Floor::new(&points(&outline), &[]),
        other => other,
    };
    roll::plan(&floor.map_err(|e| e.to_string())?, roll, rules).map_err(|e| e.to_string())
}

/// How far the joints with the walls turn a ground layer up; the farthest, where they differ.
fn turn_up(lines: &[TakeoffLine], layer: Symbol) -> Length {
    let up = |line: &TakeoffLine| {
        let Measure::Area(area) = line.net else { return Length::default() };
        let meets = lines
            .iter()
            .find(|l| (l.element, l.of, l.work) == (line.element, line.of, line.work) && l.role == Role::Laps);
        match meets.map(|l| l.net) {
            Some(Measure::Length(run)) if run > Length::default() => area / run,
            _ => Length::default(),
        }
    };
    let turned = lines.iter().filter(|l| l.role == Role::TurnUp && l.kind == SurfaceKind::Wall && l.layer == layer);
    turned.map(up).fold(Length::default(), Length::max)
}
