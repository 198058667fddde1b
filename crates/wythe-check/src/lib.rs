//! Layer order, sequence, control lines and geometry: findings about the building.
//!
//! Imports `wythe-source`, `wythe-units`, `wythe-findings`, `wythe-model` and `uom`; knows no syntax, does no input or output.
//! [`check`] does it all. Start at [`order`], which follows each face of each assembly work by work; its history of layers is what
//! [`sequence`] and [`lines`] read. Every length a check asks for is a named value of [`Requirements`].

pub mod geometry;
pub mod lines;
pub mod order;
pub mod sequence;

mod inches;
mod levels;
mod place;
mod report;
mod requirement;

#[cfg(test)]
mod fixture;

pub use inches::Inches;
pub use place::merge;
pub use report::{Report, check};
pub use requirement::{Ask, Need, Requirements, VAPOR_LIMIT};
