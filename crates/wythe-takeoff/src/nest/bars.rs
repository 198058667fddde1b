//! One-dimensional cutting: lengths from bars of one length, whole numbers only.
//! Column generation gives the bound; diving, packing and a small exact search give the plan.

mod exact;

use self::exact::Exact;
use super::knapsack;
use super::master::{self, Column, Priced};

/// How often one pattern is cut: pieces of each size per bar, and the number of such bars.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct BarPattern {
    pub counts: Vec<u32>,
    pub bars: u32,
}

/// A plan for bars with the proven least number of them.
#[derive(Clone, Debug)]
pub(crate) struct BarPlan {
    pub patterns: Vec<BarPattern>,
    pub bars: usize,
    pub bound: usize,
}

/// Distinct sizes beyond which the linear program is left out and the sum bound stands.
const MOST_SIZES: usize = 160;
/// Pieces beyond which the exact search is not tried.
const MOST_EXACT: u32 = 150;

/// Fewest bars of `capacity` for `demand[i]` pieces of `sizes[i]`.
/// Every size must be within `1..=capacity` (callers sort out what does not fit).
pub(crate) fn solve(capacity: i64, sizes: &[i64], demand: &[u32]) -> BarPlan {
    let mut best = packed(capacity, sizes, demand);
    let mut bound = sum_bound(capacity, sizes, demand);
    if count(&best) > bound && sizes.len() <= MOST_SIZES {
        dive(capacity, sizes, demand, &mut best, &mut bound);
    }
    let pieces: u32 = demand.iter().sum();
    if count(&best) > bound && pieces <= MOST_EXACT {
        let mut search = Exact::new(capacity, sizes, demand, bound);
        if search.fill_bars(0) {
            best = search.patterns();
        }
    }
    let mut patterns = merged(best);
    patterns.sort_by(|a, b| b.counts.cmp(&a.counts));
    BarPlan { bars: count(&patterns), bound, patterns }
}

fn count(patterns: &[BarPattern]) -> usize {
    patterns.iter().map(|p| p.bars as usize).sum()
}

/// The sum of lengths over the bar's, or the number of pieces no two of which share a bar.
fn sum_bound(capacity: i64, sizes: &[i64], demand: &[u32]) -> usize {
    let total: i128 = sizes.iter().zip(demand).map(|(&s, &d)| i128::from(s) * i128::from(d)).sum();
    let by_sum = (total + i128::from(capacity) - 1) / i128::from(capacity);
    let alone: usize = sizes.iter().zip(demand).filter(|(s, _)| **s * 2 > capacity).map(|(_, d)| *d as usize).sum();
    alone.max(by_sum as usize)
}

/// Best-fit decreasing: every piece, longest first, into the fullest bar that takes it.
fn packed(capacity: i64, sizes: &[i64], demand: &[u32]) -> Vec<BarPattern> {
    use std::collections::BTreeSet;
    let mut order: Vec<usize> = (0..sizes.len()).collect();
    order.sort_by_key(|&i| (-sizes[i], i));
    let mut room: BTreeSet<(i64, usize)> = BTreeSet::new();
    let mut bars: Vec<Vec<(usize, u32)>> = Vec::new();
    for i in order {
        for _ in 0..demand[i] {
            let spot = room.range((sizes[i], 0)..).next().copied();
            let (left, bar) = match spot {
                Some(found) => {
                    room.remove(&found);
                    found
                }
                None => {
                    bars.push(Vec::new());
                    (capacity, bars.len() - 1)
                }
            };
            match bars[bar].last_mut() {
                Some((last, n)) if *last == i => *n += 1,
                _ => bars[bar].push((i, 1)),
            }
            room.insert((left - sizes[i], bar));
        }
    }
    let mut grouped: std::collections::BTreeMap<Vec<(usize, u32)>, u32> = Default::default();
    for bar in bars {
        *grouped.entry(bar).or_default() += 1;
    }
    grouped
        .into_iter()
        .map(|(parts, bars)| {
            let mut counts = vec![0; sizes.len()];
            for (i, n) in parts {
                counts[i] += n;
            }
            BarPattern { counts, bars }
        })
        .collect()
}

