//! Percentiles of sampled outcomes, and the inputs ranked by how strongly an outcome follows them.

use uom::si::f64::Ratio;

use crate::admit;
use crate::error::{PhysicsError, Result};
use crate::quantity::ratio;

/// One number that a run gives, in a unit to display it in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Outcome {
    /// Name of the outcome.
    pub name: &'static str,
    /// Unit of `value`; empty for a number without one.
    pub unit: &'static str,
    /// The number.
    pub value: f64,
}

/// How strongly an outcome follows an input.
#[derive(Debug, Clone, PartialEq)]
pub struct Influence {
    /// Name of the input.
    pub name: String,
    /// Spearman's rank correlation, −1 to 1; none where the outcome does not vary.
    pub correlation: Option<Ratio>,
}

/// An outcome over all samples.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// Name of the outcome.
    pub name: &'static str,
    /// Unit of the numbers.
    pub unit: &'static str,
    /// Lowest.
    pub lowest: f64,
    /// 5th percentile.
    pub p05: f64,
    /// 25th percentile.
    pub p25: f64,
    /// Median.
    pub p50: f64,
    /// 75th percentile.
    pub p75: f64,
    /// 95th percentile.
    pub p95: f64,
    /// Highest.
    pub highest: f64,
    /// Mean.
    pub mean: f64,
    /// Inputs, the most influential first.
    pub influences: Vec<Influence>,
}

/// A percentile of sorted values, on a straight line between neighbors.
fn percentile(sorted: &[f64], share: f64) -> f64 {
    let x = share * (sorted.len() - 1) as f64;
    let n = (x as usize).min(sorted.len().saturating_sub(2));
    let (a, b) = (sorted[n], sorted[(n + 1).min(sorted.len() - 1)]);
    a + (x - n as f64) * (b - a)
}

/// Ranks from 0, equal values sharing their mean rank.
fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_by(|&a, &b| values[a].total_cmp(&values[b]));
    let mut out = vec![0.0; values.len()];
    let mut first = 0.0;
    for tied in order.chunk_by(|&a, &b| values[a].total_cmp(&values[b]).is_eq()) {
        for &n in tied {
            out[n] = first + 0.5 * (tied.len() - 1) as f64;
        }
        first += tied.len() as f64;
    }
    out
}

/// Correlation of two lists; none where one of them does not vary.
fn correlation(a: &[f64], b: &[f64]) -> Option<f64> {
    let count = a.len() as f64;
    let mean = |v: &[f64]| v.iter().sum::<f64>() / count;
    let (ma, mb) = (mean(a), mean(b));
    let (mut ab, mut aa, mut bb) = (0.0, 0.0, 0.0);
    for (x, y) in a.iter().zip(b) {
        ab += (x - ma) * (y - mb);
        aa += (x - ma) * (x - ma);
        bb += (y - mb) * (y - mb);
    }
    (aa > 0.0 && bb > 0.0).then(|| (ab / (aa * bb).sqrt()).clamp(-1.0, 1.0))
}

/// Summarizes runs whose inputs stood at `positions` (by parameter, then by run).
pub(crate) fn summarize(names: &[&str], positions: &[Vec<f64>], runs: &[Vec<Outcome>]) -> Result<Vec<Spread>> {
    let Some(first) = runs.first() else {
        return Err(PhysicsError::Empty { what: "list of samples".into() });
    };
    let position_ranks: Vec<Vec<f64>> = positions.iter().map(|p| ranks(p)).collect();
    first
        .iter()
        .enumerate()
        .map(|(index, outcome)| {
            let mut values = Vec::with_capacity(runs.len());
            for run in runs {
                match run.get(index) {
                    Some(o) if o.name == outcome.name => {
                        values.push(admit::finite(outcome.name, o.value)?);
                    }
                    _ => {
                        return Err(PhysicsError::Contradiction {
                            what: "outcomes of the samples".into(),
                            why: "differ in name or number".into(),
                        });
                    }
                }
            }
            let value_ranks = ranks(&values);
            let mut influences: Vec<Influence> = names
                .iter()
                .zip(&position_ranks)
                .map(|(name, ranks)| Influence {
                    name: (*name).to_string(),
                    correlation: correlation(ranks, &value_ranks).map(ratio),
                })
                .collect();
            let strength = |i: &Influence| i.correlation.map_or(-1.0, |c| c.value.abs());
            // A stable sort keeps the given order among equals.
            influences.sort_by(|a, b| strength(b).total_cmp(&strength(a)));
            let mean = values.iter().sum::<f64>() / values.len() as f64;
            values.sort_by(f64::total_cmp);
            Ok(Spread {
                name: outcome.name,
                unit: outcome.unit,
                lowest: values[0],
                p05: percentile(&values, 0.05),
                p25: percentile(&values, 0.25),
                p50: percentile(&values, 0.50),
                p75: percentile(&values, 0.75),
                p95: percentile(&values, 0.95),
                highest: values[values.len() - 1],
                mean,
                influences,
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percentiles_of_a_hundred_and_one() {
        let values: Vec<f64> = (0..=100).map(f64::from).collect();
        for p in [0.0, 0.05, 0.5, 0.95, 1.0] {
            assert!((percentile(&values, p) - 100.0 * p).abs() < 1e-9);
        }
        assert!((percentile(&[3.0], 0.5) - 3.0).abs() < 1e-12);
    }

    // Textbook ties: 10, 20, 20, 30 rank 0, 1.5, 1.5, 3.
    #[test]
    fn ties_share_their_rank() {
        let got = ranks(&[20.0, 10.0, 30.0, 20.0]);
        let want = [1.5, 0.0, 3.0, 1.5];
        assert!(got.iter().zip(want).all(|(g, w)| (g - w).abs() < 1e-12), "{got:?}");
    }

    #[test]
    fn correlation_of_opposites_and_of_nothing() {
        assert!((correlation(&[1.0, 2.0, 3.0], &[3.0, 2.0, 1.0]).unwrap() + 1.0).abs() < 1e-12);
        assert_eq!(correlation(&[1.0, 2.0], &[5.0, 5.0]), None);
    }
}
