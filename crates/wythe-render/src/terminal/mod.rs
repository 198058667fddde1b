//! Findings for a person at a terminal: a drawing of the place, then why, what it does on site, and how to mend it.

mod clean;
mod finding;
mod sheet;
mod summary;

pub use clean::clean;
pub use finding::write_finding;
pub use sheet::Sheets;
pub use summary::{Counts, summary};

/// How findings are drawn.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Style {
    /// Whether to write color codes.
    pub color: bool,
    /// How many columns prose may take.
    pub width: usize,
}
