//! Editor features over plain types; knows no protocol.
//!
//! Imports the compiler crates below it and `wythe-project`. Every function takes a checked project, a file and a
//! byte offset, and gives plain values with byte spans. Start at [`occurrence`]; then one file a feature.

pub mod actions;
mod buildings;
pub mod calls;
pub mod complete;
mod cursor;
mod figures;
pub mod folding;
pub mod formatting;
pub mod highlight;
pub mod hints;
pub mod hover;
pub mod lens;
pub mod linked;
pub mod links;
mod mends;
pub mod moves;
pub mod navigate;
pub mod occurrence;
mod progress;
pub mod rename;
mod scope;
pub mod selection;
pub mod semantic;
mod setting;
pub mod signature;
pub mod subject;
pub mod symbols;
