//! Editor features over the plans of Cedar Row: a text with a cursor in, what an editor would show out.

mod actions;
mod completion;
mod fixture;
mod hints;
mod hover;
mod navigation;
mod tokens;
