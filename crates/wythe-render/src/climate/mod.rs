//! Heat and moisture as documents: tables for people, CSV for spreadsheets and plots, JSON for programs.
//!
//! Start at [`heat_document`] and [`moisture_document`]; every one ends with what was assumed and what it is not.

mod figures;
mod heat;
mod moisture;
mod notes;
mod range;

pub use heat::heat_document;
pub use moisture::moisture_document;
pub use range::range_tables;
