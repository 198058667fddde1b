//! What is taken for granted where the building says nothing, each with where the figure comes from.

use std::borrow::Cow;

/// A figure that the building does not state.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Assumption {
    /// What is assumed.
    pub what: &'static str,
    /// The figure, with its unit.
    pub value: Cow<'static, str>,
    /// Where it comes from; `assumed` where no source stands behind it.
    pub source: &'static str,
}

/// The source of a figure that has none.
pub const ASSUMED: &str = "assumed";
/// The source of a rule of the trade that nobody has written down.
pub const COMMON: &str = "common practice, no source";

/// The assumptions of a result, in the order they were made, each once.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Assumptions(Vec<Assumption>);

impl Assumptions {
    /// Adds one, unless it is there already.
    pub(crate) fn note(&mut self, what: &'static str, value: impl Into<Cow<'static, str>>, source: &'static str) {
        let new = Assumption { what, value: value.into(), source };
        if !self.0.contains(&new) {
            self.0.push(new);
        }
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = &Assumption> {
        self.0.iter()
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}
