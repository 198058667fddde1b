//! What the whole-program tests and benchmarks share: generated repositories of houses.

pub mod houses;
