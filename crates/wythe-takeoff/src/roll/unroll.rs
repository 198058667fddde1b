//! Which roll each strip comes from: whole strips first, pieced strips only if that saves a roll.

use crate::grid::{self, Ticks};
use crate::nest::bars;
use uom::si::f64::Length;

/// A roll as bought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Roll {
    /// Across the roll.
    pub width: Length,
    /// Along the roll.
    pub length: Length,
}

/// A piece cut from a roll for one strip; a strip longer than what is left has several, lapped
/// end to end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PieceOfRoll {
    /// Number of the strip, from 1.
    pub strip: usize,
    /// Number of the roll, from 1.
    pub roll: usize,
    /// Distance from the start of the strip.
    pub at: Length,
    /// Length cut.
    pub length: Length,
}

/// Pieces by roll, in ticks.
#[derive(Clone, Debug, Default)]
pub(super) struct Unrolled {
    /// Strip index, roll index, start in the strip, length.
    pub pieces: Vec<(usize, usize, Ticks, Ticks)>,
    /// What is left of every roll.
    pub left: Vec<Ticks>,
}

impl Unrolled {
    pub fn rolls(&self) -> usize {
        self.left.len()
    }

    /// End laps: pieces beyond the first of each strip.
    pub fn end_laps(&self, strips: usize) -> usize {
        self.pieces.len().saturating_sub(strips)
    }

    /// Total length cut.
    pub fn cut(&self) -> Ticks {
        self.pieces.iter().map(|p| p.3).sum()
    }

    pub fn public(&self) -> Vec<PieceOfRoll> {
        self.pieces
            .iter()
            .map(|&(strip, roll, at, length)| PieceOfRoll {
                strip: strip + 1,
                roll: roll + 1,
                at: grid::length(at),
                length: grid::length(length),
            })
            .collect()
    }
}

/// Cuts strips of the given lengths from rolls of `roll`; strips longer than a roll are pieced
/// with an end lap. `piece_to_save` allows piecing others where it saves a whole roll.
pub(super) fn unroll(strips: &[Ticks], roll: Ticks, lap: Ticks, piece_to_save: bool) -> Unrolled {
    let whole = whole_strips(strips, roll, lap);
    if piece_to_save {
        let pieced = one_after_another(strips, roll, lap);
        if pieced.rolls() < whole.rolls() {
            return pieced;
        }
    }
    whole
}

/// Least number of rolls with no strip pieced that fits a roll.
fn whole_strips(strips: &[Ticks], roll: Ticks, lap: Ticks) -> Unrolled {
    let mut parts: Vec<(usize, Ticks, Ticks)> = Vec::new();
    for (index, &length) in strips.iter().enumerate() {
        let mut at = 0;
        while length - at > roll {
            parts.push((index, at, roll));
            at += roll - lap;
        }
        parts.push((index, at, length - at));
    }
    let mut sizes: Vec<Ticks> = parts.iter().map(|p| p.2).collect();
    sizes.sort_unstable_by(|a, b| b.cmp(a));
    sizes.dedup();
    let mut waiting: Vec<Vec<(usize, Ticks, Ticks)>> =
        sizes.iter().map(|&s| parts.iter().filter(|p| p.2 == s).rev().copied().collect()).collect();
    let demand: Vec<u32> = waiting.iter().map(|w| w.len() as u32).collect();
    let mut unrolled = Unrolled::default();
    for pattern in bars::solve(roll, &sizes, &demand).patterns {
        for _ in 0..pattern.bars {
            let index = unrolled.left.len();
            let mut left = roll;
            for (kind, &count) in pattern.counts.iter().enumerate() {
                for _ in 0..count {
                    if let Some((strip, at, length)) = waiting[kind].pop() {
                        unrolled.pieces.push((strip, index, at, length));
                        left -= length;
                    }
                }
            }
            unrolled.left.push(left);
        }
    }
    unrolled.pieces.sort_by_key(|p| (p.0, p.2));
    unrolled
}

/// Unrolls without regard to whole strips: a roll that runs out is lapped onto by the next.
fn one_after_another(strips: &[Ticks], roll: Ticks, lap: Ticks) -> Unrolled {
    let mut unrolled = Unrolled { pieces: Vec::new(), left: vec![roll] };
    for (index, &length) in strips.iter().enumerate() {
        let mut at = 0;
        while at < length {
            let current = unrolled.left.len() - 1;
            let left = unrolled.left[current];
            if left >= length - at {
                unrolled.pieces.push((index, current, at, length - at));
                unrolled.left[current] -= length - at;
                break;
            }
            // A piece must reach well past its lap to be worth laying.
            if left > 3 * lap.max(1) {
                unrolled.pieces.push((index, current, at, left));
                unrolled.left[current] = 0;
                at += left - lap;
            }
            unrolled.left.push(roll);
        }
    }
    unrolled
}
