//! Guillotine cutting of one rectangle: the dynamic program over edge-to-edge cuts
//! (Gilmore and Gomory 1966; cut positions as in Herz 1972), for any worth of the uncut rectangle.
//! Kerf is dealt with outside: pieces and sheet are both lengthened by one kerf.

use crate::grid::Ticks;
use std::collections::BTreeSet;

/// Cut positions along one side of the sheet, and for each the pairs of parts it may be cut into.
pub(super) struct Axis {
    at: Vec<Ticks>,
    cuts: Vec<Vec<(u32, u32)>>,
}

/// How positions that remain after a cut are found again.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Remainder {
    /// Down to the next position: right where pieces have fixed sizes.
    RoundedDown,
    /// Kept exactly: needed where a strip may run to any length.
    Exact,
}

impl Axis {
    /// All positions reachable by sums of `steps` within `side`; `None` past `most` positions.
    pub fn new(side: Ticks, steps: &[Ticks], rule: Remainder, most: usize) -> Option<Self> {
        let mut sums: BTreeSet<Ticks> = BTreeSet::from([0]);
        for &step in steps {
            if step <= 0 || step > side {
                continue;
            }
            let mut front: Vec<Ticks> = sums.iter().copied().collect();
            while !front.is_empty() {
                front = front.into_iter().map(|s| s + step).filter(|s| *s <= side && sums.insert(*s)).collect();
                if sums.len() > most {
                    return None;
                }
            }
        }
        sums.remove(&0);
        let points: Vec<Ticks> = sums.iter().copied().collect();
        let mut at = sums;
        at.insert(side);
        if rule == Remainder::Exact {
            let mut front: Vec<Ticks> = at.iter().copied().collect();
            while let Some(x) = front.pop() {
                for &p in points.iter().take_while(|p| **p < x) {
                    if at.insert(x - p) {
                        front.push(x - p);
                    }
                }
                if at.len() > most {
                    return None;
                }
            }
        }
        let at: Vec<Ticks> = at.into_iter().collect();
        let cuts = at.iter().map(|&x| Self::pairs(&at, &points, x)).collect();
        Some(Self { at, cuts })
    }

    fn pairs(at: &[Ticks], points: &[Ticks], x: Ticks) -> Vec<(u32, u32)> {
        let index = |v: Ticks| at.partition_point(|p| *p <= v).checked_sub(1);
        let mut pairs = Vec::new();
        for &p in points.iter().take_while(|p| **p < x) {
            if let (Some(part), Some(rest)) = (index(p), index(x - p)) {
                let pair = (part as u32, rest as u32);
                if !pairs.contains(&(pair.1, pair.0)) || pair.0 == pair.1 {
                    pairs.push(pair);
                }
            }
        }
        pairs
    }

    /// The positions, ascending.
    pub fn positions(&self) -> &[Ticks] {
        &self.at
    }

    /// The farthest position within a length; nought where there is none.
    pub fn below(&self, length: Ticks) -> Ticks {
        let index = self.at.partition_point(|p| *p <= length);
        index.checked_sub(1).map_or(0, |i| self.at[i])
    }

    /// Number of positions.
    pub fn len(&self) -> usize {
        self.at.len()
    }

    /// Number of cuts over all positions: the cost of one pass.
    pub fn cuts(&self) -> usize {
        self.cuts.iter().map(Vec::len).sum()
    }
}

/// A rectangle cut from the sheet, in ticks, kerf included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Rect {
    pub x: Ticks,
    pub y: Ticks,
    pub along: Ticks,
    pub across: Ticks,
}

/// A cutting tree: an uncut rectangle, or one cut through into two.
#[derive(Clone, Debug)]
pub(super) enum Cut {
    Whole(Rect),
    Parted(Rect, Box<Cut>, Box<Cut>),
}

impl Cut {
    /// The rectangle before this cut.
    pub fn rect(&self) -> Rect {
        match self {
            Self::Whole(r) | Self::Parted(r, ..) => *r,
        }
    }
}

/// Best worth of every rectangle the sheet can be cut down to.
pub(super) struct Table<'a> {
    xs: &'a Axis,
    ys: &'a Axis,
    best: Vec<f64>,
}

impl<'a> Table<'a> {
    /// Fills the table. `worth` is the value of a rectangle left uncut (lengths with kerf).
    pub fn new(xs: &'a Axis, ys: &'a Axis, worth: impl Fn(Ticks, Ticks) -> f64) -> Self {
        let rows = ys.len();
        let mut best = vec![0.0_f64; xs.len() * rows];
        for (ix, &x) in xs.at.iter().enumerate() {
            let (done, rest) = best.split_at_mut(ix * rows);
            let here = &mut rest[..rows];
            for (cell, &y) in here.iter_mut().zip(&ys.at) {
                *cell = worth(x, y);
            }
            for &(part, other) in &xs.cuts[ix] {
                let (p, o) = (part as usize * rows, other as usize * rows);
                let columns = done[p..p + rows].iter().zip(&done[o..o + rows]);
                for (cell, (a, b)) in here.iter_mut().zip(columns) {
                    *cell = cell.max(a + b);
                }
            }
            for iy in 0..rows {
                for &(part, other) in &ys.cuts[iy] {
                    let sum = here[part as usize] + here[other as usize];
                    here[iy] = here[iy].max(sum);
                }
            }
        }
        Self { xs, ys, best }
    }

