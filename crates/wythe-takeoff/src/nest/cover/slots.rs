//! Runs with free joints, planned by slots: a few lengths of strip at each height that pieces are cut from. A run is
//! split into pieces that fit slots, and slots are cut from sheets, both by column generation at the same prices.
//!
//! The same program gives a bound that knows of the shortest piece: there a piece is counted at the least length that
//! falls into its slot, so that no plan can do better.

mod master;
mod sizes;
mod stock;

use std::collections::BTreeMap;

use self::master::{Master, Solved};
use self::stock::SlotStock;
use super::split::{self, Span, Split};
use super::{Job, Outcome};
use crate::grid::Ticks;
use crate::nest::guillotine::Rect;
use crate::nest::layout::{RawPiece, RawSheet};
use crate::nest::list::Placed;
use crate::nest::pieces::{self, Kind};
use crate::nest::plan::SheetSource;

/// Rounds of column generation.
const ROUNDS: usize = 60;
/// Additions the passes over the table may cost together, for a house and for many.
const EFFORT_FEW: usize = 8_000_000;
const EFFORT_MANY: usize = 150_000_000;

/// A slot: pieces of one height between two lengths, cut from a strip of a length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Slot {
    /// Index of the heights.
    height: usize,
    span: Span,
    /// Length a piece takes of its strip, net.
    taken: Ticks,
}

/// Runs that are alike: the same height, length and barred places.
struct Alike {
    height: usize,
    /// Indices of the stretches of that height.
    stretches: Vec<usize>,
}

/// A plan by slots and a bound, each where there are few enough lengths to tabulate.
pub(super) struct BySlots {
    pub outcome: Option<Outcome>,
    pub bound: f64,
}

/// Plans by slots. `strips` are the strips of good patterns: height index and net length.
pub(super) fn plan(job: &Job, strips: &[(usize, Ticks)], known: usize) -> BySlots {
    let alike = alike(job);
    let lengths = sizes::lengths(job, strips);
    let exact = Program::new(job, &alike, sizes::at_least(job, &lengths));
    let bound = exact.and_then(|p| p.solve()).map_or(0.0, |s| s.bound);
    // Where the bound is reached already, no other plan is sought.
    if crate::nest::master::whole_sheets(bound) >= known {
        return BySlots { outcome: None, bound };
    }
    let outcome = Program::new(job, &alike, sizes::at_most(&lengths)).and_then(|program| {
        let solved = program.solve()?;
        program.cut(&solved)
    });
    BySlots { outcome, bound }
}

fn alike(job: &Job) -> Vec<Alike> {
    let mut groups: BTreeMap<(usize, Ticks, &[Ticks]), Vec<usize>> = BTreeMap::new();
    for (height, stretches) in job.stretches.iter().enumerate() {
        for (index, s) in stretches.iter().enumerate() {
            groups.entry((height, s.length, s.lines.as_slice())).or_default().push(index);
        }
    }
    groups.into_iter().map(|((height, ..), stretches)| Alike { height, stretches }).collect()
}

/// Slots, sheets and runs as one linear program.
struct Program<'a> {
    job: &'a Job,
    alike: &'a [Alike],
    slots: Vec<Slot>,
    stock: SlotStock,
    /// Additions all passes together may cost.
    effort: usize,
}

impl<'a> Program<'a> {
    fn new(job: &'a Job, alike: &'a [Alike], slots: Vec<Slot>) -> Option<Self> {
        let stock = SlotStock::new(job, &slots)?;
        let runs: usize = alike.iter().map(|a| a.stretches.len()).sum();
        let effort = if runs <= super::FEW_RUNS { EFFORT_FEW } else { EFFORT_MANY };
        Some(Self { job, alike, slots, stock, effort })
    }

    /// Slots of a height, as their range in the list: they stand height by height.
    fn of_height(&self, height: usize) -> std::ops::Range<usize> {
        let from = self.slots.partition_point(|s| s.height < height);
        from..self.slots.partition_point(|s| s.height <= height)
    }

    fn split(&self, group: &Alike, prices: &[f64]) -> Option<Split> {
        let range = self.of_height(group.height);
        let spans: Vec<Span> = self.slots[range.clone()].iter().map(|s| s.span).collect();
        let stretch = &self.job.stretches[group.height][*group.stretches.first()?];
        let mut found = split::split(stretch, &spans, &prices[range.clone()], self.job.joint_rules)?;
        found.slots.iter_mut().for_each(|s| *s += range.start);
        Some(found)
    }

