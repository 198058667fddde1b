//! Codes and their pages.

use std::fmt;

use crate::codes::PAGES;
use crate::{Safety, Severity};

/// A code the compiler can emit. Numbers are never reused.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Code(u16);

/// What is published about a code.
#[derive(Debug)]
pub struct Page {
    /// The stable number, such as `W0301`.
    pub number: &'static str,
    /// The stable name, such as `layer_order`, as the language and the manifest write it.
    pub name: &'static str,
    /// The folder the page stands in: the part of the compiler that emits it.
    pub area: &'static str,
    /// What is wrong, in a few words.
    pub title: &'static str,
    /// How grave it is unless the manifest says otherwise.
    pub severity: Severity,
    /// The version that brought it.
    pub since: &'static str,
    /// Whether a fix is offered, and how safe it is.
    pub fix: Option<Safety>,
    /// The body in Markdown: what it means, what it does on site, how to mend it.
    pub body: &'static str,
}

impl Code {
    pub(crate) const fn new(index: u16) -> Self {
        Code(index)
    }

    /// The page of the code.
    pub fn page(self) -> &'static Page {
        &PAGES[self.0 as usize]
    }

    /// The stable name.
    pub fn name(self) -> &'static str {
        self.page().name
    }
}

impl Page {
    /// The text of a section of the page, by its heading.
    pub fn section(&self, heading: &str) -> Option<&'static str> {
        let mut rest = self.body;
        loop {
            let (_, after) = rest.split_once("## ")?;
            let (title, text) = after.split_once('\n')?;
            if title.trim() == heading {
                return Some(text.split("\n## ").next().unwrap_or(text).trim());
            }
            rest = after;
        }
    }

    /// What the fault does in the field, in the page's words.
    pub fn consequence(&self) -> &'static str {
        self.section("On site").unwrap_or("")
    }
}

/// Every page, in order of number.
pub fn all_pages() -> impl Iterator<Item = &'static Page> {
    PAGES.iter()
}

/// The page with this number or name, in any case.
pub fn find_page(key: &str) -> Option<&'static Page> {
    PAGES.iter().find(|p| p.number.eq_ignore_ascii_case(key) || p.name.eq_ignore_ascii_case(key))
}

impl fmt::Debug for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.name())
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.page().number)
    }
}

#[cfg(test)]
mod tests {
    use super::all_pages;

    #[test]
    fn every_page_says_what_why_and_how_to_mend() {
        for page in all_pages() {
            for heading in ["What it means", "On site", "Mend"] {
                assert!(page.section(heading).is_some_and(|t| !t.is_empty()), "{} lacks `{heading}`", page.name);
            }
            assert!(page.number.len() == 5 && page.number.starts_with('W'), "{} has an odd number", page.name);
        }
    }
}
