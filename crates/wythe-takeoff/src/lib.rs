//! Quantities turned into orders and work: nesting of board from sheets, layout of rolls over floors,
//! purchase units, prices, labor, schedule, comparison of two revisions and what-if marks.
//!
//! The crate knows no model and no syntax: its inputs are plain typed values (`uom` lengths and
//! areas, exact decimals for money, civil dates). It may import general libraries only, reads no
//! clock, file or environment, and gives the same output for the same input.
//!
//! Start reading at [`nest::cover::plan`] (board along walls), [`roll::plan`] (liner over a floor),
//! [`purchase`] (everything else bought), [`price::price`], [`labor::visits`] and
//! [`schedule::plan`]. Nothing here sizes structure.

mod finite;
mod grid;

pub mod compare;
pub mod labor;
pub mod money;
pub mod nest;
pub mod pareto;
pub mod price;
pub mod purchase;
pub mod roll;
pub mod schedule;
