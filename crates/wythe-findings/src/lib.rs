//! Findings and the registry of their codes: one page a code feeds explain, docs, links and outputs.
//!
//! Imports `wythe-source` only. Start at [`Finding`]; a code and its page live in `pages/<area>/<name>.md`,
//! and [`codes`] has a constant for each.

mod code;
mod finding;
mod fix;

pub use code::{Code, Page, all_pages, find_page};
pub use finding::{Finding, FindingName, Label, Severity};
pub use fix::{Edit, Fix, Move, Safety, apply_edits};

/// A constant for each page, made from the folder of pages.
pub mod codes {
    use crate::code::{Code, Page};
    #[allow(unused_imports, reason = "pages that offer no fix do not name it")]
    use crate::{Safety, Severity};

    include!(concat!(env!("OUT_DIR"), "/registry.rs"));
}
