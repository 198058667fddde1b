//! The runs of board on the walls of a house, as they are cut: on the inside line, stepped where the heights step,
//! shortened where they butt against the neighbor's board, parted or notched at openings.
//!
//! House rules, no source: at a square corner the wall that comes first in the walk runs through and the next butts
//! against it; at other corners both are beveled to the line. An opening that takes no more than half the board's
//! height is cut out of the piece that passes it; a larger one parts the run.

use std::sync::Arc;

use uom::si::angle::radian;
use uom::si::f64::Length;
use wythe_model::geometry::{Footprint, Plan, Turn, hair, opening_rects, strips};
use wythe_model::{Act, Class, Face, Foundation, MeasuredFace, Product, SurfaceKind, Work};
use wythe_source::{Span, Symbol};

/// A stretch of board of one height.
#[derive(Clone, Debug, PartialEq)]
pub struct BoardRun {
    /// The house's number in the job.
    pub house: usize,
    /// The wall, pier or opening.
    pub element: Symbol,
    /// The element's place in its list; walls come first.
    pub kind: SurfaceKind,
    /// The face it is on.
    pub face: Symbol,
    /// The work's number on that face.
    pub work: usize,
    /// The layer's name.
    pub layer: Symbol,
    /// The board.
    pub product: Arc<Product>,
    /// Where the work stands.
    pub origin: Span,
    /// The name on its pieces.
    pub mark: String,
    /// Its start, along the wall from the wall's own start.
    pub from: Length,
    /// Its end.
    pub to: Length,
    /// Its lower edge above the datum.
    pub low: Length,
    /// Its upper edge.
    pub high: Length,
    /// What is cut out of the pieces that pass an opening.
    pub notches: Vec<Notch>,
}

/// A piece of an opening cut out of a board.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Notch {
    /// The opening.
    pub opening: Symbol,
    /// Its near edge from the start of the run.
    pub at: Length,
    /// Its width.
    pub width: Length,
    /// From the run's lower edge up.
    pub up: Length,
    /// Its height within the run.
    pub height: Length,
}

impl BoardRun {
    /// Along the wall.
    pub fn length(&self) -> Length {
        self.to - self.from
    }

    /// Of the board.
    pub fn height(&self) -> Length {
        self.high - self.low
    }
}

/// A span of heights over an interval along the wall.
type Block = (Length, Length, Length, Length);

/// Every run of board in a house, walls first, in the order of the work.
pub fn runs(f: &Foundation, plan: &Plan, house: usize, prefix: &str) -> Vec<BoardRun> {
    let mut out = Vec::new();
    for (index, wall) in f.walls.iter().enumerate() {
        each_board(f, wall.assembly, |face, number, work, product| {
            let blocks = wall_blocks(f, plan, index, face, work);
            let parted = part(f, index, &blocks);
            let notches = openings_passed(f, index, &parted);
            for ((from, to, low, high), notches) in parted.into_iter().zip(notches) {
                out.push(BoardRun {
                    house,
                    element: wall.name,
                    kind: SurfaceKind::Wall,
                    face: face.name,
                    work: number,
                    layer: work.layer,
                    product: product.clone(),
                    origin: work.origin,
                    mark: String::new(),
                    from,
                    to,
                    low,
                    high,
                    notches,
                });
            }
        });
    }
    for pier in &f.piers {
        each_board(f, pier.assembly, |face, number, work, product| {
            let Some(extent) = work.extent else { return };
            let (low, high) = extent.on(&pier.levels());
            let print = Footprint::from(pier);
            let mut at = Length::default();
            for side in [print.width, print.depth, print.width, print.depth] {
                out.push(BoardRun {
                    house,
                    element: pier.name,
                    kind: SurfaceKind::Pier,
                    face: face.name,
                    work: number,
                    layer: work.layer,
                    product: product.clone(),
                    origin: work.origin,
                    mark: String::new(),
                    from: at,
                    to: at + side,
                    low,
                    high,
                    notches: Vec::new(),
                });
                at += side;
            }
        });
    }
    out.retain(|r| r.length() > hair() && r.height() > hair());
    name(&mut out, prefix);
    out
}

/// Names the runs by their wall, numbered where the wall has several.
fn name(runs: &mut [BoardRun], prefix: &str) {
    for i in 0..runs.len() {
        let same = |r: &BoardRun| (r.element, r.face, r.work) == (runs[i].element, runs[i].face, runs[i].work);
        let count = runs.iter().filter(|r| same(r)).count();
        let number = runs[..i].iter().filter(|r| same(r)).count() + 1;
        // Two layers of board on one wall: the second is told by its layer.
        let other =
            runs.iter().any(|r| r.element == runs[i].element && (r.face, r.work) != (runs[i].face, runs[i].work));
        let layer = if other { format!(" {}", runs[i].layer) } else { String::new() };
        let part = if count > 1 { format!("/{number}") } else { String::new() };
        runs[i].mark = format!("{prefix}{}{layer}{part}", runs[i].element);
    }
}

fn each_board(
    f: &Foundation,
    assembly: Option<wythe_model::AssemblyId>,
    mut act: impl FnMut(&Face, usize, &Work, &Arc<Product>),
) {
    let Some(assembly) = assembly.and_then(|id| f.assemblies.get(id.0 as usize)) else { return };
    for face in &assembly.faces {
        for (number, work) in face.works.iter().enumerate() {
            if let (Act::Set, Some(product)) = (work.act, &work.product)
                && product.class == Class::Board
            {
                act(face, number, work, product);
            }
        }
    }
}

