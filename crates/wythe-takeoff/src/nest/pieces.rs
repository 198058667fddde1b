//! Fixed rectangles cut from sheets: hatches, returns, pier caps, or any list of pieces of given size.

use super::bars;
use super::guillotine::{Axis, Cut, Rect, Remainder, Table};
use super::layout::{self, RawPiece, RawSheet};
use super::list::{self, Item, Packed, Placed};
use super::master::{self, Column, Priced};
use super::plan::{
    CutPlan, Keep, LeastOffcut, NestError, Sheet, SheetSource, Unplaced, UnplacedReason,
};
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
/// Most positions and additions of one pricing pass; beyond, the area bound and list packing stand.
const POSITIONS: usize = 400;
const WORK: usize = 3_000_000;
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
    let (packed, bound) = solve(full, &kinds, rules.turn);
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
struct Kind {
    demand: usize,
    length: Ticks,
    width: Ticks,
    count: u32,
}

fn kind(
    index: usize,
    piece: &Piece,
    kerf: Ticks,
    full: (Ticks, Ticks),
    turn: bool,
) -> Result<Kind, UnplacedReason> {
    let length = grid::positive(piece.length).ok_or(UnplacedReason::NotPositive)? + kerf;
    let width = grid::positive(piece.width).ok_or(UnplacedReason::NotPositive)? + kerf;
    let flat = length <= full.0 && width <= full.1;
    let turned = turn && width <= full.0 && length <= full.1;
    if flat || turned {
        Ok(Kind {
            demand: index,
            length,
            width,
            count: piece.count,
        })
    } else {
        Err(UnplacedReason::LargerThanSheet)
    }
}

fn left_out(piece: &Piece, reason: UnplacedReason, count: u32) -> Unplaced {
    Unplaced {
        mark: piece.name.clone(),
        reason,
        length: piece.length * f64::from(count),
    }
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

/// Plan and bound for kinds that all fit.
fn solve(full: (Ticks, Ticks), kinds: &[Kind], turn: bool) -> (Packed, usize) {
    if kinds.is_empty() {
        return (Packed::default(), 0);
    }
    if let Some(found) = rows_of_one_width(full, kinds, turn) {
        return found;
    }
    let mut best = list::pack(full, &items(kinds.iter().map(|k| (*k, k.count))), turn);
    let area: f64 = kinds
        .iter()
        .map(|k| k.length as f64 * k.width as f64 * f64::from(k.count))
        .sum();
    let mut bound = master::whole_sheets(area / (full.0 as f64 * full.1 as f64)).max(1);
    if best.sheets.len() > bound && kinds.len() <= MOST_KINDS {
        if let Some(tables) = Tables::new(full, kinds, turn) {
            tables.dive(&mut best, &mut bound);
        }
    }
    (best, bound)
}

fn items(kinds: impl Iterator<Item = (Kind, u32)>) -> Vec<Item> {
    kinds
        .flat_map(|(k, count)| {
            let item = Item {
                demand: k.demand,
                length: k.length,
                width: k.width,
            };
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
    let each = bars
        .patterns
        .iter()
        .flat_map(|p| std::iter::repeat_n(&p.counts, p.bars as usize));
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
                let rect = Rect {
                    x,
                    y,
                    along: kind.length,
                    across: width,
                };
                sheet.0.push(Placed {
                    demand: kind.demand,
                    rect,
                    turned: false,
                });
                x += kind.length;
            }
        }
        sheet.1.push(Rect {
            x,
            y,
            along: full.0 - x,
            across: width,
        });
    }
    let used = bars.bars;
    for (index, sheet) in packed.sheets.iter_mut().enumerate() {
        let here = rows.min(used - index * rows) as i64;
        let y = here * width;
        sheet.1.push(Rect {
            x: 0,
            y,
            along: full.0,
            across: full.1 - y,
        });
    }
    Some((packed, bars.bound.div_ceil(rows)))
}

/// Pricing over all guillotine patterns of the kinds.
struct Tables<'a> {
    kinds: &'a [Kind],
    full: (Ticks, Ticks),
    turn: bool,
    xs: Axis,
    ys: Axis,
}

impl<'a> Tables<'a> {
    fn new(full: (Ticks, Ticks), kinds: &'a [Kind], turn: bool) -> Option<Self> {
        let side = |own: fn(&Kind) -> Ticks, other: fn(&Kind) -> Ticks| -> Vec<Ticks> {
            let turned = kinds.iter().map(other).filter(|_| turn);
            kinds.iter().map(own).chain(turned).collect()
        };
        let lengths = side(|k| k.length, |k| k.width);
        let widths = side(|k| k.width, |k| k.length);
        let xs = Axis::new(full.0, &lengths, Remainder::RoundedDown, POSITIONS)?;
        let ys = Axis::new(full.1, &widths, Remainder::RoundedDown, POSITIONS)?;
        let work = xs.cuts() * ys.len() + ys.cuts() * xs.len() + xs.len() * ys.len() * kinds.len();
        (work <= WORK).then_some(Self {
            kinds,
            full,
            turn,
            xs,
            ys,
        })
    }

    fn fits(&self, k: &Kind, x: Ticks, y: Ticks) -> Option<bool> {
        if k.length <= x && k.width <= y {
            Some(false)
        } else if self.turn && k.width <= x && k.length <= y {
            Some(true)
        } else {
            None
        }
    }

