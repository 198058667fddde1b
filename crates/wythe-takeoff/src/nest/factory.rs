//! Runs whose joints must meet factory edge to factory edge: whole strips in the middle, and at most
//! one cut piece at each end of a wall.

use super::assign::{Assignment, JointRules, Stretch, Strip, Take};
use crate::grid::Ticks;
use std::collections::BTreeMap;

/// The pieces of one stretch, as net lengths from its start, for whole strips of `bar` net.
/// `None` when barred lines leave no way.
pub(super) fn pieces(stretch: &Stretch, bar: Ticks, rules: JointRules) -> Option<Vec<Ticks>> {
    if stretch.length <= bar {
        return Some(vec![stretch.length]);
    }
    let least = rules.least_piece.max(1);
    let rest = stretch.length % bar;
    let mut firsts = Vec::new();
    if rest == 0 {
        firsts.push(bar);
    }
    if rest >= least {
        firsts.extend([bar, rest]);
    }
    // Two cut ends: candidates put a joint just clear of a barred line, or the least piece at the end.
    firsts.extend([least, (rest - least).rem_euclid(bar)]);
    for &line in &stretch.lines {
        firsts.extend([(line - rules.clear).rem_euclid(bar), (line + rules.clear).rem_euclid(bar)]);
    }
    firsts.into_iter().find_map(|first| {
        let lengths = lay(stretch.length, first, bar);
        let mut joint = 0;
        let clear = lengths[..lengths.len() - 1].iter().all(|piece| {
            joint += piece;
            stretch.lines.iter().all(|line| (line - joint).abs() >= rules.clear)
        });
        (clear && lengths.iter().all(|&l| l >= least)).then_some(lengths)
    })
}

fn lay(length: Ticks, first: Ticks, bar: Ticks) -> Vec<Ticks> {
    let mut lengths = vec![first];
    let mut left = length - first;
    while left > bar {
        lengths.push(bar);
        left -= bar;
    }
    if left > 0 {
        lengths.push(left);
    }
    lengths
}

/// Cuts the stretches from whole strips of one length: whole pieces from whole strips, the cut
/// ends two to a strip, each from its own factory end.
pub(super) fn assign(stretches: &[Stretch], strips: &[Strip], rules: JointRules) -> Assignment {
    let mut done = Assignment::default();
    let Some(bar) = strips.first().map(|s| s.length - rules.kerf) else {
        done.bare = stretches.iter().enumerate().map(|(i, s)| (i, s.length)).collect();
        return done;
    };
    let mut free = strips.iter();
    let mut ends: BTreeMap<Ticks, Vec<(usize, Ticks)>> = BTreeMap::new();
    for (index, stretch) in stretches.iter().enumerate() {
        let Some(lengths) = pieces(stretch, bar, rules) else {
            done.bare.push((index, stretch.length));
            continue;
        };
        let mut at = 0;
        for length in lengths {
            if length < bar {
                ends.entry(length).or_default().push((index, at));
            } else if let Some(strip) = free.next() {
                done.takes.push(Take { strip: strip.id, start: 0, length, run: stretch.run, at });
            } else {
                done.bare.push((index, length));
            }
            at += length;
        }
    }
    pair_ends(stretches, bar, rules.kerf, ends, &mut free, &mut done);
    done
}

/// Longest end first, each with the longest other that still fits its strip: matching two to a
/// strip this way leaves as few strips as any.
fn pair_ends<'a>(
    stretches: &[Stretch],
    bar: Ticks,
    kerf: Ticks,
    mut ends: BTreeMap<Ticks, Vec<(usize, Ticks)>>,
    free: &mut impl Iterator<Item = &'a Strip>,
    done: &mut Assignment,
) {
    let pop = |ends: &mut BTreeMap<Ticks, Vec<(usize, Ticks)>>, most: Ticks| {
        let length = ends.range(..=most).next_back().map(|(l, _)| *l)?;
        let list = ends.get_mut(&length)?;
        let (index, at) = list.pop()?;
        if list.is_empty() {
            ends.remove(&length);
        }
        Some((length, index, at))
    };
    while let Some((length, index, at)) = pop(&mut ends, bar) {
        let Some(strip) = free.next() else {
            done.bare.push((index, length));
            continue;
        };
        let run = stretches[index].run;
        done.takes.push(Take { strip: strip.id, start: 0, length, run, at });
        if let Some((other, index, at)) = pop(&mut ends, bar - length - kerf) {
            let run = stretches[index].run;
            done.takes.push(Take { strip: strip.id, start: bar - other, length: other, run, at });
        }
    }
}

/// Whole strips that the stretches use when there are plenty.
pub(super) fn strips_needed(stretches: &[Stretch], bar: Ticks, rules: JointRules) -> usize {
    let pieces: usize = stretches.iter().filter_map(|s| pieces(s, bar, rules)).map(|lengths| lengths.len()).sum();
    let plenty: Vec<Strip> = (0..pieces).map(|id| Strip { id, length: bar + rules.kerf }).collect();
    let mut used: Vec<usize> = assign(stretches, &plenty, rules).takes.iter().map(|t| t.strip).collect();
    used.sort_unstable();
    used.dedup();
    used.len()
}
