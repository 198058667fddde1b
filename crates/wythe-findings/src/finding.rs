//! A finding: what is wrong, where, why, what it does on site, and how to mend it.

use std::fmt;
use std::sync::Arc;

use wythe_source::{Span, Symbol};

use crate::{Code, Fix};

/// How grave a finding is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord, Debug)]
pub enum Severity {
    /// Worth knowing; never fails a check.
    Information,
    /// Likely wrong; fails a check only on request.
    Warning,
    /// Wrong; fails the check.
    Error,
}

impl Severity {
    /// The word shown for it.
    pub const fn word(self) -> &'static str {
        match self {
            Severity::Information => "information",
            Severity::Warning => "warning",
            Severity::Error => "error",
        }
    }
}

/// A remark at a place.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// What is to be seen there.
    pub text: String,
}

/// Who found it: a code of the compiler, or a rule written in the language.
#[derive(Clone, PartialEq, Eq, Debug, Hash, PartialOrd, Ord)]
pub enum FindingName {
    /// A code of the compiler.
    Code(Code),
    /// A rule, by its name.
    Rule(Symbol),
}

impl FindingName {
    /// The name as the language writes it.
    pub fn as_str(&self) -> &'static str {
        match self {
            FindingName::Code(code) => code.name(),
            FindingName::Rule(name) => name.as_str(),
        }
    }
}

impl fmt::Display for FindingName {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FindingName::Code(code) => code.fmt(f),
            FindingName::Rule(name) => name.fmt(f),
        }
    }
}

/// One finding.
#[derive(Clone, PartialEq, Debug)]
pub struct Finding {
    /// Who found it.
    pub name: FindingName,
    /// How grave it is.
    pub severity: Severity,
    /// What is wrong, in one line.
    pub title: String,
    /// The place to look first, with what is to be seen there.
    pub primary: Label,
    /// Other places that matter: the other operand, the definition, the layer it should follow.
    pub related: Vec<Label>,
    /// Why it is wrong, where the labels do not say enough.
    pub cause: Option<String>,
    /// What it does in the field. Codes of the compiler take it from their page if this is empty.
    pub consequence: Option<String>,
    /// How to mend it.
    pub mend: Option<String>,
    /// Edits that mend it, best first.
    pub fixes: Vec<Fix>,
    /// A drawing in plain characters, where a picture says more.
    pub sketch: Option<Arc<str>>,
    /// The item it belongs to, such as `unit_4.south`: stays the same when lines move.
    pub item: String,
    /// Where a rule cites its source, that source.
    pub source: Option<String>,
}

impl Finding {
    /// A finding of the compiler with the severity of its page.
    pub fn new(code: Code, span: Span, title: impl Into<String>) -> Self {
        Finding::bare(FindingName::Code(code), code.page().severity, span, title.into())
    }

    /// A finding of a rule written in the language.
    pub fn of_rule(rule: Symbol, severity: Severity, span: Span, title: impl Into<String>) -> Self {
        Finding::bare(FindingName::Rule(rule), severity, span, title.into())
    }

    /// A finding that says what is wrong and where, and nothing else.
    const fn bare(name: FindingName, severity: Severity, span: Span, title: String) -> Self {
        Finding {
            name,
            severity,
            title,
            primary: Label { span, text: String::new() },
            related: Vec::new(),
            cause: None,
            consequence: None,
            mend: None,
            fixes: Vec::new(),
            sketch: None,
            item: String::new(),
            source: None,
        }
    }

    /// Says what is to be seen at the primary place.
    #[must_use]
    pub fn label(mut self, text: impl Into<String>) -> Self {
        self.primary.text = text.into();
        self
    }

    /// Adds another place.
    #[must_use]
    pub fn related(mut self, span: Span, text: impl Into<String>) -> Self {
        self.related.push(Label { span, text: text.into() });
        self
    }

    /// Says why.
    #[must_use]
    pub fn cause(mut self, text: impl Into<String>) -> Self {
        self.cause = Some(text.into());
        self
    }

    /// Says what it does in the field, where the page's words are not the best.
    #[must_use]
    pub fn consequence(mut self, text: impl Into<String>) -> Self {
        self.consequence = Some(text.into());
        self
    }

    /// Says how to mend it.
    #[must_use]
    pub fn mend(mut self, text: impl Into<String>) -> Self {
        self.mend = Some(text.into());
        self
    }

    /// Offers an edit that mends it.
    #[must_use]
    pub fn fix(mut self, fix: Fix) -> Self {
        self.fixes.push(fix);
        self
    }

    /// Names the item it belongs to.
    #[must_use]
    pub fn item(mut self, path: impl Into<String>) -> Self {
        self.item = path.into();
        self
    }

    /// What it does in the field: its own words, or its page's.
    pub fn consequence_text(&self) -> &str {
        match (&self.consequence, &self.name) {
            (Some(text), _) => text,
            (None, FindingName::Code(code)) => code.page().consequence(),
            (None, FindingName::Rule(_)) => "",
        }
    }

    /// The key by which findings are listed: place first, then name, then text.
    pub fn order_key(&self) -> (Span, &'static str, &str) {
        (self.primary.span, self.name.as_str(), &self.title)
    }
}
