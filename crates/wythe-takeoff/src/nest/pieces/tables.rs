//! Guillotine patterns of fixed pieces by column generation, rounded by diving.

use super::{Kind, items};
use crate::grid::Ticks;
use crate::nest::guillotine::{Axis, Cut, Rect, Remainder, Table};
use crate::nest::list::{self, Packed, Placed};
use crate::nest::master::{self, Column, Priced};

/// Most positions and additions of one pricing pass; beyond, the area bound and list packing stand.
const POSITIONS: usize = 400;
const WORK: usize = 3_000_000;

/// Pricing over all guillotine patterns of the kinds.
pub(super) struct Tables<'a> {
    kinds: &'a [Kind],
    full: (Ticks, Ticks),
    turn: bool,
    xs: Axis,
    ys: Axis,
    work: usize,
}

impl<'a> Tables<'a> {
    /// `None` when the kinds make too many patterns to tabulate.
    pub fn new(full: (Ticks, Ticks), kinds: &'a [Kind], turn: bool) -> Option<Self> {
        let side = |own: fn(&Kind) -> Ticks, other: fn(&Kind) -> Ticks| -> Vec<Ticks> {
            let turned = kinds.iter().map(other).filter(|_| turn);
            kinds.iter().map(own).chain(turned).collect()
        };
        let lengths = side(|k| k.length, |k| k.width);
        let widths = side(|k| k.width, |k| k.length);
        let xs = Axis::new(full.0, &lengths, Remainder::RoundedDown, POSITIONS)?;
        let ys = Axis::new(full.1, &widths, Remainder::RoundedDown, POSITIONS)?;
        let work = xs.cuts() * ys.len() + ys.cuts() * xs.len() + xs.len() * ys.len() * kinds.len();
        (work <= WORK).then_some(Self { kinds, full, turn, xs, ys, work })
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
            if prices[i] > best.1
                && let Some(turned) = self.fits(k, x, y)
            {
                best = (Some((i, turned)), prices[i]);
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
                    let (along, across) = if turned { (k.width, k.length) } else { (k.length, k.width) };
                    let rect = Rect { along, across, ..*r };
                    pattern.placed.push(Placed { demand: i, rect, turned });
                    pattern.free.extend(list::cut_corner(*r, along, across));
                }
                None => pattern.free.push(*r),
            },
        }
    }

    /// Rounds the relaxation down step by step; after each step the rest is list-packed, and the
    /// best total is kept.
    pub fn dive(&self, best: &mut Packed, bound: &mut usize, effort: usize) {
        let mut passes = effort / self.work.max(1);
        let mut left: Vec<u32> = self.kinds.iter().map(|k| k.count).collect();
        let mut fixed = Packed::default();
        let mut first = true;
        while left.iter().any(|&l| l > 0) {
            let needed: Vec<f64> = left.iter().map(|&l| f64::from(l)).collect();
            if passes < 2 * self.kinds.len() {
                return;
            }
            passes -= self.kinds.len();
            let start = (0..self.kinds.len()).map(|i| self.alone(i)).collect();
            let relaxed = master::relax(&needed, start, passes.min(250), |prices| {
                passes = passes.saturating_sub(1);
                let (pattern, ceiling) = self.price(prices);
                Some(Priced { column: self.column(pattern), ceiling })
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
                    c.yields.iter().zip(&left).zip(&relaxed.prices).map(|((y, &l), p)| y.min(f64::from(l)) * p).sum()
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
        Column { yields, record: pattern }
    }

    /// Cuts one sheet by a pattern, leaving out what is no longer wanted.
    fn fix(&self, pattern: &Pattern, left: &mut [u32], fixed: &mut Packed) -> bool {
        let mut placed = Vec::new();
        let mut free = pattern.free.clone();
        for p in &pattern.placed {
            if left[p.demand] > 0 {
                left[p.demand] -= 1;
                placed.push(Placed { demand: self.kinds[p.demand].demand, ..*p });
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
