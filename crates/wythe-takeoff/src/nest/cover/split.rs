//! Splitting one run into pieces at prices: which slots its pieces take, and where its joints fall.
//!
//! A search over joints by cost, cheapest first. All places a joint can have at one cost are kept as intervals, so
//! that lengths need no grid and barred places are exact.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use crate::grid::Ticks;
use crate::nest::assign::{JointRules, Stretch};

/// Lengths a piece of one slot may have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Span {
    pub shortest: Ticks,
    pub longest: Ticks,
}

/// A run split into pieces.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Split {
    /// Slot of each piece, in the order of the run.
    pub slots: Vec<usize>,
    /// Where each piece ends.
    pub ends: Vec<Ticks>,
    pub cost: f64,
}

/// Intervals looked at before the search is given up.
const MOST_NODES: usize = 20_000;
/// Added to every price: of two ways that cost the same, the one with fewer pieces goes first.
pub(super) const PER_PIECE: f64 = 1e-6;

/// Places a joint may have, all at one cost, and how they were reached.
struct Node {
    from: Ticks,
    to: Ticks,
    cost: f64,
    /// Node before, and slot of the piece between.
    before: Option<(usize, usize)>,
}

/// The cheapest split of a run, or nothing where joints are barred everywhere or the search is too long.
pub(super) fn split(stretch: &Stretch, slots: &[Span], prices: &[f64], rules: JointRules) -> Option<Split> {
    let mut search = Search { stretch, slots, rules, nodes: Vec::new(), open: BinaryHeap::new(), met: Vec::new() };
    search.push(Node { from: 0, to: 0, cost: 0.0, before: None });
    while let Some((Reverse(Key(cost)), at)) = search.open.pop() {
        let here = (search.nodes[at].from, search.nodes[at].to);
        for (from, to) in search.fresh(here) {
            search.meet(from, to);
            let id = search.nodes.len();
            let before = search.nodes[at].before;
            search.nodes.push(Node { from, to, cost, before });
            if to == stretch.length {
                return Some(search.traced(id));
            }
            if search.nodes.len() > MOST_NODES {
                return None;
            }
            for (slot, price) in prices.iter().enumerate() {
                search.extend(id, slot, cost + price + PER_PIECE);
            }
        }
    }
    None
}

/// A cost in the heap.
#[derive(PartialEq)]
struct Key(f64);

impl Eq for Key {}

impl PartialOrd for Key {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Key {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}

struct Search<'a> {
    stretch: &'a Stretch,
    slots: &'a [Span],
    rules: JointRules,
    nodes: Vec<Node>,
    open: BinaryHeap<(Reverse<Key>, usize)>,
    /// Places reached already, apart and ascending.
    met: Vec<(Ticks, Ticks)>,
}

impl Search<'_> {
    fn push(&mut self, node: Node) {
        self.open.push((Reverse(Key(node.cost)), self.nodes.len()));
        self.nodes.push(node);
    }

    /// The joints that one more piece reaches: not barred, and leaving nothing or a piece of allowed length.
    fn extend(&mut self, at: usize, slot: usize, cost: f64) {
        let (from, to) = (self.nodes[at].from, self.nodes[at].to);
        let (Span { shortest, longest }, length) = (self.slots[slot], self.stretch.length);
        // A run shorter than the least piece is one piece.
        let least = self.rules.least_piece.min(length).max(1);
        let (low, high) = (from + shortest.max(least), (to + longest).min(length));
        if low > high {
            return;
        }
        let before = Some((at, slot));
        if high == length {
            self.push(Node { from: length, to: length, cost, before });
        }
        let mut low = low;
        let high = high.min(length - least);
        for &line in &self.stretch.lines {
            let (barred_from, barred_to) = (line - self.rules.clear + 1, line + self.rules.clear - 1);
            if barred_to < low || barred_from > barred_to {
                continue;
            }
            if barred_from > high {
                break;
            }
            if barred_from > low {
                self.push(Node { from: low, to: barred_from - 1, cost, before });
            }
            low = barred_to + 1;
        }
        if low <= high {
            self.push(Node { from: low, to: high, cost, before });
        }
    }

    /// The parts of an interval that nothing cheaper has reached.
    fn fresh(&self, (from, to): (Ticks, Ticks)) -> Vec<(Ticks, Ticks)> {
        let mut out = Vec::new();
        let mut at = from;
        for &(a, b) in &self.met {
            if b < at {
                continue;
            }
            if a > to {
                break;
            }
            if a > at {
                out.push((at, a - 1));
            }
            at = b + 1;
        }
        if at <= to {
            out.push((at, to));
        }
        out
    }

    fn meet(&mut self, from: Ticks, to: Ticks) {
        let at = self.met.partition_point(|m| m.0 < from);
        self.met.insert(at, (from, to));
    }

    /// The pieces that lead to a node, their joints as far along as they can be.
    fn traced(&self, last: usize) -> Split {
        let cost = self.nodes[last].cost;
        let (mut slots, mut ends) = (Vec::new(), vec![self.stretch.length]);
        let mut at = last;
        let mut end = self.stretch.length;
        while let Some((before, slot)) = self.nodes[at].before {
            slots.push(slot);
            let shortest = self.slots[slot].shortest.max(self.rules.least_piece.min(self.stretch.length)).max(1);
            end = (end - shortest).min(self.nodes[before].to);
            ends.push(end);
            at = before;
        }
        ends.pop();
        slots.reverse();
        ends.reverse();
        Split { slots, ends, cost }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(length: Ticks, lines: &[Ticks], slots: &[(Ticks, Ticks, f64)]) -> Option<Split> {
        let stretch = Stretch { run: 0, length, lines: lines.to_vec() };
        let spans: Vec<Span> = slots.iter().map(|s| Span { shortest: s.0, longest: s.1 }).collect();
        let prices: Vec<f64> = slots.iter().map(|s| s.2).collect();
        split(&stretch, &spans, &prices, JointRules { kerf: 0, least_piece: 24, clear: 2 })
    }

    /// 204 of pieces up to 48, a piece of 24 at half the price: three whole, one of 36 and one of 24.
    #[test]
    fn two_halves_make_a_strip() {
        let slots = [(24, 24, 0.5), (24, 48, 1.0)];
        let found = cut(204, &[], &slots).expect("it can be split");
        assert!((found.cost - 4.5).abs() < 1e-3, "{}", found.cost);
        assert_eq!(found.ends.last(), Some(&204));
    }

    #[test]
    fn no_joint_stands_at_a_barred_line() {
        let found = cut(96, &[48], &[(24, 48, 1.0)]).expect("it can be split");
        assert_eq!(found.ends.len(), 3);
        assert!(found.ends.iter().all(|e| (e - 48).abs() >= 2), "{:?}", found.ends);
    }

    #[test]
    fn a_short_run_is_one_piece_and_what_no_piece_reaches_is_none() {
        assert_eq!(cut(10, &[], &[(1, 48, 1.0)]).map(|s| s.ends), Some(vec![10]));
        assert_eq!(cut(100, &[], &[(60, 70, 1.0)]), None);
    }
}
