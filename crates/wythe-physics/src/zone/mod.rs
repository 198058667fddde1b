//! The crawl space as one zone, hour by hour over a year.
//!
//! [`space`] describes the crawl space, [`scenario`] how it is kept (open during construction,
//! closed in service, vented in service), [`simulate`] runs a year of weather through it, and
//! [`result`] holds what comes out.
//!
//! # The model
//! Heat: one node of air, one of framing wood, one in the masonry of each wall band, and a column of
//! soil under the floor that ends in a virtual temperature, so that the yearly mean and swing agree
//! with ISO 13370. Water: vapor in the air, wood in two layers by the sorption isotherm, a film of
//! condensate on each surface, and flows through the ground cover, the walls and with every air
//! stream. Both are stepped implicitly and stay stable at any step.
//!
//! # Limits, to print with the results
//! One well-mixed zone; no sun on walls; latent heat is counted at the dehumidifier but not at
//! surfaces; the wood isotherm is taken at 15 °C; no liquid water from rain, leaks or rising damp.

pub mod result;
pub mod scenario;
pub mod simulate;
pub mod space;
pub mod spot;

mod curve;
#[cfg(test)]
mod example;
mod forcing;
mod moisture;
mod tally;
mod thermal;
