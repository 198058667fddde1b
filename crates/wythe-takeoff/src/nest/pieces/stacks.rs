//! Pieces that are not turned, cut from long stock: pieces of like width stand side by side across it, the stacks one
//! after another along it. For strips cut from rolls.

use std::collections::BTreeMap;

use super::Kind;
use crate::grid::Ticks;
use crate::nest::bars;
use crate::nest::guillotine::Rect;
use crate::nest::list::{Packed, Placed};
use crate::nest::master;

/// Pieces beyond which stacks are not tried.
const MOST_PIECES: usize = 20_000;

/// A piece: its demand, its length and its width.
type Piece = (usize, Ticks, Ticks);

/// A plan, and a bound, which is nought where pieces of different widths might share a stack.
pub(super) fn plan(full: (Ticks, Ticks), kinds: &[Kind]) -> Option<(Packed, usize)> {
    let total: usize = kinds.iter().map(|k| k.count as usize).sum();
    if total > MOST_PIECES {
        return None;
    }
    let mut by_count: BTreeMap<Ticks, Vec<Piece>> = BTreeMap::new();
    for k in kinds {
        let here = by_count.entry(full.1 / k.width).or_default();
        here.extend(std::iter::repeat_n((k.demand, k.length, k.width), k.count as usize));
    }
    let bound = bound(full, &by_count);
    // The longest together, so that little is left beside the shorter ones.
    let mut stacks: BTreeMap<Ticks, Vec<Vec<Piece>>> = BTreeMap::new();
    for (count, mut pieces) in by_count {
        pieces.sort_by_key(|p| (std::cmp::Reverse(p.1), p.0));
        for stack in pieces.chunks(usize::try_from(count).ok()?.max(1)) {
            stacks.entry(stack.first()?.1).or_default().push(stack.to_vec());
        }
    }
    let sizes: Vec<Ticks> = stacks.keys().copied().collect();
    let demand: Vec<u32> = stacks.values().map(|s| s.len() as u32).collect();
    let bars = bars::solve(full.0, &sizes, &demand);
    let mut packed = Packed::default();
    for counts in bars.patterns.iter().flat_map(|p| std::iter::repeat_n(&p.counts, p.bars as usize)) {
        let mut sheet: (Vec<Placed>, Vec<Rect>) = Default::default();
        let mut x = 0;
        for (size, &count) in sizes.iter().zip(counts) {
            for _ in 0..count {
                let Some(stack) = stacks.get_mut(size).and_then(Vec::pop) else { continue };
                place(&stack, (x, *size), full.1, &mut sheet);
                x += size;
            }
        }
        sheet.1.push(Rect { x, y: 0, along: full.0 - x, across: full.1 });
        packed.sheets.push(sheet);
    }
    Some((packed, bound))
}

fn place(stack: &[Piece], (x, long): (Ticks, Ticks), across: Ticks, sheet: &mut (Vec<Placed>, Vec<Rect>)) {
    let mut y = 0;
    for &(demand, length, width) in stack {
        sheet.0.push(Placed { demand, rect: Rect { x, y, along: length, across: width }, turned: false });
        sheet.1.push(Rect { x: x + length, y, along: long - length, across: width });
        y += width;
    }
    sheet.1.push(Rect { x, y, along: long, across: across - y });
}

/// The lengths together, each by the share of the width that its stack leaves to it: right where pieces that stand
/// alone leave no room for any other, and all others stand in equal numbers.
fn bound(full: (Ticks, Ticks), by_count: &BTreeMap<Ticks, Vec<Piece>>) -> usize {
    let narrowest = |pieces: &[Piece]| pieces.iter().map(|p| p.2).min().unwrap_or(full.1);
    let apart = match by_count.iter().collect::<Vec<_>>().as_slice() {
        [_] => true,
        [(1, alone), (_, others)] => narrowest(alone) + narrowest(others) > full.1,
        _ => false,
    };
    if !apart {
        return 0;
    }
    let shares = by_count.iter().map(|(count, p)| p.iter().map(|p| p.1 as f64).sum::<f64>() / *count as f64);
    master::whole_sheets(shares.sum::<f64>() / full.0 as f64)
}