    /// `None` where a run cannot be split, or the linear program fails numerically.
    fn solve(&self) -> Option<Solved> {
        let counts: Vec<f64> = self.alike.iter().map(|g| g.stretches.len() as f64).collect();
        let mut master = Master::new(counts, self.slots.len());
        let kerf = self.job.joint_rules.kerf;
        let full = (self.job.length + kerf, self.job.width + kerf);
        for (number, slot) in self.slots.iter().enumerate() {
            let size = (self.job.heights[slot.height] + kerf, slot.taken + kerf);
            master.pattern(self.stock.alone(number, size, full));
        }
        // To begin with, a slot is worth its share of the longest strip of its height.
        let worth = |s: &Slot| s.taken as f64 * self.job.heights[s.height] as f64;
        let sheet = self.job.length as f64 * self.job.width as f64;
        let mut prices: Vec<f64> = self.slots.iter().map(|s| worth(s) / sheet).collect();
        let rounds = (self.effort / self.stock.work().max(1)).clamp(2, ROUNDS);
        for round in 0..rounds {
            let (pattern, most) = self.stock.best(&prices);
            let mut total = 0.0;
            let mut new = master.worth(&pattern, &prices) > 1.0 + 1e-7 && master.pattern(pattern);
            for (number, group) in self.alike.iter().enumerate() {
                let found = self.split(group, &prices)?;
                let cost = (found.cost - split::PER_PIECE * found.slots.len() as f64).max(0.0);
                // The way with fewest pieces may cost a little more than the cheapest.
                let slack = split::PER_PIECE
                    * (self.job.stretches[group.height][group.stretches[0]].length
                        / self.job.joint_rules.least_piece.max(1)
                        + 1) as f64;
                total += (cost - slack).max(0.0) * master.counts[number];
                new |= master.split(number, found, cost);
            }
            // Prices scaled down by the best pattern's worth are feasible for the dual, and prove a bound (Farley 1990).
            master.bound = master.bound.max(total / most.max(1.0));
            if round > 0
                && (!new
                    || crate::nest::master::whole_sheets(master.bound)
                        >= crate::nest::master::whole_sheets(master.value))
            {
                break;
            }
            prices = master.prices()?;
        }
        master.solved()
    }

    /// Cuts whole sheets for the splits of a solution.
    fn cut(&self, solved: &Solved) -> Option<Outcome> {
        // Every piece: its slot, its run, where it begins and ends.
        let mut pieces: Vec<Vec<(usize, Ticks, Ticks)>> = vec![Vec::new(); self.slots.len()];
        for (group, splits) in self.alike.iter().zip(&solved.splits) {
            let each = splits.iter().flat_map(|(split, count)| std::iter::repeat_n(split, *count));
            for (&index, split) in group.stretches.iter().zip(each) {
                let run = self.job.stretches[group.height][index].run;
                let mut at = 0;
                for (&slot, &end) in split.slots.iter().zip(&split.ends) {
                    pieces[slot].push((run, at, end));
                    at = end;
                }
            }
        }
        let kerf = self.job.joint_rules.kerf;
        let full = (self.job.length + kerf, self.job.width + kerf);
        let kinds: Vec<Kind> = self
            .slots
            .iter()
            .zip(&pieces)
            .enumerate()
            .filter(|(_, (_, p))| !p.is_empty())
            .map(|(demand, (s, p))| Kind {
                demand,
                length: s.taken + kerf,
                width: self.job.heights[s.height] + kerf,
                count: p.len() as u32,
            })
            .collect();
        let (packed, _) = pieces::solve(full, &kinds, self.job.turn, self.effort);
        // The longest pieces first, so that what is left of slots of one size lies together.
        pieces.iter_mut().for_each(|p| p.sort_by_key(|(run, at, end)| (end - at, *run, *at)));
        let sheets = packed.sheets.into_iter().map(|(placed, free)| self.sheet(placed, free, &mut pieces));
        Some(Outcome { sheets: sheets.collect(), bound: 0, bare: Vec::new() })
    }

    fn sheet(&self, placed: Vec<Placed>, mut free: Vec<Rect>, pieces: &mut [Vec<(usize, Ticks, Ticks)>]) -> RawSheet {
        let kerf = self.job.joint_rules.kerf;
        let mut cut = Vec::new();
        for slot in placed {
            let Some((run, at, end)) = pieces[slot.demand].pop() else {
                free.push(slot.rect);
                continue;
            };
            let (length, height) = (end - at, self.job.heights[self.slots[slot.demand].height]);
            let Rect { x, y, along, across } = slot.rect;
            let used = length + kerf;
            let (along_piece, across_piece) = if slot.turned { (height, length) } else { (length, height) };
            cut.push(RawPiece { demand: run, at, x, y, along: along_piece, across: across_piece, turned: slot.turned });
            free.push(if slot.turned {
                Rect { x, y: y + used, along, across: across - used }
            } else {
                Rect { x: x + used, y, along: along - used, across }
            });
        }
        RawSheet { source: SheetSource::Bought, length: self.job.length, width: self.job.width, pieces: cut, free }
    }
}
