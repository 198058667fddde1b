//! Moist air: three saturation curves named apart, and the state of air derived from them.

pub mod saturation;
pub mod state;
