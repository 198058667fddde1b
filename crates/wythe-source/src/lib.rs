//! Source files, spans, interned names and line positions: what every other crate points with.
//!
//! Imports nothing of Wythe. Start at [`Span`], then [`Symbol`], [`LineTable`].

mod lines;
mod span;
mod symbol;

pub use lines::{LineColumn, LineTable};
pub use span::{FileId, Span};
pub use symbol::Symbol;