/// Rounds the relaxation down, keeps what is whole, and solves again for the rest; after every
/// step the rest is also packed outright, and the best total seen is kept.
fn dive(capacity: i64, sizes: &[i64], demand: &[u32], best: &mut Vec<BarPattern>, bound: &mut usize) {
    let mut left = demand.to_vec();
    let mut fixed: Vec<BarPattern> = Vec::new();
    let mut known: Vec<Column<()>> = Vec::new();
    let mut first = true;
    while left.iter().any(|&d| d > 0) {
        let rows: Vec<usize> = (0..sizes.len()).filter(|&i| left[i] > 0).collect();
        let row_sizes: Vec<i64> = rows.iter().map(|&i| sizes[i]).collect();
        let row_demand: Vec<u32> = rows.iter().map(|&i| left[i]).collect();
        let needed: Vec<f64> = row_demand.iter().map(|&d| f64::from(d)).collect();
        let start = starting_columns(capacity, &rows, &row_sizes, &row_demand, &known);
        let relaxed = master::relax(&needed, start, 400, |values| {
            let fill = knapsack::fill(capacity, &row_sizes, &row_demand, values);
            Some(Priced {
                column: Column { yields: fill.counts.iter().map(|&n| f64::from(n)).collect(), record: () },
                ceiling: fill.ceiling,
            })
        });
        let Some(relaxed) = relaxed else { return };
        if first {
            *bound = (*bound).max(master::whole_sheets(relaxed.bound));
            first = false;
        }
        known = relaxed
            .columns
            .iter()
            .map(|c| Column { yields: spread(&rows, &c.yields, sizes.len()), record: () })
            .collect();
        let before = fixed.len();
        for (column, &amount) in known.iter().zip(&relaxed.amounts) {
            let whole = (amount + master::EPSILON).floor() as u32;
            if whole > 0 {
                fix(&column.yields, whole, &mut left, &mut fixed);
            }
        }
        if fixed.len() == before {
            let largest = relaxed.amounts.iter().enumerate().max_by(|a, b| a.1.total_cmp(b.1).then(b.0.cmp(&a.0)));
            let Some((at, _)) = largest else { return };
            if !fix(&known[at].yields, 1, &mut left, &mut fixed) {
                return;
            }
        }
        let mut candidate = fixed.clone();
        candidate.extend(packed(capacity, sizes, &left));
        if count(&candidate) < count(best) {
            *best = candidate;
        }
        if count(best) <= *bound {
            return;
        }
    }
}

/// Cuts `times` bars by a column, never more pieces than are still wanted.
fn fix(yields: &[f64], times: u32, left: &mut [u32], fixed: &mut Vec<BarPattern>) -> bool {
    let mut cut_any = false;
    for _ in 0..times {
        let counts: Vec<u32> = yields.iter().zip(left.iter()).map(|(&y, &l)| (y.round() as u32).min(l)).collect();
        if counts.iter().all(|&n| n == 0) {
            break;
        }
        for (l, n) in left.iter_mut().zip(&counts) {
            *l -= n;
        }
        match fixed.last_mut() {
            Some(last) if last.counts == counts => last.bars += 1,
            _ => fixed.push(BarPattern { counts, bars: 1 }),
        }
        cut_any = true;
    }
    cut_any
}

fn spread(rows: &[usize], yields: &[f64], len: usize) -> Vec<f64> {
    let mut all = vec![0.0; len];
    for (&row, &y) in rows.iter().zip(yields) {
        all[row] = y;
    }
    all
}

/// One pattern for each size by itself, and earlier columns cut down to what is still wanted.
fn starting_columns(
    capacity: i64,
    rows: &[usize],
    sizes: &[i64],
    demand: &[u32],
    known: &[Column<()>],
) -> Vec<Column<()>> {
    let mut start: Vec<Column<()>> = Vec::new();
    for (i, &size) in sizes.iter().enumerate() {
        let mut yields = vec![0.0; sizes.len()];
        yields[i] = (capacity / size).min(i64::from(demand[i])) as f64;
        start.push(Column { yields, record: () });
    }
    for column in known {
        let yields: Vec<f64> = rows.iter().zip(demand).map(|(&row, &d)| column.yields[row].min(f64::from(d))).collect();
        if yields.iter().any(|&y| y > 0.0) {
            start.push(Column { yields, record: () });
        }
    }
    start
}