    /// The worth of the whole sheet cut as well as it can be.
    pub fn worth(&self) -> f64 {
        self.best.last().copied().unwrap_or(0.0)
    }

    /// The cuts that reach it.
    pub fn cuts(&self, worth: impl Fn(Ticks, Ticks) -> f64) -> Cut {
        self.trace(self.xs.len() - 1, self.ys.len() - 1, 0, 0, (None, None), &worth)
    }

    /// The cuts that best use a rectangle of any size that lies on the sheet.
    pub fn cuts_within(&self, rect: Rect, worth: impl Fn(Ticks, Ticks) -> f64) -> Cut {
        let below = |at: &[Ticks], side: Ticks| at.partition_point(|p| *p <= side).checked_sub(1);
        match (below(&self.xs.at, rect.along), below(&self.ys.at, rect.across)) {
            (Some(ix), Some(iy)) => {
                let actual = (Some(rect.along), Some(rect.across));
                self.trace(ix, iy, rect.x, rect.y, actual, &worth)
            }
            _ => Cut::Whole(rect),
        }
    }

    fn value(&self, ix: usize, iy: usize) -> f64 {
        self.best[ix * self.ys.len() + iy]
    }

    /// `actual` is the true size where rounding down has left a margin.
    fn trace(
        &self,
        ix: usize,
        iy: usize,
        x: Ticks,
        y: Ticks,
        actual: (Option<Ticks>, Option<Ticks>),
        worth: &impl Fn(Ticks, Ticks) -> f64,
    ) -> Cut {
        let along = actual.0.unwrap_or(self.xs.at[ix]);
        let across = actual.1.unwrap_or(self.ys.at[iy]);
        let rect = Rect { x, y, along, across };
        let best = self.value(ix, iy);
        let reached = |v: f64| v >= best - 1e-9 * best.abs().max(1.0);
        if reached(worth(self.xs.at[ix], self.ys.at[iy])) {
            return Cut::Whole(rect);
        }
        for &(p, o) in &self.xs.cuts[ix] {
            let (p, o) = (p as usize, o as usize);
            if reached(self.value(p, iy) + self.value(o, iy)) {
                let part = self.xs.at[p];
                let first = self.trace(p, iy, x, y, (None, Some(across)), worth);
                let rest = (Some(along - part), Some(across));
                let second = self.trace(o, iy, x + part, y, rest, worth);
                return Cut::Parted(rect, Box::new(first), Box::new(second));
            }
        }
        for &(p, o) in &self.ys.cuts[iy] {
            let (p, o) = (p as usize, o as usize);
            if reached(self.value(ix, p) + self.value(ix, o)) {
                let part = self.ys.at[p];
                let first = self.trace(ix, p, x, y, (Some(along), None), worth);
                let rest = (Some(along), Some(across - part));
                let second = self.trace(ix, o, x, y + part, rest, worth);
                return Cut::Parted(rect, Box::new(first), Box::new(second));
            }
        }
        Cut::Whole(rect)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn unconstrained(sheet: (i64, i64), pieces: &[(i64, i64, f64)]) -> f64 {
        let lengths: Vec<i64> = pieces.iter().map(|p| p.0).collect();
        let widths: Vec<i64> = pieces.iter().map(|p| p.1).collect();
        let xs = Axis::new(sheet.0, &lengths, Remainder::RoundedDown, 10_000).expect("few positions");
        let ys = Axis::new(sheet.1, &widths, Remainder::RoundedDown, 10_000).expect("few positions");
        Table::new(&xs, &ys, |x, y| pieces.iter().filter(|p| p.0 <= x && p.1 <= y).map(|p| p.2).fold(0.0, f64::max))
            .worth()
    }

    /// Herz (1972): sheet 127 x 98, five pieces worth their area, optimum 12348 (as listed in
    /// Hifi and Zissimopoulos 1996; piece sizes from memory, confirmed by the optimum).
    #[test]
    fn herz_1972() {
        let area = |l: i64, w: i64| (l, w, (l * w) as f64);
        let pieces = [area(21, 13), area(36, 17), area(54, 20), area(24, 27), area(18, 65)];
        assert!((unconstrained((127, 98), &pieces) - 12348.0).abs() < 1e-6);
    }

    /// Christofides and Whitlock (1977), first problem, without its piece limits: optimum 249
    /// (as listed in Hifi and Zissimopoulos 1996; sizes from memory, confirmed by the optimum).
    #[test]
    fn christofides_whitlock_1977_unlimited() {
        let pieces = [(8, 4, 66.0), (3, 7, 35.0), (8, 2, 24.0), (3, 4, 17.0), (3, 3, 11.0), (3, 2, 8.0), (2, 1, 2.0)];
        assert!((unconstrained((15, 10), &pieces) - 249.0).abs() < 1e-6);
    }
}
