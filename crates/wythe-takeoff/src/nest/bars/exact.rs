//! Exact search for few pieces: a plan of exactly as many bars as the bound, if there is one.

use super::BarPattern;

/// Steps the search may take.
const STEPS: usize = 300_000;

/// Depth-first search for a plan of exactly the bound, bar by bar: each bar starts with the longest
/// piece left, and the total waste may not exceed what the bound allows.
pub(super) struct Exact<'a> {
    capacity: i64,
    sizes: &'a [i64],
    order: Vec<usize>,
    left: Vec<u32>,
    bars: Vec<Vec<u32>>,
    target: usize,
    waste: i64,
    steps: usize,
}

impl<'a> Exact<'a> {
    pub fn new(capacity: i64, sizes: &'a [i64], demand: &[u32], target: usize) -> Self {
        let mut order: Vec<usize> = (0..sizes.len()).collect();
        order.sort_by_key(|&i| (-sizes[i], i));
        let total: i64 = sizes.iter().zip(demand).map(|(&s, &d)| s * i64::from(d)).sum();
        Self {
            capacity,
            sizes,
            order,
            left: demand.to_vec(),
            bars: Vec::new(),
            target,
            waste: capacity * target as i64 - total,
            steps: STEPS,
        }
    }

    /// The bars filled.
    pub fn patterns(self) -> Vec<BarPattern> {
        self.bars.into_iter().map(|counts| BarPattern { counts, bars: 1 }).collect()
    }

    /// True once every piece is in a bar.
    pub fn fill_bars(&mut self, depth: usize) -> bool {
        let Some(longest) = self.order.iter().position(|&i| self.left[i] > 0) else {
            return true;
        };
        if depth == self.target {
            return false;
        }
        let i = self.order[longest];
        self.left[i] -= 1;
        let mut counts = vec![0; self.sizes.len()];
        counts[i] = 1;
        let done = self.fill_rest(depth, longest, self.capacity - self.sizes[i], &mut counts);
        if !done {
            self.left[i] += 1;
        }
        done
    }

    fn fill_rest(&mut self, depth: usize, from: usize, room: i64, counts: &mut [u32]) -> bool {
        if self.steps == 0 {
            return false;
        }
        self.steps -= 1;
        for at in from..self.order.len() {
            let i = self.order[at];
            if self.left[i] == 0 || self.sizes[i] > room {
                continue;
            }
            self.left[i] -= 1;
            counts[i] += 1;
            if self.fill_rest(depth, at, room - self.sizes[i], counts) {
                return true;
            }
            counts[i] -= 1;
            self.left[i] += 1;
        }
        let fits_more = self.order.iter().any(|&i| self.left[i] > 0 && self.sizes[i] <= room);
        if fits_more || room > self.waste {
            return false;
        }
        self.waste -= room;
        self.bars.push(counts.to_vec());
        if self.fill_bars(depth + 1) {
            return true;
        }
        self.bars.pop();
        self.waste += room;
        false
    }
}
