//! Coatings: wet film for a dry film, coverage of a volume, pails for an area.

use super::units::{Purchase, PurchaseError, whole_units};
use crate::finite;
use uom::si::f64::{Area, Length, Ratio, Volume};
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::volume::cubic_meter;

/// How a coating is put on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coat {
    /// Dry film when done, all passes together.
    pub dry_film: Length,
    /// Part of the wet volume that stays: solids by volume, over nought to one.
    pub solids: Ratio,
    /// Thickest wet film one pass may have; the number of passes follows.
    pub wet_film_per_pass: Length,
}

/// A coat that cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum CoatingError {
    /// A film is nought, negative or not a number.
    #[error("a film must have a positive thickness")]
    Film,
    /// Solids not over nought and at most one.
    #[error("solids by volume are over nought and at most the whole")]
    Solids,
    /// More than a thousand passes.
    #[error("more passes than anyone sprays")]
    Passes,
    /// The need or the pail is out of range.
    #[error(transparent)]
    Purchase(#[from] PurchaseError),
}

impl Coat {
    /// Wet film of all passes together: dry film over solids.
    pub fn wet_film(&self) -> Result<Length, CoatingError> {
        let solids = self.solids.get::<ratio>();
        if !(solids > 0.0 && solids <= 1.0) {
            return Err(CoatingError::Solids);
        }
        let dry = self.dry_film.get::<meter>();
        if !finite::positive(dry) {
            return Err(CoatingError::Film);
        }
        Ok(self.dry_film / self.solids)
    }

    /// Passes needed at the thickest film a pass may have.
    pub fn passes(&self) -> Result<u32, CoatingError> {
        let each = self.wet_film_per_pass.get::<meter>();
        if !finite::positive(each) {
            return Err(CoatingError::Film);
        }
        let passes = (self.wet_film()?.get::<meter>() / each * (1.0 - 1e-9)).ceil();
        if passes > 1_000.0 {
            return Err(CoatingError::Passes);
        }
        Ok(passes as u32)
    }
}

/// Area that a volume covers at a wet film: volume over film. One US gallon at one mil covers
/// 1604.17 ft2 (231 in3 / 0.001 in / 144), the handbook figure.
pub fn coverage(volume: Volume, wet_film: Length) -> Result<Area, CoatingError> {
    let film = wet_film.get::<meter>();
    if !finite::positive(film) {
        return Err(CoatingError::Film);
    }
    Ok(volume / wet_film)
}

/// Pails for an area, with an allowance for loss in spraying and on rough block.
pub fn pails(coat: &Coat, area: Area, pail: Volume, waste: Ratio) -> Result<Purchase, CoatingError> {
    let each = pail.get::<cubic_meter>();
    if !finite::positive(each) {
        return Err(PurchaseError::EmptyUnit.into());
    }
    let needed: Volume = area * coat.wet_film()?;
    Ok(whole_units(needed / pail, waste)?)
}
