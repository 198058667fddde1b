//! From the building and its weather to heat and moisture results, each with its assumptions and cautions.
//!
//! May import the building, the physics, the readers of weather, findings and units; knows no syntax and reads no
//! file: weather comes in as bytes. What the building does not say is assumed, and every assumption is listed with
//! its source. Faults of the input become findings, and no result is ever not-a-number.
//!
//! Start at [`heat::heat`], then [`moisture::moisture`]; for plots, [`moisture::states`] and the `parts` of heat; [`envelope`] holds what both need of the geometry.
//! The results size no structure and replace no local code official or licensed practitioner.

mod assumption;
mod caution;
pub mod envelope;
mod fault;
mod figure;
pub mod heat;
pub mod moisture;
pub mod weather;

pub use assumption::{Assumption, Assumptions};
pub use caution::{heat_cautions, moisture_cautions};

use wythe_findings::Finding;

/// A result with what was found wrong on the way; no result where a fault stands in its way.
#[derive(Clone, Debug)]
pub struct Assessed<T> {
    /// The result.
    pub report: Option<T>,
    /// What is wrong with the input, in the order met.
    pub findings: Vec<Finding>,
}
