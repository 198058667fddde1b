//! Fixed rectangles cut from sheets: hatches, returns, pier caps, or any list of pieces of given size.

mod stacks;
mod tables;

use self::tables::Tables;
use super::bars;
use super::guillotine::Rect;
use super::layout::{self, RawPiece, RawSheet};
use super::list::{self, Item, Packed, Placed};
use super::master;
use super::plan::{CutPlan, Keep, LeastOffcut, NestError, Sheet, SheetSource, Unplaced, UnplacedReason};
use crate::grid::{self, Ticks};
use uom::si::f64::Length;

/// Equal pieces wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The user's name of it; stands on every one.
    pub name: String,
    /// Along the sheet unless turned.
    pub length: Length,
    /// Across the sheet unless turned.
    pub width: Length,
    /// How many.
    pub count: u32,
}

/// Rules of cutting for fixed pieces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PieceRules {
    /// Width a cut takes away.
    pub kerf: Length,
    /// Smallest offcut worth keeping.
    pub least_offcut: LeastOffcut,
    /// Pieces may be turned a quarter.
    pub turn: bool,
}

/// The most pieces one plan takes; the rest are listed as unplaced.
pub const MOST_PIECES: u32 = 200_000;
/// Additions the passes over the tables may cost together.
const EFFORT: usize = 1_000_000_000;
/// Kinds of piece beyond which the linear program is left out.
const MOST_KINDS: usize = 120;

/// Plans fixed pieces with straight cuts from edge to edge.
///
/// A piece that fits no sheet is listed in [`CutPlan::unplaced`] and the rest still comes out.
pub fn plan(sheet: Sheet, pieces: &[Piece], rules: &PieceRules) -> Result<CutPlan, NestError> {
    let length = grid::positive(sheet.length).ok_or(NestError::SheetSize)?;
    let width = grid::positive(sheet.width).ok_or(NestError::SheetSize)?;
    let kerf = grid::not_negative(rules.kerf).ok_or(NestError::Rule)?;
    let keep = Keep::new(rules.least_offcut).ok_or(NestError::Rule)?;
    let full = (length + kerf, width + kerf);
    let mut unplaced = Vec::new();
    let mut kinds: Vec<Kind> = Vec::new();
    let mut total = 0_u32;
    for (index, piece) in pieces.iter().enumerate().filter(|(_, p)| p.count > 0) {
        match kind(index, piece, kerf, full, rules.turn) {
            Ok(mut kind) => {
                let room = MOST_PIECES - total;
                if kind.count > room {
                    unplaced.push(left_out(piece, UnplacedReason::TooMany, kind.count - room));
                    kind.count = room;
                }
                total += kind.count;
                kinds.push(kind);
            }
            Err(reason) => unplaced.push(left_out(piece, reason, piece.count)),
        }
    }
    kinds.retain(|k| k.count > 0);
    let (packed, bound) = solve(full, &kinds, rules.turn, EFFORT);
    let sheets: Vec<RawSheet> = packed
        .sheets
        .into_iter()
        .map(|(placed, free)| RawSheet {
            source: SheetSource::Bought,
            length,
            width,
            pieces: placed.iter().map(|p| raw(p, kerf)).collect(),
            free,
        })
        .collect();
    Ok(CutPlan {
        bought: sheets.len(),
        sheets: layout::finish(sheets, kerf, keep, |i| pieces[i].name.clone()),
        bound,
        unplaced,
    })
}

/// Equal pieces in ticks, kerf included.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kind {
    pub demand: usize,
    pub length: Ticks,
    pub width: Ticks,
    pub count: u32,
}

fn kind(index: usize, piece: &Piece, kerf: Ticks, full: (Ticks, Ticks), turn: bool) -> Result<Kind, UnplacedReason> {
    let length = grid::positive(piece.length).ok_or(UnplacedReason::NotPositive)? + kerf;
    let width = grid::positive(piece.width).ok_or(UnplacedReason::NotPositive)? + kerf;
    let flat = length <= full.0 && width <= full.1;
    let turned = turn && width <= full.0 && length <= full.1;
    if flat || turned {
        Ok(Kind { demand: index, length, width, count: piece.count })
    } else {
        Err(UnplacedReason::LargerThanSheet)
    }
}

