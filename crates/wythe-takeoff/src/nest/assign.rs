//! Lays strips of one height along wall runs: where each piece is cut and where each joint falls.

use crate::grid::Ticks;
use std::collections::BTreeSet;

/// A stretch of wall to be covered.
#[derive(Clone, Debug)]
pub(super) struct Stretch {
    /// Index of the caller's run.
    pub run: usize,
    pub length: Ticks,
    /// Places no joint may come near, ascending.
    pub lines: Vec<Ticks>,
}

/// A strip cut from a sheet at the height wanted, its length with one kerf.
#[derive(Clone, Copy, Debug)]
pub(super) struct Strip {
    pub id: usize,
    pub length: Ticks,
}

/// A piece taken from a strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Take {
    pub strip: usize,
    /// Start within the strip.
    pub start: Ticks,
    /// Net length.
    pub length: Ticks,
    pub run: usize,
    /// Start along the run.
    pub at: Ticks,
}

/// Rules in ticks.
#[derive(Clone, Copy, Debug)]
pub(super) struct JointRules {
    pub kerf: Ticks,
    pub least_piece: Ticks,
    /// Least distance of a joint from a barred line.
    pub clear: Ticks,
}

/// What was cut and what stayed bare.
#[derive(Clone, Debug, Default)]
pub(super) struct Assignment {
    pub takes: Vec<Take>,
    /// Per stretch with bare wall: index of the stretch and length not covered.
    pub bare: Vec<(usize, Ticks)>,
}

impl Assignment {
    pub fn bare_length(&self) -> Ticks {
        self.bare.iter().map(|b| b.1).sum()
    }
}

/// Which strips go first.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Preference {
    /// Longest pieces: fewest joints.
    FewJoints,
    /// What is already cut: least waste.
    Offcuts,
    /// The shortest strips, so that long ones remain to finish walls with: least waste where many
    /// strips are short, and most joints.
    ShortStrips,
}

/// Different lengths of fragments looked at for one piece, from one end.
const TRIES: usize = 12;

/// Covers the stretches in order. Takes the way with fewest joints if it covers all,
/// else whichever leaves least wall bare.
pub(super) fn assign(stretches: &[Stretch], strips: &[Strip], rules: JointRules) -> Assignment {
    let mut best: Option<Assignment> = None;
    for preference in [Preference::FewJoints, Preference::Offcuts, Preference::ShortStrips] {
        let found = Pool::new(strips, rules).cover(stretches, preference);
        if best.as_ref().is_none_or(|b| found.bare_length() < b.bare_length()) {
            best = Some(found);
        }
        if best.as_ref().is_some_and(|b| b.bare.is_empty()) {
            break;
        }
    }
    best.unwrap_or_default()
}

/// The longest piece from `at`, at most `most`, whose end is an allowed joint and leaves either
/// nothing or a piece of allowed length. `None` when there is no such piece.
pub(super) fn fitting_length(stretch: &Stretch, at: Ticks, most: Ticks, rules: JointRules) -> Option<Ticks> {
    let mut end = at + most;
    loop {
        if end >= stretch.length {
            return Some(stretch.length - at);
        }
        if stretch.length - end < rules.least_piece {
            end = stretch.length - rules.least_piece;
        }
        let barred = stretch.lines.iter().rev().find(|&&line| (line - end).abs() < rules.clear);
        if let Some(&line) = barred {
            end = line - rules.clear;
        } else {
            return (end - at >= rules.least_piece.max(1)).then_some(end - at);
        }
        if end <= at {
            return None;
        }
    }
}

#[derive(Clone, Copy)]
struct Fragment {
    strip: usize,
    start: Ticks,
    length: Ticks,
}

/// What makes a piece worse, first things first: less is better.
type Score = (Ticks, Ticks, bool);

struct Pool {
    rules: JointRules,
    fragments: Vec<Fragment>,
    /// (net length, fragment) of strips not yet touched.
    whole: BTreeSet<(Ticks, usize)>,
    /// The same for what is left of touched ones.
    started: BTreeSet<(Ticks, usize)>,
}

