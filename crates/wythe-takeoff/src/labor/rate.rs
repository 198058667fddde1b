//! Production rates: how much the whole crew does in an hour of one task.

use crate::finite;
use uom::si::area::square_meter;
use uom::si::f64::{Area, Length, Time, Volume};
use uom::si::length::meter;
use uom::si::time::hour;
use uom::si::volume::cubic_meter;

/// An amount of work, by what it is counted in.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum WorkQuantity {
    /// Coating, board, sheet.
    Area(Area),
    /// Tape, bead, pipe.
    Length(Length),
    /// Stone.
    Volume(Volume),
    /// Fasteners, hatches, piers.
    Count(u64),
}

impl WorkQuantity {
    fn measure(self) -> (u8, f64) {
        match self {
            Self::Area(a) => (0, a.get::<square_meter>()),
            Self::Length(l) => (1, l.get::<meter>()),
            Self::Volume(v) => (2, v.get::<cubic_meter>()),
            Self::Count(n) => (3, n as f64),
        }
    }
}

/// What the whole crew does of a task in an hour, in full headroom.
#[derive(Clone, Debug, PartialEq)]
pub struct Rate {
    /// The task it is for: `coat`, `hang`, `tape`.
    pub task: String,
    /// Done in one hour.
    pub per_hour: WorkQuantity,
}

/// What makes labor uncountable.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum LaborError {
    /// A rule is nought where it must not be, negative, or not a number.
    #[error("{0} is out of range")]
    Rule(&'static str),
    /// No rate for the task.
    #[error("no rate for `{0}`")]
    NoRate(String),
    /// The rate counts in something else than the work.
    #[error("the rate for `{0}` counts in another kind of quantity")]
    UnlikeUnits(String),
    /// The work is negative or not a number, or the rate is not positive.
    #[error("the quantity or rate of `{0}` is not a positive number")]
    Quantity(String),
}

/// Time of the crew for a quantity at a rate.
pub(super) fn time(quantity: WorkQuantity, rate: &Rate) -> Result<Time, LaborError> {
    let ((kind, amount), (rate_kind, speed)) = (quantity.measure(), rate.per_hour.measure());
    if kind != rate_kind {
        return Err(LaborError::UnlikeUnits(rate.task.clone()));
    }
    if !finite::not_negative(amount) || !finite::positive(speed) {
        return Err(LaborError::Quantity(rate.task.clone()));
    }
    Ok(Time::new::<hour>(amount / speed))
}
