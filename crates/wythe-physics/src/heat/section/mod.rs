//! Steady two-dimensional conduction through a section: finite volumes on a graded mesh, solved
//! by a sparse Cholesky factorization. Independent of the ISO 13370 formulas, so that each can
//! check the other.
//!
//! [`shape`] describes a section, [`mesh`] divides it, [`solve`] finds its temperatures, [`field`]
//! answers questions to them, and
//! [`wall_ground`] draws the crawl wall in its ground.

pub mod field;
pub mod mesh;
pub mod shape;
pub mod solve;
pub mod wall_ground;
