//! Reads weather: monthly normals, EPW hourly files, TMY3-like hourly CSV and any plain CSV by a
//! mapping of its columns; and makes hours from months where only months are known.
//!
//! It may import the physics crate, whose admitted weather year it gives, and of the model what a
//! site says of its weather. It reads text that is handed to it, never a file; every problem names
//! its line. Start with [`hourly`] for how records
//! become a year, then [`epw`] for one format.

mod calendar;
pub mod epw;
pub mod hourly;
pub mod mapped;
pub mod normals;
pub mod problem;
pub mod stated;
pub mod synthesize;
pub mod tmy;

pub use hourly::{GapPolicy, HourlyWeather};
pub use normals::{MonthNormal, MonthlyNormals};
pub use problem::{Problem, ProblemKind, Problems};
pub use synthesize::synthesize;
