//! What can be wrong with a line of a price list, and where.

use jiff::civil::Date;

/// How much a fault matters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// The line is used all the same.
    Warning,
    /// The line is left out.
    Error,
}

/// What is wrong with a line.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum PriceProblem {
    /// A needed column is not in the header.
    #[error("the list has no column `{0}`")]
    MissingColumn(&'static str),
    /// The plans know no such product.
    #[error("no product `{product}`{}", nearest.as_ref().map(|n| format!("; did you mean `{n}`?")).unwrap_or_default())]
    UnknownItem {
        /// As written.
        product: String,
        /// A product of nearly the same name.
        nearest: Option<String>,
    },
    /// Sold by another unit than the plans count in.
    #[error("sold by the {found}, counted by the {expected}")]
    WrongUnit {
        /// The catalog's unit.
        expected: String,
        /// The list's.
        found: String,
    },
    /// Older than the oldest date allowed.
    #[error("the price of {dated} is older than {oldest}")]
    OldDate {
        /// Of the line.
        dated: Date,
        /// Allowed.
        oldest: Date,
    },
    /// The same product of the same vendor and pack again.
    #[error("the same product, vendor and pack as line {0}")]
    Duplicate(u64),
    /// Not a decimal number over nought.
    #[error("`{0}` is not a price")]
    BadNumber(String),
    /// Not `4 sheet` or `sheet`.
    #[error("`{0}` is not a pack: write a number and a unit")]
    BadPack(String),
    /// Not a date as 2026-03-01.
    #[error("`{0}` is not a date: write year-month-day")]
    BadDate(String),
    /// Not three letters.
    #[error("`{0}` is not a currency")]
    BadCurrency(String),
    /// More or fewer fields than the header.
    #[error("{found} fields where the header has {expected}")]
    FieldCount {
        /// In the header.
        expected: usize,
        /// In the line.
        found: usize,
    },
    /// The reader gave up on the line.
    #[error("the line cannot be read as CSV")]
    Unreadable,
}

impl PriceProblem {
    /// Whether the line is still used.
    pub fn severity(&self) -> Severity {
        match self {
            Self::OldDate { .. } => Severity::Warning,
            _ => Severity::Error,
        }
    }
}

/// A fault and its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PriceFinding {
    /// From 1.
    pub line: u64,
    /// From 1, in characters.
    pub column: u64,
    /// What.
    pub problem: PriceProblem,
}
