//! Findings in the forms that code hosts and test reporters read.
//!
//! One file a form; [`Checked`] is what each is made from. Text from files is made harmless before it is written, since
//! hosts print these forms into logs. Paths are written as [`Files`] names them; a job that wants its host to find them
//! runs at the top of the host's checkout.

mod annotation;
mod fingerprint;
mod gitlab;
mod junit;
mod point;
mod rdjson;
mod sarif;

use wythe_findings::Finding;

use crate::Files;

pub use annotation::github;
pub use gitlab::gitlab;
pub use junit::{Case, Failure, Suite, junit, suites_of};
pub use rdjson::rdjson;
pub use sarif::sarif;

/// What came of checking one repository.
#[derive(Clone, Copy)]
pub struct Checked<'a> {
    /// What was found.
    pub findings: &'a [Finding],
    /// The names and texts of the files.
    pub files: &'a dyn Files,
    /// The names of the files checked, in order.
    pub checked: &'a [String],
}

/// The finding in one line of plain words: what is wrong, and what is to be seen at the place.
fn said(finding: &Finding) -> String {
    let label = &finding.primary.text;
    let text = if label.is_empty() { finding.title.clone() } else { format!("{}: {label}", finding.title) };
    harmless(&text)
}

/// The finding in a few lines: what is wrong, why, and how to mend it.
fn told(finding: &Finding) -> String {
    let mut out = said(finding);
    for (heading, text) in [("Why: ", &finding.cause), ("Mend: ", &finding.mend)] {
        if let Some(text) = text {
            out.push('\n');
            out.push_str(heading);
            out.push_str(&harmless(text));
        }
    }
    out
}

/// Text of a length fit for a page, in which nothing commands a terminal.
fn harmless(text: &str) -> String {
    /// The most characters of one remark that are written.
    const LONGEST: usize = 2_000;
    match text.char_indices().nth(LONGEST) {
        None => crate::terminal::clean(text).into_owned(),
        Some((end, _)) => crate::terminal::clean(&text[..end]).into_owned() + "…",
    }
}

#[cfg(test)]
mod tests;
