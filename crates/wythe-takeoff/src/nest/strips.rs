//! Patterns of strips: how one sheet is cut into strips of the wall heights, each strip of any
//! length, and what a pattern yields of every height.

mod fill;

use super::guillotine::{Axis, Cut, Rect, Remainder, Table};
use crate::grid::Ticks;

/// A strip on a sheet, in ticks with kerf: `run` is its length, `height` an index of the heights.
#[derive(Clone, Copy, Debug)]
pub(super) struct PlacedStrip {
    pub height: usize,
    pub x: Ticks,
    pub y: Ticks,
    pub run: Ticks,
    pub turned: bool,
}

/// How strips may be cut.
#[derive(Clone, Debug)]
pub(super) struct StripRules {
    /// Distinct heights, net.
    pub heights: Vec<Ticks>,
    pub kerf: Ticks,
    /// Shortest useful strip, net.
    pub least: Ticks,
    /// Strips may run across the sheet.
    pub turn: bool,
}

/// One size of stock with its cut positions.
pub(super) struct StripStock {
    xs: Axis,
    ys: Axis,
    rules: StripRules,
    /// False when the least strip had to be left out of the cut positions: worth is then computed
    /// as if any strip were useful, so that the bound stays a bound.
    least_kept: bool,
}

/// Most positions a side may have.
const POSITIONS: usize = 1_200;
/// Most additions one pass over the table may cost.
const WORK: usize = 12_000_000;

impl StripStock {
    /// `None` when the heights make too many patterns to tabulate.
    pub fn new(length: Ticks, width: Ticks, rules: StripRules) -> Option<Self> {
        let (full_length, full_width) = (length + rules.kerf, width + rules.kerf);
        let heights: Vec<Ticks> = rules.heights.iter().map(|h| h + rules.kerf).collect();
        let mut with_least = heights.clone();
        with_least.push(rules.least + rules.kerf);
        for (least_kept, turned_steps) in [(true, &with_least), (false, &heights)] {
            let none = Vec::new();
            let (along, across) = if rules.turn { (turned_steps, turned_steps) } else { (&none, &heights) };
            let xs = Axis::new(full_length, along, Remainder::Exact, POSITIONS);
            let ys = Axis::new(full_width, across, Remainder::Exact, POSITIONS);
            if let (Some(xs), Some(ys)) = (xs, ys)
                && xs.cuts() * ys.len() + ys.cuts() * xs.len() <= WORK
            {
                return Some(Self { xs, ys, rules, least_kept });
            }
        }
        None
    }

    /// Best pattern at the prices (per tick of each height): its strips, and a ceiling on the worth
    /// of every pattern.
    pub fn best(&self, prices: &[f64]) -> (Cut, f64) {
        let table = Table::new(&self.xs, &self.ys, |x, y| self.leaf(x, y, prices, self.least_kept).1);
        let cut = table.cuts(|x, y| self.leaf(x, y, prices, self.least_kept).1);
        (cut, table.worth())
    }

    /// The strips of a pattern that are long enough to use.
    pub fn strips(&self, cut: &Cut, prices: &[f64]) -> Vec<PlacedStrip> {
        let mut found = Vec::new();
        self.collect(cut, prices, &mut found);
        found
    }

    fn collect(&self, cut: &Cut, prices: &[f64], found: &mut Vec<PlacedStrip>) {
        match cut {
            Cut::Parted(_, first, second) => {
                self.collect(first, prices, found);
                self.collect(second, prices, found);
            }
            Cut::Whole(r) => {
                if let Some((height, turned)) = self.leaf(r.along, r.across, prices, true).0 {
                    let run = if turned { r.across } else { r.along };
                    found.push(PlacedStrip { height, x: r.x, y: r.y, run, turned });
                }
            }
        }
    }

    /// Net length of each height in a set of strips.
    pub fn yields(&self, strips: &[PlacedStrip]) -> Vec<f64> {
        let mut yields = vec![0.0; self.rules.heights.len()];
        for s in strips {
            yields[s.height] += (s.run - self.rules.kerf) as f64;
        }
        yields
    }

    /// The one strip that an uncut rectangle is best used for.
    fn leaf(&self, x: Ticks, y: Ticks, prices: &[f64], least: bool) -> (Option<(usize, bool)>, f64) {
        let kerf = self.rules.kerf;
        let least = if least { self.rules.least.max(1) } else { 1 };
        let mut best = (None, 0.0);
        for (i, &h) in self.rules.heights.iter().enumerate() {
            let needed = h + kerf;
            for (turned, run, height) in [(false, x, y), (true, y, x)] {
                let net = run - kerf;
                if turned && !self.rules.turn || height < needed || net < least {
                    continue;
                }
                let worth = prices[i] * net as f64;
                if worth > best.1 {
                    best = (Some((i, turned)), worth);
                }
            }
        }
        best
    }
}

/// A strip in use: where it lies and the stretches of it, kerf included, that are left.
pub(super) struct UsedStrip {
    pub strip: PlacedStrip,
    /// Height with kerf.
    pub height: Ticks,
    /// Start and length of each stretch left.
    pub left: Vec<(Ticks, Ticks)>,
}

/// The free rectangles of a sheet of which only some strips are used: a part none of whose strips
/// is used stays whole. `used` finds the strip that starts at a corner, if it is in use.
pub(super) fn free(cut: &Cut, used: &impl Fn(Ticks, Ticks) -> Option<UsedStrip>) -> Vec<Rect> {
    let mut found = Vec::new();
    if !free_within(cut, used, &mut found) {
        found = vec![cut.rect()];
    }
    found
}

/// True when some strip within is used; then the free rectangles within have been added.
fn free_within(cut: &Cut, used: &impl Fn(Ticks, Ticks) -> Option<UsedStrip>, found: &mut Vec<Rect>) -> bool {
    match cut {
        Cut::Parted(_, first, second) => {
            let a = free_within(first, used, found);
            let b = free_within(second, used, found);
            match (a, b) {
                (true, false) => found.push(second.rect()),
                (false, true) => found.push(first.rect()),
                _ => {}
            }
            a || b
        }
        Cut::Whole(r) => {
            let Some(UsedStrip { strip, height, left }) = used(r.x, r.y) else {
                return false;
            };
            for (start, length) in left {
                found.push(if strip.turned {
                    Rect { x: r.x, y: r.y + start, along: height, across: length }
                } else {
                    Rect { x: r.x + start, y: r.y, along: length, across: height }
                });
            }
            found.push(if strip.turned {
                Rect { x: r.x + height, y: r.y, along: r.along - height, across: r.across }
            } else {
                Rect { x: r.x, y: r.y + height, along: r.along, across: r.across - height }
            });
            true
        }
    }
}
