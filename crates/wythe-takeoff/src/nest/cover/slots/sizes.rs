//! The lengths that slots have: those at which strips of good patterns divide without rest.

use std::collections::BTreeSet;

use super::{Slot, Span};
use crate::grid::Ticks;
use crate::nest::cover::Job;

/// Lengths of one height in a large order, and of all heights together in a small one.
const MOST_LENGTHS: usize = 14;
const MOST_SLOTS: usize = 60;

/// The lengths of each height, ascending; the last is the longest strip.
pub(super) fn lengths(job: &Job, strips: &[(usize, Ticks)]) -> Vec<Vec<Ticks>> {
    let mut out = Vec::new();
    for (height, stretches) in job.stretches.iter().enumerate() {
        let least = job.joint_rules.least_piece.max(1);
        let longest = job.longest_strip(job.heights[height]).unwrap_or(job.width);
        let mut here: BTreeSet<Ticks> = BTreeSet::from([longest]);
        let mut wholes: BTreeSet<Ticks> = strips.iter().filter(|s| s.0 == height).map(|s| s.1).collect();
        wholes.insert(longest);
        if job.turn && job.heights[height] <= job.length.min(job.width) {
            wholes.insert(job.width.min(job.length));
        }
        for &whole in &wholes {
            here.insert(whole);
            let kerf = job.joint_rules.kerf;
            let parts = [2, 3].map(|n| (whole - kerf * (n - 1)) / n);
            here.extend(
                parts.into_iter().chain([least, whole - kerf - least]).filter(|l| (least..=longest).contains(l)),
            );
        }
        // Runs shorter than the least piece are cut in one.
        let short: BTreeSet<Ticks> = stretches.iter().map(|s| s.length).filter(|l| *l < least).collect();
        here.extend(spread(&short, MOST_LENGTHS / 2));
        // What is left at the end of a run after whole strips, and what that leaves of a strip.
        let mut ends: BTreeSet<Ticks> = BTreeSet::new();
        for s in stretches {
            for &whole in &wholes {
                let end = s.length % whole;
                let kerf = job.joint_rules.kerf;
                ends.extend([end, whole - kerf - end].into_iter().filter(|l| (least..=longest).contains(l)));
            }
        }
        if here.len() + ends.len() <= MOST_LENGTHS {
            here.extend(ends);
        }
        out.push(here.into_iter().collect::<Vec<_>>());
    }
    while out.iter().map(Vec::len).sum::<usize>() > MOST_SLOTS {
        // The height with most lengths gives up every other one; the longest stays.
        let Some(most) = out.iter_mut().max_by_key(|l| l.len()).filter(|l| l.len() > 1) else { break };
        let last = most.len() - 1;
        let mut at = 0;
        most.retain(|_| {
            at += 1;
            at - 1 == last || at % 2 == 0
        });
    }
    out
}

/// At most so many of the lengths, the greatest of each part of them.
fn spread(all: &BTreeSet<Ticks>, most: usize) -> Vec<Ticks> {
    let step = all.len().div_ceil(most).max(1);
    all.iter().rev().step_by(step).copied().collect()
}

/// Slots for a plan: a piece may be as long as its slot, which is cut in full.
pub(super) fn at_most(lengths: &[Vec<Ticks>]) -> Vec<Slot> {
    let of = |(height, here): (usize, &Vec<Ticks>)| {
        let slot = move |&l: &Ticks| Slot { height, span: Span { shortest: 1, longest: l }, taken: l };
        here.iter().map(slot).collect::<Vec<_>>()
    };
    lengths.iter().enumerate().flat_map(of).collect()
}

/// Slots for a bound: a piece is counted at the shortest length of its slot.
pub(super) fn at_least(job: &Job, lengths: &[Vec<Ticks>]) -> Vec<Slot> {
    let mut out = Vec::new();
    for (height, here) in lengths.iter().enumerate() {
        let shortest_run = job.stretches[height].iter().map(|s| s.length).min().unwrap_or(1);
        let mut from = job.joint_rules.least_piece.max(1).min(shortest_run);
        for &l in here {
            if l < from {
                continue;
            }
            out.push(Slot { height, span: Span { shortest: from, longest: l }, taken: from });
            from = l + 1;
        }
    }
    out
}
