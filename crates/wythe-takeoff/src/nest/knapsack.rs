//! The bounded knapsack that prices one-dimensional patterns: exact by dynamic programming where the
//! lengths share a coarse common measure, else by branch and bound with a stated ceiling.

/// The best fill found and a value no fill exceeds.
pub(super) struct Fill {
    pub counts: Vec<u32>,
    pub ceiling: f64,
}

/// Largest capacity, in common measures, solved by dynamic programming.
const TABLE_CAPACITY: i64 = 20_000;
/// Nodes the branch and bound may visit before it reports its ceiling instead of an optimum.
const NODES: usize = 200_000;

/// Most valuable choice of at most `most[i]` pieces of `sizes[i]` within `capacity`.
pub(super) fn fill(capacity: i64, sizes: &[i64], most: &[u32], values: &[f64]) -> Fill {
    let measure = sizes.iter().copied().fold(0, common_measure);
    if measure > 0 && capacity / measure <= TABLE_CAPACITY {
        let small: Vec<i64> = sizes.iter().map(|s| s / measure).collect();
        by_table(capacity / measure, &small, most, values)
    } else {
        by_branching(capacity, sizes, most, values)
    }
}

fn common_measure(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common_measure(b, a % b) }
}

/// Binary splitting turns each bounded piece into a few yes-or-no lots.
fn by_table(capacity: i64, sizes: &[i64], most: &[u32], values: &[f64]) -> Fill {
    let cells = capacity as usize + 1;
    let mut lots: Vec<(usize, u32)> = Vec::new();
    for (i, &size) in sizes.iter().enumerate() {
        if values[i] <= 0.0 {
            continue;
        }
        let mut left = i64::from(most[i]).min(capacity / size) as u32;
        let mut lot = 1;
        while left > 0 {
            let take = lot.min(left);
            lots.push((i, take));
            left -= take;
            lot *= 2;
        }
    }
    let mut best = vec![0.0_f64; cells];
    let mut taken = vec![false; cells * lots.len()];
    for (lot, &(i, count)) in lots.iter().enumerate() {
        let weight = (sizes[i] * i64::from(count)) as usize;
        let worth = values[i] * f64::from(count);
        let row = &mut taken[lot * cells..(lot + 1) * cells];
        for at in (weight..cells).rev() {
            let with = best[at - weight] + worth;
            if with > best[at] {
                best[at] = with;
                row[at] = true;
            }
        }
    }
    let mut counts = vec![0; sizes.len()];
    let mut at = cells - 1;
    for (lot, &(i, count)) in lots.iter().enumerate().rev() {
        if taken[lot * cells + at] {
            counts[i] += count;
            at -= (sizes[i] * i64::from(count)) as usize;
        }
    }
    Fill { counts, ceiling: best[cells - 1] }
}

fn by_branching(capacity: i64, sizes: &[i64], most: &[u32], values: &[f64]) -> Fill {
    let mut order: Vec<usize> =
        (0..sizes.len()).filter(|&i| values[i] > 0.0 && most[i] > 0 && sizes[i] <= capacity).collect();
    order.sort_by(|&a, &b| {
        let (da, db) = (values[a] / sizes[a] as f64, values[b] / sizes[b] as f64);
        db.total_cmp(&da).then(a.cmp(&b))
    });
    let mut search = Branching {
        order: &order,
        sizes,
        most,
        values,
        counts: vec![0; sizes.len()],
        best_counts: vec![0; sizes.len()],
        best: 0.0,
        nodes: NODES,
    };
    search.descend(0, capacity, 0.0);
    let ceiling = if search.nodes > 0 { search.best } else { fractional(&order, capacity, sizes, most, values) };
    Fill { counts: search.best_counts, ceiling }
}

/// The value when the last piece may be cut through: never less than any whole fill.
fn fractional(order: &[usize], room: i64, sizes: &[i64], most: &[u32], values: &[f64]) -> f64 {
    let mut room = room as f64;
    let mut total = 0.0;
    for &i in order {
        let take = (room / sizes[i] as f64).min(f64::from(most[i]));
        total += take * values[i];
        room -= take * sizes[i] as f64;
        if room <= 0.0 {
            break;
        }
    }
    total
}

struct Branching<'a> {
    order: &'a [usize],
    sizes: &'a [i64],
    most: &'a [u32],
    values: &'a [f64],
    counts: Vec<u32>,
    best_counts: Vec<u32>,
    best: f64,
    nodes: usize,
}

impl Branching<'_> {
    fn descend(&mut self, depth: usize, room: i64, worth: f64) {
        if worth > self.best {
            self.best = worth;
            self.best_counts.clone_from(&self.counts);
        }
        if self.nodes == 0 || depth == self.order.len() {
            return;
        }
        self.nodes -= 1;
        let rest = &self.order[depth..];
        let above = worth + fractional(rest, room, self.sizes, self.most, self.values);
        if above <= self.best + 1e-12 {
            return;
        }
        let i = self.order[depth];
        let take = (room / self.sizes[i]).min(i64::from(self.most[i])) as u32;
        for count in (0..=take).rev() {
            self.counts[i] = count;
            self.descend(depth + 1, room - self.sizes[i] * i64::from(count), worth + self.values[i] * f64::from(count));
        }
        self.counts[i] = 0;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every fill, one by one.
    fn exhaustive(capacity: i64, sizes: &[i64], most: &[u32], values: &[f64]) -> f64 {
        let Some((&size, rest)) = sizes.split_first() else {
            return 0.0;
        };
        (0..=most[0])
            .take_while(|&n| size * i64::from(n) <= capacity)
            .map(|n| {
                values[0] * f64::from(n) + exhaustive(capacity - size * i64::from(n), rest, &most[1..], &values[1..])
            })
            .fold(0.0, f64::max)
    }

    proptest::proptest! {
        #[test]
        fn both_methods_agree_with_exhaustive_search(
            pieces in proptest::collection::vec((1_i64..40, 0_u32..4, 0.0_f64..1.0), 1..6),
            capacity in 1_i64..100,
        ) {
            let sizes: Vec<i64> = pieces.iter().map(|p| p.0).collect();
            let most: Vec<u32> = pieces.iter().map(|p| p.1).collect();
            let values: Vec<f64> = pieces.iter().map(|p| p.2).collect();
            let best = exhaustive(capacity, &sizes, &most, &values);
            for found in [by_table(capacity, &sizes, &most, &values), by_branching(capacity, &sizes, &most, &values)] {
                let worth: f64 = found.counts.iter().zip(&values).map(|(&n, v)| f64::from(n) * v).sum();
                proptest::prop_assert!((worth - best).abs() < 1e-9);
                proptest::prop_assert!((found.ceiling - best).abs() < 1e-9);
                let used: i64 = found.counts.iter().zip(&sizes).map(|(&n, s)| i64::from(n) * s).sum();
                proptest::prop_assert!(used <= capacity);
            }
        }
    }
}