fn merged(patterns: Vec<BarPattern>) -> Vec<BarPattern> {
    let mut grouped: std::collections::BTreeMap<Vec<u32>, u32> = Default::default();
    for p in patterns {
        *grouped.entry(p.counts).or_default() += p.bars;
    }
    grouped.into_iter().map(|(counts, bars)| BarPattern { counts, bars }).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn solved(capacity: i64, pieces: &[(i64, u32)]) -> BarPlan {
        let sizes: Vec<i64> = pieces.iter().map(|p| p.0).collect();
        let demand: Vec<u32> = pieces.iter().map(|p| p.1).collect();
        let plan = solve(capacity, &sizes, &demand);
        let mut made = vec![0; sizes.len()];
        for p in &plan.patterns {
            let used: i64 = p.counts.iter().zip(&sizes).map(|(&n, s)| i64::from(n) * s).sum();
            assert!(used <= capacity);
            for (m, n) in made.iter_mut().zip(&p.counts) {
                *m += n * p.bars;
            }
        }
        assert_eq!(made, demand);
        plan
    }

    /// Chvátal, Linear Programming (1983), chapter 13: optimum 453 (relaxation 452.25).
    #[test]
    fn chvatal_1983() {
        let plan = solved(100, &[(45, 97), (36, 610), (31, 395), (14, 211)]);
        assert_eq!((plan.bars, plan.bound), (453, 453));
    }

    /// Fourer, Gay and Kernighan, AMPL (2003), section 15.6: optimum 47 (relaxation 46.25).
    #[test]
    fn paper_mill_110() {
        let plan = solved(110, &[(20, 48), (45, 35), (50, 24), (55, 10), (75, 8)]);
        assert_eq!((plan.bars, plan.bound), (47, 47));
    }

    /// The thirteen widths of the encyclopedia example of the cutting-stock problem: optimum 73.
    #[test]
    fn thirteen_widths_5600() {
        let plan = solved(
            5600,
            &[
                (1380, 22),
                (1520, 25),
                (1560, 12),
                (1710, 14),
                (1820, 18),
                (1880, 18),
                (1930, 20),
                (2000, 10),
                (2050, 12),
                (2100, 14),
                (2140, 16),
                (2150, 18),
                (2200, 20),
            ],
        );
        assert_eq!((plan.bars, plan.bound), (73, 73));
    }

    /// Falkenauer (1996) u120_00 as in the OR-Library (binpack1): optimum 48.
    #[test]
    fn falkenauer_u120_00() {
        let items = [
            42, 69, 67, 57, 93, 90, 38, 36, 45, 42, 33, 79, 27, 57, 44, 84, 86, 92, 46, 38, 85, 33, 82, 73, 49, 70, 59,
            23, 57, 72, 74, 69, 33, 42, 28, 46, 30, 64, 29, 74, 41, 49, 55, 98, 80, 32, 25, 38, 82, 30, 35, 39, 57, 84,
            62, 50, 55, 27, 30, 36, 20, 78, 47, 26, 45, 41, 58, 98, 91, 96, 73, 84, 37, 93, 91, 43, 73, 85, 81, 79, 71,
            80, 76, 83, 41, 78, 70, 23, 42, 87, 43, 84, 60, 55, 49, 78, 73, 62, 36, 44, 94, 69, 32, 96, 70, 84, 58, 78,
            25, 80, 58, 66, 83, 24, 98, 60, 42, 43, 43, 39,
        ];
        let pieces: Vec<(i64, u32)> = items.iter().map(|&s| (s, 1)).collect();
        let plan = solved(150, &pieces);
        assert_eq!((plan.bars, plan.bound), (48, 48));
    }

    #[test]
    fn ten_thousand_pieces_of_many_lengths() {
        let pieces: Vec<(i64, u32)> = (0..10_000).map(|i| (200 + (i * 7919) % 5000, 1)).collect();
        let plan = solved(9600, &pieces);
        assert!(plan.bars >= plan.bound);
        assert!((plan.bars - plan.bound) * 100 <= plan.bound);
    }
}
