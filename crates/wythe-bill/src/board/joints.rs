//! The joints between the pieces really cut, by wall: where two pieces meet, and at the corner with the next wall.

use uom::si::f64::Length;
use wythe_model::Foundation;
use wythe_model::geometry::{Rect, hair};
use wythe_source::Symbol;

use super::plan::BoardPlan;

/// The joints of one layer on one wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct JointLength {
    /// The house's number in the job.
    pub house: usize,
    /// The wall or pier.
    pub element: Symbol,
    /// The face.
    pub face: Symbol,
    /// The layer.
    pub layer: Symbol,
    /// How many.
    pub count: u64,
    /// Their length together.
    pub length: Length,
}

/// The joints of a plan. A corner's joint counts with the wall that comes first in the walk.
pub fn joint_lengths(board: &BoardPlan, houses: &[std::sync::Arc<Foundation>]) -> Vec<JointLength> {
    let mut out: Vec<JointLength> = Vec::new();
    let mut placed: Vec<(usize, Symbol, Symbol, Symbol, Vec<Rect>)> = Vec::new();
    for (_, piece) in board.plan.pieces() {
        let Some(run) = board.run_of(piece) else { continue };
        let from = run.from + piece.at;
        let rect = Rect { from, to: from + piece.length(), low: run.low, high: run.low + piece.height() };
        let key = (run.house, run.element, run.face, run.layer);
        match placed.iter_mut().find(|p| (p.0, p.1, p.2, p.3) == key) {
            Some(known) => known.4.push(rect),
            None => placed.push((key.0, key.1, key.2, key.3, vec![rect])),
        }
    }
    for (house, element, face, layer, rects) in &placed {
        let (mut count, mut length) = (0, Length::default());
        for (i, a) in rects.iter().enumerate() {
            for b in &rects[i + 1..] {
                let met = meeting(a, b);
                if met > hair() {
                    count += 1;
                    length += met;
                }
            }
        }
        if let Some(next) = next_wall(houses.get(*house), *element) {
            let theirs = placed.iter().find(|p| (p.0, p.1, p.2, p.3) == (*house, next, *face, *layer));
            let ours = rects.iter().reduce(|a, b| if b.to > a.to { b } else { a });
            let first = theirs.and_then(|p| p.4.iter().reduce(|a, b| if b.from < a.from { b } else { a }));
            if let (Some(a), Some(b)) = (ours, first) {
                let shared = a.high.min(b.high) - a.low.max(b.low);
                if shared > hair() {
                    count += 1;
                    length += shared;
                }
            }
        }
        out.push(JointLength { house: *house, element: *element, face: *face, layer: *layer, count, length });
    }
    out
}

/// How long two pieces meet.
fn meeting(a: &Rect, b: &Rect) -> Length {
    let touch = |x: Length, y: Length| (x - y).abs() < hair() * 100.0;
    let over = |a: (Length, Length), b: (Length, Length)| (a.1.min(b.1) - a.0.max(b.0)).max(Length::default());
    let beside = touch(a.to, b.from) || touch(b.to, a.from);
    if beside {
        return over((a.low, a.high), (b.low, b.high));
    }
    if touch(a.high, b.low) || touch(b.high, a.low) { over((a.from, a.to), (b.from, b.to)) } else { Length::default() }
}

fn next_wall(f: Option<&std::sync::Arc<Foundation>>, element: Symbol) -> Option<Symbol> {
    let f = f?;
    let at = f.walls.iter().position(|w| w.name == element)?;
    if f.walls.len() < 2 {
        return None;
    }
    f.walls.get((at + 1) % f.walls.len()).map(|w| w.name)
}
