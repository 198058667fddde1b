//! Evaluates declarations into values and the building model, with provenance.
//!
//! Imports everything below it: the checked tree of `wythe-sema`, the building of `wythe-model`, the checks of
//! `wythe-check`. It reads no file. Start at [`Evaluator`]; [`lower`] turns blocks into the building.

mod evaluator;
mod expr;
mod frame;
pub mod lower;
mod show;
mod value;

pub use evaluator::{Evaluator, MAX_DEPTH, MAX_STEPS};
pub use frame::Frame;
pub use show::show;
pub use value::{Element, RecordValue, Value};
