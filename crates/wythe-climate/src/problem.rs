//! What can be wrong with a weather file, each with its line.

use std::fmt;

/// What is wrong.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ProblemKind {
    /// Nothing to read.
    #[error("the weather is empty")]
    Empty,
    /// The text is not UTF-8, or its quoting is broken.
    #[error("cannot be read as text fields: {0}")]
    Unreadable(String),
    /// A column that is needed is not in the header.
    #[error("has no column {0}")]
    MissingColumn(String),
    /// A record with too few fields.
    #[error("has {got} fields, but {want} are needed")]
    TooFewFields {
        /// Fields in the record.
        got: usize,
        /// Fields needed.
        want: usize,
    },
    /// A field that is not a number.
    #[error("{field} is not a number: {text:?}")]
    NotANumber {
        /// Name of the field.
        field: String,
        /// What stands there.
        text: String,
    },
    /// A field that is blank or holds the format's mark for missing.
    #[error("{field} is missing")]
    MissingValue {
        /// Name of the field.
        field: String,
    },
    /// A value that weather cannot have.
    #[error("{field} is {value} {unit}, outside {low} to {high} {unit}{hint}")]
    Impossible {
        /// Name of the field.
        field: String,
        /// The value.
        value: f64,
        /// Unit of the value and its range.
        unit: &'static str,
        /// Lowest accepted.
        low: f64,
        /// Highest accepted.
        high: f64,
        /// What may be behind it, with its own punctuation; may be empty.
        hint: &'static str,
    },
    /// A date and time that is none, or none of a full hour.
    #[error("is no date and full hour like 2013-02-11 05:00: {text:?}")]
    NoTime {
        /// What stands there.
        text: String,
    },
    /// A list of monthly values that has not one for each month.
    #[error("{field} has {got} values; a year has 12 months")]
    NotTwelve {
        /// Name of the list.
        field: &'static str,
        /// How many values it has.
        got: usize,
    },
    /// A date that is not in the calendar.
    #[error("is no hour of the year: month {month}, day {day}, hour {hour}")]
    BadDate {
        /// Month as read.
        month: i64,
        /// Day as read.
        day: i64,
        /// Hour as read, from 0.
        hour: i64,
    },
    /// An hour that was already given.
    #[error("gives month {month}, day {day}, hour {hour} a second time (first on line {first})")]
    Duplicate {
        /// Month.
        month: u8,
        /// Day.
        day: u8,
        /// Hour, from 0.
        hour: u8,
        /// Line of the first.
        first: u64,
    },
    /// Hours that are not given.
    #[error("{hours} hours are missing from month {month}, day {day}, hour {hour} on")]
    Gap {
        /// Number of hours in a row.
        hours: usize,
        /// Month of the first.
        month: u8,
        /// Day of the first.
        day: u8,
        /// Hour of the first, from 0.
        hour: u8,
    },
    /// Values that are possible but look like those of another unit.
    #[error("{field}: {hint}")]
    WrongUnit {
        /// Name of the field.
        field: String,
        /// What it looks like.
        hint: &'static str,
    },
    /// A month missing from the normals, or given twice.
    #[error("month {month} {what}")]
    Month {
        /// The month.
        month: i64,
        /// What is wrong with it.
        what: &'static str,
    },
    /// The physics refused the year.
    #[error("{0}")]
    Refused(wythe_physics::PhysicsError),
}

/// A problem and the line it is on.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Line from 1; for a gap, the line before it; none for the file as a whole.
    pub line: Option<u64>,
    /// What is wrong.
    pub kind: ProblemKind,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.line {
            Some(line) => write!(f, "line {line}: {}", self.kind),
            None => write!(f, "{}", self.kind),
        }
    }
}

/// All problems found in one pass, in the order of the lines; at most [`Problems::LIMIT`] are kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Problems {
    list: Vec<Problem>,
    more: usize,
}

impl Problems {
    /// Most problems kept; further ones are counted.
    pub const LIMIT: usize = 100;

    pub(crate) fn one(line: Option<u64>, kind: ProblemKind) -> Self {
        Self { list: vec![Problem { line, kind }], more: 0 }
    }

    pub(crate) fn push(&mut self, line: Option<u64>, kind: ProblemKind) {
        if self.list.len() < Self::LIMIT {
            self.list.push(Problem { line, kind });
        } else {
            self.more += 1;
        }
    }

    /// The problems kept.
    #[must_use]
    pub fn list(&self) -> &[Problem] {
        &self.list
    }

    /// How many more there were.
    #[must_use]
    pub fn more(&self) -> usize {
        self.more
    }

    pub(crate) fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    pub(crate) fn sort(&mut self) {
        self.list.sort_by_key(|problem| problem.line);
    }
}

impl fmt::Display for Problems {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, problem) in self.list.iter().enumerate() {
            if index > 0 {
                writeln!(f)?;
            }
            write!(f, "{problem}")?;
        }
        if self.more > 0 {
            write!(f, "\nand {} more", self.more)?;
        }
        Ok(())
    }
}

impl std::error::Error for Problems {}

/// A value or the problems that stand in its way.
pub type Result<T> = std::result::Result<T, Problems>;
