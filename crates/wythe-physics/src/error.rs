//! The one error type of the crate: what was given, and why no number can follow from it.

use std::borrow::Cow;

/// Why a calculation was refused.
///
/// Every variant names the input in the words of the field, so that a caller can point at the
/// place it came from. Values are in the stated unit.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PhysicsError {
    /// An input is infinite or not a number.
    #[error("{what} is not a finite number")]
    NotFinite {
        /// The input.
        what: Cow<'static, str>,
    },
    /// An input must be greater than zero.
    #[error("{what} must be greater than zero, but is {value} {unit}")]
    NotPositive {
        /// The input.
        what: Cow<'static, str>,
        /// Its value in `unit`.
        value: f64,
        /// The unit of `value`.
        unit: &'static str,
    },
    /// An input lies outside the range in which the formula holds.
    #[error("{what} must lie between {low} and {high} {unit}, but is {value} {unit}")]
    OutOfRange {
        /// The input.
        what: Cow<'static, str>,
        /// Its value in `unit`.
        value: f64,
        /// Lowest accepted value.
        low: f64,
        /// Highest accepted value.
        high: f64,
        /// The unit of the three numbers.
        unit: &'static str,
    },
    /// A list that must hold at least one entry is empty.
    #[error("{what} is empty")]
    Empty {
        /// The list.
        what: Cow<'static, str>,
    },
    /// Two inputs contradict each other.
    #[error("{what}: {why}")]
    Contradiction {
        /// The inputs concerned.
        what: Cow<'static, str>,
        /// What does not fit.
        why: Cow<'static, str>,
    },
    /// A system of equations could not be solved, or an iteration did not settle.
    #[error("{what} did not reach a solution: {why}")]
    NoSolution {
        /// The system.
        what: Cow<'static, str>,
        /// What the solver reported.
        why: Cow<'static, str>,
    },
}

/// Result of a calculation of this crate.
pub type Result<T> = std::result::Result<T, PhysicsError>;
