//! Ranges instead of numbers: [`sample`] spreads inputs over their ranges with a fixed seed and
//! runs the samples in parallel, [`spread`] gives percentiles and names the inputs that matter,
//! and [`crawl`] does so for a crawl space.

pub mod crawl;
pub mod sample;
pub mod spread;
