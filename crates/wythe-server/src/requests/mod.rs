//! The answers, each worked out from the state alone.

pub(crate) mod actions;
pub(crate) mod calls;
pub(crate) mod commands;
pub(crate) mod completion;
pub(crate) mod diagnostics;
pub(crate) mod editing;
pub(crate) mod navigation;
pub(crate) mod reading;
pub(crate) mod semantic;
