//! The joints between the pieces really cut, by wall: where two pieces meet, and at the corner with the next wall.

use std::collections::BTreeMap;

use uom::si::f64::Length;
use uom::si::length::meter;
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
    let mut known: BTreeMap<(usize, &str, &str, &str), usize> = BTreeMap::new();
    for (_, piece) in board.plan.pieces() {
        let Some(run) = board.run_of(piece) else { continue };
        let from = run.from + piece.at;
        let rect = Rect { from, to: from + piece.length(), low: run.low, high: run.low + piece.height() };
        let key = (run.house, run.element.as_str(), run.face.as_str(), run.layer.as_str());
        let at = *known.entry(key).or_insert(placed.len());
        match placed.get_mut(at) {
            Some(wall) => wall.4.push(rect),
            None => placed.push((run.house, run.element, run.face, run.layer, vec![rect])),
        }
    }
    for (house, element, face, layer, rects) in &placed {
        let (mut count, mut length) = meetings(rects);
        if let Some(next) = next_wall(houses.get(*house), *element) {
            let theirs =
                known.get(&(*house, next.as_str(), face.as_str(), layer.as_str())).and_then(|at| placed.get(*at));
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

/// How often the pieces of one wall meet, and how long together: end to end, and row on row. Pieces do not overlap.
fn meetings(rects: &[Rect]) -> (u64, Length) {
    let near = hair() * 100.0;
    // Pieces by the line they begin at, to a tenth of a millimeter; what touches lies on this line or the next.
    let line = |l: Length| (l.get::<meter>() * 1e4).round() as i64;
    let (mut by_start, mut by_foot): (BTreeMap<i64, Vec<&Rect>>, BTreeMap<i64, Vec<&Rect>>) = Default::default();
    for rect in rects {
        by_start.entry(line(rect.from)).or_default().push(rect);
        by_foot.entry(line(rect.low)).or_default().push(rect);
    }
    for row in by_foot.values_mut() {
        row.sort_by(|a, b| a.from.value.total_cmp(&b.from.value));
    }
    let (mut count, mut length) = (0, Length::default());
    let mut add = |met: Length| {
        if met > hair() {
            count += 1;
            length += met;
        }
    };
    for a in rects {
        for b in by_start.range(line(a.to) - 1..=line(a.to) + 1).flat_map(|(_, all)| all) {
            if (a.to - b.from).abs() < near {
                add(a.high.min(b.high) - a.low.max(b.low));
            }
        }
        for (_, row) in by_foot.range(line(a.high) - 1..=line(a.high) + 1) {
            let first = row.partition_point(|b| b.to <= a.from);
            for b in row[first..].iter().take_while(|b| b.from < a.to) {
                if (a.high - b.low).abs() < near {
                    add(a.to.min(b.to) - a.from.max(b.from));
                }
            }
        }
    }
    (count, length)
}

fn next_wall(f: Option<&std::sync::Arc<Foundation>>, element: Symbol) -> Option<Symbol> {
    let f = f?;
    let at = f.walls.iter().position(|w| w.name == element)?;
    if f.walls.len() < 2 {
        return None;
    }
    f.walls.get((at + 1) % f.walls.len()).map(|w| w.name)
}
