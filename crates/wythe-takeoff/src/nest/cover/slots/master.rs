//! The linear program over patterns of slots and splits of runs (Gilmore and Gomory 1961, with the demand itself a
//! choice): fewest sheets whose slots serve one split of every run.

use std::collections::BTreeSet;

use good_lp::solvers::microlp::microlp;
use good_lp::{Expression, ProblemVariables, Solution, SolverModel, Variable, variable};

use crate::nest::cover::split::Split;

/// The program as far as it is known.
pub(super) struct Master {
    /// How many runs there are of each sort.
    pub counts: Vec<f64>,
    patterns: Vec<Vec<u32>>,
    /// By sort of run.
    splits: Vec<Vec<Split>>,
    known: BTreeSet<Vec<u32>>,
    slots: usize,
    /// A proven bound.
    pub bound: f64,
    /// The value of the program as it stands.
    pub value: f64,
    costs: Vec<f64>,
}

/// The program solved.
pub(super) struct Solved {
    /// By sort of run: splits, and how many runs are split so.
    pub splits: Vec<Vec<(Split, usize)>>,
    /// A proven lower bound on the number of sheets, not rounded up.
    pub bound: f64,
}

impl Master {
    pub fn new(counts: Vec<f64>, slots: usize) -> Self {
        Master {
            splits: vec![Vec::new(); counts.len()],
            costs: vec![f64::INFINITY; counts.len()],
            counts,
            patterns: Vec::new(),
            known: BTreeSet::new(),
            slots,
            bound: 0.0,
            value: f64::INFINITY,
        }
    }

    /// Adds a pattern; false where it is known.
    pub fn pattern(&mut self, counts: Vec<u32>) -> bool {
        let new = counts.iter().any(|n| *n > 0) && self.known.insert(counts.clone());
        if new {
            self.patterns.push(counts);
        }
        new
    }

    pub fn worth(&self, pattern: &[u32], prices: &[f64]) -> f64 {
        pattern.iter().zip(prices).map(|(&n, p)| f64::from(n) * p).sum()
    }

    /// Adds a split of a sort of run; false where it is no cheaper than what is known.
    pub fn split(&mut self, sort: usize, split: Split, cost: f64) -> bool {
        let cheaper = cost < self.costs[sort] - 1e-7;
        let new = cheaper && self.splits[sort].iter().all(|s| s.slots != split.slots);
        if new {
            self.splits[sort].push(split);
        }
        new
    }

    /// Prices of the slots: those at which the runs are worth most, while no pattern is worth more than a sheet.
    pub fn prices(&mut self) -> Option<Vec<f64>> {
        let mut vars = ProblemVariables::new();
        let prices: Vec<Variable> = (0..self.slots).map(|_| vars.add(variable().min(0.0))).collect();
        let worths: Vec<Variable> = self.counts.iter().map(|_| vars.add(variable().min(0.0))).collect();
        let objective: Expression = worths.iter().zip(&self.counts).map(|(&v, &n)| v * n).sum();
        let mut model = vars.maximise(objective).using(microlp);
        for pattern in &self.patterns {
            let used = pattern.iter().enumerate().filter(|(_, n)| **n > 0);
            let worth: Expression = used.map(|(i, &n)| prices[i] * f64::from(n)).sum();
            model.add_constraint(worth.leq(1.0));
        }
        for (sort, splits) in self.splits.iter().enumerate() {
            for split in splits {
                let cost: Expression = tally(split, self.slots).into_iter().map(|(i, n)| prices[i] * n).sum();
                model.add_constraint((Expression::from(worths[sort]) - cost).leq(0.0));
            }
        }
        let solution = model.solve().ok()?;
        let read = |v: &Variable| solution.value(*v).max(0.0);
        self.costs = worths.iter().map(read).collect();
        self.value = self.costs.iter().zip(&self.counts).map(|(c, n)| c * n).sum();
        let values: Vec<f64> = prices.iter().map(read).collect();
        values.iter().all(|v| v.is_finite()).then_some(values)
    }

    /// The splits of the program as it stands, in whole runs.
    pub fn solved(self) -> Option<Solved> {
        let mut vars = ProblemVariables::new();
        let cut: Vec<Variable> = self.patterns.iter().map(|_| vars.add(variable().min(0.0))).collect();
        let used: Vec<Vec<Variable>> =
            self.splits.iter().map(|s| s.iter().map(|_| vars.add(variable().min(0.0))).collect()).collect();
        let objective: Expression = cut.iter().map(|&v| Expression::from(v)).sum();
        let mut rows: Vec<Expression> = vec![Expression::default(); self.slots];
        for (pattern, &v) in self.patterns.iter().zip(&cut) {
            for (i, &n) in pattern.iter().enumerate().filter(|(_, n)| **n > 0) {
                rows[i] += v * f64::from(n);
            }
        }
        for (splits, vs) in self.splits.iter().zip(&used) {
            for (split, &v) in splits.iter().zip(vs) {
                for (i, n) in tally(split, self.slots) {
                    rows[i] -= v * n;
                }
            }
        }
        let mut model = vars.minimise(objective).using(microlp);
        for row in rows {
            model.add_constraint(row.geq(0.0));
        }
        for (vs, &count) in used.iter().zip(&self.counts) {
            let all: Expression = vs.iter().map(|&v| Expression::from(v)).sum();
            model.add_constraint(all.geq(count));
        }
        let solution = model.solve().ok()?;
        let splits = self.splits.into_iter().zip(&used).zip(&self.counts).map(|((splits, vs), &count)| {
            let amounts: Vec<f64> = vs.iter().map(|&v| solution.value(v).max(0.0)).collect();
            whole(splits, &amounts, count as usize)
        });
        Some(Solved { splits: splits.collect(), bound: self.bound })
    }
}

/// How many pieces of each slot a split has.
fn tally(split: &Split, slots: usize) -> Vec<(usize, f64)> {
    let mut counts = vec![0.0; slots];
    split.slots.iter().for_each(|&s| counts[s] += 1.0);
    counts.into_iter().enumerate().filter(|(_, n)| *n > 0.0).collect()
}

/// Whole numbers that add up, the greatest rests rounded up.
fn whole(splits: Vec<Split>, amounts: &[f64], count: usize) -> Vec<(Split, usize)> {
    let mut out: Vec<(Split, usize)> =
        splits.into_iter().zip(amounts).map(|(s, a)| (s, ((a + 1e-6).floor().max(0.0) as usize).min(count))).collect();
    let mut left = count.saturating_sub(out.iter().map(|o| o.1).sum());
    let mut order: Vec<usize> = (0..out.len()).collect();
    let rest = |i: &usize| amounts[*i] - amounts[*i].floor();
    order.sort_by(|a, b| rest(b).total_cmp(&rest(a)).then(a.cmp(b)));
    for &i in order.iter().cycle() {
        if left == 0 {
            break;
        }
        out[i].1 += 1;
        left -= 1;
    }
    out
}
