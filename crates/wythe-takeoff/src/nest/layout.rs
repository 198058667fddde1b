//! From ticks back to sheets with measured pieces and offcuts; numbers the cut list.

use super::guillotine::Rect;
use super::plan::{CutPiece, Keep, Offcut, Sheet, SheetLayout, SheetSource};
use crate::grid::{self, Ticks};

/// A piece placed in ticks, its own size without kerf.
#[derive(Clone, Debug)]
pub(super) struct RawPiece {
    pub demand: usize,
    pub at: Ticks,
    pub x: Ticks,
    pub y: Ticks,
    pub along: Ticks,
    pub across: Ticks,
    pub turned: bool,
}

/// A sheet cut in ticks; the free rectangles still carry one kerf on each side length.
#[derive(Clone, Debug)]
pub(super) struct RawSheet {
    pub source: SheetSource,
    pub length: Ticks,
    pub width: Ticks,
    pub pieces: Vec<RawPiece>,
    pub free: Vec<Rect>,
}

/// Numbers sheets and pieces and sorts the offcuts into kept and waste.
pub(super) fn finish(
    sheets: Vec<RawSheet>,
    kerf: Ticks,
    keep: Keep,
    mark: impl Fn(usize) -> String,
) -> Vec<SheetLayout> {
    let mut number = 0;
    sheets
        .into_iter()
        .enumerate()
        .map(|(index, mut raw)| {
            raw.pieces.sort_by_key(|p| (p.y, p.x));
            let pieces = raw
                .pieces
                .iter()
                .map(|p| {
                    number += 1;
                    CutPiece {
                        number,
                        mark: mark(p.demand),
                        at: grid::length(p.at),
                        x: grid::length(p.x),
                        y: grid::length(p.y),
                        along: grid::length(p.along),
                        across: grid::length(p.across),
                        turned: p.turned,
                    }
                })
                .collect();
            let mut free = raw.free;
            free.sort_by_key(|r| (r.y, r.x));
            let offcuts = free
                .iter()
                .map(|r| (r, r.along - kerf, r.across - kerf))
                .filter(|(_, a, b)| *a > 0 && *b > 0)
                .map(|(r, a, b)| Offcut {
                    x: grid::length(r.x),
                    y: grid::length(r.y),
                    along: grid::length(a),
                    across: grid::length(b),
                    kept: keep.keeps(a, b),
                })
                .collect();
            SheetLayout {
                number: index + 1,
                source: raw.source,
                size: Sheet { length: grid::length(raw.length), width: grid::length(raw.width) },
                pieces,
                offcuts,
            }
        })
        .collect()
}