    fn leaf(&self, x: Ticks, y: Ticks, prices: &[f64]) -> (Option<(usize, bool)>, f64) {
        let mut best = (None, 0.0);
        for (i, k) in self.kinds.iter().enumerate() {
            if prices[i] > best.1 {
                if let Some(turned) = self.fits(k, x, y) {
                    best = (Some((i, turned)), prices[i]);
                }
            }
        }
        best
    }

    /// The best pattern as placements (`Placed::demand` is an index of the kinds) and free parts.
    fn price(&self, prices: &[f64]) -> (Pattern, f64) {
        let table = Table::new(&self.xs, &self.ys, |x, y| self.leaf(x, y, prices).1);
        let cut = table.cuts(|x, y| self.leaf(x, y, prices).1);
        let mut pattern = Pattern::default();
        self.place(&cut, prices, &mut pattern);
        (pattern, table.worth())
    }

    fn place(&self, cut: &Cut, prices: &[f64], pattern: &mut Pattern) {
        match cut {
            Cut::Parted(_, a, b) => {
                self.place(a, prices, pattern);
                self.place(b, prices, pattern);
            }
            Cut::Whole(r) => match self.leaf(r.along, r.across, prices).0 {
                Some((i, turned)) => {
                    let k = &self.kinds[i];
                    let (along, across) = if turned {
                        (k.width, k.length)
                    } else {
                        (k.length, k.width)
                    };
                    let rect = Rect {
                        along,
                        across,
                        ..*r
                    };
                    pattern.placed.push(Placed {
                        demand: i,
                        rect,
                        turned,
                    });
                    pattern.free.extend(list::cut_corner(*r, along, across));
                }
                None => pattern.free.push(*r),
            },
        }
    }

    /// Rounds the relaxation down step by step; after each step the rest is list-packed, and the
    /// best total is kept.
    fn dive(&self, best: &mut Packed, bound: &mut usize) {
        let mut left: Vec<u32> = self.kinds.iter().map(|k| k.count).collect();
        let mut fixed = Packed::default();
        let mut first = true;
        while left.iter().any(|&l| l > 0) {
            let needed: Vec<f64> = left.iter().map(|&l| f64::from(l)).collect();
            let start = (0..self.kinds.len()).map(|i| self.alone(i)).collect();
            let relaxed = master::relax(&needed, start, 250, |prices| {
                let (pattern, ceiling) = self.price(prices);
                Some(Priced {
                    column: self.column(pattern),
                    ceiling,
                })
            });
            let Some(relaxed) = relaxed else { return };
            if first {
                *bound = (*bound).max(master::whole_sheets(relaxed.bound));
                first = false;
            }
            let mut progress = false;
            for (column, &amount) in relaxed.columns.iter().zip(&relaxed.amounts) {
                for _ in 0..(amount + master::EPSILON).floor() as usize {
                    progress |= self.fix(&column.record, &mut left, &mut fixed);
                }
            }
            if !progress {
                let useful = |c: &Column<Pattern>| -> f64 {
                    c.yields
                        .iter()
                        .zip(&left)
                        .zip(&relaxed.prices)
                        .map(|((y, &l), p)| y.min(f64::from(l)) * p)
                        .sum()
                };
                let largest = relaxed
                    .columns
                    .iter()
                    .zip(&relaxed.amounts)
                    .max_by(|a, b| (a.1 * useful(a.0)).total_cmp(&(b.1 * useful(b.0))));
                let Some((column, _)) = largest else { return };
                if !self.fix(&column.record, &mut left, &mut fixed) {
                    return;
                }
            }
            let rest = items(self.kinds.iter().copied().zip(left.iter().copied()));
            let tail = list::pack(self.full, &rest, self.turn);
            if fixed.sheets.len() + tail.sheets.len() < best.sheets.len() {
                *best = fixed.clone();
                best.sheets.extend(tail.sheets);
            }
            if best.sheets.len() <= *bound {
                return;
            }
        }
    }

    fn alone(&self, kind: usize) -> Column<Pattern> {
        let mut prices = vec![0.0; self.kinds.len()];
        prices[kind] = 1.0;
        self.column(self.price(&prices).0)
    }

    fn column(&self, pattern: Pattern) -> Column<Pattern> {
        let mut yields = vec![0.0; self.kinds.len()];
        for p in &pattern.placed {
            yields[p.demand] += 1.0;
        }
        Column {
            yields,
            record: pattern,
        }
    }

    /// Cuts one sheet by a pattern, leaving out what is no longer wanted.
    fn fix(&self, pattern: &Pattern, left: &mut [u32], fixed: &mut Packed) -> bool {
        let mut placed = Vec::new();
        let mut free = pattern.free.clone();
        for p in &pattern.placed {
            if left[p.demand] > 0 {
                left[p.demand] -= 1;
                placed.push(Placed {
                    demand: self.kinds[p.demand].demand,
                    ..*p
                });
            } else {
                free.push(p.rect);
            }
        }
        if placed.is_empty() {
            return false;
        }
        fixed.sheets.push((placed, free));
        true
    }
}

/// A sheet's pieces and free parts.
#[derive(Clone, Debug, Default)]
struct Pattern {
    placed: Vec<Placed>,
    free: Vec<Rect>,
}
