//! Heat, moist air, vapor, mold and drying of crawl spaces, as typed functions over quantities.
//!
//! The crate knows nothing of a building model or of any syntax. It may import the unit library,
//! a sparse solver, random sampling and threads; nothing of this workspace. It reads no clock, no
//! file and no environment, and gives the same answer for the same input.
//!
//! Start with [`heat::series`] for the style of the whole; [`zone`] holds the crawl space hour by
//! hour, which the other modules serve. Inputs are refused with a [`PhysicsError`] that names
//! them; no result is ever not-a-number. The results never size structure.

mod admit;
pub mod air;
pub mod error;
pub mod heat;
pub mod mold;
pub mod quantity;
pub mod sizing;
pub mod sorption;
pub mod uncertainty;
pub mod vapor;
pub mod weather;
pub mod zone;

pub use error::{PhysicsError, Result};
