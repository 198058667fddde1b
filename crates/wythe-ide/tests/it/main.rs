//! Editor features over the plans of Cedar Row: a text with a cursor in, what an editor would show out.

#![allow(clippy::unwrap_used, reason = "a test that meets nothing where something must be fails there")]

mod actions;
mod completion;
mod fixture;
mod hints;
mod hover;
mod navigation;
mod tokens;