/// The board of a wall as blocks of one height, their ends as they are cut.
fn wall_blocks(f: &Foundation, plan: &Plan, index: usize, face: &Face, work: &Work) -> Vec<Block> {
    let side = if face.name.as_str() == "outside" { MeasuredFace::Outside } else { MeasuredFace::Inside };
    let (Some(wall), Some(drawn), Some(extent)) = (f.walls.get(index), plan.walls.get(index), work.extent) else {
        return Vec::new();
    };
    let mut blocks: Vec<Block> = Vec::new();
    for strip in strips(wall, drawn.line(side)) {
        let (low, high) = extent.on(&strip.levels);
        match blocks.last_mut() {
            Some(last) if (last.2 - low).abs() < hair() && (last.3 - high).abs() < hair() => last.1 = strip.to,
            _ => blocks.push((strip.from, strip.to, low, high)),
        }
    }
    let count = f.walls.len();
    if let Some(first) = blocks.first_mut() {
        first.0 += butt(f, plan, index, side, true, face.name);
    }
    if let Some(last) = blocks.last_mut() {
        last.1 += butt(f, plan, (index + 1) % count, side, false, face.name);
    }
    blocks.retain(|b| b.1 > b.0 + hair());
    blocks
}

/// How far a run is drawn in at its start, or runs on at its end, for the board of its neighbor at a corner.
fn butt(f: &Foundation, plan: &Plan, corner: usize, side: MeasuredFace, start: bool, face: Symbol) -> Length {
    let none = Length::default();
    let Some(at) = plan.corners.get(corner) else { return none };
    let (Some(before), Some(after)) = (f.walls.get(at.before), f.walls.get(at.after)) else { return none };
    let turn = (after.bearing - before.bearing).get::<radian>();
    if turn.cos().abs() > 0.02 {
        return none;
    }
    // Seen from the side the board is on: does the corner close in on it, or does it stand out?
    let closes = (at.turn == Turn::Convex) == (side == MeasuredFace::Inside);
    match (closes, start) {
        (true, true) => board_thickness(f, before.assembly, face),
        (false, false) => board_thickness(f, after.assembly, face),
        _ => none,
    }
}

fn board_thickness(f: &Foundation, assembly: Option<wythe_model::AssemblyId>, face: Symbol) -> Length {
    let mut thickness = Length::default();
    each_board(f, assembly, |on, _, _, product| {
        if on.name == face {
            thickness = product.thickness.unwrap_or_default();
        }
    });
    thickness
}

/// Whether an opening parts a block: it takes more than half its height.
fn parts(block: &Block, rect: &wythe_model::geometry::Rect) -> bool {
    let overlap = block.3.min(rect.high) - block.2.max(rect.low);
    let beside = rect.to <= block.0 + hair() || rect.from + hair() >= block.1;
    !beside && overlap > (block.3 - block.2) / 2.0 + hair()
}

/// The blocks with the openings that part them taken out.
fn part(f: &Foundation, wall: usize, blocks: &[Block]) -> Vec<Block> {
    let rects: Vec<_> = opening_rects(f, wall).into_iter().map(|o| o.rect).collect();
    let mut out: Vec<Block> = Vec::new();
    for block in blocks {
        let parting: Vec<_> = rects.iter().filter(|r| parts(block, r)).collect();
        let mut cuts: Vec<Length> = vec![block.0, block.1];
        cuts.extend(parting.iter().flat_map(|r| [r.from, r.to]).filter(|x| *x > block.0 && *x < block.1));
        cuts.sort_by(|a, b| a.value.total_cmp(&b.value));
        cuts.dedup_by(|a, b| (*a - *b).abs() < hair());
        for pair in cuts.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let middle = (from + to) / 2.0;
            let mut holes: Vec<_> = parting.iter().filter(|r| r.from < middle && middle < r.to).collect();
            holes.sort_by(|a, b| a.low.value.total_cmp(&b.low.value));
            let mut low = block.2;
            for hole in holes {
                add(&mut out, (from, to, low, hole.low.min(block.3)));
                low = low.max(hole.high);
            }
            add(&mut out, (from, to, low, block.3));
        }
    }
    out
}

fn add(out: &mut Vec<Block>, block: Block) {
    if block.3 > block.2 + hair() {
        out.push(block);
    }
}

/// The openings each block passes, cut out of its pieces.
fn openings_passed(f: &Foundation, wall: usize, blocks: &[Block]) -> Vec<Vec<Notch>> {
    let rects = opening_rects(f, wall);
    let of_block = |block: &Block| {
        let passed = rects.iter().filter_map(|o| {
            let (from, to) = (o.rect.from.max(block.0), o.rect.to.min(block.1));
            let (low, high) = (o.rect.low.max(block.2), o.rect.high.min(block.3));
            let notch = Notch {
                opening: f.openings.get(o.opening)?.name,
                at: from - block.0,
                width: to - from,
                up: low - block.2,
                height: high - low,
            };
            (notch.width > hair() && notch.height > hair()).then_some(notch)
        });
        passed.collect()
    };
    blocks.iter().map(of_block).collect()
}
