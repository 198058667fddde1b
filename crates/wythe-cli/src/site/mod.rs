//! Commands for people on site: sheets to hold, and short answers.

pub(crate) mod answers;
mod asked;
pub(crate) mod sheets;
