//! One sheet for what is still wanted: no height gets more than it needs, and what the best pattern
//! would give beyond that is cut again for the others.

use super::{PlacedStrip, StripStock};
use crate::grid::Ticks;
use crate::nest::guillotine::{Cut, Rect, Table};

/// A sheet being filled.
struct Filling<'a> {
    stock: &'a StripStock,
    /// Net length still wanted of each height, in ticks.
    need: Vec<f64>,
    strips: Vec<PlacedStrip>,
    /// Rectangles to be cut again.
    surplus: Vec<Rect>,
}

impl StripStock {
    /// Cuts and strips of a sheet that gives no height more than `need` (net lengths in ticks).
    pub fn fill(&self, prices: &[f64], need: &[f64]) -> (Cut, Vec<PlacedStrip>) {
        let mut filling = Filling { stock: self, need: need.to_vec(), strips: Vec::new(), surplus: Vec::new() };
        let mut prices = prices.to_vec();
        let mut cut = filling.settle(self.best(&prices).0, &prices);
        // Every round leaves at least one height satisfied.
        for _ in 0..need.len() {
            for (price, left) in prices.iter_mut().zip(&filling.need) {
                if *left <= 0.0 {
                    *price = 0.0;
                }
            }
            if filling.surplus.is_empty() || prices.iter().all(|p| *p <= 0.0) {
                break;
            }
            let worth = |x: Ticks, y: Ticks| self.leaf(x, y, &prices, self.least_kept).1;
            let table = Table::new(&self.xs, &self.ys, worth);
            for rect in std::mem::take(&mut filling.surplus) {
                let again = filling.settle(table.cuts_within(rect, worth), &prices);
                cut = replaced(cut, rect, &again);
            }
        }
        (cut, filling.strips)
    }
}

impl Filling<'_> {
    /// Takes the strips that are wanted; the rest of the cut becomes surplus.
    fn settle(&mut self, cut: Cut, prices: &[f64]) -> Cut {
        let rect = match cut {
            Cut::Parted(rect, first, second) => {
                let first = self.settle(*first, prices);
                let second = self.settle(*second, prices);
                return Cut::Parted(rect, Box::new(first), Box::new(second));
            }
            Cut::Whole(rect) => rect,
        };
        let leaf = self.stock.leaf(rect.along, rect.across, prices, true).0;
        let Some((height, turned)) = leaf else {
            return Cut::Whole(rect);
        };
        if self.need[height] <= 0.0 {
            self.surplus.push(rect);
            return Cut::Whole(rect);
        }
        let kerf = self.stock.rules.kerf;
        let whole = if turned { rect.across } else { rect.along };
        let least = self.stock.rules.least.max(1) + kerf;
        let wanted = (self.need[height].ceil() as Ticks + kerf).max(least);
        let run = if whole - wanted >= least { wanted } else { whole };
        self.need[height] -= (run - kerf) as f64;
        self.strips.push(PlacedStrip { height, x: rect.x, y: rect.y, run, turned });
        if run == whole {
            return Cut::Whole(rect);
        }
        let (used, rest) = parted(rect, run, turned);
        self.surplus.push(rest);
        Cut::Parted(rect, Box::new(Cut::Whole(used)), Box::new(Cut::Whole(rest)))
    }
}

fn parted(rect: Rect, run: Ticks, turned: bool) -> (Rect, Rect) {
    if turned {
        let rest = Rect { y: rect.y + run, across: rect.across - run, ..rect };
        (Rect { across: run, ..rect }, rest)
    } else {
        let rest = Rect { x: rect.x + run, along: rect.along - run, ..rect };
        (Rect { along: run, ..rect }, rest)
    }
}

/// The cut with the uncut rectangle `rect` cut as in `again`.
fn replaced(cut: Cut, rect: Rect, again: &Cut) -> Cut {
    match cut {
        Cut::Whole(r) if r == rect => again.clone(),
        Cut::Parted(r, first, second) => {
            let first = replaced(*first, rect, again);
            let second = replaced(*second, rect, again);
            Cut::Parted(r, Box::new(first), Box::new(second))
        }
        whole => whole,
    }
}
