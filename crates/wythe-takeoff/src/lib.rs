//! x
mod grid;
pub mod nest;
