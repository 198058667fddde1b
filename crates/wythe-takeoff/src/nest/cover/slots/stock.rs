//! One sheet cut into slots: the pattern worth most at the prices of slots.

use std::collections::BTreeMap;

use super::Slot;
use crate::grid::Ticks;
use crate::nest::cover::Job;
use crate::nest::guillotine::{Axis, Cut, Remainder, Table};

/// Most positions a side may have, and additions one pass over the table may cost.
const POSITIONS: usize = 500;
const WORK: usize = 3_000_000;

/// A sheet with its cut positions.
pub(super) struct SlotStock {
    xs: Axis,
    ys: Axis,
    /// With kerf: height of the strip, and its slots as index and length.
    strips: Vec<(Ticks, Vec<(usize, Ticks)>)>,
    slots: usize,
    turn: bool,
    work: usize,
}

/// How a strip of a length is best cut into slots: its worth, and the first slot.
type Fills = BTreeMap<Ticks, (f64, Option<usize>)>;

impl SlotStock {
    /// `None` where there are too many positions.
    pub fn new(job: &Job, slots: &[Slot]) -> Option<Self> {
        let kerf = job.joint_rules.kerf;
        let heights: Vec<Ticks> = job.heights.iter().map(|h| h + kerf).collect();
        let lengths: Vec<Ticks> = slots.iter().map(|s| s.taken + kerf).collect();
        let both: Vec<Ticks> = heights.iter().chain(&lengths).copied().collect();
        let (along, across) = if job.turn { (&both, &both) } else { (&lengths, &heights) };
        let xs = Axis::new(job.length + kerf, along, Remainder::RoundedDown, POSITIONS)?;
        let ys = Axis::new(job.width + kerf, across, Remainder::RoundedDown, POSITIONS)?;
        let work = xs.cuts() * ys.len() + ys.cuts() * xs.len();
        if work > WORK {
            return None;
        }
        let mut strips: Vec<(Ticks, Vec<(usize, Ticks)>)> = heights.into_iter().map(|h| (h, Vec::new())).collect();
        for (index, slot) in slots.iter().enumerate() {
            strips[slot.height].1.push((index, slot.taken + kerf));
        }
        Some(Self { xs, ys, strips, slots: slots.len(), turn: job.turn, work })
    }

    /// Additions one pass over the table costs.
    pub fn work(&self) -> usize {
        self.work
    }

    /// As many of one slot as straight cuts through the sheet give, along it or across.
    pub fn alone(&self, slot: usize, (height, taken): (Ticks, Ticks), (length, width): (Ticks, Ticks)) -> Vec<u32> {
        let along = (length / taken) * (width / height);
        let across = if self.turn { (width / taken) * (length / height) } else { 0 };
        let mut counts = vec![0; self.slots];
        counts[slot] = along.max(across).clamp(0, i64::from(u32::MAX)) as u32;
        counts
    }

    /// The number of each slot in the best pattern, and its worth.
    pub fn best(&self, prices: &[f64]) -> (Vec<u32>, f64) {
        let fills: Vec<Fills> = self.strips.iter().map(|(_, slots)| self.fills(slots, prices)).collect();
        let leaf = |x: Ticks, y: Ticks| self.leaf(&fills, x, y).1;
        let table = Table::new(&self.xs, &self.ys, leaf);
        let mut counts = vec![0; self.slots];
        self.count(&table.cuts(leaf), &fills, &mut counts);
        (counts, table.worth())
    }

    /// Worth by length, for every length a strip may have: what does not fit adds nothing, so that lengths between are
    /// worth what the next shorter is.
    fn fills(&self, slots: &[(usize, Ticks)], prices: &[f64]) -> Fills {
        let mut out: Fills = BTreeMap::from([(0, (0.0, None))]);
        let mut lengths: Vec<Ticks> = self.xs.positions().to_vec();
        if self.turn {
            lengths.extend(self.ys.positions());
        }
        lengths.sort_unstable();
        lengths.dedup();
        for length in lengths {
            fill(length, slots, prices, &mut out);
        }
        out
    }

    fn leaf(&self, fills: &[Fills], x: Ticks, y: Ticks) -> (Option<(usize, Ticks)>, f64) {
        let mut best = (None, 0.0);
        for (at, (height, _)) in self.strips.iter().enumerate() {
            for (turned, run, across) in [(false, x, y), (true, y, x)] {
                if turned && !self.turn || across < *height {
                    continue;
                }
                let worth = fills[at].get(&run).map_or(0.0, |f| f.0);
                if worth > best.1 {
                    best = (Some((at, run)), worth);
                }
            }
        }
        best
    }

    fn count(&self, cut: &Cut, fills: &[Fills], counts: &mut [u32]) {
        let rect = match cut {
            Cut::Parted(_, first, second) => {
                self.count(first, fills, counts);
                self.count(second, fills, counts);
                return;
            }
            Cut::Whole(rect) => rect,
        };
        // True sizes may lie between positions.
        let (x, y) = (self.xs.below(rect.along), self.ys.below(rect.across));
        let Some((at, mut run)) = self.leaf(fills, x, y).0 else { return };
        let slots = &self.strips[at].1;
        while let Some((_, Some(slot))) = fills[at].get(&run) {
            counts[*slot] += 1;
            let Some((_, length)) = slots.iter().find(|(s, _)| s == slot) else { return };
            run -= length;
        }
    }
}

/// The best use of a length; remembers every length met on the way.
fn fill(length: Ticks, slots: &[(usize, Ticks)], prices: &[f64], known: &mut Fills) -> f64 {
    if let Some((worth, _)) = known.get(&length) {
        return *worth;
    }
    let mut best = (0.0, None);
    for &(slot, taken) in slots {
        if taken <= length && prices[slot] > 0.0 {
            let worth = prices[slot] + fill(length - taken, slots, prices, known);
            if worth > best.0 {
                best = (worth, Some(slot));
            }
        }
    }
    known.insert(length, best);
    best.0
}
