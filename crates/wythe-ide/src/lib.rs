//! Editor features over plain types; knows no protocol.
//!
//! Imports the compiler crates below it and `wythe-project`. Every function takes a checked project, a file and a
//! byte offset, and gives plain values with byte spans. Start at [`occurrence`]; then one file a feature.

pub mod folding;
pub mod highlight;
pub mod links;
pub mod navigate;
pub mod occurrence;
pub mod rename;
pub mod selection;
pub mod symbols;
