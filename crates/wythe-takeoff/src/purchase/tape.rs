//! Tape from the lengths to be taped: every strip of tape overlaps at its ends.

use super::units::{Purchase, PurchaseError, whole_units};
use crate::finite;
use uom::si::f64::{Length, Ratio};
use uom::si::length::meter;

/// A roll of tape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapeRoll {
    /// On the roll.
    pub length: Length,
    /// Lap where one strip of tape meets the next or turns a corner.
    pub overlap: Length,
}

/// A tape that cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TapeError {
    /// The roll has no length, or the overlap eats it.
    #[error("a roll of tape must be longer than its overlap")]
    Roll,
    /// A strip has a negative length or none that is a number.
    #[error("a length to tape is not a length")]
    Strip,
    /// The need is out of range.
    #[error(transparent)]
    Purchase(#[from] PurchaseError),
}

/// Rolls for the strips to be taped. Each strip takes its length and one overlap, and one more
/// wherever a roll ends within it.
pub fn tape_rolls(strips: &[Length], roll: TapeRoll, waste: Ratio) -> Result<Purchase, TapeError> {
    let (length, overlap) = (roll.length.get::<meter>(), roll.overlap.get::<meter>());
    if !finite::not_negative(overlap) || !finite::positive(length - overlap) {
        return Err(TapeError::Roll);
    }
    let mut total = 0.0;
    for strip in strips {
        let strip = strip.get::<meter>();
        if !finite::not_negative(strip) {
            return Err(TapeError::Strip);
        }
        if strip > 0.0 {
            total += strip + overlap;
        }
    }
    // Each roll end costs one overlap: a roll gives its length less that.
    let net = Ratio::new::<uom::si::ratio::ratio>(total / (length - overlap));
    let one = total <= length;
    let rolls = if one { Ratio::new::<uom::si::ratio::ratio>(total / length) } else { net };
    Ok(whole_units(rolls, waste)?)
}