fn left_out(piece: &Piece, reason: UnplacedReason, count: u32) -> Unplaced {
    Unplaced { mark: piece.name.clone(), reason, length: piece.length * f64::from(count) }
}

fn raw(placed: &Placed, kerf: Ticks) -> RawPiece {
    RawPiece {
        demand: placed.demand,
        at: 0,
        x: placed.rect.x,
        y: placed.rect.y,
        along: placed.rect.along - kerf,
        across: placed.rect.across - kerf,
        turned: placed.turned,
    }
}

/// Plan and bound for kinds that all fit; `effort` is how many additions all passes over a table may cost together.
pub(super) fn solve(full: (Ticks, Ticks), kinds: &[Kind], turn: bool, effort: usize) -> (Packed, usize) {
    if kinds.is_empty() {
        return (Packed::default(), 0);
    }
    if let Some(found) = rows_of_one_width(full, kinds, turn) {
        return found;
    }
    let mut best = list::pack(full, &items(kinds.iter().map(|k| (*k, k.count))), turn);
    let area: f64 = kinds.iter().map(|k| k.length as f64 * k.width as f64 * f64::from(k.count)).sum();
    let mut bound = master::whole_sheets(area / (full.0 as f64 * full.1 as f64)).max(1);
    if best.sheets.len() > bound
        && kinds.len() <= MOST_KINDS
        && let Some(tables) = Tables::new(full, kinds, turn)
    {
        tables.dive(&mut best, &mut bound, effort);
    }
    if !turn
        && best.sheets.len() > bound
        && let Some((stacked, least)) = stacks::plan(full, kinds)
    {
        bound = bound.max(least);
        if stacked.sheets.len() < best.sheets.len() {
            best = stacked;
        }
    }
    (best, bound)
}

fn items(kinds: impl Iterator<Item = (Kind, u32)>) -> Vec<Item> {
    kinds
        .flat_map(|(k, count)| {
            let item = Item { demand: k.demand, length: k.length, width: k.width };
            std::iter::repeat_n(item, count as usize)
        })
        .collect()
}

/// Pieces of one width that are not turned: rows of the sheet are bars, cut exactly.
fn rows_of_one_width(full: (Ticks, Ticks), kinds: &[Kind], turn: bool) -> Option<(Packed, usize)> {
    let width = kinds[0].width;
    if turn || kinds.iter().any(|k| k.width != width) {
        return None;
    }
    let rows = (full.1 / width) as usize;
    let sizes: Vec<i64> = kinds.iter().map(|k| k.length).collect();
    let demand: Vec<u32> = kinds.iter().map(|k| k.count).collect();
    let bars = bars::solve(full.0, &sizes, &demand);
    let mut packed = Packed::default();
    let each = bars.patterns.iter().flat_map(|p| std::iter::repeat_n(&p.counts, p.bars as usize));
    for (index, counts) in each.enumerate() {
        let row = (index % rows) as i64;
        if row == 0 {
            packed.sheets.push(Default::default());
        }
        let Some(sheet) = packed.sheets.last_mut() else {
            continue;
        };
        let (mut x, y) = (0, row * width);
        for (kind, &count) in kinds.iter().zip(counts) {
            for _ in 0..count {
                let rect = Rect { x, y, along: kind.length, across: width };
                sheet.0.push(Placed { demand: kind.demand, rect, turned: false });
                x += kind.length;
            }
        }
        sheet.1.push(Rect { x, y, along: full.0 - x, across: width });
    }
    let used = bars.bars;
    for (index, sheet) in packed.sheets.iter_mut().enumerate() {
        let here = rows.min(used - index * rows) as i64;
        let y = here * width;
        sheet.1.push(Rect { x: 0, y, along: full.0, across: full.1 - y });
    }
    Some((packed, bars.bound.div_ceil(rows)))
}
