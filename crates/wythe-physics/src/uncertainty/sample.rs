//! Latin hypercube samples of any inputs, run in parallel with a result that does not depend on
//! the number of threads.

use rand::Rng;
use rand::SeedableRng;
use rand::seq::SliceRandom;
use rand_chacha::ChaCha8Rng;
use rayon::prelude::*;
use uom::si::f64::Ratio;
use uom::si::{Dimension, Quantity, Units};

use super::spread::{Outcome, Spread, summarize};
use crate::error::{PhysicsError, Result};
use crate::quantity::ratio;

/// Sets one input from its position in its range, 0 at the low end and 1 at the high end.
type Set<I> = Box<dyn Fn(&mut I, Ratio) + Send + Sync>;

/// An input given as a range.
pub struct Parameter<I> {
    /// Name, for the report.
    pub name: String,
    set: Set<I>,
}

impl<I> Parameter<I> {
    /// An input that `set` writes from its position in its range; use [`even`] or [`logarithmic`]
    /// inside.
    pub fn new(name: impl Into<String>, set: impl Fn(&mut I, Ratio) + Send + Sync + 'static) -> Self {
        Self { name: name.into(), set: Box::new(set) }
    }
}

/// The quantity at a position between two ends, every value as likely.
#[must_use]
pub fn even<D, U>(low: Quantity<D, U, f64>, high: Quantity<D, U, f64>, position: Ratio) -> Quantity<D, U, f64>
where
    D: Dimension + ?Sized,
    U: Units<f64> + ?Sized,
{
    Quantity { value: low.value + position.value * (high.value - low.value), ..low }
}

/// The quantity at a position between two positive ends, every doubling as likely: for leakage and
/// permeance, which range over decades. Ends that are not positive fall back to [`even`].
#[must_use]
pub fn logarithmic<D, U>(low: Quantity<D, U, f64>, high: Quantity<D, U, f64>, position: Ratio) -> Quantity<D, U, f64>
where
    D: Dimension + ?Sized,
    U: Units<f64> + ?Sized,
{
    if low.value <= 0.0 || high.value <= 0.0 {
        return even(low, high, position);
    }
    Quantity { value: low.value * (high.value / low.value).powf(position.value), ..low }
}

/// How many samples, and from which seed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SamplePlan {
    /// Number of samples, 2 to 100 000.
    pub samples: usize,
    /// Seed: the same seed gives the same result on any machine.
    pub seed: u64,
}

/// Positions of every sample, by parameter: each parameter's range is cut into as many strata as
/// there are samples, and each stratum is drawn from once.
fn hypercube(parameters: usize, plan: SamplePlan) -> Vec<Vec<f64>> {
    let mut generator = ChaCha8Rng::seed_from_u64(plan.seed);
    (0..parameters)
        .map(|_| {
            let mut strata: Vec<usize> = (0..plan.samples).collect();
            strata.shuffle(&mut generator);
            strata.into_iter().map(|k| (k as f64 + generator.random::<f64>()) / plan.samples as f64).collect()
        })
        .collect()
}

/// Runs `evaluate` over samples of the parameters and summarizes each of its outcomes. Every run
/// must give the same outcomes in the same order.
///
/// # Errors
/// No parameters, a number of samples out of range, or the error of the first sample that fails.
pub fn sample<I, F>(base: &I, parameters: &[Parameter<I>], plan: SamplePlan, evaluate: F) -> Result<Vec<Spread>>
where
    I: Clone + Sync,
    F: Fn(&I) -> Result<Vec<Outcome>> + Sync,
{
    if parameters.is_empty() {
        return Err(PhysicsError::Empty { what: "list of ranges".into() });
    }
    crate::admit::within("number of samples", plan.samples as f64, 2.0, 100_000.0, "")?;
    let positions = hypercube(parameters.len(), plan);
    let runs = (0..plan.samples)
        .into_par_iter()
        .map(|n| {
            let mut input = base.clone();
            for (parameter, positions) in parameters.iter().zip(&positions) {
                (parameter.set)(&mut input, ratio(positions[n]));
            }
            evaluate(&input)
        })
        .collect::<Vec<_>>()
        .into_iter()
        .collect::<Result<Vec<_>>>()?;
    let names: Vec<&str> = parameters.iter().map(|p| p.name.as_str()).collect();
    summarize(&names, &positions, &runs)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{conductivity_si, metre};

    #[test]
    fn every_stratum_is_drawn_once() {
        let plan = SamplePlan { samples: 50, seed: 7 };
        for positions in hypercube(3, plan) {
            let mut strata: Vec<usize> = positions.iter().map(|p| (p * 50.0) as usize).collect();
            strata.sort_unstable();
            assert_eq!(strata, (0..50).collect::<Vec<_>>());
        }
    }

    #[test]
    fn scales_meet_their_ends() {
        let (low, high) = (conductivity_si(0.8), conductivity_si(2.0));
        for scale in [even, logarithmic] {
            assert!((scale(low, high, ratio(0.0)).value - 0.8).abs() < 1e-12);
            assert!((scale(low, high, ratio(1.0)).value - 2.0).abs() < 1e-12);
        }
        assert!((logarithmic(metre(1.0), metre(100.0), ratio(0.5)).value - 10.0).abs() < 1e-9);
        assert!((logarithmic(metre(0.0), metre(2.0), ratio(0.5)).value - 1.0).abs() < 1e-12);
    }
}