impl Pool {
    fn new(strips: &[Strip], rules: JointRules) -> Self {
        let fragments: Vec<Fragment> =
            strips.iter().map(|s| Fragment { strip: s.id, start: 0, length: s.length }).collect();
        let whole = fragments.iter().enumerate().map(|(i, f)| (f.length - rules.kerf, i)).collect();
        Self { rules, fragments, whole, started: BTreeSet::new() }
    }

    fn cover(mut self, stretches: &[Stretch], preference: Preference) -> Assignment {
        let mut done = Assignment::default();
        for (index, stretch) in stretches.iter().enumerate() {
            let mut at = 0;
            while at < stretch.length {
                let Some((fragment, length)) = self.choose(stretch, at, preference) else {
                    done.bare.push((index, stretch.length - at));
                    break;
                };
                done.takes.push(self.take(fragment, length, stretch.run, at));
                at += length;
            }
        }
        done
    }

    /// The fragment and length of the next piece. Thrifty choices leave no unusable end; the others
    /// take the longest piece there is.
    fn choose(&self, stretch: &Stretch, at: Ticks, preference: Preference) -> Option<(usize, Ticks)> {
        let rest = stretch.length - at;
        let mut best: Option<(Score, (usize, Ticks))> = None;
        for (set, whole) in [(&self.started, false), (&self.whole, true)] {
            for (net, fragment) in self.candidates(set, rest, preference) {
                let Some(length) = fitting_length(stretch, at, net.min(rest), self.rules) else {
                    continue;
                };
                let lost = self.lost(net - length);
                let score = match preference {
                    Preference::FewJoints => (-length, lost, whole),
                    Preference::Offcuts => (lost, -length, whole),
                    Preference::ShortStrips => (lost, length, whole),
                };
                if best.is_none_or(|b| score < b.0) {
                    best = Some((score, (fragment, length)));
                }
            }
        }
        best.map(|b| b.1)
    }

    /// Of what is left of a strip after a piece, the part too short to be of any use.
    fn lost(&self, left: Ticks) -> Ticks {
        if left - self.rules.kerf >= self.rules.least_piece { 0 } else { left }
    }

    /// A few fragments of different lengths: those that just finish the rest, those that finish it
    /// and leave a usable end, and the longest (or the shortest).
    fn candidates(&self, set: &BTreeSet<(Ticks, usize)>, rest: Ticks, preference: Preference) -> Vec<(Ticks, usize)> {
        let usable = rest + self.rules.kerf + self.rules.least_piece;
        let mut found: Vec<(Ticks, usize)> =
            [rest, usable].into_iter().filter_map(|from| set.range((from, 0)..).next().copied()).collect();
        if preference == Preference::ShortStrips {
            let mut from = 0;
            for _ in 0..TRIES {
                let Some(&next) = set.range((from, 0)..).next() else {
                    break;
                };
                found.push(next);
                from = next.0 + 1;
            }
            return found;
        }
        let mut below = Ticks::MAX;
        for _ in 0..TRIES {
            let Some(&(net, _)) = set.range(..(below, 0)).next_back() else {
                break;
            };
            found.extend(set.range((net, 0)..).next());
            below = net;
        }
        found
    }

    fn take(&mut self, fragment: usize, length: Ticks, run: usize, at: Ticks) -> Take {
        let kerf = self.rules.kerf;
        let f = self.fragments[fragment];
        let key = (f.length - kerf, fragment);
        self.whole.remove(&key);
        self.started.remove(&key);
        let used = length + kerf;
        let left = Fragment { strip: f.strip, start: f.start + used, length: f.length - used };
        self.fragments[fragment] = left;
        if left.length > kerf {
            self.started.insert((left.length - kerf, fragment));
        }
        Take { strip: f.strip, start: f.start, length, run, at }
    }
}
